package lpsolve

// #include "bridge.h"
import "C"

import "fmt"

func (p *Problem) checkColumn(j int) error {
	if p.closed {
		return ErrClosed
	}
	if j < 0 || j >= len(p.cols) {
		return fmt.Errorf("lp_solve: column index %d is out of range, want 0 to %d", j, len(p.cols)-1)
	}
	return nil
}

func (p *Problem) checkRow(i int) error {
	if p.closed {
		return ErrClosed
	}
	if i < 0 || i >= len(p.rows) {
		return fmt.Errorf("lp_solve: row index %d is out of range, want 0 to %d", i, len(p.rows)-1)
	}
	return nil
}

// SetBounds sets lower ≤ x[j] ≤ upper. The basis of the last Solve stays, so the
// next one starts from it.
func (p *Problem) SetBounds(j int, lower, upper float64) error {
	if err := p.checkColumn(j); err != nil {
		return err
	}
	c := &p.cols[j]
	if err := checkBounds(c.name, lower, upper); err != nil {
		return err
	}
	lower, upper = clampInf(lower), clampInf(upper)
	if lower == c.lower && upper == c.upper {
		return nil
	}
	c.lower, c.upper, p.state = lower, upper, unsolved
	if p.lp != nil {
		return setSpan(p.lp, j, *c)
	}
	return nil
}

// SetCost sets the cost of one unit of column j.
func (p *Problem) SetCost(j int, cost float64) error {
	if err := p.checkColumn(j); err != nil {
		return err
	}
	c := &p.cols[j]
	if !finite(cost) {
		return fmt.Errorf("lp_solve: column %q: cost is %g, want a number under 1e30", c.name, cost)
	}
	if p.lp != nil && C.set_obj(p.lp, C.int(j+1), C.double(cost)) == 0 {
		return fmt.Errorf("lp_solve: set_obj refused column %q", c.name)
	}
	c.cost, p.state = cost, unsolved
	return nil
}

// SetRHS sets the right side of row i.
func (p *Problem) SetRHS(i int, rhs float64) error {
	if err := p.checkRow(i); err != nil {
		return err
	}
	r := &p.rows[i]
	if !finite(rhs) {
		return fmt.Errorf("lp_solve: row %q: right side is %g, want a number under 1e30", r.name, rhs)
	}
	if p.lp != nil && C.set_rh(p.lp, C.int(i+1), C.double(rhs)) == 0 {
		return fmt.Errorf("lp_solve: set_rh refused row %q", r.name)
	}
	r.rhs, p.state = rhs, unsolved
	return nil
}
