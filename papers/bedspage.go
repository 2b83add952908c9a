package papers

import (
	"fmt"
	"math"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers/caution"
	"mediabuy/papers/ink"
	"mediabuy/papers/page"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
	"mediabuy/units"
)

// fillWords is a volume within a bed: litres, or cubic feet where those are used.
func (s scribe) fillWords(v units.Litres) string {
	if s.Units == units.US {
		return number(float64(v/units.CubicFoot)) + " ft³"
	}
	return number(float64(v)) + " L"
}

// number has three digits, or is whole from a hundred on.
func number(v float64) string {
	switch {
	case v < 10:
		return fmt.Sprintf("%.2f", v)
	case v < 100:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}

// alike is beds that are filled in the same way: one picture does for all.
type alike struct {
	optimise.BedFill
	names []string
}

// groups gathers beds that are alike in every figure of their picture.
func (r *report) groups() []alike {
	var out []alike
	at := map[string]int{}
	for _, f := range r.Plan.Fills {
		b := f.Bed
		key := fmt.Sprintf("%g %g %g %g %g %g %g %v %g %s", b.Length, b.Width, b.Depth, b.Top, b.Volume, b.TopVolume, b.WaterLine, b.NeverFloods, math.Round(float64(f.Flooded)*10), b.Table)
		if b.Limit != nil {
			key += fmt.Sprint(" ", *b.Limit)
		}
		for _, l := range f.Layers {
			for _, part := range l.Parts {
				key += fmt.Sprintf(" %s %s %.1f", l.Layer, part.Quote.Name, float64(part.Litres))
			}
		}
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, alike{BedFill: f})
		}
		name := b.Name
		if b.Count > 1 {
			name = fmt.Sprintf("%s (each of %d)", name, b.Count)
		}
		out[i].names = append(out[i].names, name)
	}
	return out
}

// beds is what each table carries and a picture of each kind of bed.
func (r *report) beds() []page.Block {
	out := []page.Block{r.weights(), &page.Para{Text: caution.Frames.Words},
		&page.Para{Text: "The pictures are cuts through one bed each: depths are to scale, lengths are not. Within a layer what is drawn side by side may also be mixed."}}
	fills, _ := r.fills()
	deepest := r.deepest()
	for _, g := range r.groups() {
		out = append(out, r.picture(g, fills, deepest))
	}
	return out
}

// fills is the pattern of each medium bought, which all pictures of a report share,
// and the media by name.
func (r *report) fills() (map[*quotes.Medium]ink.Fill, []*quotes.Medium) {
	media := r.usedMedia()
	fills := map[*quotes.Medium]ink.Fill{}
	for i, m := range media {
		fills[m] = ink.FillOf(i)
	}
	return fills, media
}

// deepest is the depth of the deepest bed.
func (r *report) deepest() units.Millimetres {
	out := units.Millimetres(0)
	for _, f := range r.Plan.Fills {
		out = max(out, f.Bed.Depth)
	}
	return out
}

// weights is the table of flooded weights against limits.
func (r *report) weights() page.Block {
	t := &page.Table{Caption: "Weight at the worst moment: flooded, pump on, drain blocked", Cols: []page.Col{{Name: "Frame"}, {Name: "Beds"}, {Name: "Usual", Right: true}, {Name: "Heavy", Right: true}, {Name: "Limit", Right: true}, {Name: "Used", Right: true}}}
	add := func(name, beds string, usual, heavy units.Kilograms, limit *units.Kilograms) {
		w := heavy
		if r.Plan.Job.Settings.Weights == quotes.UsualWeights {
			w = usual
		}
		most, used := "not given", ""
		if limit != nil {
			most = r.mass(*limit)
			if *limit > 0 {
				used = fmt.Sprintf("%.0f %%", 100*float64(w / *limit))
			}
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(name), page.Text(beds), page.Text(r.mass(usual)), page.Text(r.mass(heavy)), page.Text(most), page.Text(used)}})
	}
	for _, l := range r.Plan.Tables {
		add("table "+l.Name, strings.Join(l.Beds, ", "), l.Usual, l.Heavy, l.Limit)
	}
	for _, f := range r.Plan.Fills {
		if f.Bed.Table == "" {
			add("its own", f.Bed.Name, f.Usual, f.Heavy, f.Bed.Limit)
		}
	}
	return t
}

// Measures of a picture in millimetres.
const (
	picWidth  = 170.0
	picBed    = 62.0 // drawn length of every bed: only depths are to scale
	picDepth  = 30.0 // drawn depth of the deepest bed
	picLeft   = 16.0 // room for the depths
	picWords  = picLeft + picBed + 12
	picLine   = 5.0 // from one line of words to the next
	picPoints = 8.5
)

// picture draws one bed in section: depths to scale with every other picture of
// the report, each layer split by share, the water line, and beside it what each
// part is, in words and litres.
func (r *report) picture(g alike, fills map[*quotes.Medium]ink.Fill, deepest units.Millimetres) *page.Picture {
	b := g.Bed
	d := &ink.Drawing{Width: picWidth}
	height, top := picDepth, 0.0
	layers := map[quotes.Layer]float64{} // drawn height
	if b.Depth > 0 {
		height = picDepth * float64(b.Depth/deepest)
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
			f := fills[part.Quote.Medium]
			w := picBed * float64(part.Litres/sum)
			d.Box(x, y, w, h, &f, ink.Text, 0.25)
			x += w
			text := fmt.Sprintf("%s: %s of %s, %s", l.Layer, r.fillWords(part.Litres), part.Quote.Medium.Name, part.Quote.Name)
			lines = append(lines, text)
			d.Box(picWords, words-2.6, 4, 3.2, &f, ink.Text, 0.2)
			d.Say(picWords+6, words, text, picPoints, false, ink.Start)
			words += picLine
		}
		y += h
		if b.Depth > 0 {
			depth := b.Depth
			if l.Layer == quotes.Top {
				depth = b.Top
			}
			d.Line(picLeft-2, y, picLeft, y, ink.Text, 0.25, 0)
			d.Say(picLeft-3, y+1, units.FormatLength(depth, r.Units), picPoints-1, false, ink.End)
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
		d.Say(picWords, words, w, picPoints, true, ink.Start)
		words += picLine
	}
	d.Height = max(y, words-picLine) + 2
	return &page.Picture{Caption: strings.Join(g.names, ", ") + r.measures(b), Drawing: d, Lines: lines}
}

func (r *report) measures(b *quotes.Bed) string {
	if b.ByVolume() {
		return ": " + r.fillWords(b.Volume) + ", given by volume, so heights are by share"
	}
	length := func(l units.Millimetres) string { return units.FormatLength(l, r.Units) }
	return ": " + length(b.Length) + " × " + length(b.Width) + ", " + length(b.Depth) + " deep"
}

// weightWords says what one bed weighs and what carries it.
func (r *report) weightWords(g alike) []string {
	out := []string{"flooded " + r.mass(g.Flooded)}
	for _, t := range r.Plan.Tables {
		if t.Name == g.Bed.Table && t.Limit != nil {
			return append(out, fmt.Sprintf("table %s carries %s of %s in all", t.Name, r.mass(t.Flooded), r.mass(*t.Limit)))
		}
	}
	if g.Bed.Table == "" && g.Bed.Limit != nil {
		return []string{fmt.Sprintf("flooded %s of the %s its frame may carry", r.mass(g.Flooded), r.mass(*g.Bed.Limit))}
	}
	return append(out, "no weight limit is given for its frame")
}

// members is what each member gets and pays, and the split held against every
// group of them.
func (r *report) members() []page.Section {
	if r.Split == nil {
		return []page.Section{{Heading: "Who pays what", Sheet: "Members", Blocks: []page.Block{&page.Para{Text: "No bed names a member, so there is nobody to list here."}}}}
	}
	return statement.Sections(r.Split, r.Units)
}
