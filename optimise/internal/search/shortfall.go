package search

import (
	"math"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// The shortfall is a column of the linear program that the model does not have.
// From 0 to 1 it makes up for what rows lack, at a cost past all reason, so that a
// node without an answer has a linear program with one: too dear to matter, and
// with row prices that show it. lp_solve gives none for a program without an
// answer, so such a node could not be kept in a proof, and has to be asked twice
// before it can be believed. Where no proof is kept it is not used: searches take as
// long with it as without.
//
// Bounds do not rest on it: they are worked out from the row prices and the
// model's own columns. A relaxation that uses it and is not too dear is solved
// again without.

// shortDear is what a whole shortfall costs, as a share of the bound at the root:
// a thousandth part of what a row lacks is then as dear as the whole purchase.
const shortDear = 1000

// shortTol is the shortfall that is none but for the noise of the linear solver.
const shortTol = 1e-9

// allowShortfall lets the relaxations to come use the shortfall, once a bound says
// what is dear, if a proof is kept.
func (t *tree) allowShortfall(bound float64) error {
	if t.proof == nil || math.IsInf(bound, 0) {
		return nil
	}
	t.shortCost = shortDear * max(1, math.Abs(bound))
	if err := t.lp.SetCost(t.short, t.shortCost); err != nil {
		return err
	}
	return t.lp.SetBounds(t.short, 0, 1)
}

// addShortfall adds the column to a linear program that is being built, if a proof
// is kept.
func (t *tree) addShortfall() (err error) {
	if t.proof == nil {
		t.short = settled
		return nil
	}
	most := 0.0
	if t.shortCost > 0 {
		most = 1
	}
	t.short, err = t.lp.AddColumn("shortfall", t.shortCost, 0, most, nil, nil)
	return err
}

// shortRate is what a whole shortfall adds to row r, whose right side less the
// settled columns is rhs: what it lacks with every column at its lower bound, or
// else as much as one column can take from it.
func (t *tree) shortRate(r mip.Row, rhs float64) float64 {
	if t.short == settled {
		return 0
	}
	lacks, most := rhs, 0.0
	for _, term := range r.Terms {
		if j := term.Col; t.colAt[j] != settled {
			lacks -= term.Coef * t.rootLo[j]
			most = max(most, math.Abs(term.Coef)*(t.rootHi[j]-t.rootLo[j]))
		}
	}
	switch {
	case r.Rel == mip.Equal || r.Rel == mip.AtLeast && lacks > 0 || r.Rel == mip.AtMost && lacks < 0:
		return lacks
	case r.Rel == mip.AtLeast:
		return most
	}
	return -most
}

// isShort reports whether the relaxation now solved uses the shortfall.
func (t *tree) isShort() bool { return t.short != settled && t.res.X[t.short] > shortTol }

// relaxInFull solves the relaxation without the shortfall.
func (t *tree) relaxInFull() (lpsolve.Status, float64, error) {
	if t.short == settled || t.shortCost == 0 {
		return t.relaxOnce()
	}
	if err := t.lp.SetBounds(t.short, 0, 0); err != nil {
		return 0, 0, err
	}
	status, bound, err := t.relaxOnce()
	if err := t.lp.SetBounds(t.short, 0, 1); err != nil {
		return 0, 0, err
	}
	return status, bound, err
}
