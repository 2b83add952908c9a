package risk

import (
	"context"
	"errors"
	"time"

	"mediabuy/optimise"
)

// FairlySure is the share of cases below which a buyer is told at once that beds may stay short.
const FairlySure = 0.9

// mostForAssess is how long it may take to see how sure a plan is: on very large jobs
// the plan is not kept waiting for it.
const mostForAssess = 15 * time.Second

// AssessLimit is how long it may take beside a user's limit of which some is taken: a
// quarter of it at most, and where the search has used it up a second.
func AssessLimit(limit, taken time.Duration) time.Duration {
	if limit <= 0 {
		return mostForAssess
	}
	return min(mostForAssess, limit/4, max(time.Second, limit-taken))
}

// Assessed is how sure a plan is; nil where that was not worked out in time.
func Assessed(ctx context.Context, r *Reached, limit time.Duration) (*Report, error) {
	within, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	a, err := NewAssessor(r.Job)
	if err != nil {
		return nil, err
	}
	defer a.Close()
	report, err := a.Assess(within, r.Plan.Purchase, optimise.Options{TimeLimit: limit})
	if err != nil && ctx.Err() == nil && (within.Err() != nil || errors.Is(err, optimise.ErrNoPurchase)) {
		return nil, nil
	}
	return report, err
}
