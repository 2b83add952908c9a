package optimise

import (
	"context"
	"errors"
	"time"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/quotes"
)

// Possibility says whether some mix of the quotes fills the beds within the rules.
type Possibility string

// What a look at a job can find.
const (
	MixFound     Possibility = "found"
	NoMix        Possibility = "none"
	MixUnsettled Possibility = "not settled" // time was up
)

// anyTotal is above every bill: with it as a cut-off a search answers whether there
// is a purchase at all, without the reasons.
const anyTotal = 1e12

// Possible looks for any purchase that fills the beds, for about so long, and for
// what stands in the way where there is none; where that could not be named in the
// time, it is not settled. A build that cannot solve settles nothing.
func Possible(ctx context.Context, job *quotes.Job, limit time.Duration) (Possibility, []Obstacle, error) {
	plan, err := Solve(ctx, job, Options{TimeLimit: limit, CutOff: anyTotal})
	switch {
	case errors.Is(err, ErrNoPurchase), errors.Is(err, lpsolve.ErrNotBuilt):
		return MixUnsettled, nil, nil
	case err != nil:
		return "", nil, err
	case plan.Bill != nil:
		return MixFound, nil, nil
	case len(plan.Why) > 0:
		return NoMix, plan.Why, nil
	}
	within, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	plan, err = Solve(within, job, Options{TimeLimit: limit / 4})
	switch {
	case ctx.Err() != nil:
		return "", nil, context.Cause(ctx)
	case within.Err() != nil || errors.Is(err, ErrNoPurchase):
		return MixUnsettled, nil, nil // nothing is called impossible without a reason
	case err != nil:
		return "", nil, err
	}
	if plan.Bill != nil {
		return MixFound, nil, nil
	}
	return NoMix, plan.Why, nil
}
