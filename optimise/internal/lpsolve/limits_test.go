package lpsolve

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestInfeasibleAndUnbounded(t *testing.T) {
	p := open(t)
	col(t, p, "x", -1, 0, Infinity)
	col(t, p, "y", 1, 0, 1)
	row1(t, p, "r", AtLeast, 2, 1, 1)
	r := solve(t, p, Options{})
	assert.Equal(t, Unbounded, r.Status)
	assert.Empty(t, r.X)

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

// A limit never yields a solution that does not fit, and is not kept for the next solve.
func TestTimeLimit(t *testing.T) {
	p := cover(t, 400, 500, 8, 3)
	seen := map[Status]bool{}
	for _, d := range []time.Duration{1, time.Microsecond, 100 * time.Microsecond, time.Millisecond, 3 * time.Millisecond, 10 * time.Millisecond, 30 * time.Millisecond} {
		require.NoError(t, p.ResetBasis())
		r := solve(t, p, Options{TimeLimit: d})
		seen[r.Status] = true
		switch r.Status {
		case Limit:
			assert.Equal(t, "time", r.Limit)
			assert.Empty(t, r.X)
		case Feasible:
			assert.Equal(t, "time", r.Limit)
			assert.True(t, p.fits(r.X))
		default:
			assert.Equal(t, Optimal, r.Status, d)
		}
	}
	assert.True(t, seen[Limit], "no run was stopped")
	assert.Equal(t, Optimal, solve(t, p, Options{}).Status)
}

// Stopping a solve anywhere leaves the problem as good as it was. Stopped at its
// first two polls, the library would crash in the next solve.
func TestStoppedThenSolved(t *testing.T) {
	p := cover(t, 60, 90, 6, 8)
	want := solve(t, p, Options{})
	require.Equal(t, Optimal, want.Status)
	for work := int64(1); work <= want.Iterations+4; work++ {
		require.NoError(t, p.ResetBasis())
		r := solve(t, p, Options{WorkLimit: work})
		require.Contains(t, []Status{Limit, Feasible, Optimal}, r.Status)
		again := solve(t, p, Options{})
		require.Equal(t, Optimal, again.Status, "after stopping at %d", work)
		require.InDelta(t, want.Objective, again.Objective, 1e-6)
	}
}

func TestCancel(t *testing.T) {
	p := long(t)
	why := errors.New("the grower closed the window")
	ctx, cancel := context.WithCancelCause(context.Background())
	go func() {
		time.Sleep(20 * time.Millisecond)
		cancel(why)
	}()
	r, err := p.Solve(ctx, Options{})
	require.ErrorIs(t, err, why)
	assert.Equal(t, Cancelled, r.Status)
	assert.Equal(t, "context", r.Limit)

	r, err = p.Solve(ctx, Options{})
	require.ErrorIs(t, err, why)
	assert.Equal(t, Cancelled, r.Status)
	assert.Empty(t, r.X)

	late, cancel2 := context.WithTimeout(context.Background(), 20*time.Millisecond)
	defer cancel2()
	r, err = p.Solve(late, Options{})
	require.ErrorIs(t, err, context.DeadlineExceeded)
	assert.Equal(t, Cancelled, r.Status)

	// The problem is as good as before: with nothing asked for it is done at once.
	for i := range p.Rows() {
		require.NoError(t, p.SetRHS(i, 0))
	}
	require.NoError(t, p.ResetBasis())
	live, cancel3 := context.WithCancel(context.Background())
	defer cancel3()
	r, err = p.Solve(live, Options{})
	require.NoError(t, err)
	assert.Equal(t, Optimal, r.Status)
	assert.Zero(t, r.Objective)
}
