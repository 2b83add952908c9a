package risk

import "math"

// Triangular is the triangular law between Low and High with its peak at Mode:
// the least that can be said of a figure of which only low, usual and high are
// known. Low = Mode = High is a figure without spread.
//
// Mean, variance and quantile are the closed forms of any handbook of
// probability; from memory, and held against the sampling by a test.
type Triangular struct{ Low, Mode, High float64 }

// Mean is (low + mode + high) / 3.
func (t Triangular) Mean() float64 { return (t.Low + t.Mode + t.High) / 3 }

// Variance is (l² + m² + h² − lm − lh − mh) / 18.
func (t Triangular) Variance() float64 {
	l, m, h := t.Low, t.Mode, t.High
	return (l*l + m*m + h*h - l*m - l*h - m*h) / 18
}

// Below is the chance of a value of at most x.
func (t Triangular) Below(x float64) float64 {
	switch {
	case x < t.Low:
		return 0
	case x >= t.High:
		return 1
	case x < t.Mode:
		return (x - t.Low) * (x - t.Low) / ((t.High - t.Low) * (t.Mode - t.Low))
	}
	return 1 - (t.High-x)*(t.High-x)/((t.High-t.Low)*(t.High-t.Mode))
}

// Quantile is the value that a share p of all draws lies below, 0 ≤ p ≤ 1: the
// inverse of [Triangular.Below].
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
