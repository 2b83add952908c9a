package lpsolve

import (
	"context"
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestInfeasibleAndUnbounded(t *testing.T) {
	for _, integer := range []bool{false, true} {
		p := open(t)
		col(t, p, "x", -1, 0, Infinity, integer)
		col(t, p, "y", 1, 0, 1, integer)
		row1(t, p, "r", AtLeast, 2, 1, 1)
		r := solve(t, p, Options{})
		assert.Equal(t, Unbounded, r.Status)
		assert.Empty(t, r.X)
		assert.True(t, math.IsInf(r.Bound, -1))

		require.NoError(t, p.SetBounds(0, 0, 0.5))
		r = solve(t, p, Options{})
		assert.Equal(t, Infeasible, r.Status)
		assert.Empty(t, r.X)
		_, err := p.Duals(nil)
		require.Error(t, err)

		require.NoError(t, p.SetBounds(0, 0, 2))
		r = solve(t, p, Options{})
		assert.Equal(t, Optimal, r.Status)
		assert.InDelta(t, -2, r.Objective, 1e-9)
	}
}

// Whole 3x = 2 has no solution though its relaxation has.
func TestInfeasibleWhole(t *testing.T) {
	p := open(t)
	col(t, p, "x", 1, 0, 5, true)
	row1(t, p, "r", Equal, 2, 3)
	assert.Equal(t, Infeasible, solve(t, p, Options{}).Status)
}

func TestTimeLimit(t *testing.T) {
	p := knapsack(t, 60, true)
	r := solve(t, p, Options{TimeLimit: 100 * time.Millisecond})
	require.Equal(t, Feasible, r.Status, r.Detail)
	assert.Equal(t, "time", r.Limit)
	assert.Less(t, r.Bound, r.Objective)
	// The relaxation takes 30.5 of the cheapest columns:
	// 30.5 + (0 + 1 + ... + 29)/1000 + 0.5·0.030 = 30.5 + 0.435 + 0.015.
	assert.InDelta(t, 30.95, r.Bound, 1e-6)
	assert.InDelta(t, 1, r.X[60], 1e-9)

	p = knapsack(t, 60, false)
	r = solve(t, p, Options{TimeLimit: 100 * time.Millisecond})
	require.Equal(t, Limit, r.Status, r.Detail)
	assert.Equal(t, "time", r.Limit)
	assert.Empty(t, r.X)
	assert.InDelta(t, 30.95, r.Bound, 1e-6)

	// The limit is not kept for the next solve.
	require.NoError(t, p.SetRHS(0, 60))
	r = solve(t, p, Options{})
	assert.Equal(t, Optimal, r.Status)
}

// A limit within the first simplex never yields a solution that does not fit.
func TestTimeLimitInRoot(t *testing.T) {
	p := cover(t, 400, 500, 8, true, 3)
	seen := map[Status]bool{}
	for _, d := range []time.Duration{1, time.Microsecond, 100 * time.Microsecond, time.Millisecond, 3 * time.Millisecond, 10 * time.Millisecond, 30 * time.Millisecond} {
		require.NoError(t, p.ResetBasis())
		r := solve(t, p, Options{TimeLimit: d})
		seen[r.Status] = true
		switch r.Status {
		case Limit:
			assert.Empty(t, r.X)
		case Feasible:
			assert.LessOrEqual(t, r.Bound, r.Objective)
			for _, x := range r.X {
				assert.InDelta(t, math.Round(x), x, 1e-5)
			}
		default:
			t.Errorf("%v: status %v", d, r.Status)
		}
	}
	assert.True(t, seen[Limit], "no run stopped within the first simplex")
}

// Stopping a solve anywhere leaves the problem as good as it was. Stopped at its
// first two polls, the library would crash in the next solve.
func TestStoppedThenSolved(t *testing.T) {
	for _, integer := range []bool{false, true} {
		p := cover(t, 12, 14, 5, integer, 8)
		want := solve(t, p, Options{})
		require.Equal(t, Optimal, want.Status)
		limit := time.Duration(1)
		for range 60 {
			require.NoError(t, p.ResetBasis())
			r := solve(t, p, Options{TimeLimit: limit})
			require.Contains(t, []Status{Limit, Feasible, Optimal}, r.Status)
			again := solve(t, p, Options{})
			require.Equal(t, Optimal, again.Status, "after stopping at %v", limit)
			require.InDelta(t, want.Objective, again.Objective, 1e-6)
			limit += limit/5 + 1
		}
	}
}

func TestCancel(t *testing.T) {
	p := knapsack(t, 60, true)
	why := errors.New("the grower closed the window")
	ctx, cancel := context.WithCancelCause(context.Background())
	go func() {
		time.Sleep(50 * time.Millisecond)
		cancel(why)
	}()
	// The search would run for hours; the test's own time limit is the check
	// that it stopped.
	r, err := p.Solve(ctx, Options{})
	require.ErrorIs(t, err, why)
	assert.Equal(t, Cancelled, r.Status)
	assert.Equal(t, "context", r.Limit)
	assert.Len(t, r.X, 61, "the best so far")

	r, err = p.Solve(ctx, Options{})
	require.ErrorIs(t, err, why)
	assert.Equal(t, Cancelled, r.Status)
	assert.Empty(t, r.X)

	late, cancel2 := context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel2()
	r, err = p.Solve(late, Options{})
	require.ErrorIs(t, err, context.DeadlineExceeded)
	assert.Equal(t, Cancelled, r.Status)

	// The problem is as good as before.
	require.NoError(t, p.SetRHS(0, 60))
	live, cancel3 := context.WithCancel(context.Background())
	defer cancel3()
	r, err = p.Solve(live, Options{})
	require.NoError(t, err)
	assert.Equal(t, Optimal, r.Status)
}
