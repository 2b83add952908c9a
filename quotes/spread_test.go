package quotes

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/units"
)

func sampleMedium() *Medium {
	return &Medium{
		DryDensity: Spread[units.Density]{0.6, 0.8, 1.0}, HeldWater: Spread[float64]{0.05, 0.12, 0.2}, Voids: Spread[float64]{0.4, 0.5, 0.6},
	}
}

func TestFlooded(t *testing.T) {
	q := &Quote{Medium: sampleMedium()}
	// Usual: 0.8 + 0.12 = 0.92 dry and drained; 0.5 × 0.998 = 0.499 of water above that.
	assert.InDelta(t, 0.92, q.Flooded(0, UsualWeights), 1e-12)
	assert.InDelta(t, 0.92+0.499, q.Flooded(1, UsualWeights), 1e-12)
	assert.InDelta(t, 0.92+0.2495, q.Flooded(0.5, UsualWeights), 1e-12)
	// Heavy: 1.0 + 0.2, and the usual voids.
	assert.InDelta(t, 1.2+0.499, q.Flooded(1, HeavyWeights), 1e-12)
	// A yard's own density counts in place of the usual one, and of the high one only
	// where it is higher.
	q.Density = 0.9
	assert.InDelta(t, 0.9+0.12, q.Flooded(0, UsualWeights), 1e-12)
	assert.InDelta(t, 1.2, q.Flooded(0, HeavyWeights), 1e-12)
	q.Density = 1.1
	assert.InDelta(t, 1.1+0.2, q.Flooded(0, HeavyWeights), 1e-12)
	q.Density = 0.5
	assert.InDelta(t, 0.5+0.12, q.Flooded(0, UsualWeights), 1e-12)
	assert.InDelta(t, 1.2, q.Flooded(0, HeavyWeights), 1e-12)
}

func TestQuoteDryDensity(t *testing.T) {
	q := &Quote{Medium: sampleMedium()}
	assert.Equal(t, Spread[units.Density]{0.6, 0.8, 1.0}, q.DryDensity())
	q.Density = 0.5
	assert.Equal(t, Spread[units.Density]{0.5, 0.5, 1.0}, q.DryDensity())
	q.Density = 1.2
	assert.Equal(t, Spread[units.Density]{0.6, 1.2, 1.2}, q.DryDensity())
}
