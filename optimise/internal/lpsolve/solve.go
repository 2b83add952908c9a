package lpsolve

// #include "bridge.h"
import "C"

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"sync/atomic"
	"unsafe"
)

// Solve minimises. An error means that nothing could be solved or that ctx
// ended; an infeasible or unbounded problem is a Status, not an error.
//
// When ctx ends, the status is Cancelled, the error wraps the cause of ctx, and
// X is the best solution so far, if there was one.
//
// A problem solved again starts from the basis of its last solve.
func (p *Problem) Solve(ctx context.Context, opt Options) (Result, error) {
	var r Result
	err := p.SolveInto(ctx, opt, &r)
	return r, err
}

// SolveInto is Solve with r's X reused when it is large enough.
func (p *Problem) SolveInto(ctx context.Context, opt Options, r *Result) error {
	*r = Result{X: r.X[:0]}
	if p.closed {
		return ErrClosed
	}
	p.state = unsolved
	if err := opt.check(); err != nil {
		return err
	}
	if ctx.Err() != nil {
		r.Status, r.Limit, r.Detail = Cancelled, "context", "not started"
		return cancelled(ctx)
	}
	if p.entriesInC == 0 && len(p.entries) == 0 {
		p.solvePlain(r)
		return nil
	}
	if err := p.load(); err != nil {
		return err
	}
	defer runtime.KeepAlive(p)
	rule, _ := opt.Pricing.c()
	C.mb_apply(p.lp, p.watch, rule)
	stop := (*int32)(unsafe.Pointer(&p.watch.stop))
	atomic.StoreInt32(stop, 0)
	if ctx.Done() != nil {
		defer follow(ctx, stop)()
	}
	if cap(r.X) < len(p.cols) {
		r.X = make([]float64, 0, len(p.cols))
	}
	x := r.X[:len(p.cols)]
	C.mb_solve(p.lp, p.watch, C.int64_t(opt.TimeLimit), C.int64_t(opt.WorkLimit), &p.out, (*C.double)(&x[0]))
	return p.explain(ctx, opt, r, x)
}

// follow sets the flag when ctx ends. What it returns must be called before the
// flag's memory can be freed: it waits until nothing can write there any more.
func follow(ctx context.Context, flag *int32) (release func()) {
	done := make(chan struct{})
	unhook := context.AfterFunc(ctx, func() {
		atomic.StoreInt32(flag, 1)
		close(done)
	})
	return func() {
		if !unhook() {
			<-done
		}
	}
}

func cancelled(ctx context.Context) error {
	return fmt.Errorf("lp_solve: solve stopped: %w", context.Cause(ctx))
}

// explain fills r from what C left in p.out.
func (p *Problem) explain(ctx context.Context, opt Options, r *Result, x []float64) error {
	out := &p.out
	r.Status, r.Detail = outcome(out.status)
	r.Iterations = int64(out.iterations)
	if r.Status == NotSolved {
		return fmt.Errorf("lp_solve: %s with %d rows and %d columns, want more memory or a smaller problem", r.Detail, len(p.rows), len(p.cols))
	}
	if out.filled != 0 {
		// The library rounds costs to twelve digits, so the sum is done here.
		r.X = x
		for j, c := range p.cols {
			r.Objective += c.cost * x[j]
			// A column that is in no row goes to its cheaper bound, infinite
			// or not, and the library says OPTIMAL.
			if x[j] >= Infinity/10 && r.Status == Optimal {
				r.Status = Unbounded
			}
		}
	}
	p.judge(opt, r)
	if len(r.X) > 0 && r.Status != Optimal && r.Status != Feasible {
		r.X, r.Objective = r.X[:0], 0
	}
	if r.Status == Optimal {
		p.state = solved
	}
	if p.watch.fired != 0 && atomic.LoadInt32((*int32)(unsafe.Pointer(&p.watch.stop))) != 0 {
		r.Status, r.Limit = Cancelled, "context"
		return cancelled(ctx)
	}
	return nil
}

// judge corrects the library's word where it is not to be trusted, and sets Limit.
func (p *Problem) judge(opt Options, r *Result) {
	// Once told to stop, the library reports whatever the simplex came to: OPTIMAL
	// and INFEASIBLE among them.
	if p.watch.fired != 0 {
		r.Limit = "time"
		if opt.WorkLimit > 0 && int64(p.watch.polls) > opt.WorkLimit {
			r.Limit = "work"
		}
		if r.Status == Optimal || r.Status == Feasible || r.Status == Infeasible {
			r.Status = Limit
			if len(r.X) > 0 && p.fits(r.X) {
				r.Status = Feasible
			}
		}
	}
	if r.Status == Feasible && r.Limit == "" && !p.fits(r.X) {
		r.Status = NumericalFailure
	}
}

// fitTol is the share by which a solution found before a limit may miss a bound
// or a right side: a tenth of what the library allows a finished one
// (DEF_EPSSOLUTION, 1e-5, in lp_lib.h).
const fitTol = 1e-6

// fits checks x against bounds and rows. A solve stopped within the
// simplex leaves its last point as a solution, whether it fits or not.
func (p *Problem) fits(x []float64) bool {
	for j, c := range p.cols {
		tol := fitTol * (1 + math.Abs(x[j]))
		if !(x[j] >= c.lower-tol && x[j] <= c.upper+tol) {
			return false
		}
	}
	if len(p.rows) == 0 {
		return true
	}
	var d *C.double
	if C.get_ptr_constraints(p.lp, &d) == 0 || d == nil {
		return false
	}
	for i, left := range unsafe.Slice((*float64)(d), len(p.rows)) {
		r := p.rows[i]
		tol := fitTol * (1 + math.Abs(r.rhs))
		if r.rel != AtLeast && !(left <= r.rhs+tol) || r.rel != AtMost && !(left >= r.rhs-tol) {
			return false
		}
	}
	return true
}
