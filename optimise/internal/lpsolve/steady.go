//go:build cgo

package lpsolve

import (
	"context"
	"slices"
	"time"
)

// A linear problem that has not ended after workBase + per × (rows + columns)
// iterations is taken to go round in circles: ordinary ones of this project need
// fewer than rows + columns, and starting anew with another rule leads to the end
// sooner than going on. The last tries are long, so that nothing is given up early.
const workBase = 2000

// pricingTry is a pricing rule, and how many iterations it has for each row and column.
type pricingTry struct {
	rule Pricing
	per  int64
}

// tries are the ways in which a problem is solved, one after the other.
var tries = []pricingTry{
	{PricingDevex, 4}, {PricingDevex, 4}, {PricingSteepest, 4}, {PricingDantzig, 20}, {PricingFirstIndex, 20},
}

// SolveSteady solves a linear problem that must not fail for the way it happened
// to be started: when the simplex goes round in circles, gives up on the numbers
// or finds no solution, it starts again from the slack basis with one pricing
// rule after the other. The first Optimal ends it; Infeasible must be said twice
// to be believed; what is neither is a NumericalFailure.
//
// The time limit is for all tries together. opt's Pricing goes first, and its
// WorkLimit is set here. The state of r is that of the last try.
func (p *Problem) SolveSteady(ctx context.Context, opt Options, r *Result) error {
	infeasible := 0
	begun, limit := time.Now(), opt.TimeLimit
	first := slices.Clone(tries)
	if i := slices.IndexFunc(first, func(try pricingTry) bool { return try.rule == opt.Pricing }); i > 0 {
		first[0].rule, first[i].rule = first[i].rule, first[0].rule
	}
	for i, try := range first {
		if i > 0 {
			if limit > 0 {
				opt.TimeLimit = max(time.Nanosecond, limit-time.Since(begun))
			}
			if err := p.ResetBasis(); err != nil {
				return err
			}
		}
		opt.Pricing, opt.WorkLimit = try.rule, workBase+try.per*int64(len(p.rows)+len(p.cols))
		if err := p.SolveInto(ctx, opt, r); err != nil {
			return err
		}
		switch {
		case r.Status == Optimal || r.Limit == "time":
			return nil
		case r.Status == Limit || r.Status == Feasible:
			r.Status = NumericalFailure // it went round in circles
		case r.Status == Infeasible:
			if infeasible++; infeasible == 2 {
				return nil
			}
		}
	}
	r.Status = NumericalFailure
	return nil
}
