package lpsolve

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// open makes a Problem that is closed with the test.
func open(t testing.TB) *Problem {
	t.Helper()
	p, err := New()
	require.NoError(t, err)
	t.Cleanup(p.Close)
	return p
}

// col adds a column without entries.
func col(t testing.TB, p *Problem, name string, cost, lower, upper float64) int {
	t.Helper()
	j, err := p.AddColumn(name, cost, lower, upper, nil, nil)
	require.NoError(t, err)
	return j
}

// row1 adds a row whose coefficients are those of columns 0, 1, 2 and so on.
func row1(t testing.TB, p *Problem, name string, rel Relation, rhs float64, coef ...float64) int {
	t.Helper()
	at := make([]int, len(coef))
	for k := range at {
		at[k] = k
	}
	i, err := p.AddRow(name, rel, rhs, at, coef)
	require.NoError(t, err)
	return i
}

func solve(t testing.TB, p *Problem, opt Options) Result {
	t.Helper()
	r, err := p.Solve(context.Background(), opt)
	require.NoError(t, err)
	return r
}

// cover makes a seeded covering problem: each row asks for some of perRow
// columns, each column costs something and has an upper bound of 10. It has a
// solution while no bound is under 1.5.
func cover(t testing.TB, rows, cols, perRow int, seed uint64) *Problem {
	rng := rand.New(rand.NewPCG(seed, 1))
	p := open(t)
	for range cols {
		col(t, p, "x", 1+rng.Float64()*9, 0, 10)
	}
	for range rows {
		coef, sum := make([]float64, perRow), 0.0
		for k := range coef {
			coef[k] = 1 + rng.Float64()*4
			sum += coef[k]
		}
		_, err := p.AddRow("need", AtLeast, sum*(0.5+rng.Float64()), rng.Perm(cols)[:perRow], coef)
		require.NoError(t, err)
	}
	return p
}

// long makes a problem whose simplex goes on for seconds.
func long(t testing.TB) *Problem { return cover(t, 4000, 6000, 8, 5) }

// Source: lp_solve 5.5 reference guide, formulate.htm: 143x + 60y at most
// 6315.625 (printed 6315.63) at x = 21.875, y = 53.125.
// Duals by hand: rows 2 and 3 hold with equality, so 110a + b = 143 and
// 30a + b = 60: a = 83/80 = 1.0375, b = 28.875. The cost here is the negative.
func TestGuideFormulate(t *testing.T) {
	p := open(t)
	col(t, p, "x", -143, 0, Infinity)
	col(t, p, "y", -60, 0, Infinity)
	row1(t, p, "acres", AtMost, 15000, 120, 210)
	row1(t, p, "storage", AtMost, 4000, 110, 30)
	row1(t, p, "land", AtMost, 75, 1, 1)
	r := solve(t, p, Options{})
	require.Equal(t, Optimal, r.Status)
	assert.InDelta(t, -6315.625, r.Objective, 1e-9)
	assert.InDeltaSlice(t, []float64{21.875, 53.125}, r.X, 1e-9)
	rows, err := p.Duals(nil)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{0, -1.0375, -28.875}, rows, 1e-9)
}

func guideSensitivity(t testing.TB) *Problem {
	p := open(t)
	col(t, p, "COLONE", 1, 28.6, Infinity)
	col(t, p, "COLTWO", 3, 0, Infinity)
	col(t, p, "COLTHREE", 6.24, 0, Infinity)
	col(t, p, "COLFOUR", 0.1, 18, 48.98)
	row1(t, p, "THISROW", AtLeast, 92.3, 0, 78.26, 0, 2.9)
	row1(t, p, "THATROW", AtMost, 14.8, 0.24, 0, 11.31, 0)
	row1(t, p, "LASTROW", AtLeast, 4, 12.68, 0, 0.08, 0.9)
	return p
}

// Source: lp_solve 5.5 reference guide, sensitivity.htm (figures as printed
// there, to seven digits).
func TestGuideSensitivity(t *testing.T) {
	p := guideSensitivity(t)
	r := solve(t, p, Options{})
	require.Equal(t, Optimal, r.Status)
	assert.InDelta(t, 31.7828, r.Objective, 5e-5)
	assert.InDeltaSlice(t, []float64{28.6, 0, 0, 31.8276}, r.X, 5e-5)

	rows, err := p.Duals(nil)
	require.NoError(t, err)
	assert.InDeltaSlice(t, []float64{0.03448276, 0, 0}, rows, 5e-9)
}

// Rows and columns given in any order, before and after a solve, make the same
// problem as all at once.
func TestBuildInAnyOrder(t *testing.T) {
	p := open(t)
	x := col(t, p, "x", 2, 0, 4)
	i, err := p.AddRow("need", AtLeast, 10, []int{x}, []float64{1})
	require.NoError(t, err)
	// The column enters a row that is there already.
	_, err = p.AddColumn("y", 3, 0, 4, []int{i}, []float64{1})
	require.NoError(t, err)
	r := solve(t, p, Options{})
	assert.Equal(t, Infeasible, r.Status) // 4 + 4 < 10

	_, err = p.AddColumn("z", 7, 0, Infinity, []int{i}, []float64{2})
	require.NoError(t, err)
	r = solve(t, p, Options{})
	require.Equal(t, Optimal, r.Status)
	// x = 4 for 8, then y at 3 a unit before z at 3.5: 8 + 12 + 1·7 = 27.
	assert.InDelta(t, 27, r.Objective, 1e-9)
	assert.InDeltaSlice(t, []float64{4, 4, 1}, r.X, 1e-9)

	// A cut, columns not in order: z ≥ 2 + x - 4, met with x = 4: z = 2.
	_, err = p.AddRow("cut", AtLeast, -2, []int{2, 0}, []float64{1, -1})
	require.NoError(t, err)
	r = solve(t, p, Options{})
	require.Equal(t, Optimal, r.Status)
	// One more of z (+7) spares two of y (-6), or less of x and more of y: with
	// x = 4-a, z = 2-a, y = 10-4+a-4+2a = 2+3a: 8-2a+6+9a+14-7a = 28 for any a
	// up to 2/3.
	assert.InDelta(t, 28, r.Objective, 1e-9)

	require.NoError(t, p.SetRHS(i, 4))
	r = solve(t, p, Options{})
	require.Equal(t, Optimal, r.Status)
	// x with z = x - 2: 3x - 4 = 4 at x = 8/3 costs 2·8/3 + 7·2/3 = 10; x = 2,
	// y = 2 costs 4 + 6 = 10 as well.
	assert.InDelta(t, 10, r.Objective, 1e-9)
	assert.Equal(t, 2, p.Rows())
	assert.Equal(t, 3, p.Columns())
}
