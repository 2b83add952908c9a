package risk

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// one item brings what is not short.
func oneItem(shorts []float64) func(int) []float64 {
	return func(d int) []float64 { return []float64{-shorts[d]} }
}

func TestTopUpOfStairs(t *testing.T) {
	// 1,000 draws: the first 200 are short by 1 to 200 L. Bags of 50 L at 30, so
	// 50 draws need one bag, 50 two, 50 three and 50 four:
	// 50·(30+60+90+120)/1000 = 15. Nineteen of twenty keep within 950 draws: 800
	// with nothing, 150 with up to three bags, 90.
	shorts := make([]float64, 1000)
	for d := range 200 {
		shorts[d] = float64(d + 1)
	}
	asked := 0
	bags := func(d int) (float64, error) {
		asked++
		return 30 * math.Ceil(shorts[d]/50), nil
	}
	got, err := overDraws(shorts, 200, oneItem(shorts), bags)
	require.NoError(t, err)
	assert.InDelta(t, 15, got.mean, 1e-9)
	assert.InDelta(t, 90, got.p95, 1e-9)
	assert.Less(t, asked, 40, "a stair of four steps needs few purchases")

	got, err = overDraws(shorts, topUps, oneItem(shorts), bags)
	require.NoError(t, err)
	assert.InDelta(t, 15, got.mean, 0.2)
}

// Two items, of which each may fall short: 1,000 draws of what either lacks, evenly up to 100 L, at 30 for a bag of one and 70
// for a bag of the other. What the bad case in litres costs is not the bad case in money, as here the one or the other is short.
func TestTopUpOfTwoItems(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	items := make([][]float64, 1000)
	shorts, costs := make([]float64, len(items)), make([]float64, len(items))
	for d := range items {
		lack := [2]float64{max(0, 200*r.Float64()-100), max(0, 200*r.Float64()-100)}
		items[d] = []float64{-lack[0], -lack[1]}
		shorts[d] = lack[0] + lack[1]
		costs[d] = 30*math.Ceil(lack[0]/50) + 70*math.Ceil(lack[1]/50)
	}
	mean := 0.0
	for _, c := range costs {
		mean += c / float64(len(costs))
	}
	cost := func(d int) (float64, error) { return costs[d], nil }
	brings := func(d int) []float64 { return items[d] }
	all, err := overDraws(shorts, len(items), brings, cost)
	require.NoError(t, err)
	assert.InDelta(t, mean, all.mean, 1e-9, "with every draw known it is the mean")
	few, err := overDraws(shorts, topUps, brings, cost)
	require.NoError(t, err)
	assert.InDelta(t, mean, few.mean, 0.05*mean)
	slices.Sort(costs)
	assert.InDelta(t, costs[len(costs)*95/100-1], all.p95, 1e-9)
	assert.InDelta(t, all.p95, few.p95, 30, "within a bag")
}

func TestTopUpWithNothingShort(t *testing.T) {
	shorts := make([]float64, 10)
	got, err := overDraws(shorts, topUps, oneItem(shorts), func(int) (float64, error) { return 0, errors.New("not asked") })
	require.NoError(t, err)
	assert.Zero(t, got)
}

func TestTopUpOfOneDraw(t *testing.T) {
	shorts := []float64{0, 7, 0, 0}
	got, err := overDraws(shorts, topUps, oneItem(shorts), func(d int) (float64, error) {
		require.Equal(t, 1, d)
		return 12, nil
	})
	require.NoError(t, err)
	assert.Equal(t, 3.0, got.mean)
}

func TestTopUpKeepsTheError(t *testing.T) {
	broken := errors.New("broken")
	shorts := []float64{1, 2}
	_, err := overDraws(shorts, topUps, oneItem(shorts), func(int) (float64, error) { return 0, broken })
	require.ErrorIs(t, err, broken)
}
