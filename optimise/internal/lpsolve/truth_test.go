package lpsolve

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// wholeProblem is a random problem of whole columns with small bounds, small
// enough to try every point.
func wholeProblem(rng *rand.Rand) *twin {
	w := &twin{}
	for range 1 + rng.IntN(5) {
		c := column{name: "x", integer: true, lower: float64(rng.IntN(4) - 1)}
		c.upper = c.lower + float64(rng.IntN(5))
		c.cost = float64(rng.IntN(40)-10) / []float64{1, 4, 7}[rng.IntN(3)]
		w.cols = append(w.cols, c)
	}
	for i := range 1 + rng.IntN(4) {
		rel := AtMost
		if rng.IntN(3) == 0 {
			rel = AtLeast
		}
		w.rows = append(w.rows, row{"r", rel, float64(rng.IntN(30) - 8)})
		at, coef := randomTerms(rng, len(w.cols))
		for k, j := range at {
			w.terms = append(w.terms, entry{i, j, coef[k]})
		}
	}
	return w
}

// try gives the least cost of all whole points, +Inf if none fits.
func (w *twin) try() float64 {
	best := math.Inf(1)
	x := make([]float64, len(w.cols))
	var at func(j int)
	at = func(j int) {
		if j < len(x) {
			for v := w.cols[j].lower; v <= w.cols[j].upper; v++ {
				x[j] = v
				at(j + 1)
			}
			return
		}
		left := make([]float64, len(w.rows))
		for _, e := range w.terms {
			left[e.row] += e.coef * x[e.col]
		}
		for i, r := range w.rows {
			// Coefficients are quarters, so sums are exact.
			if r.rel == AtMost && left[i] > r.rhs || r.rel == AtLeast && left[i] < r.rhs {
				return
			}
		}
		cost := 0.0
		for j, c := range w.cols {
			cost += c.cost * x[j]
		}
		best = min(best, cost)
	}
	at(0)
	return best
}

func TestWholeLikeEveryPoint(t *testing.T) {
	seen := map[Status]int{}
	for seed := range uint64(1500) {
		rng := rand.New(rand.NewPCG(seed, 21))
		w := wholeProblem(rng)
		want := w.try()
		r := solve(t, w.fresh(t), Options{})
		seen[r.Status]++
		if math.IsInf(want, 1) {
			require.Equal(t, Infeasible, r.Status, "seed %d: %s", seed, r.Detail)
			continue
		}
		require.Equal(t, Optimal, r.Status, "seed %d: %s", seed, r.Detail)
		require.InDelta(t, want, r.Objective, 1e-6, "seed %d", seed)
		require.LessOrEqual(t, r.Bound, want+1e-9)
	}
	assert.Greater(t, seen[Optimal], 500)
	assert.Greater(t, seen[Infeasible], 100)
}

// With columns of both kinds every whole point is a linear problem for the rest.
func TestMixedLikeEveryPoint(t *testing.T) {
	seen := map[Status]int{}
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 41))
		w := &twin{p: open(t)}
		n := 1 + rng.IntN(3)
		for range n {
			c := randomColumn(rng, true, true)
			c.lower = max(c.lower, -1.5)
			c.upper = min(c.upper, c.lower+3.5)
			w.addColumn(t, c, nil, nil)
		}
		for range 1 + rng.IntN(4) {
			w.addColumn(t, randomColumn(rng, true, false), nil, nil)
		}
		for range 1 + rng.IntN(4) {
			at, coef := randomTerms(rng, len(w.cols))
			w.addRow(t, row{"r", AtMost + Relation(rng.IntN(3)), float64(rng.IntN(30) - 5)}, at, coef)
		}
		linear := *w
		linear.cols = slices.Clone(w.cols)
		for j := range n {
			linear.cols[j].integer = false
		}
		p := linear.fresh(t)
		best, unbounded := math.Inf(1), false
		var at func(j int)
		at = func(j int) {
			if j < n {
				for v := math.Ceil(w.cols[j].lower); v <= w.cols[j].upper; v++ {
					require.NoError(t, p.SetBounds(j, v, v))
					at(j + 1)
				}
				return
			}
			switch r := solve(t, p, Options{}); r.Status {
			case Optimal:
				best = min(best, r.Objective)
			case Unbounded:
				unbounded = true
			default:
				require.Equal(t, Infeasible, r.Status)
			}
		}
		at(0)
		r := solve(t, w.p, Options{})
		seen[r.Status]++
		switch {
		case unbounded:
			require.Equal(t, Unbounded, r.Status, "seed %d: %s", seed, r.Detail)
		case math.IsInf(best, 1):
			// An unbounded relaxation ends the search before it looks further.
			require.Contains(t, []Status{Infeasible, Unbounded}, r.Status, "seed %d: %s", seed, r.Detail)
		default:
			require.Equal(t, Optimal, r.Status, "seed %d: %s", seed, r.Detail)
			require.InDelta(t, best, r.Objective, 1e-6*(1+math.Abs(best)), "seed %d", seed)
		}
	}
	for _, s := range []Status{Optimal, Infeasible, Unbounded} {
		assert.Greater(t, seen[s], 10, "%v", s)
	}
}

// At an optimum, for row duals y and reduced costs d:
//
//	d[j] = cost[j] - Σ_i coef[i,j]·y[i]
//	y[i] ≤ 0 for ≤ rows, ≥ 0 for ≥ rows, and y[i]·(Σ_j coef[i,j]·x[j] - rhs[i]) = 0
//	d[j] > 0 only at the lower bound, d[j] < 0 only at the upper
//
// from which Σ_i y[i]·rhs[i] + Σ_j d[j]·x[j] = Σ_j cost[j]·x[j] follows: a proof
// of the optimum that owes nothing to the library.
func TestDualsProveOptimum(t *testing.T) {
	optima := 0
	rapid.Check(t, func(rt *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 31))
		below := rapid.Bool().Draw(rt, "below")
		w := &twin{p: open(t)}
		for range rapid.IntRange(1, 9).Draw(rt, "columns") {
			w.addColumn(t, randomColumn(rng, below, false), nil, nil)
		}
		for range rapid.IntRange(1, 9).Draw(rt, "rows") {
			at, coef := randomTerms(rng, len(w.cols))
			w.addRow(t, row{"r", AtMost + Relation(rng.IntN(3)), float64(rng.IntN(30) - 5)}, at, coef)
		}
		for range 3 { // the second and third from a basis
			r := solve(t, w.p, Options{})
			if r.Status == Optimal {
				optima++
				w.prove(rt, r)
			}
			w.change(t, rng, below, false)
		}
	})
	assert.Greater(t, optima, 5)
}

func (w *twin) prove(t *rapid.T, r Result) {
	y, err := w.p.Duals(nil)
	require.NoError(t, err)
	const tol = 1e-6
	left, sum := make([]float64, len(w.rows)), 0.0
	d := make([]float64, len(w.cols))
	for j, c := range w.cols {
		d[j] = c.cost
	}
	for _, e := range w.terms {
		left[e.row] += e.coef * r.X[e.col]
		d[e.col] -= e.coef * y[e.row]
	}
	for i, row := range w.rows {
		if row.rel != AtLeast {
			assert.LessOrEqual(t, left[i], row.rhs+tol)
			if row.rel == AtMost {
				assert.LessOrEqual(t, y[i], tol)
			}
		}
		if row.rel != AtMost {
			assert.GreaterOrEqual(t, left[i], row.rhs-tol)
			if row.rel == AtLeast {
				assert.GreaterOrEqual(t, y[i], -tol)
			}
		}
		assert.InDelta(t, 0, y[i]*(left[i]-row.rhs), tol*(1+math.Abs(y[i])))
		sum += y[i] * row.rhs
	}
	for j, c := range w.cols {
		assert.GreaterOrEqual(t, r.X[j], c.lower-tol)
		assert.LessOrEqual(t, r.X[j], c.upper+tol)
		if d[j] > tol {
			assert.InDelta(t, c.lower, r.X[j], tol*(1+math.Abs(c.lower)))
		}
		if d[j] < -tol {
			assert.InDelta(t, c.upper, r.X[j], tol*(1+math.Abs(c.upper)))
		}
		sum += d[j] * r.X[j]
	}
	assert.InDelta(t, r.Objective, sum, tol*(1+math.Abs(sum)))
}
