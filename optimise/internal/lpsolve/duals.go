package lpsolve

// #include "bridge.h"
import "C"

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"unsafe"
)

// Duals returns one dual for each row: the change of the minimal cost for one unit
// more of the row's right side. They hold only while the basis stays. dst is used
// if it is large enough.
//
// It wants a Solve that ended Optimal at the root of the search (Result.Nodes
// 0), with nothing changed since.
func (p *Problem) Duals(dst []float64) ([]float64, error) {
	if err := p.haveDuals("duals"); err != nil {
		return nil, err
	}
	if p.state == solvedPlain {
		return append(dst[:0], make([]float64, len(p.rows))...), nil
	}
	var d *C.double
	if C.get_ptr_dual_solution(p.lp, &d) == 0 || d == nil {
		return nil, errors.New("lp_solve: get_ptr_dual_solution has no duals for this solve, want a solve without branches")
	}
	// The first number is the objective's own.
	return append(dst[:0], unsafe.Slice((*float64)(d), 1+len(p.rows))[1:]...), nil
}

// Reduced works out one reduced cost for each column from one dual for each row,
// d[j] = cost[j] - Σ_i coef[i,j]·y[i]: with those of [Problem.Duals], the change of
// the minimal cost for one unit more of the bound the column rests on. The
// library's own are 0 for columns that are fixed or in no row, whatever they cost.
func (p *Problem) Reduced(y []float64) ([]float64, error) {
	switch {
	case p.closed:
		return nil, ErrClosed
	case len(y) != len(p.rows):
		return nil, fmt.Errorf("lp_solve: reduced costs: %d duals for %d rows, want one for each", len(y), len(p.rows))
	}
	if err := p.load(); err != nil {
		return nil, err
	}
	d := make([]float64, len(p.cols))
	if len(y) == 0 || len(d) == 0 {
		for j, c := range p.cols {
			d[j] = c.cost
		}
		return d, nil
	}
	p.scratch(len(p.rows) + 1)
	bad := C.mb_reduced(p.lp, (*C.double)(&y[0]), &p.idx[0], &p.coef[0], (*C.double)(&d[0]))
	if bad != 0 {
		return nil, fmt.Errorf("lp_solve: get_columnex refused column %q", p.cols[bad-1].name)
	}
	for j, c := range p.cols {
		d[j] += c.cost
		if math.Abs(d[j]) < 1e-11*(1+math.Abs(c.cost)) {
			d[j] = 0 // what is left of a basic column's sum
		}
	}
	return d, nil
}

// Ranges says how far numbers can move, one at a time, before the basis changes.
// Infinity and -Infinity stand for "any".
type Ranges struct {
	// CostFrom and CostTill are the limits, one for each column, between which
	// its cost leaves X as it is.
	CostFrom, CostTill []float64
	// RowFrom and RowTill are the right sides, one for each row, between which
	// its dual holds.
	RowFrom, RowTill []float64
	// ColumnFrom and ColumnTill are the values, one for each column, between
	// which its reduced cost holds.
	ColumnFrom, ColumnTill []float64
}

// Ranging returns the limits of the last solution, as the library works them
// out; see Duals for what it wants. It is slow (about one iteration for each
// number), and the lower cost limit of a column between its bounds is known to
// be wrong in 5.5.2.5 (-1e30 for 0 in the guide's own example), so prove a limit
// by solving on both sides of it.
func (p *Problem) Ranging() (*Ranges, error) {
	if err := p.haveDuals("ranging"); err != nil {
		return nil, err
	}
	if p.state == solvedPlain {
		return nil, errors.New("lp_solve: ranging: no row has entries, want a problem with at least one")
	}
	var from, till, dual, dualFrom, dualTill *C.double
	if C.get_ptr_sensitivity_objex(p.lp, &from, &till, nil, nil) == 0 || from == nil || till == nil {
		return nil, errors.New("lp_solve: get_ptr_sensitivity_objex has no cost limits for this solve")
	}
	if C.get_ptr_sensitivity_rhs(p.lp, &dual, &dualFrom, &dualTill) == 0 || dualFrom == nil || dualTill == nil {
		return nil, errors.New("lp_solve: get_ptr_sensitivity_rhs has no limits of duals for this solve")
	}
	n, all := len(p.cols), len(p.rows)+len(p.cols)
	r := &Ranges{
		CostFrom: slices.Clone(unsafe.Slice((*float64)(from), n)),
		CostTill: slices.Clone(unsafe.Slice((*float64)(till), n)),
	}
	r.RowFrom, r.ColumnFrom = p.split(unsafe.Slice((*float64)(dualFrom), all))
	r.RowTill, r.ColumnTill = p.split(unsafe.Slice((*float64)(dualTill), all))
	return r, nil
}

// split copies C's list, rows first, into one list for rows and one for columns.
func (p *Problem) split(all []float64) (rows, cols []float64) {
	all = slices.Clone(all)
	m := len(p.rows)
	return all[:m:m], all[m:]
}

func (p *Problem) haveDuals(what string) error {
	switch {
	case p.closed:
		return ErrClosed
	case p.state == unsolved:
		return errors.New("lp_solve: " + what + ": the problem is not solved as it stands, want a Solve that ends Optimal first")
	case p.state == solved && p.out.nodes > 0:
		return errors.New("lp_solve: " + what + ": the last solve branched, and only a linear problem has duals, want the whole columns fixed or relaxed first")
	}
	return nil
}
