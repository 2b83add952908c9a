package lpsolve

// #include "bridge.h"
import "C"

import (
	"errors"
	"unsafe"
)

// Duals returns one dual for each row: the change of the minimal cost for one unit
// more of the row's right side. They hold only while the basis stays. dst is used
// if it is large enough.
//
// It wants a Solve that ended Optimal, with nothing changed since.
func (p *Problem) Duals(dst []float64) ([]float64, error) {
	switch {
	case p.closed:
		return nil, ErrClosed
	case p.state == unsolved:
		return nil, errors.New("lp_solve: duals: the problem is not solved as it stands, want a Solve that ends Optimal first")
	case p.state == solvedPlain:
		return append(dst[:0], make([]float64, len(p.rows))...), nil
	}
	var d *C.double
	if C.get_ptr_dual_solution(p.lp, &d) == 0 || d == nil {
		return nil, errors.New("lp_solve: get_ptr_dual_solution has no duals for this solve")
	}
	// The first number is the objective's own.
	return append(dst[:0], unsafe.Slice((*float64)(d), 1+len(p.rows))[1:]...), nil
}
