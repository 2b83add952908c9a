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
	"mediabuy/optimise/risk"
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

// mostForRisk is how long it may take to see how sure a plan is: on very large jobs
// the plan is not kept waiting for it.
const mostForRisk = 15 * time.Second

// RiskLimit is how long it may take beside a user's limit of which some is taken: a
// quarter of it at most, and where the search has used it up a second.
func RiskLimit(limit, taken time.Duration) time.Duration {
	if limit <= 0 {
		return mostForRisk
	}
	return min(mostForRisk, limit/4, max(time.Second, limit-taken))
}

// Assessed is how sure a plan is; nil where that was not worked out in time.
func Assessed(ctx context.Context, r *risk.Reached, limit time.Duration) (*risk.Report, error) {
	within, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	a, err := risk.NewAssessor(r.Job)
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
