package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestTriangularByHand(t *testing.T) {
	// 95-100-105 %: symmetric, so mean and median are 1; the variance of a
	// symmetric triangle of half width a is a²/6 = 0.05²/6.
	law := Triangular{0.95, 1, 1.05}
	assert.InDelta(t, 1, law.Mean(), 1e-12)
	assert.InDelta(t, 0.05*0.05/6, law.Variance(), 1e-15)
	assert.InDelta(t, 1, law.Quantile(0.5), 1e-12)
	// One in ten lies below 0.95 + √(0.1·0.10·0.05) = 0.95 + 0.0223607.
	assert.InDelta(t, 0.9723607, law.Quantile(0.1), 1e-7)
	assert.InDelta(t, 0.1, law.Below(0.9723607), 1e-6)

	// Settling 3-5-8 %: the mode lies at 2/5 of the width.
	law = Triangular{0.03, 0.05, 0.08}
	assert.InDelta(t, 0.16/3, law.Mean(), 1e-12)
	assert.InDelta(t, 0.4, law.Below(0.05), 1e-12)
	assert.InDelta(t, 0.05, law.Quantile(0.4), 1e-12)
}

func TestTriangularWithoutSpread(t *testing.T) {
	law := Triangular{0.2, 0.2, 0.2}
	assert.Equal(t, 0.2, law.Quantile(0.01))
	assert.InDelta(t, 0.2, law.Mean(), 1e-15)
	assert.Zero(t, law.Variance())
	assert.Zero(t, law.Below(0.19))
	assert.Equal(t, 1.0, law.Below(0.2))
}

func TestQuantileUndoesBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(0.01, 10).Draw(t, "low")
		mode := low + rapid.Float64Range(0, 5).Draw(t, "rise")
		high := mode + rapid.Float64Range(0.01, 5).Draw(t, "fall")
		law := Triangular{low, mode, high}
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		x := law.Quantile(p)
		assert.GreaterOrEqual(t, x, low)
		assert.LessOrEqual(t, x, high)
		assert.InDelta(t, p, law.Below(x), 1e-9)
	})
}

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
