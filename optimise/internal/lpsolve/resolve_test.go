package lpsolve

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWarmStart(t *testing.T) {
	p := cover(t, 60, 90, 6, 2)
	cold := solve(t, p, Options{})
	require.Equal(t, Optimal, cold.Status)
	require.Greater(t, cold.Iterations, int64(40))

	again := solve(t, p, Options{})
	assert.Zero(t, again.Iterations)
	assert.InDeltaSlice(t, cold.X, again.X, 1e-9)

	root, err := p.GetBasis(nil)
	require.NoError(t, err)
	// One bound less: a handful of iterations, against a full solve without
	// the basis.
	j := 0
	for k, x := range cold.X {
		if x > cold.X[j] {
			j = k
		}
	}
	require.NoError(t, p.SetBounds(j, 0, cold.X[j]-1))
	warm := solve(t, p, Options{})
	require.Equal(t, Optimal, warm.Status)
	assert.Greater(t, warm.Objective, cold.Objective)
	assert.Positive(t, warm.Iterations)
	assert.Less(t, warm.Iterations, cold.Iterations/4)

	require.NoError(t, p.ResetBasis())
	reset := solve(t, p, Options{})
	assert.InDelta(t, warm.Objective, reset.Objective, 1e-6)
	assert.Greater(t, reset.Iterations, cold.Iterations/2)

	_, err = p.Duals(nil)
	require.NoError(t, err)
	require.NoError(t, p.ResetBasis())
	_, err = p.Duals(nil)
	require.ErrorContains(t, err, "not solved", "duals of another basis")

	// The first basis still answers the first problem at once.
	require.NoError(t, p.SetBounds(j, 0, 10))
	require.NoError(t, p.SetBasis(root))
	back := solve(t, p, Options{})
	assert.Zero(t, back.Iterations)
	assert.InDelta(t, cold.Objective, back.Objective, 1e-9)

	// The buffer is used again.
	same, err := p.GetBasis(root)
	require.NoError(t, err)
	assert.Same(t, &root[0], &same[0])
}

func TestBasisBeforeSolve(t *testing.T) {
	p := open(t)
	_, err := p.GetBasis(nil)
	require.ErrorContains(t, err, "get_basis has no basis")
	require.NoError(t, p.ResetBasis())
}

// twin is a problem built step by step next to a record of what it should be, so
// that it can be built again from nothing.
type twin struct {
	p     *Problem
	cols  []column
	rows  []row
	terms []entry
}

func (w *twin) addColumn(t testing.TB, c column, at []int, coef []float64) {
	for k, i := range at {
		w.terms = append(w.terms, entry{i, len(w.cols), coef[k]})
	}
	_, err := w.p.AddColumn(c.name, c.cost, c.lower, c.upper, at, coef)
	require.NoError(t, err)
	w.cols = append(w.cols, c)
}

func (w *twin) addRow(t testing.TB, r row, at []int, coef []float64) {
	for k, j := range at {
		w.terms = append(w.terms, entry{len(w.rows), j, coef[k]})
	}
	_, err := w.p.AddRow(r.name, r.rel, r.rhs, at, coef)
	require.NoError(t, err)
	w.rows = append(w.rows, r)
}

// fresh builds the problem at once and for the first time.
func (w *twin) fresh(t testing.TB) *Problem {
	p := open(t)
	for _, c := range w.cols {
		col(t, p, c.name, c.cost, c.lower, c.upper)
	}
	for i, r := range w.rows {
		var at []int
		var coef []float64
		for _, e := range w.terms {
			if e.row == i {
				at, coef = append(at, e.col), append(coef, e.coef)
			}
		}
		_, err := p.AddRow(r.name, r.rel, r.rhs, at, coef)
		require.NoError(t, err)
	}
	return p
}

func randomColumn(rng *rand.Rand, below bool) column {
	c := column{name: "x", cost: rng.Float64()*9 + 1, upper: float64(rng.IntN(9))}
	if rng.IntN(4) == 0 {
		c.cost = -c.cost
	}
	switch rng.IntN(4) {
	case 0:
		c.upper = Infinity
	case 1:
		c.lower = min(c.upper, float64(rng.IntN(4)))
	}
	if below && rng.IntN(3) == 0 {
		c.lower = []float64{-3, -0.5, -2e6}[rng.IntN(3)]
	}
	return c
}

func randomTerms(rng *rand.Rand, n int) (at []int, coef []float64) {
	at = rng.Perm(n)[:rng.IntN(min(n, 4)+1)]
	coef = make([]float64, len(at))
	for k := range coef {
		coef[k] = float64(rng.IntN(41)-10) / 4
	}
	return at, coef
}

// A problem changed and solved over and over answers as one built afresh does.
// This is what caught the library starting from a bound that has become infinite
// and calling the outcome OPTIMAL.
func TestChangedLikeFresh(t *testing.T) {
	for name, c := range map[string]struct{ below, bases bool }{
		"linear":         {},
		"linear, bases":  {bases: true},
		"below 0":        {below: true},
		"below 0, bases": {below: true, bases: true},
	} {
		t.Run(name, func(t *testing.T) {
			seen := map[Status]int{}
			for seed := range uint64(40) {
				rng := rand.New(rand.NewPCG(seed, 11))
				w := &twin{p: open(t)}
				for range 3 + rng.IntN(4) {
					w.addColumn(t, randomColumn(rng, c.below), nil, nil)
				}
				for range 2 + rng.IntN(4) {
					at, coef := randomTerms(rng, len(w.cols))
					w.addRow(t, row{"r", AtMost + Relation(rng.IntN(2)), float64(rng.IntN(30) - 5)}, at, coef)
				}
				var bases []Basis
				for step := range 25 {
					w.change(t, rng, c.below)
					if len(bases) > 0 && rng.IntN(2) == 0 {
						if b := bases[rng.IntN(len(bases))]; len(b) == len(w.cols)+len(w.rows)+1 {
							require.NoError(t, w.p.SetBasis(b))
						}
					}
					got, want := solve(t, w.p, Options{}), solve(t, w.fresh(t), Options{})
					require.Equal(t, want.Status, got.Status, "seed %d, step %d: %s", seed, step, got.Detail)
					require.InDelta(t, want.Objective, got.Objective, 1e-6*(1+max(want.Objective, -want.Objective)), "seed %d, step %d", seed, step)
					seen[got.Status]++
					if c.bases {
						if b, err := w.p.GetBasis(nil); err == nil {
							bases = append(bases, b)
						}
					}
				}
			}
			assert.Greater(t, seen[Optimal], 100)
			assert.Greater(t, seen[Infeasible], 10)
			assert.Zero(t, seen[NumericalFailure])
		})
	}
}

// change makes one of the changes a caller can make.
func (w *twin) change(t testing.TB, rng *rand.Rand, below bool) {
	j := rng.IntN(len(w.cols))
	switch rng.IntN(8) {
	case 0:
		w.cols[j].cost = rng.Float64()*9 - 1
		require.NoError(t, w.p.SetCost(j, w.cols[j].cost))
	case 1:
		i := rng.IntN(len(w.rows))
		w.rows[i].rhs = float64(rng.IntN(30) - 5)
		require.NoError(t, w.p.SetRHS(i, w.rows[i].rhs))
	case 2:
		if len(w.rows) < 12 {
			at, coef := randomTerms(rng, len(w.cols))
			w.addRow(t, row{"cut", AtMost + Relation(rng.IntN(3)), float64(rng.IntN(20))}, at, coef)
		}
	case 3:
		if len(w.cols) < 12 {
			at, coef := randomTerms(rng, len(w.rows))
			w.addColumn(t, randomColumn(rng, below), at, coef)
		}
	default:
		c := randomColumn(rng, below)
		w.cols[j].lower, w.cols[j].upper = c.lower, c.upper
		require.NoError(t, w.p.SetBounds(j, c.lower, c.upper))
	}
}

// A limit on work stops at the same place each time and is never called Optimal;
// SolveSteady sets its own limit and gets through.
func TestWorkLimit(t *testing.T) {
	build := func() *Problem {
		p, err := New()
		require.NoError(t, err)
		for j := range 30 {
			_, err := p.AddColumn(fmt.Sprintf("x%d", j), float64(1+j%7), 0, 10, nil, nil)
			require.NoError(t, err)
		}
		for i := range 30 {
			cols, coef := []int{}, []float64{}
			for j := range 30 {
				cols, coef = append(cols, j), append(coef, float64(1+(i*j)%5))
			}
			_, err := p.AddRow(fmt.Sprintf("r%d", i), AtLeast, float64(20+i), cols, coef)
			require.NoError(t, err)
		}
		return p
	}
	p := build()
	defer p.Close()
	r, err := p.Solve(context.Background(), Options{WorkLimit: 3})
	require.NoError(t, err)
	require.NotEqual(t, Optimal, r.Status)
	require.Equal(t, "work", r.Limit)
	var full, steady Result
	require.NoError(t, p.SolveInto(context.Background(), Options{}, &full))
	require.Equal(t, Optimal, full.Status)
	for _, rule := range []Pricing{PricingDevex, PricingSteepest, PricingDantzig, PricingFirstIndex} {
		q := build()
		r, err := q.Solve(context.Background(), Options{Pricing: rule})
		q.Close()
		require.NoError(t, err)
		require.InDelta(t, full.Objective, r.Objective, 1e-7)
	}
	require.NoError(t, p.SolveSteady(context.Background(), Options{}, &steady))
	require.InDelta(t, full.Objective, steady.Objective, 1e-9)
	_, err = p.Solve(context.Background(), Options{Pricing: 9})
	require.Error(t, err)
}
