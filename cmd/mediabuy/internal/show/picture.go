package show

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// A picture is pictureWidth letters wide, and the deepest bed pictureRows high.
const (
	pictureWidth = 10
	pictureRows  = 6
)

// letters gives every medium of the fills a letter of its own name, as far as
// there are free ones, else a digit. Media are taken by name.
func letters(fills []optimise.BedFill) (byMedium map[*quotes.Medium]rune, media []*quotes.Medium) {
	byMedium = map[*quotes.Medium]rune{}
	for _, f := range fills {
		for _, l := range f.Layers {
			for _, part := range l.Parts {
				if !slices.Contains(media, part.Quote.Medium) {
					media = append(media, part.Quote.Medium)
				}
			}
		}
	}
	slices.SortFunc(media, func(a, b *quotes.Medium) int { return strings.Compare(a.Name, b.Name) })
	taken := map[rune]bool{}
	for _, m := range media {
		free := '?'
		for _, r := range m.Name + "123456789" {
			if r != ' ' && !taken[r] {
				free = r
				break
			}
		}
		taken[free] = true
		byMedium[m] = free
	}
	return byMedium, media
}

// picture draws one bed from the side, top layer above base, its height in
// proportion to deepest. Within a layer each medium is as wide as its share.
func picture(f optimise.BedFill, sign map[*quotes.Medium]rune, deepest units.Millimetres) []string {
	total := units.Litres(0)
	for _, l := range f.Layers {
		total += l.Demand
	}
	if total <= 0 {
		return nil
	}
	height := pictureRows
	if f.Bed.Depth > 0 && deepest > 0 {
		height = max(1, int(math.Round(pictureRows*float64(f.Bed.Depth/deepest))))
	}
	var rows []string
	for i, l := range f.Layers {
		n := int(math.Round(float64(height) * float64(l.Demand/total)))
		if i == len(f.Layers)-1 { // the rest, so that rows add up to the height
			n = height - len(rows)
		}
		n = max(1, n)
		row := layerRow(l, sign)
		for range n {
			rows = append(rows, row)
		}
	}
	return rows
}

// layerRow is one line of a layer: each medium's letter as often as its share,
// by the largest-remainder method, and each at least once.
func layerRow(l optimise.LayerFill, sign map[*quotes.Medium]rune) string {
	var media []*quotes.Medium
	var weights []float64
	for _, part := range l.Parts {
		if i := slices.Index(media, part.Quote.Medium); i >= 0 {
			weights[i] += float64(part.Litres)
			continue
		}
		media = append(media, part.Quote.Medium)
		weights = append(weights, float64(part.Litres))
	}
	if len(media) == 0 {
		return strings.Repeat(" ", pictureWidth)
	}
	widths := units.Split(pictureWidth, weights)
	for i := range widths {
		if widths[i] == 0 {
			widest := slices.Index(widths, slices.Max(widths))
			widths[widest]--
			widths[i]++
		}
	}
	var b strings.Builder
	for i, m := range media {
		b.WriteString(strings.Repeat(string(sign[m]), int(widths[i])))
	}
	return b.String()
}

// drawing is a picture shared by the beds that look alike.
type drawing struct {
	rows []string
	beds []string
}

// drawings draws the beds, those that look alike once.
func drawings(pl *optimise.Plan) (out []*drawing, of map[*quotes.Bed]int, legend string) {
	sign, media := letters(pl.Fills)
	deepest := units.Millimetres(0)
	for _, f := range pl.Fills {
		deepest = max(deepest, f.Bed.Depth)
	}
	of = map[*quotes.Bed]int{}
	seen := map[string]int{}
	for _, f := range pl.Fills {
		rows := picture(f, sign, deepest)
		key := strings.Join(rows, "\n")
		i, ok := seen[key]
		if !ok {
			i = len(out)
			seen[key] = i
			out = append(out, &drawing{rows: rows})
		}
		of[f.Bed] = i
		out[i].beds = append(out[i].beds, f.Bed.Name)
	}
	var words []string
	for _, m := range media {
		words = append(words, fmt.Sprintf("%c %s", sign[m], m.Name))
	}
	return out, of, strings.Join(words, ", ")
}

// beds is the table of beds and the pictures it refers to. Beds that are filled
// alike on the same table share a row.
func (p *page) beds(pl *optimise.Plan) {
	p.heading("what goes where")
	pics, of, legend := drawings(pl)
	var rows [][]string
	names := map[string][]string{} // by the rest of the row
	var order []string
	for _, f := range pl.Fills {
		row := p.bedRow(f, of[f.Bed]+1)
		key := strings.Join(row, "\x00")
		if names[key] == nil {
			order = append(order, key)
			rows = append(rows, row)
		}
		name := f.Bed.Name
		if f.Bed.Count > 1 {
			name = fmt.Sprintf("%s (%d alike)", name, f.Bed.Count)
		}
		names[key] = append(names[key], name)
	}
	for i, key := range order {
		rows[i][0] = several(names[key], 8)
	}
	p.grid([]col{{name: "Bed (each)", wrap: 20}, {name: "Table"}, {name: "Top"}, {name: "Base"}, {name: "Flooded", right: true}, {name: "Picture", right: true}}, rows)
	p.b.WriteByte('\n')
	p.pictures(pics)
	p.para("  ", "  ", legend)
}

// bedRow is what the table says of one bed, but for its name.
func (p *page) bedRow(f optimise.BedFill, picture int) []string {
	cells := map[quotes.Layer]string{quotes.Top: "-", quotes.Base: "-"}
	for _, l := range f.Layers {
		var parts []string
		for _, part := range l.Parts {
			parts = append(parts, fmt.Sprintf("%s %s", p.fill(part.Litres), part.Quote.Name))
		}
		cells[l.Layer] = strings.Join(parts, "\n")
	}
	table := f.Bed.Table
	if table == "" {
		table = "-"
	}
	return []string{"", table, cells[quotes.Top], cells[quotes.Base], p.mass(f.Flooded), fmt.Sprint(picture)}
}

// pictures sets drawings side by side, as many as the width takes.
func (p *page) pictures(pics []*drawing) {
	const gap = 3
	perLine := 6
	if p.Width > 0 {
		perLine = max(1, (p.Width-2)/(pictureWidth+2+gap))
	}
	for len(pics) > 0 {
		if len(p.drawn) > 0 {
			p.b.WriteByte('\n')
		}
		n := min(perLine, len(pics))
		group := pics[:n]
		pics = pics[n:]
		height := 0
		for _, d := range group {
			height = max(height, len(d.rows))
		}
		for r := range height {
			var b strings.Builder
			for _, d := range group {
				cell := strings.Repeat(" ", pictureWidth+2)
				if at := r - (height - len(d.rows)); at >= 0 {
					cell = "|" + d.rows[at] + "|"
				}
				b.WriteString(cell + strings.Repeat(" ", gap))
			}
			p.b.WriteString("  " + strings.TrimRight(b.String(), " ") + "\n")
		}
		var feet, names strings.Builder
		for i := range group {
			feet.WriteString("+" + strings.Repeat("-", pictureWidth) + "+" + strings.Repeat(" ", gap))
			number := fmt.Sprintf("picture %d", len(p.drawn)+i+1)
			names.WriteString(text.Pad(number, pictureWidth+2+gap, ' '))
		}
		p.b.WriteString("  " + strings.TrimRight(feet.String(), " ") + "\n  " + strings.TrimRight(names.String(), " ") + "\n")
		p.drawn = append(p.drawn, group...)
	}
}
