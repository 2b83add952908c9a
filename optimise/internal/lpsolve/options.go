package lpsolve

// #include "bridge.h"
import "C"

import (
	"fmt"
	"math"
	"time"
)

// Options are the settings of one Solve; the zero value works.
type Options struct {
	// TimeLimit ends the search; 0 means no limit. It is looked at between
	// simplex iterations, so it holds to a few milliseconds.
	TimeLimit time.Duration
	// WorkLimit ends the search after about so many simplex iterations; 0 means
	// no limit. Unlike a time it stops at the same place each time.
	WorkLimit int64
	// Pricing is how the simplex picks its next move.
	Pricing Pricing
	// GapAbs and GapRel let the search drop branches that promise to be better
	// by no more than about this much cost, or this share of it. 0 means 1e-11
	// for both, the guide's default (set_mip_gap.htm). The library does not keep
	// to them: with a gap of 5, answers 46 too dear were seen in 5.5.2.5. So a
	// search with a gap is Optimal only if the root relaxation proves it, and
	// otherwise Feasible with Limit "gap".
	GapAbs, GapRel float64
	// CutOff asks for solutions cheaper than this only; nil means any. With it
	// the status Infeasible means "none cheaper".
	CutOff *float64
	// DepthLimit is the deepest level of the search. A search cut off by it is
	// Feasible or Limit, never Optimal. 0 means 100 levels for each whole
	// column, the library's own, which keeps a search that goes deeper for ever
	// from using up the memory. 1 is refused: the library would take the root
	// relaxation for a solution.
	DepthLimit int
	// Branch is the side searched first; BranchDefault means BranchFloor.
	Branch Branch
}

// Pricing is a rule for the next move of the simplex (lp_solve 5.5 reference
// guide, set_pivoting.htm). One rule may go round in circles where another gets
// through.
type Pricing int

// The rules. The zero Pricing is the library's own choice.
const (
	PricingDevex      Pricing = iota // adaptive devex
	PricingSteepest                  // adaptive steepest edge
	PricingDantzig                   // largest reduced cost
	PricingFirstIndex                // lowest number: slow, and hard to make go in circles
)

func (r Pricing) c() (C.int, bool) {
	switch r {
	case PricingDevex:
		return C.PRICER_DEVEX | C.PRICE_ADAPTIVE, true
	case PricingSteepest:
		return C.PRICER_STEEPESTEDGE | C.PRICE_ADAPTIVE, true
	case PricingDantzig:
		return C.PRICER_DANTZIG, true
	case PricingFirstIndex:
		return C.PRICER_FIRSTINDEX, true
	}
	return 0, false
}

func (o Options) check() error {
	for _, v := range []struct {
		name string
		is   float64
	}{{"GapAbs", o.GapAbs}, {"GapRel", o.GapRel}} {
		if !(v.is >= 0) || !finite(v.is) {
			return fmt.Errorf("lp_solve: options: %s is %g, want 0 or more", v.name, v.is)
		}
	}
	if o.CutOff != nil && math.IsNaN(*o.CutOff) {
		return fmt.Errorf("lp_solve: options: CutOff is NaN, want a cost or nil")
	}
	if _, ok := o.Pricing.c(); !ok {
		return fmt.Errorf("lp_solve: options: Pricing is %d, want one of the Pricing constants", int(o.Pricing))
	}
	if o.WorkLimit < 0 {
		return fmt.Errorf("lp_solve: options: WorkLimit is %d, want 0 or more", o.WorkLimit)
	}
	if o.TimeLimit < 0 {
		return fmt.Errorf("lp_solve: options: TimeLimit is %v, want 0 for none or more", o.TimeLimit)
	}
	if o.DepthLimit < 0 || o.DepthLimit == 1 || o.DepthLimit > math.MaxInt32 {
		return fmt.Errorf("lp_solve: options: DepthLimit is %d, want 0 for the usual or 2 or more", o.DepthLimit)
	}
	if o.Branch < BranchDefault || o.Branch > BranchNearest {
		return fmt.Errorf("lp_solve: options: %v is not a branch, want BranchFloor, BranchCeiling or BranchNearest", o.Branch)
	}
	return nil
}

func (o Options) setup() C.mb_setup {
	s := C.mb_setup{
		gap_abs: 1e-11, gap_rel: 1e-11,
		depth_limit: C.DEF_BB_LIMITLEVEL,
		floor_first: C.BRANCH_FLOOR,
	}
	if o.DepthLimit > 0 {
		s.depth_limit = C.int(o.DepthLimit)
	}
	s.pivoting, _ = o.Pricing.c()
	if o.GapAbs > 0 {
		s.gap_abs = C.double(o.GapAbs)
	}
	if o.GapRel > 0 {
		s.gap_rel = C.double(o.GapRel)
	}
	if o.Branch != BranchDefault {
		s.floor_first = o.Branch.c()
	}
	return s
}

// gap is the cost by which the caller lets an answer of this cost be too dear.
func (o Options) gap(cost float64) float64 {
	return max(o.GapAbs, o.GapRel*math.Abs(cost))
}

func (o Options) cutOff() C.double {
	if o.CutOff == nil {
		return Infinity
	}
	return C.double(clampInf(*o.CutOff))
}
