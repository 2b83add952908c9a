// Package chart draws break-evens: the least cost against a price, and the cost of
// two ways of buying against the volume, as SVG or PNG files and as text for a
// terminal.
//
// Lines are told apart by their dashes and by words beside the axes, never by
// colour: everything is black or grey on white. There is no script in an SVG, and
// the same answer gives the same bytes.
package chart

import (
	"fmt"

	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Line is one curve of a panel: corners joined by straight strokes.
type Line struct {
	Name   string // in words, for the legend; "" for more of a line before
	Dashed bool
	X, Y   []float64
}

// Mark is a place worth a label.
type Mark struct {
	X, Y  float64
	Label string
	// Today draws a line down the panel in place of a dot.
	Today bool
}

// Panel is one chart with its axes in words.
type Panel struct {
	Title, XWords, YWords string
	Lines                 []Line
	Marks                 []Mark
}

// Price is the panel of one series: of what is proven of it, and dashed what is
// known between and beside that.
func Price(job *quotes.Job, s breakeven.Series) Panel {
	t := s.Target
	code := job.Settings.Currency
	scale, unit := 1.0, code
	if t.Factor() {
		scale, unit = 100, "percent of today's prices"
	}
	p := Panel{Title: "Least cost by the price of " + t.Name, XWords: "price, " + unit, YWords: "least cost of the whole job, " + code}
	if t.Row != nil {
		p.Title, p.XWords = "Least cost by the fee: "+t.Name, "fee, "+unit
	}
	now := t.Now.Float()
	reach := now * 1.25
	for _, c := range s.Changes {
		reach = max(reach, c.At.Float()*1.1)
	}
	if reach == 0 {
		reach = t.Most.Float()
	}
	p.Lines = curve(s, scale, reach)
	p.Marks = append(p.Marks, Mark{X: now * scale, Label: "today", Today: true})
	digits := t.Digits(job)
	for _, c := range s.Changes {
		y, ok := costBelow(s, c)
		if !ok {
			continue
		}
		m := Mark{X: c.At.Float() * scale, Y: y}
		told := c.At
		if down := s.Told(&c.At, digits); down != nil {
			told = *down // a price at which the buy below the change holds
		}
		m.Label = told.Mul(units.DecimalOf(scale)).Text(min(digits, 2))
		switch {
		case s.Leaves != nil && c.At.Equal(*s.Leaves):
			m.Label = "stays in the plan up to " + m.Label
		case s.Enters != nil && c.At.Equal(*s.Enters):
			m.Label = "enters the plan at " + m.Label
		}
		p.Marks = append(p.Marks, m)
	}
	return p
}

// curve is the least cost up to reach, as far as something is proven, in runs of what
// is and what is not.
func curve(s breakeven.Series, scale, reach float64) []Line {
	first, last := len(s.Pieces), -1
	for i, p := range s.Pieces {
		if p.Proven || beside(s, p) {
			first, last = min(first, i), i
		}
	}
	names := map[bool]string{false: "cheapest buy", true: "cheapest buy known, not proven"}
	var out []Line
	broken := true // a new run is due
	for i := first; i <= last; i++ {
		p := s.Pieces[i]
		lo, hi := p.From.Float(), min(p.To.Float(), reach)
		if p.None || hi <= lo {
			broken = true
			continue
		}
		if broken || out[len(out)-1].Dashed == p.Proven {
			out = append(out, Line{Name: names[!p.Proven], Dashed: !p.Proven})
			names[!p.Proven] = ""
			broken = false
		}
		l := &out[len(out)-1]
		l.X = append(l.X, lo*scale, hi*scale)
		l.Y = append(l.Y, p.Cost(units.DecimalOf(lo)).Float(), p.Cost(units.DecimalOf(hi)).Float())
	}
	return out
}

// beside reports whether a piece that is not proven whole meets a change that is:
// its near end is proven.
func beside(s breakeven.Series, p breakeven.Piece) bool {
	for _, c := range s.Changes {
		if c.At.Equal(p.From) || c.At.Equal(p.To) {
			return true
		}
	}
	return p.From.Cmp(s.Target.Now) <= 0 && p.To.Cmp(s.Target.Now) >= 0
}

func costBelow(s breakeven.Series, c breakeven.Change) (float64, bool) {
	for _, p := range s.Pieces {
		if p.To.Equal(c.At) {
			return p.Cost(c.At).Float(), !p.None
		}
	}
	return 0, false
}

// Volume is the panel of two sides over the volume, in litres or cubic yards as the
// reader has them.
func Volume(job *quotes.Job, v *byvolume.Volume, sys units.System) Panel {
	unit, words := units.Litre, "placed litres"
	if sys == units.US {
		unit, words = units.CubicYard, "placed cubic yards"
	}
	x := func(l units.Litres) float64 { return float64(l / unit) }
	// Beyond the last change and half as much again there is nothing to see.
	reach := float64(v.Looked)
	if n := len(v.Stretches); n > 1 {
		reach = min(reach, float64(v.Stretches[n-1].From)*1.5)
	}
	left, right := sideName(v, byvolume.Left, reach), sideName(v, byvolume.Right, reach)
	p := Panel{Title: fmt.Sprintf("Cost by volume: %s or %s", left, right), XWords: words, YWords: "cost, delivered and taxed, " + job.Settings.Currency}
	for _, side := range []struct {
		name string
		w    byvolume.Winner
	}{{left, byvolume.Left}, {right, byvolume.Right}} {
		l := Line{Name: side.name, Dashed: side.w == byvolume.Right}
		from := 0.0
		for _, t := range v.Treads(side.w) {
			to := min(float64(t.UpTo), reach)
			if to <= from {
				break
			}
			l.X = append(l.X, x(units.Litres(from)), x(units.Litres(to)))
			l.Y = append(l.Y, t.Total.Float(), t.Total.Float())
			from = to
		}
		p.Lines = append(p.Lines, l)
	}
	at := func(l units.Litres) float64 {
		for _, t := range v.Treads(byvolume.Right) {
			if t.UpTo > l {
				return t.Total.Float()
			}
		}
		return 0
	}
	mark := func(l units.Litres, how string) {
		p.Marks = append(p.Marks, Mark{X: x(l), Y: at(l), Label: fmt.Sprintf("%s %scheaper above %s", right, how, units.FormatVolume(l, sys))})
	}
	if v.First != nil && v.Always != nil && *v.First == *v.Always {
		mark(*v.First, "")
		return p
	}
	if v.First != nil {
		mark(*v.First, "first ")
	}
	if v.Always != nil {
		mark(*v.Always, "always ")
	}
	return p
}

// sideName is what a side is called in a drawing up to a volume: its quote, or where several of one medium take turns
// at being the cheapest, what they have in common.
func sideName(v *byvolume.Volume, w byvolume.Winner, reach float64) string {
	side, all := v.Left, "cheapest bags of "
	if w == byvolume.Right {
		side, all = v.Right, "cheapest bulk of "
	}
	if v.Medium == nil {
		return nameOf(side)
	}
	from := 0.0
	for _, t := range v.Treads(w) {
		if from < reach && t.Quote.Name != side.Name {
			return all + v.Medium.Name
		}
		from = float64(t.UpTo)
	}
	return nameOf(side)
}

// nameOf is the name of a side in words: that of the quote it is named after, if it is.
func nameOf(side byvolume.Side) string {
	if q := namesake(side); q != nil {
		return q.NameWords()
	}
	return side.Name
}
