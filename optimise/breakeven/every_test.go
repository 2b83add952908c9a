package breakeven

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes/files/jobtest"
)

// Where free delivery comes in at hundreds of prices, some closer together than a
// cent, what is told at a price in whole cents is still the cheapest there: solved
// by itself at cents near 0, where they crowd, and elsewhere.
func TestEveryWholeCent(t *testing.T) {
	jobtest.Long(t)
	ctx := context.Background()
	crowded, checked := 0, 0
	for _, c := range []struct {
		seed  uint64
		quote string
	}{{39, "q007"}} {
		job := randjob.Job(c.seed, randjob.Simple(3, 8, 6))
		target := named(c.quote)(job)
		s := series(t, job, []Target{target}, Options{Depth: Every})[0]
		require.True(t, s.Hinged)
		for i := range s.Changes[1:] {
			if s.Changes[i+1].At.Sub(s.Changes[i].At).Float() < 0.01 {
				crowded++
			}
		}
		r := rand.New(rand.NewPCG(c.seed, 5))
		for range 80 {
			x := decimalAt(math.Round(100*target.Now.Float()*math.Pow(r.Float64(), 4)) / 100)
			plan, err := optimise.Solve(ctx, target.at(job, x, x), optimise.Options{})
			require.NoError(t, err)
			w := newWorld(job)
			found, err := w.newCandidate(target, translate(plan.Purchase, plan.Job, job))
			require.NoError(t, err)
			i, ok := found.active(x.Float())
			require.True(t, ok)
			for _, p := range s.Pieces {
				if p.Proven && x.Cmp(p.From) > 0 && x.Cmp(p.To) < 0 {
					checked++
					require.LessOrEqual(t, p.Cost(x).Float(), found.segments[i].value(x.Float())+2*halfCent, "seed %d, %s at %s", c.seed, c.quote, x)
				}
			}
		}
	}
	require.Positive(t, crowded)
	require.Greater(t, checked, 40)
}

// A point that cannot be settled ends the search for it, and what is told of its
// stretch is not called proven.
func TestStuckPointsAreNotProven(t *testing.T) {
	s := &sweep{hinged: true, grain: 0.01, facts: []fact{{u: 9, x: 0, value: 9}, {u: 9, x: 9, value: 9}}}
	p := piece{lo: 1, hi: 2, cand: &candidate{segments: []segment{{aF: 9}}}}
	require.True(t, s.proven(p))
	require.False(t, s.known(1.5, 1.5, 10))
	s.stuck = []check{{u: 1.5, x: 1.5}}
	require.True(t, s.known(1.5, 1.5, 10), "it is not asked again")
	require.False(t, s.proven(p))
	require.True(t, s.proven(piece{lo: 3, hi: 4, cand: p.cand}))
}
