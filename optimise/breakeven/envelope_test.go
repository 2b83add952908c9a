package breakeven

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/units"
)

func dec(s string) units.Decimal { return units.D(s) }

// corner is a candidate that costs a + b·x from −1000 on.
func corner(name string, a, b float64) *candidate {
	return &candidate{key: name, segments: []segment{newSegment(dec("-1000"), units.DecimalOf(a), units.DecimalOf(b))}}
}

// walk is the names of the pieces and the places between them.
func walk(pool []*candidate, lo, hi float64) (names []string, at []float64) {
	for i, p := range envelope(pool, lo, hi) {
		names = append(names, p.cand.key)
		if i > 0 {
			at = append(at, p.lo)
		}
	}
	return names, at
}

// Corner points of published linear programs stand for purchases: the envelope
// must find the published breaks of the objective.
func TestPublishedBreaksAndRanges(t *testing.T) {
	// F. S. Hillier and G. J. Lieberman, Introduction to Operations Research,
	// parametric programming (from memory): max (3+2t)x1 + (5−t)x2 over the Wyndor
	// region breaks at t = 9/7 and t = 5, with the pieces 36−2t, 27+5t and 12+8t.
	t.Run("parametric", func(t *testing.T) {
		var pool []*candidate
		for name, c := range map[string][2]float64{"(0,0)": {0, 0}, "(0,6)": {0, 6}, "(2,6)": {2, 6}, "(4,3)": {4, 3}, "(4,0)": {4, 0}} {
			pool = append(pool, corner(name, -(3*c[0]+5*c[1]), -(2*c[0]-c[1])))
		}
		names, at := walk(pool, 0, 20)
		assert.Equal(t, []string{"(2,6)", "(4,3)", "(4,0)"}, names)
		require.Len(t, at, 2)
		assert.InDelta(t, 9.0/7, at[0], 1e-9)
		assert.InDelta(t, 5, at[1], 1e-9)
		values := envelope(pool, 0, 20)
		for i, want := range [][2]float64{{36, -2}, {27, 5}, {12, 8}} {
			s := values[i].cand.segments[0]
			assert.Equal(t, want, [2]float64{-s.aF, -s.bF})
		}
	})
	// The same book's door price range, 0 to 750 at 300 (seen on published slides):
	// max x·D + 500·W over the same region.
	t.Run("door price", func(t *testing.T) {
		var pool []*candidate
		for name, c := range map[string][2]float64{"(0,0)": {0, 0}, "(0,6)": {0, 6}, "(2,6)": {2, 6}, "(4,3)": {4, 3}, "(4,0)": {4, 0}} {
			pool = append(pool, corner(name, -500*c[1], -c[0]))
		}
		names, at := walk(pool, -100, 2000)
		assert.Equal(t, []string{"(0,6)", "(2,6)", "(4,3)"}, names)
		assert.InDeltaSlice(t, []float64{0, 750}, at, 1e-9)
	})
	// JuMP documentation, tutorial "Sensitivity analysis of a linear program"
	// (seen): at x = (15, 1.25) the cost 12 of the first may fall by 0.333 or rise by 3.
	// min c·x + 20y − 1 with 6x + 8y ≥ 100, 7x + 12y ≥ 120, x + y ≤ 20, 0 ≤ y ≤ 3 has
	// the corners (15, 1.25), (12⅔, 3), (17 1/7, 0), (17, 3) and (20, 0).
	t.Run("sensitivity", func(t *testing.T) {
		var pool []*candidate
		for name, c := range map[string][2]float64{"(15,1.25)": {15, 1.25}, "(12.67,3)": {38.0 / 3, 3}, "(17.14,0)": {120.0 / 7, 0}, "(17,3)": {17, 3}, "(20,0)": {20, 0}} {
			pool = append(pool, corner(name, 20*c[1]-1, c[0]))
		}
		names, at := walk(pool, 0, 30)
		assert.Equal(t, []string{"(17.14,0)", "(15,1.25)", "(12.67,3)"}, names)
		assert.InDeltaSlice(t, []float64{12 - 1.0/3, 15}, at, 1e-3)
	})
	// lp_solve 5.5 reference guide, page "sensitivity" (seen): the cost 0.1 of
	// COLFOUR may go from 0 to 0.1111679. The program's own ranging prints no lower
	// limit, which solving again below 0 refutes. With COLONE at its least of 28.6,
	// 78.26·TWO + 2.9·FOUR ≥ 92.3 and 18 ≤ FOUR ≤ 48.98 leave three corners.
	t.Run("a limit that ranging misses", func(t *testing.T) {
		pool := []*candidate{
			corner("18", 28.6+3*(92.3-2.9*18)/78.26, 18), corner("31.8", 28.6, 92.3/2.9), corner("48.98", 28.6, 48.98),
		}
		names, at := walk(pool, -1, 1)
		assert.Equal(t, []string{"48.98", "31.8", "18"}, names)
		assert.InDeltaSlice(t, []float64{0, 0.1111679}, at, 1e-7)
	})
}

// A buy that is let off its fee at 4: 10 + x before, 2 + x from there on. Against
// a flat 12 it wins up to 2 and again from 4 to 10.
func TestEnvelopeJumps(t *testing.T) {
	let := &candidate{key: "let off", segments: []segment{
		newSegment(dec("0"), dec("10"), dec("1")), newSegment(dec("4"), dec("2"), dec("1")),
	}}
	flat := corner("flat", 12, 0)
	names, at := walk([]*candidate{flat, let}, 0, 20)
	assert.Equal(t, []string{"let off", "flat", "let off", "flat"}, names)
	assert.InDeltaSlice(t, []float64{2, 4, 10}, at, 1e-9)
	pieces := envelope([]*candidate{flat, let}, 0, 20)
	assert.Equal(t, []bool{false, true, false, false}, []bool{pieces[0].jump, pieces[1].jump, pieces[2].jump, pieces[3].jump})
}

// Of buys that cost the same the first of the pool stands.
func TestEnvelopeTies(t *testing.T) {
	names, at := walk([]*candidate{corner("a", 1, 1), corner("b", 1, 1)}, 0, 5)
	assert.Equal(t, []string{"a"}, names)
	assert.Empty(t, at)
}
