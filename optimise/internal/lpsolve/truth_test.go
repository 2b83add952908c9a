package lpsolve

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

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
			w.addColumn(t, randomColumn(rng, below), nil, nil)
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
			w.change(t, rng, below)
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
