package show

import (
	"fmt"
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
	cols := []col{{name: "Bed", wrap: 30}, {name: "Layer"}, {name: "Litres", right: true}, {name: "yd³", right: true}}
	for _, bag := range firstBags(s) {
		cols = append(cols, col{name: bag.Pack + " bags", right: true})
	}
	var rows [][]string
	for _, g := range groups {
		name := several(g.names, 6)
		total := 0.0
		for i := len(g.Layers) - 1; i >= 0; i-- { // top first
			l := g.Layers[i]
			total += l.Litres
			row := []string{name, string(l.Layer), fmt.Sprintf("%.0f", l.Litres), fmt.Sprintf("%.2f", l.Yards)}
			for _, bag := range g.Bags {
				row = append(row, fmt.Sprintf("%.1f", l.Litres/bag.Litres))
			}
			rows = append(rows, row)
			name = ""
		}
		row := []string{"", "whole", fmt.Sprintf("%.0f", total), fmt.Sprintf("%.2f", total/float64(units.CubicYard))}
		for _, bag := range g.Bags {
			row = append(row, fmt.Sprintf("%.1f = %d", bag.Exact, bag.Bags))
		}
		rows = append(rows, row)
	}
	p.grid(cols, rows)
	p.para("  ", "  ", "Bags are by volume as sold; rinsing and settling take a few in a hundred more. \"9.1 = 10\" means that 10 whole bags are needed.")
	p.depths(s)
	p.weights(s, groups)
	p.warnings(warnings)
	return p.String()
}

func firstBags(s *bedsheet.Sheet) []bedsheet.Bag {
	if len(s.Beds) == 0 {
		return nil
	}
	return s.Beds[0].Bags
}

// depths turns bags back into depth, one bag size after the other, for beds of
// the same footprint and depth together.
func (p *page) depths(s *bedsheet.Sheet) {
	p.heading("how deep fewer bags fill it")
	type bedShape struct {
		bags  string
		depth string
	}
	beds := map[bedShape][]string{}
	var rows [][]string
	var of []bedShape
	for _, b := range s.Beds {
		for _, bag := range b.Bags {
			if len(bag.Depths) == 0 {
				continue
			}
			var parts []string
			for _, d := range bag.Depths {
				parts = append(parts, fmt.Sprintf("%d: %s", d.Bags, p.depth(d.Mm)))
			}
			at := bedShape{bag.Pack + strings.Join(parts, "   "), p.depth(b.DepthMm)}
			if beds[at] == nil {
				of = append(of, at)
				rows = append(rows, []string{"", at.depth, bag.Pack, strings.Join(parts, "   ")})
			}
			beds[at] = append(beds[at], b.Bed)
		}
	}
	if len(rows) == 0 {
		p.line("  no bed is given by its measures")
		return
	}
	last := ""
	for i, at := range of {
		if name := several(beds[at], 4); name != last {
			rows[i][0], last = name, name
		}
	}
	p.grid([]col{{name: "Bed", wrap: 30}, {name: "Wanted", right: true}, {name: "Bag"}, {name: "Bags: depth"}}, rows)
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
	p.para("  ", "  ", "\"+ 2\" stands for two more beds alike. "+caution.Frames.Words)
}

// wideGrid is a grid whose first column is repeated where the others do not fit
// the width.
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
		p.grid(append([]col{cols[0]}, cols[from:to]...), part, cut(foot))
	}
}
