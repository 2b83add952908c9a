package search

import (
	"mediabuy/optimise/mip"
)

// partNodes bounds the linear programs that one part may take to improve, and
// partsGain is the share of the cost that going through all parts must save to
// do so once more.
const (
	partNodes = 400
	partsGain = 1e-3
)

// piece is the model of the columns that are free to move between given bounds,
// all others standing still: only these columns, and the rows they are in.
type piece struct {
	model mip.Model
	cols  []int // column of the part → column of the whole
	at    []int // and back; -1 for those that stand still
	still []float64
}

// cutOut makes a part of the columns with lo < hi; still are the values of the
// others. Rows are for the caller to add.
func (t *tree) cutOut(lo, hi, still []float64) *piece {
	p := &piece{at: make([]int, len(t.m.Cols)), still: still}
	for j, c := range t.m.Cols {
		p.at[j] = -1
		if lo[j] < hi[j] {
			c.Lower, c.Upper = lo[j], hi[j]
			p.at[j] = p.model.AddColumn(c)
			p.cols = append(p.cols, j)
		} else {
			p.model.Constant += c.Cost * still[j]
		}
	}
	return p
}

// inner is a row of the whole in the part's columns; false where it has none.
func (p *piece) inner(r mip.Row) (mip.Row, bool) {
	row := mip.Row{Name: r.Name, Rel: r.Rel, RHS: r.RHS}
	for _, term := range r.Terms {
		if k := p.at[term.Col]; k >= 0 {
			row.Terms = append(row.Terms, mip.Term{Col: k, Coef: term.Coef})
		} else {
			row.RHS -= term.Coef * p.still[term.Col]
		}
	}
	return row, len(row.Terms) > 0
}

// whole is an answer of the part among the columns that stand still.
func (p *piece) whole(y []float64) []float64 {
	x := append([]float64(nil), p.still...)
	for k, j := range p.cols {
		x[j] = y[k]
	}
	return x
}

// of is what the part has of an answer of the whole.
func (p *piece) of(x []float64) []float64 {
	y := make([]float64, len(p.cols))
	for k, j := range p.cols {
		y[k] = x[j]
	}
	return y
}

// lazy asks for the rows that an answer of the part breaks, the others standing
// still, and keeps those that have to do with it.
func (p *piece) lazy(lazy func([]float64) ([]mip.Row, error), keep func(mip.Row) bool) func([]float64) ([]mip.Row, error) {
	if lazy == nil {
		return nil
	}
	return func(y []float64) ([]mip.Row, error) {
		rows, err := lazy(p.whole(y))
		var out []mip.Row
		for _, r := range rows {
			if row, ok := p.inner(r); ok && keep(r) {
				out = append(out, row)
			}
		}
		return out, err
	}
}

// parts is how many parts the model has.
func (t *tree) parts() int {
	n := 0
	for _, p := range t.m.Parts {
		n = max(n, p+1)
	}
	return n
}

// improveParts solves the model again for one part after another, the others
// being as in the answer x, for as long as that improves it: with hundreds of
// whole columns a part by itself is easy where the whole is hard.
func (t *tree) improveParts(x []float64) error {
	parts := t.parts()
	if parts < 2 || x == nil {
		return nil
	}
	value := t.m.Value(x)
	lo, hi := make([]float64, len(x)), make([]float64, len(x))
	before := value
	for stale, b := 0, 0; stale < parts; b = (b + 1) % parts {
		if b == 0 {
			if before-value < partsGain*value && value < before {
				break
			}
			before = value
		}
		if err := t.limits(); err != nil {
			return err
		}
		for j, p := range t.m.Parts {
			lo[j], hi[j] = x[j], x[j]
			if p < 0 || p == b {
				lo[j], hi[j] = min(t.rootLo[j], x[j]), max(t.rootHi[j], x[j])
			}
		}
		p := t.cutOut(lo, hi, x)
		for _, rows := range [][]mip.Row{t.m.Rows, t.lazyRows} { // not the cuts: they may be true of better answers only
			for _, r := range rows {
				if row, ok := p.inner(r); ok {
					p.model.AddRow(row)
				}
			}
		}
		opt := mip.Options{Gap: t.gap, Start: p.of(x), Lazy: p.lazy(t.opt.Lazy, func(mip.Row) bool { return true }), TimeLimit: t.timeLeft()}
		ans, err := Solver{maxNodes: partNodes}.Solve(t.ctx, &p.model, opt)
		if err != nil {
			return err
		}
		t.nodes += ans.Nodes
		stale++
		if ans.X != nil && ans.Objective < value-t.gap {
			x, value = p.whole(ans.X), ans.Objective
			t.take(x)
			stale = 1
		}
	}
	return nil
}
