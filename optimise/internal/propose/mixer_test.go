package propose

import (
	"context"
	"math"
	"testing"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"

	"github.com/stretchr/testify/require"
)

// Of random jobs in which one quote fills each layer, what is offered costs in the model what it was taken to cost, fills
// every layer and keeps every limit of a bed; what wandering finds is never dearer than what it began with, often cheaper,
// and the same each time.
func TestMixerOffers(t *testing.T) {
	jobtest.Long(t)
	cheaper := 0
	for seed := range uint64(8) {
		job := randjob.Job(seed, randjob.All(1, 4, 12, 10))
		job.Settings.LayerMix = quotes.OneMix
		offered := func() []float64 {
			p := model.Build(model.NewInstance(job, suitability.New(job), false), model.Options{Strong: true})
			m := NewMixer(context.Background(), p)
			best, costs := math.Inf(1), []float64(nil)
			require.NoError(t, m.Propose(make([]float64, len(p.Cols)), best, true, func(x []float64) bool {
				v := p.Value(x)
				require.Less(t, v, best, "seed %d: an offer is cheaper than the one before", seed)
				best, costs = v, append(costs, v)
				for u, su := range m.suits {
					filled := 0.0
					for _, col := range su.cols {
						filled += x[col] * p.Scale(u)
					}
					require.InDelta(t, float64(su.layers)*su.litres, filled, 1e-6, "seed %d: %s", seed, p.In.Suits[u].Name)
				}
				for _, un := range p.In.Units {
					for _, row := range p.UnitRows(un) {
						sum := 0.0
						for _, term := range row.Terms {
							sum += term.Coef * x[term.Col]
						}
						require.LessOrEqual(t, sum, row.RHS*(1+1e-6)+1e-6, "seed %d: %s", seed, row.Name)
					}
				}
				return true
			}))
			if m.kept != nil && len(costs) > 0 {
				require.InDelta(t, m.kept.cost, costs[len(costs)-1], 0.01, "seed %d", seed)
			}
			return costs
		}
		costs := offered()
		require.Equal(t, costs, offered(), "seed %d", seed)
		if n := len(costs); n > 1 && costs[n-1] < 0.99*costs[0] {
			cheaper++
		}
	}
	require.Greater(t, cheaper, 2)
}
