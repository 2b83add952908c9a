package lpsolve

// #include "bridge.h"
import "C"
import (
	"fmt"
	"math"
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

func (o Options) cutOff() C.double {
	if o.CutOff == nil {
		return Infinity
	}
	return C.double(clampInf(*o.CutOff))
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

// gap is the cost by which the caller lets an answer of this cost be too dear.
func (o Options) gap(cost float64) float64 {
	return max(o.GapAbs, o.GapRel*math.Abs(cost))
}
