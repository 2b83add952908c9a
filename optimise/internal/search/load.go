package search

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// errEmpty says that a column has no value within its bounds.
var errEmpty = errors.New("a column's range is empty")

// prepare loads the linear relaxation.
func (t *tree) prepare(s Solver) error {
	t.rows = slices.Clip(t.m.Rows) // rows added are this search's own
	t.pseudo = make([]pseudo, len(t.m.Cols))
	t.rootLo, t.rootHi = make([]float64, len(t.m.Cols)), make([]float64, len(t.m.Cols))
	for j, c := range t.m.Cols {
		if math.IsInf(c.Lower, 0) || math.IsInf(c.Upper, 0) {
			return fmt.Errorf("column %q has no finite bounds", c.Name)
		}
		t.rootLo[j], t.rootHi[j] = c.Lower, c.Upper
		if c.Integer {
			t.rootLo[j], t.rootHi[j] = math.Ceil(c.Lower-intTol), math.Floor(c.Upper+intTol)
		}
		if t.rootLo[j] > t.rootHi[j] {
			return errEmpty
		}
	}
	t.lo, t.hi = append([]float64(nil), t.rootLo...), append([]float64(nil), t.rootHi...)
	t.firmLo, t.firmHi = t.rootLo, t.rootHi
	if t.proof != nil {
		t.firmLo, t.firmHi = slices.Clone(t.rootLo), slices.Clone(t.rootHi)
	}
	t.takeRows(s.From)
	return t.load()
}

// load builds the lp_solve problem of the rows so far, without the columns that
// are settled for the whole tree and the rows that can then no longer bind, or did not
// where they only tighten.
func (t *tree) load() error {
	if t.lp != nil {
		t.lp.Close()
	}
	lp, err := lpsolve.New()
	if err != nil {
		return err
	}
	t.lp = lp
	t.colAt, t.colRows = make([]int, len(t.m.Cols)), make([][]mip.Term, len(t.m.Cols))
	for j, c := range t.m.Cols {
		if t.rootLo[j] == t.rootHi[j] {
			t.colAt[j] = settled
			continue
		}
		if t.colAt[j], err = lp.AddColumn(c.Name, c.Cost, t.lo[j], t.hi[j], nil, nil); err != nil {
			return err
		}
	}
	if err := t.addShortfall(); err != nil {
		return err
	}
	t.rowAt = t.rowAt[:0]
	for i := range t.rows {
		if t.opt.Tighten && i >= len(t.m.Rows) && i < len(t.y) && t.y[i] == 0 {
			t.rowAt = append(t.rowAt, settled) // it comes again when it is broken again
			continue
		}
		if err := t.loadRow(i); err != nil {
			return err
		}
	}
	return nil
}

// add appends a row to those of the model.
func (t *tree) add(r mip.Row, from source) error {
	t.rows, t.sources = append(t.rows, r), append(t.sources, from)
	return t.loadRow(len(t.rows) - 1)
}

// settled marks a column or row that is not in the linear program any more.
const settled = -1

// loadRow adds row i to the linear program, unless it always holds.
func (t *tree) loadRow(i int) error {
	r := t.rows[i]
	var cols []int
	var coef []float64
	rhs := r.RHS
	least, most, size := 0.0, 0.0, max(1, math.Abs(r.RHS))
	for _, term := range r.Terms {
		lo, hi := term.Coef*t.rootLo[term.Col], term.Coef*t.rootHi[term.Col]
		least += min(lo, hi)
		most += max(lo, hi)
		size = max(size, math.Abs(lo), math.Abs(hi))
		t.colRows[term.Col] = append(t.colRows[term.Col], mip.Term{Col: i, Coef: term.Coef})
		if at := t.colAt[term.Col]; at != settled {
			cols, coef = append(cols, at), append(coef, term.Coef)
		} else {
			rhs -= lo
		}
	}
	free := r.Rel == mip.AtMost && most <= r.RHS || r.Rel == mip.AtLeast && least >= r.RHS
	if free || len(cols) == 0 && most-least < 1e-12 && math.Abs(rhs) < feasTol*size {
		t.rowAt = append(t.rowAt, settled)
		return nil
	}
	if rate := t.shortRate(r, rhs); rate != 0 {
		cols, coef = append(cols, t.short), append(coef, rate)
	}
	at, err := t.lp.AddRow(r.Name, relations[r.Rel], rhs, cols, coef)
	t.rowAt = append(t.rowAt, at)
	return err
}

func (t *tree) setRange(j int, lo, hi float64) {
	if t.lo[j] == lo && t.hi[j] == hi {
		return
	}
	t.lo[j], t.hi[j] = lo, hi
	if lo > hi || t.colAt[j] == settled || t.holding {
		return // an empty node is seen before any solve; a settled column stays
	}
	if err := t.lp.SetBounds(t.colAt[j], lo, hi); err != nil {
		panic(err) // indexes and numbers are ours: a refusal is a fault of this package
	}
}
