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

// CompareWays adds what a plan is compared with: other ways to buy, the same at other
// weights, small changes.
func CompareWays(ctx context.Context, v *show.PlanView, opt optimise.Options) error {
	var err error
	if v.Tidied.Way == "" {
		v.Others, v.OthersErr = optimise.Alternatives(ctx, v.Reached.Job, opt)
	}
	if errors.Is(v.OthersErr, context.Canceled) {
		return v.OthersErr
	}
	if v.OtherWeights, err = risk.AtOtherWeights(ctx, v.Reached.Job, opt); err != nil {
		return err
	}
	if v.Plan.Status == optimise.Optimal && v.Tidied.Way == "" {
		// Of a plan that may be bettered anyway, what a change saves says nothing.
		v.Small, err = breakeven.SmallChanges(ctx, v.Reached.Job, v.Plan, breakeven.Options{TimeLimit: opt.TimeLimit})
	}
	return err
}

// Patience is how long each thing that is said beside a plan may be worked at where no
// user's limit is shorter: it is there to help, and the plan must not wait long for it.
type Patience struct {
	Look  time.Duration // for whether any mix can fill the beds, where only that is asked
	Sure  time.Duration // for how sure the plan is, where there is no limit
	Other time.Duration // for each plainer way to buy
	Curve time.Duration // for cost against sureness, where there is no limit: a dozen searches, each with what finishing costs
}

// Usual is the patience with a person who waits.
func Usual() Patience {
	return Patience{Look: time.Second, Sure: risk.AssessLimit(0, 0), Other: 5 * time.Second, Curve: time.Minute}
}

const (
	leastForOthers = time.Second
	others         = 8
)

// OtherLimit is the time limit of each plainer way to buy: a share of what the
// user's limit leaves, if there is one.
func (p Patience) OtherLimit(limit, taken time.Duration) time.Duration {
	if limit == 0 {
		return p.Other
	}
	return min(p.Other, max(leastForOthers, (limit-taken)/others))
}

// SureLimit is how long it may take to see how sure the plan is.
func (p Patience) SureLimit(limit, taken time.Duration) time.Duration {
	if limit <= 0 {
		return p.Sure
	}
	return risk.AssessLimit(limit, taken)
}

// CurveLimit is how long cost against sureness may take: what a user's limit leaves,
// and a second where it is used up.
func (p Patience) CurveLimit(limit, taken time.Duration) time.Duration {
	if limit <= 0 {
		return p.Curve
	}
	return max(time.Second, limit-taken)
}
