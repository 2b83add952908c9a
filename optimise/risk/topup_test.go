package risk

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestExpectedTopUpOfStairs(t *testing.T) {
	// 1,000 draws: the first 200 are short by 1 to 200 L. Bags of 50 L at 30, so
	// 50 draws need one bag, 50 two, 50 three and 50 four:
	// 50·(30+60+90+120)/1000 = 15.
	shorts := make([]float64, 1000)
	for d := range 200 {
		shorts[d] = float64(d + 1)
	}
	asked := 0
	bags := func(d int) (float64, error) {
		asked++
		return 30 * math.Ceil(shorts[d]/50), nil
	}
	mean, err := expected(shorts, 200, bags)
	require.NoError(t, err)
	assert.InDelta(t, 15, mean, 1e-9)
	assert.Less(t, asked, 40, "a stair of four steps needs few purchases")

	mean, err = expected(shorts, topUps, bags)
	require.NoError(t, err)
	assert.InDelta(t, 15, mean, 0.2)
}

func TestExpectedTopUpWithNothingShort(t *testing.T) {
	mean, err := expected(make([]float64, 10), topUps, func(int) (float64, error) { return 0, errors.New("not asked") })
	require.NoError(t, err)
	assert.Zero(t, mean)
}

func TestExpectedTopUpOfOneDraw(t *testing.T) {
	mean, err := expected([]float64{0, 7, 0, 0}, topUps, func(d int) (float64, error) {
		require.Equal(t, 1, d)
		return 12, nil
	})
	require.NoError(t, err)
	assert.Equal(t, 3.0, mean)
}

func TestExpectedTopUpKeepsTheError(t *testing.T) {
	broken := errors.New("broken")
	_, err := expected([]float64{1, 2}, topUps, func(int) (float64, error) { return 0, broken })
	require.ErrorIs(t, err, broken)
}
