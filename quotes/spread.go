package quotes

import (
	"regexp"

	"mediabuy/units"
)

// Spread is a figure that is not known exactly: the least it may be, what it
// usually is, and the most it may be; Low ≤ Usual ≤ High.
type Spread[T ~float64] struct{ Low, Usual, High T }

// Exactly is a figure without spread.
func Exactly[T ~float64](v T) Spread[T] { return Spread[T]{v, v, v} }

// Wide reports whether the figure has any spread.
func (s Spread[T]) Wide() bool { return s.Low < s.High }

// bulkRule finds the units that mean a heap and not a bag in a Measure's rule.
var bulkRule = regexp.MustCompile(`(^|, )1 (yd³|m³|short ton|long ton|t) = `)

// UsualForm is the form of a pack whose quote does not say it: by the yard, the cubic metre or the ton it is bulk (common practice, no source).
func UsualForm(pack units.Amount) Form {
	if bulkRule.MatchString(pack.Volume.By) || bulkRule.MatchString(pack.Mass.By) {
		return Bulk
	}
	return Bag
}

// DefaultFill is what a pack really holds, as a share of the volume it is sold as,
// where the quote does not say: bulk is measured by the bucket, bags are filled by
// weight or by a hopper (common practice, no source). Packages sold in the United
// States are held to NIST Handbook 133, whose largest allowed shortfall for mulch
// and soil sold by volume is 5 % (from memory; that it covers stone is not
// established).
func DefaultFill(f Form) Spread[float64] {
	if f == Bulk {
		return Spread[float64]{0.95, 1, 1.05}
	}
	return Spread[float64]{0.98, 1, 1.02}
}

// Weights says at which densities frames are held to their limits.
type Weights string

// The two ways to weigh.
const (
	HeavyWeights Weights = "heavy" // high values of dry density and held water
	UsualWeights Weights = "usual"
)

// DryDensity is the loose dry density of what is sold: the yard's figure in place
// of the medium's usual one, and in place of the high one where it is higher, and
// of the low one where it is lower.
func (q *Quote) DryDensity() Spread[units.Density] {
	d := q.Medium.DryDensity
	if q.Density > 0 {
		return Spread[units.Density]{min(d.Low, q.Density), q.Density, max(d.High, q.Density)}
	}
	return d
}

// Flooded is the weight in kilograms of one placed litre of what is sold, of which
// the share below stands under water: dry weight, water held by the drained grains,
// and water in the spaces between them,
//
//	dry_density + held_water + below·voids·0.998 kg/L
//
// with the usual voids in both ways to weigh.
func (q *Quote) Flooded(below float64, w Weights) float64 {
	dry, held := q.DryDensity(), q.Medium.HeldWater
	wet := below * q.Medium.Voids.Usual * WaterAt20C
	if w == UsualWeights {
		return float64(dry.Usual) + held.Usual + wet
	}
	return float64(dry.High) + held.High + wet
}
