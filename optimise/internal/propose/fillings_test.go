package propose

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"

	"github.com/stretchr/testify/require"
)

// mixed is the model and the mixer of a random job with one quote in each layer.
func mixed(seed uint64, shape randjob.Shape) (*model.Program, *Mixer) {
	job := randjob.Job(seed, shape)
	job.Settings.LayerMix = quotes.OneMix
	p := model.Build(model.NewInstance(job, suitability.New(job), false), model.Options{Strong: true})
	return p, NewMixer(context.Background(), p)
}

// frame is one bed of two layers, 100 L each, that bears 160 kg.
func frame(t *testing.T) (*model.Program, *Mixer) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price\ng,Yard,grit,100 L,10\nf,Yard,fluff,50 L,20\n",
		Beds:   "bed,volume,top_volume,limit\none,200 L,100 L,160 kg\n",
		Media:  jobtest.PlainMedia, Settings: "layer_mix = \"one\"\n",
	}.Job(t)
	p := model.Build(model.NewInstance(job, suitability.New(job), false), model.Options{Strong: true})
	return p, NewMixer(context.Background(), p)
}

// A litre of grit weighs 1 kg and of fluff half a kilogram, so two layers of grit weigh 200 kg, one of each 150 kg. The
// bed bears 160 kg: its fillings take 100 L of each or 200 L of fluff, and at least 100 L of fluff. 200 L of grit in all
// break that by half of all litres, 100 L of each do not.
func TestFillingsOfAFrame(t *testing.T) {
	p, m := frame(t)
	f, err := newFillings(m, 0)
	require.NoError(t, err)
	defer f.lp.Close()
	buy := func(grit, fluff float64) []float64 {
		x := make([]float64, len(p.Cols))
		x[p.N[[2]int{0, 0}]], x[p.N[[2]int{1, 0}]] = grit, fluff
		return x
	}
	row, ok, err := f.row(context.Background(), buy(2, 0))
	require.NoError(t, err)
	require.True(t, ok)
	value := func(x []float64) (v float64) {
		for _, term := range row.Terms {
			v += term.Coef * x[term.Col]
		}
		return v
	}
	require.Less(t, value(buy(2, 0)), row.RHS)
	for _, enough := range [][]float64{buy(1, 2), buy(0, 4), buy(0.5, 3)} {
		require.GreaterOrEqual(t, value(enough), row.RHS)
		_, ok, err = f.row(context.Background(), enough)
		require.NoError(t, err)
		require.False(t, ok)
	}
	s := m.empty()
	f.mean(s) // of half a filling with grit and half one without: there is one bed, so it is one of them
	require.Contains(t, [][]float64{{100, 100}, {0, 200}}, s.litres)
	require.Zero(t, s.passed)
}

// Whatever lies in the layers within the limits, what it takes keeps every row that other purchases broke.
func TestEveryFillingKeepsTheRows(t *testing.T) {
	jobtest.Long(t)
	held := 0
	for seed := range uint64(10) {
		p, m := mixed(seed, randjob.All(1+int(seed%2), 3, 10, 8))
		if slices.ContainsFunc(m.suits, func(su mixSuit) bool { return len(su.classes) == 0 }) {
			continue // nothing may lie there
		}
		for s := range p.In.Sites {
			f, err := newFillings(m, s)
			require.NoError(t, err)
			defer f.lp.Close()
			rng := rand.New(rand.NewPCG(seed, 3))
			var rows []mip.Row
			for range 20 {
				x := make([]float64, len(p.Cols))
				for _, k := range f.classes {
					it := &m.Items[m.itemOf[k]]
					x[it.col] = f.litres * rng.Float64() * 2 / float64(len(f.classes)) / it.placed
				}
				row, ok, err := f.row(context.Background(), x)
				require.NoError(t, err)
				if ok {
					rows = append(rows, row)
				}
			}
			for range 200 {
				mix := m.empty()
				for u, su := range m.suits {
					for range su.layers {
						m.put(mix, u, rng.IntN(len(su.classes)), 1)
					}
				}
				if !m.mend(mix) {
					continue
				}
				for _, row := range rows {
					sum := 0.0
					for _, term := range row.Terms {
						i := itemAt(m, term.Col)
						sum += term.Coef * mix.litres[i] / m.Items[i].placed
					}
					require.GreaterOrEqual(t, sum, row.RHS-1e-9, "seed %d", seed)
					held++
				}
			}
		}
	}
	require.Greater(t, held, 1000)
}

func itemAt(m *Mixer, col int) int {
	for i := range m.Items {
		if m.Items[i].col == col {
			return i
		}
	}
	return -1
}

// What looking ahead comes to is a purchase of the model, and the search of the layers themselves finds none below its
// bound.
func TestLookAheadHoldsTheLeast(t *testing.T) {
	jobtest.Long(t)
	proven := 0
	for seed := range uint64(8) {
		p, m := mixed(seed, randjob.All(1+int(seed%2), 3, 8, 6))
		ahead, err := m.LookAhead(context.Background(), search.Solver{}, time.Time{})
		require.NoError(t, err)
		ans, err := search.Solver{}.Solve(context.Background(), p.Model, mip.Options{})
		require.NoError(t, err)
		if ans.Status == mip.Infeasible {
			require.Nil(t, ahead.X, "seed %d", seed)
			continue
		}
		require.Equal(t, mip.Optimal, ans.Status)
		require.LessOrEqual(t, ahead.Bound, ans.Objective+1e-6, "seed %d", seed)
		if ahead.X == nil {
			continue
		}
		require.Empty(t, p.Check(ahead.X, 1e-6), "seed %d", seed)
		require.GreaterOrEqual(t, p.Value(ahead.X), ans.Objective-mip.DefaultGap-1e-6, "seed %d", seed)
		if p.Value(ahead.X)-ahead.Bound <= mip.DefaultGap {
			proven++
		}
	}
	require.Positive(t, proven)
}

// Told that the time is over, looking ahead still has a purchase as a rule, and told to stop it stops.
func TestLookAheadStops(t *testing.T) {
	found := 0
	for seed := range uint64(6) {
		p, m := mixed(seed, randjob.Simple(5, 25, 40))
		ahead, err := m.LookAhead(context.Background(), search.Solver{}, time.Now().Add(-time.Second))
		require.NoError(t, err)
		if ahead.X != nil {
			require.Empty(t, p.Check(ahead.X, 1e-6), "seed %d", seed)
			found++
		}
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		_, err = NewMixer(ctx, p).LookAhead(ctx, search.Solver{}, time.Time{})
		require.ErrorIs(t, err, context.Canceled)
	}
	require.Greater(t, found, 2)
}
