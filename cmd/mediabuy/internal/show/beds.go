package show

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/cmd/mediabuy/internal/bedsheet"
	"mediabuy/papers/caution"
	"mediabuy/quotes"
	"mediabuy/units"
)

// bedGroup is beds that text shows once.
type bedGroup struct {
	*bedsheet.Bed
	names []string
}

func groupBeds(s *bedsheet.Sheet) []*bedGroup {
	var out []*bedGroup
next:
	for i := range s.Beds {
		b := &s.Beds[i]
		name := b.Bed
		if b.Count > 1 {
			name = fmt.Sprintf("%s (each of %d)", name, b.Count)
		}
		for _, g := range out {
			if g.Alike(b) {
				g.names = append(g.names, name)
				continue next
			}
		}
		out = append(out, &bedGroup{b, []string{name}})
	}
	return out
}

// Beds sets out what beds take: litres to bags and yards, bags to depth, and
// weights in each medium.
func Beds(s *bedsheet.Sheet, warnings []*quotes.Problem, st Style) string {
	p := &page{Style: st}
	groups := groupBeds(s)
	p.heading("what each bed takes")
	large, largeUnit, small, smallUnit := "m³", units.CubicMetre, "Litres", units.Litre
	if p.Units == units.US {
		large, largeUnit, small, smallUnit = "yd³", units.CubicYard, "ft³", units.CubicFoot
	}
	digits := map[units.System]int{units.US: 1, units.Metric: 0}[p.Units]
	volumes := func(litres float64) []string {
		return []string{fmt.Sprintf("%.*f", digits, litres/float64(smallUnit)), fmt.Sprintf("%.2f", litres/float64(largeUnit))}
	}
	var rows [][]string
	for _, g := range groups {
		name := several(g.names, 6)
		total := 0.0
		for i := len(g.Layers) - 1; i >= 0; i-- { // top first
			l := g.Layers[i]
			total += l.Litres
			rows = append(rows, append([]string{name, string(l.Layer)}, volumes(l.Litres)...))
			name = ""
		}
		rows = append(rows, append([]string{"", "whole"}, volumes(total)...))
	}
	p.grid([]col{{name: "Bed", wrap: 30}, {name: "Layer"}, {name: small, right: true}, {name: large, right: true}}, rows)
	p.bags(s)
	p.weights(s, groups)
	p.warnings(warnings)
	return p.String()
}

// fewerBags is how many numbers of bags have their depth told, the last of them the
// number that fills the bed; more do not fit beside the counts on a screen.
const fewerBags = 3

// bags turns litres into bags and fewer bags back into depth, for each size and
// medium that is sold; beds that take the same bags stand together.
func (p *page) bags(s *bedsheet.Sheet) {
	type line struct{ beds, cells []string }
	var lines []*line
	lossless, deep := false, false
	for _, b := range s.Beds {
		for _, bag := range b.Bags {
			if bag.Medium == "" && p.Units == units.US {
				continue // nobody sells it here
			}
			lossless = lossless || bag.Medium == ""
			layers := map[quotes.Layer]string{quotes.Top: "-", quotes.Base: "-"}
			for _, l := range b.Layers {
				layers[l.Layer] = fmt.Sprintf("%.1f", l.Litres/bag.Placed)
			}
			var parts []string
			for _, d := range bag.Depths[max(0, len(bag.Depths)-fewerBags):] {
				parts = append(parts, fmt.Sprintf("%d: %s", d.Bags, p.depth(d.Mm)))
			}
			deep = deep || len(parts) > 0
			cells := []string{strings.TrimSpace(bag.Pack + " " + bag.Medium), layers[quotes.Top], layers[quotes.Base], fmt.Sprintf("%.1f = %d", bag.Exact, bag.Bags), strings.Join(parts, "  ")}
			i := slices.IndexFunc(lines, func(l *line) bool { return slices.Equal(l.cells, cells) })
			if i < 0 {
				lines, i = append(lines, &line{cells: cells}), len(lines)
			}
			lines[i].beds = append(lines[i].beds, b.Bed)
		}
	}
	if len(lines) == 0 {
		return
	}
	p.heading("how many bags that is")
	cols := []col{{name: "Bed", wrap: 20}, {name: "Bag"}, {name: "Top", right: true}, {name: "Base", right: true}, {name: "Whole", right: true}}
	if deep {
		cols = append(cols, col{name: "So many bags: depth"})
	}
	var rows [][]string
	last, example := "", ""
	for _, l := range lines {
		name := several(l.beds, 4)
		shown := name
		if name == last {
			shown = ""
		}
		last = name
		rows = append(rows, append([]string{shown}, l.cells[:len(cols)-1]...))
		if whole, _, ok := strings.Cut(l.cells[3], ".0 ="); example == "" && (!ok || whole == "") {
			example = l.cells[3]
		}
	}
	p.grid(cols, rows)
	words := "Bags of a medium are counted with what it loses to rinsing and settling."
	if lossless {
		words += " The bag without a medium is counted full; rinsing and settling take a few in a hundred more."
	}
	if _, bags, ok := strings.Cut(example, " = "); ok {
		words += fmt.Sprintf(" \"%s\" means that %s whole bags are needed.", example, bags)
	}
	p.para("  ", "  ", words)
}

// depth is a depth of media to a tenth of an inch or a whole millimetre.
func (p *page) depth(mm float64) string {
	if p.Units == units.US {
		return fmt.Sprintf("%.1f in", mm/float64(units.Inch))
	}
	return fmt.Sprintf("%.0f mm", mm)
}

// weights shows what beds and tables weigh flooded if one medium fills them.
func (p *page) weights(s *bedsheet.Sheet, groups []*bedGroup) {
	p.heading("flooded weight, filled with one medium")
	cols := []col{{name: "Filled with"}}
	rows := [][]string{}
	var limits []string
	line := func(flooded []bedsheet.Weight) {
		for i, w := range flooded {
			if len(rows) <= i {
				rows = append(rows, []string{w.Medium})
			}
			cell := p.mass(units.Kilograms(w.FloodedKg))
			if w.Over {
				cell = p.Alarm(cell + " over")
			}
			rows[i] = append(rows[i], cell)
		}
	}
	limit := func(kg *float64) {
		if kg == nil {
			limits = append(limits, "-")
			return
		}
		limits = append(limits, p.mass(units.Kilograms(*kg)))
	}
	for _, t := range s.Tables {
		cols = append(cols, col{name: "table " + t.Table, right: true})
		limit(t.LimitKg)
		line(t.Flooded)
	}
	p.wideGrid(cols, rows, append([]string{"limit"}, limits...))
	cols, rows, limits = []col{{name: "Filled with"}}, nil, nil
	for _, g := range groups {
		name := g.names[0]
		if len(g.names) > 1 {
			name = fmt.Sprintf("%s + %d", name, len(g.names)-1)
		}
		cols = append(cols, col{name: name, right: true})
		limit(g.LimitKg)
		line(g.Flooded)
	}
	if len(s.Tables) > 0 {
		p.b.WriteByte('\n')
	}
	p.wideGrid(cols, rows, append([]string{"limit"}, limits...))
	more := ""
	if i := slices.IndexFunc(groups, func(g *bedGroup) bool { return len(g.names) > 1 }); i >= 0 {
		n := len(groups[i].names) - 1
		more = fmt.Sprintf("\"+ %d\" stands for %s alike. ", n, units.Several(n, "more bed"))
	}
	stone := "Stone is taken at the heavy end of its range, as the plan takes it, and of several quotes of a medium the heaviest. "
	if s.Weights == quotes.UsualWeights {
		stone = "Stone is taken at its usual weight, as weights in job.toml asks, so a heavier lot weighs more; of several quotes of a medium it is the heaviest. "
	}
	p.para("  ", "  ", more+stone+caution.Frames.Words)
}

// wideGrid is a grid whose first column is repeated where the others do not fit
// the width, and whose last line, what stands against the columns, is left out where
// nothing does.
func (p *page) wideGrid(cols []col, rows [][]string, foot []string) {
	const most = 6
	for from := 1; from < len(cols); from += most {
		to := min(from+most, len(cols))
		if from > 1 {
			p.b.WriteByte('\n')
		}
		cut := func(cells []string) []string { return append([]string{cells[0]}, cells[from:to]...) }
		var part [][]string
		for _, r := range rows {
			part = append(part, cut(r))
		}
		feet := [][]string{cut(foot)}
		if !slices.ContainsFunc(feet[0][1:], func(cell string) bool { return cell != "-" }) {
			feet = nil
		}
		p.grid(append([]col{cols[0]}, cols[from:to]...), part, feet...)
	}
}
