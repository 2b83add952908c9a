// Package figure sets an answer out to look at: its numbers in the reader's habit, and its
// drawings, which are bars of cost, beds cut lengthwise and curves, as plain structs for
// templates. What it says of a job it is told; it solves nothing.
package figure

import (
	"fmt"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers"
	"mediabuy/units"
)

// Scribe writes numbers in the reader's habit.
type Scribe struct {
	units.System
	Code string // of the currency
}

// Money is an amount with its currency.
func (s Scribe) Money(m units.Money) string { return units.FormatMoney(m, s.Code) }

// Volume is a volume in the reader's unit.
func (s Scribe) Volume(v units.Litres) string { return units.FormatVolume(v, s.System) }

func (s Scribe) length(v units.Millimetres) string { return units.FormatLength(v, s.System) }

// Style is how papers for this reader are set.
func (s Scribe) Style() papers.Style {
	return papers.Style{Units: s.System, Letter: papers.LetterFor(s.Code)}
}

// Per is the volume that money is compared for, the same as in reports.
func (s Scribe) Per() (name string, v units.Litres) {
	name, v, _ = optimise.ComparedPer(s.System)
	return name, v
}

// PerMoney is money for the volume of Per, always with the digits that it is compared with:
// cents, or for a litre finer ones, as cents would take too much away.
func (s Scribe) PerMoney(m units.Money) string {
	_, _, digits := optimise.ComparedPer(s.System)
	return units.FormatMoneyTo(m, s.Code, digits)
}

// mass is a weight in pounds or kilograms, never in tons, so that weights held
// against one another read alike.
func (s Scribe) mass(m units.Kilograms) string {
	if s.System == units.US {
		return fmt.Sprintf("%.0f lb", float64(m/units.Pound))
	}
	return fmt.Sprintf("%.0f kg", float64(m))
}

// More says a difference of money: "$12.00 more", "$3.00 less".
func (s Scribe) More(m units.Money) string {
	switch {
	case m.Sign() > 0:
		return s.Money(m) + " more"
	case m.Sign() < 0:
		return s.Money(m.Neg()) + " less"
	}
	return "no difference"
}

// Price is the price of a pack, in the one form of money.
func (s Scribe) Price(m units.Money) string { return units.FormatPrice(m, s.Code) }

// Obstacles says what stands in the way of an infeasible job, and what would help.
func (s Scribe) Obstacles(p *optimise.Plan) []string {
	var out []string
	for _, o := range p.Why {
		about := o.AboutWith(s.Volume)
		out = append(out, strings.Join(about, ", ")+": "+o.Remedy)
	}
	if len(out) == 0 {
		out = append(out, optimise.NoOneObstacle)
	}
	return out
}
