package ways

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"

	"github.com/stretchr/testify/require"
)

// twoLayers is a unit of two layers with a heavy kind (column 0, 2) and a light one (1, 3) in each, of which both
// layers together bear one heavy one.
func twoLayers(t *testing.T) *hull {
	h := &hull{name: "table", most: []float64{100}, layers: [][]kind{
		{{uses: []float64{70}, cols: []int{0}}, {uses: []float64{20}, cols: []int{1}}},
		{{uses: []float64{70}, cols: []int{2}}, {uses: []float64{20}, cols: []int{3}}},
	}}
	require.NoError(t, h.prepare())
	t.Cleanup(h.lp.Close)
	return h
}

// The table bears 100 kg, so 70 + 20 kg and not 70 + 70: the ways are heavy-light, light-heavy and light-light, and at
// least one whole layer is light. With 0.8 of the heavy one in the first layer and 0.4 in the second, 0.8·70 + 0.2·20 = 60 kg
// and 0.4·70 + 0.6·20 = 40 kg, the limit is kept, and only 0.2 + 0.6 = 0.8 of a layer is light.
func TestWaysOfTwoLayers(t *testing.T) {
	h := twoLayers(t)
	x := []float64{0.8, 0.2, 0.4, 0.6}
	row, ok, err := h.row(context.Background(), x)
	require.NoError(t, err)
	require.True(t, ok)
	sum := func(x []float64) (s float64) {
		for _, term := range row.Terms {
			s += term.Coef * x[term.Col]
		}
		return s
	}
	require.Less(t, sum(x), row.RHS-leastBroken)
	for _, way := range [][]float64{{1, 0, 0, 1}, {0, 1, 1, 0}, {0, 1, 0, 1}} {
		require.GreaterOrEqual(t, sum(way), row.RHS, way)
	}
	require.Less(t, sum([]float64{1, 0, 1, 0}), row.RHS, "two heavy ones are no way")

	_, ok, err = h.row(context.Background(), []float64{0.5, 0.5, 0.5, 0.5}) // half of heavy-light, half of light-heavy
	require.NoError(t, err)
	require.False(t, ok, "between two ways nothing is broken")
	_, ok, err = h.row(context.Background(), []float64{1, 0, 1, 0})
	require.NoError(t, err)
	require.False(t, ok, "what is whole is held against the limit itself")
}

// Of the units of random jobs, every way to fill one, by trying them all, satisfies every row told of a random point,
// and the point breaks it.
func TestEveryWaySatisfiesTheRows(t *testing.T) {
	jobtest.Long(t)
	rows := 0
	for seed := range uint64(12) {
		job := randjob.Job(seed, randjob.All(1, 3, 10, 8))
		job.Settings.LayerMix = quotes.OneMix
		p := model.Build(model.NewInstance(job, suitability.New(job), false), model.Options{Strong: true})
		w, err := New(context.Background(), p)
		require.NoError(t, err)
		rng := rand.New(rand.NewPCG(seed, 1))
		for _, h := range w.hulls {
			ways := everyWay(h)
			if ways == nil {
				continue
			}
			for range 5 {
				x := make([]float64, len(p.Cols))
				for _, kinds := range h.layers { // a layer is filled by two kinds, in any parts
					part := rng.Float64()
					a, b := kinds[rng.IntN(len(kinds))], kinds[rng.IntN(len(kinds))]
					x[a.cols[0]] += part
					x[b.cols[0]] += 1 - part
				}
				row, ok, err := h.row(context.Background(), x)
				require.NoError(t, err)
				if !ok {
					continue
				}
				rows++
				sum := 0.0
				coef := map[int]float64{}
				for _, term := range row.Terms {
					coef[term.Col] = term.Coef
					sum += term.Coef * x[term.Col]
				}
				require.Less(t, sum, row.RHS-leastBroken/2, "seed %d, %s", seed, h.name)
				for _, way := range ways {
					sum := 0.0
					for l, k := range way {
						cols := h.layers[l][k].cols
						for _, col := range cols {
							require.Equal(t, coef[cols[0]], coef[col], "quotes of a kind count alike")
						}
						sum += coef[cols[0]]
					}
					require.GreaterOrEqual(t, sum, row.RHS, "seed %d, %s, way %v", seed, h.name, way)
				}
			}
		}
		w.Close()
	}
	require.Greater(t, rows, 30)
}

// everyWay is all ways within the limits, nil where there are more than some thousands to try.
func everyWay(h *hull) [][]int {
	all := 1
	for _, kinds := range h.layers {
		if all *= len(kinds); all > 20_000 {
			return nil
		}
	}
	out := [][]int{}
	for at := range all {
		var way []int
		used := make([]float64, len(h.most))
		for _, kinds := range h.layers {
			k := at % len(kinds)
			at /= len(kinds)
			way = append(way, k)
			for i := range used {
				used[i] += kinds[k].uses[i]
			}
		}
		if noMore(used, h.most) {
			out = append(out, way)
		}
	}
	return out
}

// Of random tables the cheapest way is that of all there are, tried one after the other.
func TestCheapestIsTheLeastOfAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	none, bound := 0, 0
	for range 300 {
		g := []float64{rng.Float64(), rng.Float64(), rng.Float64()}
		var layers []Layer
		for range 1 + rng.IntN(4) {
			l := Layer{Litres: 1 + rng.Float64()}
			for of := range g {
				l.Choices = append(l.Choices, Choice{of, []float64{rng.Float64(), rng.Float64()}})
			}
			layers = append(layers, l)
		}
		most := []float64{rng.Float64() * 2, rng.Float64() * 2}
		least, free := math.Inf(1), math.Inf(1)
		var try func(a int, cost float64, used []float64)
		try = func(a int, cost float64, used []float64) {
			if a == len(layers) {
				if free = min(free, cost); noMore(used, most) {
					least = min(least, cost)
				}
				return
			}
			for _, c := range layers[a].Choices {
				try(a+1, cost+g[c.Of]*layers[a].Litres, []float64{used[0] + c.Uses[0], used[1] + c.Uses[1]})
			}
		}
		try(0, 0, []float64{0, 0})
		pick, cost, ok := NewTable(layers, most).Cheapest(g)
		require.Equal(t, !math.IsInf(least, 1), ok)
		if !ok {
			none++
			continue
		}
		require.InDelta(t, least, cost, 1e-12)
		sum := 0.0
		for a, j := range pick {
			sum += g[layers[a].Choices[j].Of] * layers[a].Litres
		}
		require.InDelta(t, cost, sum, 1e-12)
		if least > free {
			bound++
		}
	}
	require.Greater(t, none, 20)
	require.Greater(t, bound, 20)
}
