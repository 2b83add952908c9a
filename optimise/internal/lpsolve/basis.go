package lpsolve

// #include "bridge.h"
import "C"

import (
	"errors"
	"fmt"
)

// GetBasis copies the basis of the last Solve into dst, grown if too small.
func (p *Problem) GetBasis(dst Basis) (Basis, error) {
	if p.closed {
		return nil, ErrClosed
	}
	n := len(p.rows) + len(p.cols) + 1
	if cap(dst) < n {
		dst = make(Basis, n)
	}
	dst = dst[:n]
	if p.lp == nil || C.get_basis(p.lp, (*C.int)(&dst[0]), 1) == 0 {
		return nil, errors.New("lp_solve: get_basis has no basis, want a Solve that reached one first")
	}
	return dst, nil
}

// SetBasis makes the next Solve start from b.
func (p *Problem) SetBasis(b Basis) error {
	if p.closed {
		return ErrClosed
	}
	if err := p.load(); err != nil {
		return err
	}
	if want := len(p.rows) + len(p.cols) + 1; len(b) != want {
		return fmt.Errorf("lp_solve: set_basis: basis has %d entries, want %d: it must come from GetBasis of a problem of this size", len(b), want)
	}
	if err := p.checkBasis(b); err != nil {
		return err
	}
	p.state = unsolved // duals would be those of b
	if C.set_basis(p.lp, (*C.int)(&b[0]), 1) == 0 {
		return errors.New("lp_solve: set_basis refused the basis, want one from GetBasis of this problem")
	}
	return nil
}

// ResetBasis makes the next Solve start from the all-slack basis.
func (p *Problem) ResetBasis() error {
	if p.closed {
		return ErrClosed
	}
	p.state = unsolved // duals would be those of the slack basis
	if p.lp != nil {
		C.reset_basis(p.lp)
	}
	return nil
}

// checkBasis looks for every row and column once; the library takes any numbers
// and comes to grief over them later.
func (p *Problem) checkBasis(b Basis) error {
	n := len(b) - 1
	if len(p.seen) <= n {
		p.seen = make([]bool, 2*n+1)
	}
	seen := p.seen[:n+1]
	clear(seen)
	for k, v := range b[1:] {
		at := int(max(v, -v)) // negative means resting on the lower bound
		if at < 1 || at > n {
			return fmt.Errorf("lp_solve: set_basis: entry %d is %d, want 1 to %d or negative: it must come from GetBasis", k+1, v, n)
		}
		if seen[at] {
			return fmt.Errorf("lp_solve: set_basis: entry %d is %d again, want each row and column once: it must come from GetBasis", k+1, at)
		}
		seen[at] = true
	}
	return nil
}

// Join makes a basis for p of those of pieces, which share no row and no column. What
// is in none of them is as in the all-slack basis.
func (p *Problem) Join(pieces []Piece) Basis {
	rows, n := len(p.rows), len(p.rows)+len(p.cols)
	inside := make([]bool, n+1)   // by number: rows from 1, then columns
	resting := make([]int32, n+1) // the number, negative where it rests on its lower bound
	for at := 1; at <= n; at++ {
		inside[at], resting[at] = at <= rows, int32(-at)
	}
	for _, pc := range pieces {
		for k, v := range pc.Basis[1:] {
			at := int(max(v, -v))
			if at <= len(pc.Rows) {
				at = pc.Rows[at-1] + 1
			} else {
				at = rows + pc.Cols[at-1-len(pc.Rows)] + 1
			}
			inside[at] = k < len(pc.Rows)
			if resting[at] = int32(at); v < 0 {
				resting[at] = int32(-at)
			}
		}
	}
	out := append(make(Basis, 0, n+1), 0)
	for _, want := range []bool{true, false} {
		for at := 1; at <= n; at++ {
			if inside[at] == want {
				out = append(out, resting[at])
			}
		}
	}
	return out
}
