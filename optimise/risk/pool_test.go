package risk

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// twoLayers needs at least top litres of item 0 and all litres together; item 1
// is refused on top. Its shortage is known in closed form: what the top lacks,
// or what all lacks, whichever is more.
type twoLayers struct{ top, all float64 }

func (n twoLayers) short(_ context.Context, l []float64) (float64, []float64, float64, []float64, error) {
	top, all := n.top-l[0], n.all-l[0]-l[1]
	switch {
	case max(top, all) <= 0:
		first := max(n.top, n.all-l[1])
		return 0, nil, 0, []float64{first, n.all - first}, nil
	case top > all:
		return top, []float64{1, 0}, n.top, nil, nil
	}
	return all, []float64{1, 1}, n.all, nil, nil
}

func TestPoolFindsEveryShortageWithFewPrograms(t *testing.T) {
	need := twoLayers{100, 300}
	r := rand.New(rand.NewPCG(1, 2))
	draws := make([][2]float64, Draws)
	for d := range draws {
		draws[d] = [2]float64{90 + 40*r.Float64(), 150 + 100*r.Float64()}
	}
	p := &pool{of: need}
	out := make([]float64, Draws)
	at := func(d int, buf []float64) []float64 { return append(buf[:0], draws[d][0], draws[d][1]) }
	require.NoError(t, p.shorts(context.Background(), Draws, at, out))
	for d, l := range draws {
		want := max(0, need.top-l[0], need.all-l[0]-l[1])
		if want <= tol {
			want = 0
		}
		require.InDelta(t, want, out[d], 1e-9, "draw %d", d)
	}
	assert.Less(t, p.lps, 400)
}

func TestPoolWithoutSpread(t *testing.T) {
	out := make([]float64, Draws)
	p := &pool{of: twoLayers{100, 300}}
	at := func(_ int, buf []float64) []float64 { return append(buf[:0], 100, 200) }
	require.NoError(t, p.shorts(context.Background(), Draws, at, out))
	for _, s := range out {
		require.Zero(t, s)
	}
	assert.Equal(t, 1, p.lps)
}
