package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSamplesFollowTheLaw(t *testing.T) {
	for _, law := range []Triangular{{0.95, 1, 1.05}, {0.02, 0.05, 0.11}, {0.3, 0.3, 0.9}, {0.3, 0.9, 0.9}, {1, 1, 1}} {
		out := make([]float64, Draws)
		law.sample(stream("lava", "", "fill"), out)
		mean, below := 0.0, 0
		median := law.Quantile(0.5)
		for _, x := range out {
			mean += x / Draws
			if x < median {
				below++
			}
		}
		// Four standard errors: of the mean, and of a share of one half.
		assert.InDelta(t, law.Mean(), mean, 4*math.Sqrt(law.Variance()/Draws)+1e-12)
		if law.High > law.Low {
			assert.InDelta(t, 0.5, float64(below)/Draws, 4*math.Sqrt(0.25/Draws))
		}
	}
}

func TestStreamsAreTheSameEachTimeAndApart(t *testing.T) {
	a, again, b := make([]float64, 100), make([]float64, 100), make([]float64, 100)
	law := Triangular{0, 0.5, 1}
	law.sample(stream("lava", "north", "fill"), a)
	law.sample(stream("lava", "north", "fill"), again)
	law.sample(stream("lavan", "orth", "fill"), b)
	assert.Equal(t, a, again)
	assert.NotEqual(t, a, b)
}
