package chart

import (
	"fmt"

	"mediabuy/optimise/risk"
	"mediabuy/units"
)

// SureAt is a purchase of so many cases of a hundred in which every bed is full, and
// its cost.
type SureAt struct {
	Percent float64
	Words   string // Percent as the reader has it
	Total   units.Money
	Chosen  bool
}

// OfCurve is the panel of a curve.
func OfCurve(currency string, c *risk.Curve) Panel {
	var at []SureAt
	for _, x := range c.Points {
		at = append(at, SureAt{Percent: 100 * x.Sure, Words: x.Cases(), Total: x.Total(), Chosen: x.Chosen})
	}
	return Sureness(currency, at)
}

// Sureness is the panel of cost against sureness, with the chosen purchase marked. It
// rises in stairs: up to what one purchase is sure of it is the cheapest found, and
// from there on the next. Points are in order of cost; one that is no surer than one
// before it is marked at most.
func Sureness(currency string, points []SureAt) Panel {
	p := Panel{Title: "Cost by how sure the buy fills every bed", XWords: "cases of 100 in which every bed is full", YWords: "cost of the whole job, " + currency}
	line := Line{Name: "cheapest buy found that is as sure"}
	at := 0.0
	for _, s := range points {
		if cost := s.Total.Float(); s.Percent > at || len(line.X) == 0 {
			from := at
			if len(line.X) == 0 {
				from = min(50, s.Percent) // nobody plans for less than an even chance
			}
			line.X, line.Y = append(line.X, from, s.Percent), append(line.Y, cost, cost)
			at = s.Percent
		}
		if s.Chosen {
			p.Marks = append(p.Marks, Mark{X: s.Percent, Y: s.Total.Float(), Label: fmt.Sprintf("chosen: %s in %s of 100 cases", units.FormatMoney(s.Total, currency), s.Words)})
		}
	}
	if n := len(line.X); n > 0 && line.X[n-1]-line.X[0] < 1 {
		line.X[0] = max(0, line.X[n-1]-10) // one point alone is drawn as a short stair
	}
	p.Lines = []Line{line}
	return p
}
