package share

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/share/costgame"
)

func TestRoundSplit(t *testing.T) {
	for _, c := range []struct {
		name   string
		x      []float64
		total  int64
		groups []priced
		want   []int64
	}{
		{"whole already", []float64{10, 20}, 30, nil, []int64{10, 20}},
		{"noise is no odd cent", []float64{9.9999999999, 20.0000000001}, 30, nil, []int64{10, 20}},
		{"largest remainder", []float64{1.2, 1.5, 1.3}, 4, nil, []int64{1, 2, 1}},
		{"equal remainders, the earlier", []float64{33.0 + 1.0/3, 33.0 + 1.0/3, 33.0 + 1.0/3}, 100, nil, []int64{34, 33, 33}},
		{"a member is paid", []float64{-1.5, 4.5}, 3, nil, []int64{-1, 4}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, roundSplit(c.x, c.total, c.groups))
		})
	}
	halves := []float64{10.5, 10.5, 10.5, 10.5}
	// The first two would get both odd cents and pay 22 where they pay 21 alone; one
	// of them gets one instead.
	assert.Equal(t, []int64{11, 10, 11, 10}, roundSplit(halves, 42, []priced{{0b0011, 21}}))
	// Exact parts of 21 above a cost of 20: they object anyway, and nothing is moved.
	assert.Equal(t, []int64{11, 11, 10, 10}, roundSplit(halves, 42, []priced{{0b0011, 20}}))
	// Every pair pays 21 at most alone: some pair must bear an odd cent too many.
	var pairs []priced
	for g := costgame.Group(1); g < 16; g++ {
		if g.Size() == 2 {
			pairs = append(pairs, priced{g, 21})
		}
	}
	assert.Equal(t, int64(1), worst(pairs, roundSplit(halves, 42, pairs)))
}

// Rounded parts add up, and each is the exact one cut down or one more.
func TestRoundSplitAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		total := rapid.Int64Range(0, 1e9).Draw(t, "total")
		w := rapid.SliceOfN(rapid.Float64Range(0.001, 1), n, n).Draw(t, "weights")
		x := fractions(w)
		for i := range x {
			x[i] *= float64(total)
		}
		var groups []priced
		for range rapid.IntRange(0, 5).Draw(t, "groups") {
			g := costgame.Group(rapid.Uint64Range(1, uint64(costgame.All(n))).Draw(t, "group"))
			groups = append(groups, priced{g, rapid.Int64Range(0, 1e9).Draw(t, "cost")})
		}
		got := roundSplit(x, total, groups)
		add := int64(0)
		for i, v := range got {
			add += v
			require.LessOrEqual(t, float64(v)-x[i], 1.0)
			require.LessOrEqual(t, x[i]-float64(v), 1.0)
		}
		require.Equal(t, total, add)
	})
}

func TestCombinations(t *testing.T) {
	to, n := []int{0, 1}, 1
	for next(to, 4) {
		n++
	}
	assert.Equal(t, 6, n)
	assert.Equal(t, []int{2, 3}, to)
	assert.Equal(t, 924, choose(12, 6))
	assert.Greater(t, choose(40, 20), mostTries)
	assert.False(t, next([]int{}, 3))
}
