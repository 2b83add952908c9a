// Package beside works out what is said beside a plan, within what its time limit leaves:
// how sure it is, what other ways to buy cost, and what a report is made of.
package beside

import (
	"context"
	"errors"
	"time"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
)

// CompareWays adds what a plan is compared with: other ways to buy, the same at usual
// weights, small changes.
func CompareWays(ctx context.Context, v *show.PlanView, opt optimise.Options) error {
	var err error
	if v.Tidied.Way == "" {
		v.Others, v.OthersErr = optimise.Alternatives(ctx, v.Reached.Job, opt)
	}
	if errors.Is(v.OthersErr, context.Canceled) {
		return v.OthersErr
	}
	if v.Usual, err = optimise.AtUsualWeights(ctx, v.Reached.Job, opt); err != nil {
		return err
	}
	if v.Plan.Status == optimise.Optimal && v.Tidied.Way == "" {
		// Of a plan that may be bettered anyway, what a change saves says nothing.
		v.Small, err = breakeven.SmallChanges(ctx, v.Reached.Job, v.Plan, breakeven.Options{TimeLimit: opt.TimeLimit})
	}
	return err
}

// How long each plainer way to buy may be searched for: they are there to be
// compared, and the plan must not wait long for them.
const (
	mostForOthers  = 5 * time.Second
	leastForOthers = time.Second
	others         = 8
)

// OtherLimit is the time limit of each plainer way to buy: a share of what the
// user's limit leaves, if there is one.
func OtherLimit(limit, taken time.Duration) time.Duration {
	if limit == 0 {
		return mostForOthers
	}
	return min(mostForOthers, max(leastForOthers, (limit-taken)/others))
}

// CurveLimit is how long cost against sureness may take: what a user's limit leaves,
// and a second where it is used up.
func CurveLimit(limit, taken time.Duration) time.Duration {
	if limit <= 0 {
		return mostForCurve
	}
	return max(time.Second, limit-taken)
}

// mostForCurve is how long cost against sureness may take where no limit is given: it is
// a dozen searches, each with what finishing costs.
const mostForCurve = time.Minute
