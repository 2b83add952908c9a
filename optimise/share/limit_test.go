package share

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
)

// solverFunc is a solver made of a function.
type solverFunc func(context.Context, *mip.Model, mip.Options) (*mip.Answer, error)

func (f solverFunc) Solve(ctx context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
	return f(ctx, m, opt)
}

const threeBeds = "bed,volume,member\nb1,100 L,ash\nb2,200 L,birch\nb3,300 L,cedar\n"

// Answers that a time limit cut short are used and said to be unproven, and are
// not kept for later.
func TestUnproven(t *testing.T) {
	cut := solverFunc(func(ctx context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
		a, err := search.Solver{}.Solve(ctx, m, opt)
		if err == nil && a.Status == mip.Optimal {
			a.Status = mip.Feasible
		}
		return a, err
	})
	var kept *Store
	res := solve(t, read(t, litreQuotes, threeBeds, vanDelivery, ""), Options{
		Solve: optimise.Options{Solver: cut},
		Save:  func(s *Store) error { kept = s; return nil },
	})
	assert.False(t, res.Proven)
	assert.False(t, res.Members[0].Proven)
	assert.Equal(t, optimise.TimeLimit, NewDocument(res, Nucleolus, nil).Status)
	// Kept are the three pairs alone: that nothing beats their joined orders is proven
	// whatever is known of the parts.
	assert.Equal(t, 3, kept.Len())
}

// Where time is up before anything cheaper is found, the joined orders of a
// group's parts stand, unproven.
func TestTimeUpLeavesTheJoinedOrder(t *testing.T) {
	slow := solverFunc(func(ctx context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
		if opt.CutOff == 0 || opt.CutOff == noCutOff {
			opt.TimeLimit = 0 // however slow the machine
			return search.Solver{}.Solve(context.WithoutCancel(ctx), m, opt)
		}
		return nil, context.DeadlineExceeded // as after the time limit, which a loaded machine would let pass before the others end
	})
	res := solve(t, read(t, litreQuotes, threeBeds, vanDelivery, ""), Options{Solve: optimise.Options{Solver: slow}})
	assert.False(t, res.Proven)
	assert.True(t, res.Members[0].Proven, "single members begin from nothing")
	// 100 + 200 + one van: here the joined order is the cheapest.
	assert.Equal(t, "330.00", res.Groups[3].Cost.Text(2))
	assert.False(t, res.Groups[3].Proven)
}

// Where time is up before any order of a group is found, and no parts can be put
// together, the group is not settled: it is no objection, no member that cannot
// buy alone, and nothing is proven.
func TestTimeUpBeforeAnyOrder(t *testing.T) {
	slow := solverFunc(func(ctx context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
		// The pooled order has 600 L to fill; nothing smaller is found.
		if a, err := (search.Solver{}).Solve(ctx, m, opt); err != nil || a.Objective > 600 {
			return a, err
		}
		return &mip.Answer{Status: mip.NoAnswer}, nil
	})
	res := solve(t, read(t, litreQuotes, threeBeds, vanDelivery, ""), Options{
		Solve: optimise.Options{Solver: slow, TimeLimit: time.Second},
	})
	assert.False(t, res.Proven)
	assert.Equal(t, "630.00", sum(res.Chosen.Pays).Text(2))
	for _, m := range res.Members {
		assert.Nil(t, m.Alone)
		assert.Nil(t, m.Leaving)
		assert.False(t, m.Proven)
	}
	for _, g := range res.Groups {
		assert.True(t, g.Unsettled(), g.Members)
	}
	assert.Contains(t, res.Chosen.Reason, "so this split is held against nothing")
	doc := NewDocument(res, Nucleolus, nil)
	assert.Equal(t, optimise.TimeLimit, doc.Status)
	assert.False(t, doc.Exact, "no group was settled")
}

// A failure of the machinery is an error that names the group, joined order or
// not.
func TestSolverFails(t *testing.T) {
	broken := errors.New("the numbers ran out")
	fails := solverFunc(func(ctx context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
		if opt.CutOff != 0 {
			return nil, broken
		}
		return search.Solver{}.Solve(ctx, m, opt)
	})
	_, err := Solve(context.Background(), read(t, litreQuotes, threeBeds, vanDelivery, ""), Options{Solve: optimise.Options{Solver: fails}})
	require.ErrorIs(t, err, broken)
	assert.ErrorContains(t, err, "the order of ")
}
