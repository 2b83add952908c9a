package papers

import (
	"fmt"
	"strings"

	"mediabuy/papers/ink"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Measures of the picture of all beds, in millimetres.
const (
	stripWidth  = 176.0
	stripEach   = 4 // side by side
	stripMost   = 8 // kinds of bed drawn; the rest stand in the pages behind
	stripGap    = 4.0
	stripDepth  = 12.0 // drawn depth of the deepest
	stripHead   = 4.0  // room for its name
	stripFoot   = 5.0  // room for its weight
	stripPoints = 7.0
)

// strip is every kind of bed in section in one picture, with what its frame
// carries; nil where the plan fills none.
func (r *report) strip() *page.Picture {
	groups := r.groups()
	if len(groups) == 0 {
		return nil
	}
	more := 0
	if len(groups) > stripMost {
		more = len(groups) - stripMost
		groups = groups[:stripMost]
	}
	fills, media := r.fills()
	deepest := r.deepest()
	d := &ink.Drawing{Width: stripWidth}
	side := min(stripEach, len(groups))
	each := (stripWidth - stripGap*float64(side-1)) / float64(side)
	each = min(each, 60)
	var lines []string
	for i, g := range groups {
		left := float64(i%side) * (each + stripGap)
		top := float64(i/side) * (stripHead + stripDepth + stripFoot)
		name := strings.Join(g.names, ", ")
		if n := len(g.names) - 1; n > 0 && len([]rune(name)) > int(each/signMM) {
			name = fmt.Sprintf("%s and %d more alike", g.names[0], n)
		}
		carries := r.carries(g)
		d.Say(left, top+stripHead-1.2, clip(name, each), stripPoints, true, ink.Start)
		r.section(d, g, fills, deepest, left, top+stripHead, each)
		d.Say(left, top+stripHead+stripDepth+3, clip(carries, each), stripPoints, false, ink.Start)
		lines = append(lines, name+": "+carries)
	}
	rows := (len(groups) + side - 1) / side
	y := float64(rows)*(stripHead+stripDepth+stripFoot) + 3
	x := 0.0
	for _, m := range media {
		width := 7 + signMM*float64(len([]rune(m.Name))) + 4
		if x > 0 && x+width > stripWidth {
			x, y = 0, y+5
		}
		f := fills[m]
		d.Box(x, y-2.8, 5, 3.2, &f, ink.Text, 0.2)
		d.Say(x+6.5, y, m.Name, stripPoints, false, ink.Start)
		x += width
	}
	d.Height = y + 1.5
	caption := "The beds once filled, cut through: depths to scale, lengths not; water to the broken line"
	if more > 0 {
		caption += fmt.Sprintf("; %d more kinds of bed stand in the appendix", more)
	}
	return &page.Picture{Caption: caption, Drawing: d, Lines: lines}
}

// signMM is about what one sign of the smallest words takes in millimetres.
const signMM = 1.32

// clip cuts words to a width, roughly.
func clip(s string, width float64) string {
	rs := []rune(s)
	if most := int(width / signMM); len(rs) > most && most > 1 {
		return string(rs[:most-1]) + "…"
	}
	return s
}

// section draws one bed's layers, its water line and its edge.
func (r *report) section(d *ink.Drawing, g alike, fills map[*quotes.Medium]ink.Fill, deepest units.Millimetres, left, top, width float64) {
	b := g.Bed
	height := stripDepth
	if b.Depth > 0 {
		height *= float64(b.Depth / deepest)
	}
	all := units.Litres(0)
	for _, l := range g.Layers {
		for _, part := range l.Parts {
			all += part.Litres
		}
	}
	foot := top + stripDepth
	y := foot - height
	d.Box(left, y, width, height, nil, ink.Text, 0.4)
	for _, l := range g.Layers {
		sum := units.Litres(0)
		for _, part := range l.Parts {
			sum += part.Litres
		}
		if sum <= 0 {
			continue
		}
		h, x := height*float64(sum/all), left
		for _, part := range l.Parts {
			f := fills[part.Quote.Medium]
			w := width * float64(part.Litres/sum)
			d.Box(x, y, w, h, &f, ink.Text, 0.2)
			x += w
		}
		y += h
	}
	if b.Depth > 0 && !b.NeverFloods && b.WaterLine < b.Depth {
		w := foot - height + height*float64(b.WaterLine/b.Depth)
		d.Line(left, w, left+width, w, ink.Text, 0.4, 1.2)
	}
}

// carries says how far a bed's frame is used.
func (r *report) carries(g alike) string {
	for _, t := range r.Plan.Tables {
		if t.Name == g.Bed.Table && t.Limit != nil && *t.Limit > 0 {
			return fmt.Sprintf("table %s: %.0f %% of %s", t.Name, 100*float64(t.Flooded / *t.Limit), r.mass(*t.Limit))
		}
	}
	if g.Bed.Table == "" && g.Bed.Limit != nil && *g.Bed.Limit > 0 {
		return fmt.Sprintf("frame: %.0f %% of %s", 100*float64(g.Flooded / *g.Bed.Limit), r.mass(*g.Bed.Limit))
	}
	return r.mass(g.Flooded) + " flooded, no limit given"
}
