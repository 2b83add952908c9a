package lpsolve

import "context"

// A linear problem that has not ended after workBase + workPer × (rows + columns)
// iterations is taken to go round in circles: ordinary ones of this project need
// fewer than rows + columns.
const (
	workBase = 2000
	workPer  = 20
)

// SolveSteady solves a linear problem that must not fail for the way it happened
// to be started: when the simplex goes round in circles, gives up on the numbers
// or finds no solution, it starts again from the slack basis with one pricing
// rule after the other. The first Optimal ends it; Infeasible must be said twice
// to be believed; what is neither is a NumericalFailure.
//
// The time limit is for all tries together, and opt's WorkLimit and Pricing are
// set here. The state of r is that of the last try.
func (p *Problem) SolveSteady(ctx context.Context, opt Options, r *Result) error {
	opt.WorkLimit = workBase + workPer*int64(len(p.rows)+len(p.cols))
	infeasible := 0
	for try, rule := range []Pricing{PricingDevex, PricingDevex, PricingSteepest, PricingDantzig, PricingFirstIndex} {
		if try > 0 {
			if err := p.ResetBasis(); err != nil {
				return err
			}
		}
		opt.Pricing = rule
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
