package search

import (
	"errors"
	"fmt"
	"math"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// asks reports whether a node is one from which to ask for a proposal: the root,
// and now and then where a dive begins.
func (t *tree) asks(n *node) bool {
	if n.parent != nil && !n.branchUp {
		t.dives++
		return t.ray == nil && t.dives%8 == 0
	}
	return false
}

// lateOnly reports whether late columns, and no others, are not whole.
func (t *tree) lateOnly() bool {
	late := false
	for j, c := range t.m.Cols {
		if c.Integer && fraction(t.x[j]) > intTol {
			if !c.Late {
				return false
			}
			late = true
		}
	}
	return late
}

// accept makes an answer of the relaxation now solved, all of whose whole
// columns are whole but for noise: they are fixed exactly and the rest solved once
// more. Where that fails, the noise counted (a hair of a level can carry a bag),
// and n is split at the column that is least whole. risen says that costs rose
// with it, so that n is not done.
func (t *tree) accept(n *node) (risen bool, child *node, err error) {
	x, ok, err := t.settle(t.x)
	if err != nil {
		return false, nil, err
	}
	if ok {
		if t.ray == nil {
			t.take(x)
			return false, nil, nil
		}
		before := t.ray.theta
		t.take(x)
		if t.ray.theta == before {
			return false, nil, nil
		}
		return true, nil, t.askFromBest()
	}
	worst := -1
	for j, c := range t.m.Cols {
		if c.Integer && t.lo[j] < t.hi[j] && (worst < 0 || fraction(t.x[j]) > fraction(t.x[worst])) {
			worst = j
		}
	}
	if worst < 0 {
		return false, nil, fmt.Errorf("the answer of the linear solver does not hold: %w", t.m.Check(x, feasTol)[0])
	}
	return false, t.branch(n, worst, t.x[worst]), nil
}

// settle fixes the whole columns at the rounded values of x, solves for the rest
// and reports whether all rows hold.
func (t *tree) settle(from []float64) (x []float64, ok bool, err error) {
	x = append([]float64(nil), from...)
	lo, hi := append([]float64(nil), t.lo...), append([]float64(nil), t.hi...)
	outside := false // asks for a settled column to move: such an answer is no better than the best
	for j, c := range t.m.Cols {
		if c.Integer {
			x[j] = math.Round(x[j])
			if t.colAt[j] == settled && x[j] != t.rootLo[j] {
				outside = true
			}
			t.setRange(j, x[j], x[j])
		} else {
			t.setRange(j, t.rootLo[j], t.rootHi[j])
		}
	}
	var status lpsolve.Status
	if !outside {
		status, _, err = t.relaxInFull()
	}
	if err == nil && status == lpsolve.Optimal {
		copy(x, t.x)
		for j, c := range t.m.Cols {
			if c.Integer {
				x[j] = math.Round(x[j])
			}
		}
	}
	for j := range lo {
		t.setRange(j, lo[j], hi[j])
	}
	if err != nil {
		return nil, false, err
	}
	return x, !outside && len(t.m.Check(x, feasTol)) == 0, nil
}

// ask lets the caller's own rounding propose an answer from the relaxation now
// solved, which stays in t.res.
func (t *tree) ask(thorough bool) error {
	if t.opt.Propose == nil {
		return nil
	}
	x := append([]float64(nil), t.x...)
	basis, err := t.lp.GetBasis(nil)
	if err != nil {
		basis = nil
	}
	var failed error
	fits := func(y []float64) bool {
		if failed != nil {
			return false
		}
		full, ok, err := t.settle(y)
		if err != nil {
			failed = err
			return false
		}
		if ok {
			t.take(full)
		}
		return ok
	}
	err = t.opt.Propose(x, min(t.bestValue, t.cutOff+t.gap), thorough, fits)
	if failed == nil && errors.Is(err, mip.ErrLimit) {
		failed = errStop
	} else if failed == nil && err != nil {
		failed = fmt.Errorf("proposing an answer: %w", err)
	}
	copy(t.x, x)
	if basis != nil {
		_ = t.lp.SetBasis(basis) // refused: the next solve starts cold
	}
	return failed
}

// take keeps x if it is the best so far.
func (t *tree) take(x []float64) {
	if t.ray != nil {
		t.rise(x)
		return
	}
	if v := t.m.Value(x); v < t.bestValue {
		t.best, t.bestValue = append(make([]float64, 0, len(x)), x...), v // not nil, even without columns
	}
}
