package quotes

import (
	"math"

	"mediabuy/units"
)

// Grain is a range of grain sizes. The zero Grain is an unstated size.
type Grain struct {
	Known bool
	Min   units.Millimetres // 0 for "minus"
	Max   units.Millimetres // +Inf for "+"
	Raw   string            // as written
	By    string            // the rule that made it millimetres
	Note  string            // a warning to pass on, such as a number that yards also use as their own
}

// Open reports whether the range has no upper end.
func (g Grain) Open() bool { return math.IsInf(float64(g.Max), 1) }
