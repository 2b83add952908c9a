package figure

import (
	"math"
	"slices"
	"strconv"

	"mediabuy/papers/chart"
)

// Chart is a panel set out on a sheet of chartWidth × chartHeight units, in
// lines and words for the template. Colours and sizes are the style sheet's.
type Chart struct {
	Title, XWords, YWords string
	Alt                   string
	Width, Height         float64
	Left, Right, Top, Low float64 // the field of the curve
	Paths                 []pathView
	XTicks, YTicks        []tickView
	Marks                 []markView
	Now                   *tickView // the place asked about
	DotWords              string    // what the dots are
}

type pathView struct {
	Points string
	Dashed bool
}

type tickView struct {
	At    float64
	Label string
}

type markView struct {
	X, Y  float64
	Label string
	Today bool
}

// Measures of a chart in its own units, which are pixels on a wide screen.
const (
	chartWidth  = 640.0
	chartHeight = 300.0
	chartLeft   = 70.0
	chartRight  = 16.0
	chartTop    = 14.0
	chartLow    = 40.0
)

// Draw sets a panel out over a span of x, which is also its slider's, with a
// line down at x.
func Draw(p chart.Panel, xs Span, x float64, alt string) Chart {
	v := Chart{
		DotWords: "Dots are where the cheapest buy changes.",
		Title:    p.Title, XWords: p.XWords, YWords: p.YWords, Alt: p.Title + ". " + alt, Width: chartWidth, Height: chartHeight,
		Left: chartLeft, Right: chartWidth - chartRight, Top: chartTop, Low: chartHeight - chartLow,
	}
	ys := Span{math.Inf(1), math.Inf(-1)}
	for _, l := range p.Lines {
		for i := range l.X {
			xs.take(l.X[i])
			ys.take(l.Y[i])
		}
	}
	if ys.Lo > ys.Hi || xs.Hi <= xs.Lo {
		return v // there is no curve
	}
	pad := max((ys.Hi-ys.Lo)*0.08, ys.Hi*0.01) // so that a level curve is not a thick frame
	ys = Span{max(ys.Lo-pad, min(ys.Lo, 0)), ys.Hi + pad}
	px := func(x float64) float64 { return v.Left + (x-xs.Lo)/(xs.Hi-xs.Lo)*(v.Right-v.Left) }
	py := func(y float64) float64 { return v.Low - (y-ys.Lo)/(ys.Hi-ys.Lo)*(v.Low-v.Top) }
	for _, l := range p.Lines {
		path := pathView{Dashed: l.Dashed}
		for i := range l.X {
			path.Points += place2(px(l.X[i])) + "," + place2(py(l.Y[i])) + " "
		}
		v.Paths = append(v.Paths, path)
	}
	for _, t := range ticks(xs) {
		v.XTicks = append(v.XTicks, tickView{px(t.at), t.label})
	}
	for _, t := range ticks(ys) {
		v.YTicks = append(v.YTicks, tickView{py(t.at), t.label})
	}
	for _, m := range p.Marks {
		mark := markView{X: px(m.X), Y: py(m.Y), Label: m.Label, Today: m.Today}
		if m.Today {
			mark.Y = v.Top
		}
		v.Marks = append(v.Marks, mark)
	}
	v.Now = &tickView{At: min(max(px(x), v.Left), v.Right)}
	return v
}

// Dashes reports whether some of the curve is dashed.
func (v Chart) Dashes() bool {
	return slices.ContainsFunc(v.Paths, func(p pathView) bool { return p.Dashed })
}

// Dots reports whether some change is marked.
func (v Chart) Dots() bool {
	return slices.ContainsFunc(v.Marks, func(m markView) bool { return !m.Today })
}

// Span is a range of numbers.
type Span struct{ Lo, Hi float64 }

func (s *Span) take(v float64) { s.Lo, s.Hi = min(s.Lo, v), max(s.Hi, v) }

// tick is a round number of an axis.
type tick struct {
	at    float64
	label string
}

// ticks are some five round numbers within a span.
func ticks(s Span) []tick {
	const about = 5
	raw := (s.Hi - s.Lo) / about
	power := int(math.Floor(math.Log10(raw)))
	unit := math.Pow10(power)
	step, digits := unit, max(0, -power)
	for _, m := range []float64{2, 5, 10} {
		if step < raw {
			step = m * unit
		}
	}
	if step == 10*unit {
		digits = max(0, -power-1)
	}
	var out []tick
	for i := math.Ceil(s.Lo / step); i*step <= s.Hi; i++ {
		at := i*step + 0 // a zero without a sign
		out = append(out, tick{at, strconv.FormatFloat(at, 'f', digits, 64)})
	}
	return out
}

// place2 is a coordinate: hundredths of a unit are fine enough.
func place2(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }
