package risk

import "math"

// Triangular is the triangular law between Low and High with its peak at Mode:
// the least that can be said of a figure of which only low, usual and high are
// known. Low = Mode = High is a figure without spread.
//
// Its quantiles are the closed form of any handbook of probability; from memory, and held
// against its chances and the sampling by tests.
type Triangular struct{ Low, Mode, High float64 }

// Quantile is the value that a share p of all draws lies below, 0 ≤ p ≤ 1.
func (t Triangular) Quantile(p float64) float64 {
	width := t.High - t.Low
	if width <= 0 {
		return t.Mode
	}
	if turn := (t.Mode - t.Low) / width; p < turn {
		return t.Low + math.Sqrt(p*width*(t.Mode-t.Low))
	}
	// Not below low: the two parts meet at the mode only as far as binary fractions do.
	return max(t.Low, t.High-math.Sqrt((1-p)*width*(t.High-t.Mode)))
}
