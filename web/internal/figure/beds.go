package figure

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers/ink"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Bed is one bed, or several filled in the same way.
type Bed struct {
	Names  string
	Where  string        // its table and site
	Size   string        // length × width and depth, in words
	SVG    template.HTML // ink escapes every word in it
	Layers []layerView
	Gauge  Gauge // its weight against its limit, or that of its table against the table's
}

type layerView struct {
	Name  string
	Parts []string // "5.33 ft³ pebbles-50 (expanded clay)"
}

// Gauge is a weight against its limit.
type Gauge struct {
	Name, Beds, Words string
	Value, Most       float64 // of the meter, in kilograms
	Known             bool    // there is a limit
	Near              bool
}

// Key is one fill of the drawings and what it stands for.
type Key struct {
	Medium string
	SVG    template.HTML
}

// nearLimit is the share of a limit from which a weight is called near it (common
// practice, no source).
const nearLimit = 0.9

// Gauges are the tables, and the beds with a limit of their own.
func (s Scribe) Gauges(p *optimise.Plan) []Gauge {
	var out []Gauge
	for _, t := range p.Tables {
		out = append(out, s.gauge("table "+t.Name, strings.Join(t.Beds, ", "), t.Flooded, t.Limit))
	}
	for _, f := range p.Fills {
		if f.Bed.Table == "" && f.Bed.Limit != nil {
			out = append(out, s.gauge(quotes.BedNamed(f.Bed.Name), "", f.Flooded, f.Bed.Limit))
		}
	}
	return out
}

func (s Scribe) gauge(name, beds string, w units.Kilograms, limit *units.Kilograms) Gauge {
	g := Gauge{Name: name, Beds: beds, Value: float64(w), Words: s.mass(w) + " flooded, no limit given"}
	if limit == nil {
		return g
	}
	g.Known, g.Most, g.Near = true, float64(*limit), float64(w) >= nearLimit*float64(*limit)
	g.Words = s.mass(w) + " flooded of " + s.mass(*limit)
	if *limit > 0 {
		g.Words += fmt.Sprintf(", %.0f %%", 100*float64(w / *limit))
	}
	if g.Near {
		g.Words += ", near its limit"
	}
	return g
}

// Measures of a drawing in millimetres of its own.
const (
	drawnWidth = 100.0 // of the longest bed
	drawnEdge  = 0.5
)

// Beds draws each kind of bed cut lengthwise, all to one scale in length and
// depth. A bed known by volume alone has no length: it is drawn as a cube.
func (s Scribe) Beds(p *optimise.Plan) ([]Bed, []Key) {
	var media []*quotes.Medium
	for _, l := range p.Bill.Lines {
		if !slices.Contains(media, l.Quote.Medium) {
			media = append(media, l.Quote.Medium)
		}
	}
	slices.SortFunc(media, func(a, b *quotes.Medium) int { return cmp.Compare(a.Name, b.Name) })
	fills := map[*quotes.Medium]ink.Fill{}
	var key []Key
	for i, m := range media {
		fills[m] = ink.FillOf(i)
		d := &ink.Drawing{Width: 9, Height: 6}
		f := fills[m]
		d.Box(0.2, 0.2, 8.6, 5.6, &f, ink.Rule, 0.3)
		key = append(key, Key{m.Name, drawn(d, "")})
	}
	longest := units.Millimetres(1)
	for _, f := range p.Fills {
		length, _, _ := sides(f.Bed)
		longest = max(longest, length)
	}
	scale := drawnWidth / float64(longest)
	tables := map[string]Gauge{}
	for _, t := range p.Tables {
		tables[t.Name] = s.gauge("table "+t.Name, "", t.Flooded, t.Limit)
	}
	var out []Bed
	at := map[string]int{}
	for _, f := range p.Fills {
		v := s.bed(f, fills, scale)
		if g, ok := tables[f.Bed.Table]; ok {
			g.Beds = s.mass(f.Flooded) + " from each such bed"
			v.Gauge = g
		} else {
			v.Gauge = s.gauge(quotes.BedNamed(f.Bed.Name), "", f.Flooded, f.Bed.Limit)
		}
		same := fmt.Sprint(v.Where, v.Size, v.SVG, v.Layers, v.Gauge.Beds, v.Gauge.Words)
		if i, ok := at[same]; ok {
			out[i].Names += ", " + v.Names
			continue
		}
		at[same] = len(out)
		out = append(out, v)
	}
	return out, key
}

// sides are a bed's longer side, whichever of the two its file calls its length, its depth, and the depth of its top layer.
func sides(b *quotes.Bed) (length, depth, top units.Millimetres) {
	if !b.ByVolume() {
		return max(b.Length, b.Width), b.Depth, b.Top
	}
	all := b.TopLitres() + b.BaseLitres() + b.Displaced
	side := units.Millimetres(100 * math.Cbrt(float64(all))) // a litre is a cube of 100 mm
	if all > 0 {
		top = side * units.Millimetres(b.TopLitres()/all)
	}
	return side, side, top
}

func (s Scribe) bed(f optimise.BedFill, fills map[*quotes.Medium]ink.Fill, scale float64) Bed {
	b := f.Bed
	v := Bed{Names: b.Name}
	if b.Count > 1 {
		v.Names = fmt.Sprintf("%s (each of %d)", b.Name, b.Count)
	}
	var where []string
	if b.Table != "" {
		where = append(where, "table "+b.Table)
	}
	if b.Site != "" {
		where = append(where, b.Site)
	}
	v.Where = strings.Join(where, ", ")
	length, depth, top := sides(b)
	v.Size = s.length(b.Length) + " × " + s.length(b.Width) + ", " + s.length(depth) + " deep"
	if b.ByVolume() {
		v.Size = s.Volume(b.TopLitres()+b.BaseLitres()) + ", drawn as a cube"
	}
	d := &ink.Drawing{Width: drawnWidth + 2*drawnEdge, Height: float64(depth)*scale + 2*drawnEdge}
	y := drawnEdge
	var said []string
	for _, l := range f.Layers {
		height := float64(top) * scale
		if l.Layer == quotes.Base {
			height = float64(depth-top) * scale
		}
		x, width := drawnEdge, float64(length)*scale
		lv := layerView{Name: string(l.Layer)}
		for _, part := range l.Parts {
			w := width * float64(part.Litres/l.Demand)
			fill := fills[part.Quote.Medium]
			d.Box(x, y, w, height, &fill, ink.Rule, 0.2)
			x += w
			lv.Parts = append(lv.Parts, fmt.Sprintf("%s %s (%s)", units.FormatPlaced(part.Litres, s.System), part.Quote.Name, part.Quote.Medium.Name))
		}
		said = append(said, lv.Name+": "+strings.Join(lv.Parts, ", "))
		v.Layers = append(v.Layers, lv)
		y += height
	}
	d.Box(drawnEdge, drawnEdge, float64(length)*scale, float64(depth)*scale, nil, ink.Text, 0.4)
	if water := float64(b.WaterLine) * scale; !b.NeverFloods && !b.ByVolume() && b.WaterLine < depth {
		d.Line(drawnEdge, drawnEdge+water, drawnEdge+float64(length)*scale, drawnEdge+water, ink.Accent, 0.4, 1.2)
	}
	v.SVG = drawn(d, "cut through the bed; "+strings.Join(said, "; "))
	return v
}
