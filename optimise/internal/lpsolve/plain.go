//go:build cgo

package lpsolve

// solvePlain solves a problem whose rows have no entries at all. The library
// answers OPTIMAL to such a problem without looking at costs or right sides, so
// it is solved here: each column goes to its cheaper bound.
func (p *Problem) solvePlain(r *Result) {
	r.Detail = "no row has entries, solved without the library"
	for _, w := range p.rows {
		if w.rel != AtLeast && w.rhs < 0 || w.rel != AtMost && w.rhs > 0 {
			r.Status = Infeasible
			return
		}
	}
	unbounded := false
	for _, c := range p.cols {
		x := c.lower
		if c.cost < 0 {
			x = c.upper
		}
		unbounded = unbounded || x >= Infinity
		r.X = append(r.X, x)
		r.Objective += c.cost * x
	}
	if unbounded {
		r.Status, r.X, r.Objective = Unbounded, r.X[:0], 0
		return
	}
	r.Status = Optimal
	p.state = solvedPlain
}
