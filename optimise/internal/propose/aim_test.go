package propose

import (
	"context"
	"math"
	"testing"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"

	"github.com/stretchr/testify/require"
)

// Laying keeps to what is bought: where layers are brought from one purchase to a cheaper one, all of them are laid still,
// no item lies more than is bought of it, and no limit is passed.
func TestAimsAtCheaperPurchases(t *testing.T) {
	reached := 0
	for seed := range uint64(10) {
		job := randjob.Job(seed, randjob.Simple(4, 14, 20))
		job.Settings.LayerMix = quotes.OneMix
		p := model.Build(model.NewInstance(job, suitability.New(job), false), model.Options{Strong: true})
		m := NewMixer(context.Background(), p)
		for i := range m.Items {
			s := m.mostly(i)
			if s == nil || !m.mend(s) {
				continue
			}
			n, cost := m.buy(s)
			if math.IsInf(cost, 1) {
				continue
			}
			w := worked{s, n, cost}
			m.budget = 200_000
			if !m.aims(&w) {
				require.Equal(t, cost, w.cost)
				continue
			}
			reached++
			require.Less(t, w.cost, cost)
			require.InDelta(t, m.Cost(w.n, nil), w.cost, 1e-9)
			require.Zero(t, w.passed, "seed %d", seed)
			litres := make([]float64, len(m.Items))
			for u, su := range m.suits {
				layers := 0
				for j, k := range w.layers[u] {
					require.GreaterOrEqual(t, k, 0)
					layers += k
					litres[m.itemOf[su.classes[j]]] += float64(k) * su.litres
				}
				require.Equal(t, su.layers, layers, "seed %d", seed)
			}
			for i := range litres {
				require.LessOrEqual(t, litres[i], float64(w.n[i])*m.Items[i].placed*(1+1e-9), "seed %d", seed)
			}
		}
	}
	require.Greater(t, reached, 20)
}
