package cut

import (
	"fmt"
	"strings"

	"mediabuy/papers/ink"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Each is a picture of each kind of bed.
func (r *Beds) Each() []*page.Picture {
	var out []*page.Picture
	for _, g := range r.groups {
		out = append(out, r.picture(g))
	}
	return out
}

// Measures of a picture in millimetres.
const (
	picWidth  = 170.0
	picBed    = 62.0 // drawn length of every bed: only depths are to scale
	picDepth  = 30.0 // drawn depth of the deepest bed
	picLeft   = 16.0 // room for the depths
	picWords  = picLeft + picBed + 12
	picKey    = 6.0 // room for a pattern before its words
	picLine   = 5.0 // from one line of words to the next
	picPoints = 8.5
)

// picture draws one bed in section: depths to scale with every other picture of
// the report, each layer split by share, the water line, and beside it what each
// part is, in words and litres.
func (r *Beds) picture(g alike) *page.Picture {
	b := g.Bed
	d := &ink.Drawing{Width: picWidth}
	height, top := picDepth, 0.0
	layers := map[quotes.Layer]float64{} // drawn height
	if b.Depth > 0 {
		height = picDepth * float64(b.Depth/r.deepest)
		layers[quotes.Top] = height * float64(b.Top/b.Depth)
		layers[quotes.Base] = height - layers[quotes.Top]
	} else {
		all := float64(b.LayerLitres(quotes.Top) + b.LayerLitres(quotes.Base))
		for _, l := range quotes.Layers {
			layers[l] = height * float64(b.LayerLitres(l)) / all
		}
	}
	top = 3.0
	lines := []string{}
	y, words := top, top+3
	for _, l := range g.Layers {
		h := layers[l.Layer]
		if h <= 0 {
			continue
		}
		sum := units.Litres(0)
		for _, part := range l.Parts {
			sum += part.Litres
		}
		x := picLeft
		for _, part := range l.Parts {
			f := r.fills[part.Quote.Medium]
			w := picBed * float64(part.Litres/sum)
			d.Box(x, y, w, h, &f, ink.Text, 0.25)
			x += w
			text := fmt.Sprintf("%s: %s of %s, %s", l.Layer, units.FormatPlaced(part.Litres, r.units), part.Quote.Medium.Name, part.Quote.NameWords())
			lines = append(lines, text)
			d.Box(picWords, words-2.6, 4, 3.2, &f, ink.Text, 0.2)
			for _, line := range wrapped(text, picWidth-picWords-picKey, picPoints) {
				d.Say(picWords+picKey, words, line, picPoints, false, ink.Start)
				words += picLine
			}
		}
		y += h
		if b.Depth > 0 {
			depth := b.Depth
			if l.Layer == quotes.Top {
				depth = b.Top
			}
			d.Line(picLeft-2, y, picLeft, y, ink.Text, 0.25, 0)
			d.Say(picLeft-3, y+1, units.FormatLength(depth, r.units), picPoints-1, false, ink.End)
		}
	}
	d.Box(picLeft, top, picBed, y-top, nil, ink.Text, 0.6)
	if b.Depth > 0 && !b.NeverFloods && b.WaterLine < b.Depth {
		w := top + height*float64(b.WaterLine/b.Depth)
		d.Line(picLeft-2, w, picLeft+picBed+2, w, ink.Text, 0.45, 1.4)
		d.Say(picLeft+picBed+2.5, w+1, "water", picPoints-1, false, ink.Start)
	}
	weight := r.weightWords(g)
	lines = append(lines, weight...)
	for _, w := range weight {
		for _, line := range wrapped(w, picWidth-picWords, picPoints) {
			d.Say(picWords, words, line, picPoints, true, ink.Start)
			words += picLine
		}
	}
	d.Height = max(y, words-picLine) + 2
	return &page.Picture{Caption: strings.Join(g.names, ", ") + r.measures(b), Drawing: d, Lines: lines}
}

func (r *Beds) measures(b *quotes.Bed) string {
	if b.ByVolume() {
		return ": " + Volume(b.Volume, r.units) + ", given by volume, so heights are by share"
	}
	length := func(l units.Millimetres) string { return units.FormatLength(l, r.units) }
	return ": " + length(b.Length) + " × " + length(b.Width) + ", " + length(b.Depth) + " deep"
}

// weightWords says what one bed weighs and what carries it.
func (r *Beds) weightWords(g alike) []string {
	out := []string{"flooded " + r.mass(g.Flooded)}
	for _, t := range r.plan.Tables {
		if t.Name == g.Bed.Table && t.Limit != nil {
			return append(out, fmt.Sprintf("table %s carries %s of %s in all", t.Name, r.mass(t.Flooded), r.mass(*t.Limit)))
		}
	}
	if g.Bed.Table == "" && g.Bed.Limit != nil {
		return []string{fmt.Sprintf("flooded %s of the %s its frame may carry", r.mass(g.Flooded), r.mass(*g.Bed.Limit))}
	}
	return append(out, "no weight limit is given for its frame")
}
