package lpsolve

// #include "bridge.h"
import "C"
import "fmt"

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
	if _, ok := o.Pricing.c(); !ok {
		return fmt.Errorf("lp_solve: options: Pricing is %d, want one of the Pricing constants", int(o.Pricing))
	}
	if o.WorkLimit < 0 {
		return fmt.Errorf("lp_solve: options: WorkLimit is %d, want 0 or more", o.WorkLimit)
	}
	if o.TimeLimit < 0 {
		return fmt.Errorf("lp_solve: options: TimeLimit is %v, want 0 for none or more", o.TimeLimit)
	}
	return nil
}
