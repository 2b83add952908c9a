package search

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// The numbers of the cuts from parts, the best of those tried on the benchmark's
// jobs of many sites.
const (
	maxPartPasses = 6
	boundNodes    = 1500  // linear programs that bounding one part may take
	partGain      = 0.02  // share of the gap that a pass must close for another to follow
	partLeft      = 0.002 // share of the gap that all parts together may leave open
)

// byParts begins the search anew at n, the root, once it has gone on for long: the
// tree of a model in parts grows as the product of what is open in each, while
// each by itself is small. First the bound is raised part by part, then an answer
// is put together from the parts and improved. It reports true when that ends the
// search.
func (t *tree) byParts(n *node, s Solver) (done bool, err error) {
	t.restore(n)
	joined, dead, err := t.cutParts(n)
	if dead || err != nil {
		return dead, err
	}
	before, value := t.best, t.bestValue
	if err := t.improveJoined(joined); err != nil {
		return false, err
	}
	if t.bestValue > value-t.gap { // it led nowhere
		if err := t.improveParts(before); err != nil {
			return false, err
		}
	}
	t.restore(n)
	return t.atRoot(n, s)
}

// cutParts raises the bound at the root by what each part says by itself. With
// the row prices y of the relaxation, the rows that tie parts together are taken
// into the costs, c̃ = c − Aᵀy over these rows. What is left falls apart: part b,
// with its own rows and whole columns, costs at least v[b] whatever the others
// do, so every answer satisfies
//
//	Σ_{j in b} c̃[j]·x[j] ≥ v[b]
//
// and adding these rows lifts the relaxation to the Lagrangian bound at y (A. M.
// Geoffrion, Mathematical Programming Study 2, 1974; from memory). Solving again
// gives other prices and so on. v[b] is the bound of a search cut short, so it is
// right however little is proven.
//
// joined is the relaxation's answer with each part's own best put in, nil where
// no pass was made; dead says that there is no answer better than the best.
func (t *tree) cutParts(n *node) (joined []float64, dead bool, err error) {
	last := math.Inf(-1)
	for range maxPartPasses {
		status, bound, err := t.relaxLazily()
		if err != nil {
			return nil, false, err
		}
		if status != lpsolve.Optimal {
			return nil, status == lpsolve.Infeasible, nil
		}
		n.bound = max(n.bound, bound)
		room := t.dropAt() - bound
		if room <= 0 {
			return nil, true, nil
		}
		if t.fractions() == 0 || bound-last < partGain*room {
			return joined, false, nil
		}
		last = bound
		joined = slices.Clone(t.x)
		gap := max(t.gap, min(room, math.Abs(bound))*partLeft/float64(t.parts()))
		before := len(t.rows)
		if dead, err := t.boundParts(joined, gap); dead || err != nil {
			return nil, dead, err
		}
		if len(t.rows) == before {
			break
		}
	}
	return joined, false, nil
}

// boundParts makes one pass of cutParts at the relaxation now solved, and puts the
// best of each part into joined; dead says that a part has no answer.
func (t *tree) boundParts(joined []float64, gap float64) (dead bool, err error) {
	x, prices := slices.Clone(t.x), slices.Clone(t.y)
	for b := range t.parts() {
		if err := t.limits(); err != nil {
			return false, err
		}
		p := t.partAlone(b, prices, x)
		opt := mip.Options{Gap: gap, TimeLimit: t.timeLeft()}
		opt.Lazy = p.lazy(t.opt.Lazy, func(r mip.Row) bool { return t.isOf(r, b) })
		if t.best != nil {
			opt.Start = p.of(t.best)
		}
		ans, err := Solver{maxNodes: boundNodes}.Solve(t.ctx, &p.model, opt)
		if err != nil {
			return false, err
		}
		t.nodes += ans.Nodes
		if ans.Status == mip.Infeasible {
			return true, nil
		}
		for k, v := range ans.X {
			joined[p.cols[k]] = v
		}
		// What is within the gap of the best was not looked into.
		row, ok := p.atLeast(min(ans.Bound, ans.Objective-gap), x)
		if !ok {
			continue
		}
		if err := t.add(row, theseCosts); err != nil {
			return false, err
		}
	}
	return false, nil
}

// improveJoined makes an answer of what the parts want by themselves, which heeds
// prices that are worth their while only together, and improves it.
func (t *tree) improveJoined(joined []float64) error {
	if joined == nil || t.opt.Propose == nil {
		return nil
	}
	var best []float64
	var failed error
	fits := func(y []float64) bool {
		if failed != nil {
			return false
		}
		var full []float64
		var ok bool
		if full, ok, failed = t.settle(y); failed != nil {
			return false
		}
		if ok && (best == nil || t.m.Value(full) < t.m.Value(best)) {
			best = full
		}
		return ok
	}
	err := t.opt.Propose(joined, math.Inf(1), false, fits)
	switch {
	case failed != nil:
		return failed
	case errors.Is(err, mip.ErrLimit):
		return errStop
	case err != nil:
		return fmt.Errorf("proposing an answer: %w", err)
	case best == nil:
		return nil
	}
	t.take(best)
	return t.improveParts(best)
}

// partAlone is part b with the rows that tie it to others in its costs; x is the
// relaxation's answer, and stands for the others where rows are asked for.
func (t *tree) partAlone(b int, prices, x []float64) *piece {
	lo, hi, still := slices.Clone(t.rootLo), slices.Clone(t.rootHi), slices.Clone(x)
	for j, of := range t.m.Parts {
		switch {
		case lo[j] == hi[j]:
			still[j] = lo[j]
		case of != b:
			lo[j], hi[j] = x[j], x[j]
		}
	}
	p := t.cutOut(lo, hi, still)
	p.model.Constant = 0
	for i, r := range t.rows {
		if t.rowAt[i] == settled {
			continue
		}
		row, ok := p.inner(r)
		if !ok {
			continue
		}
		if t.isOf(r, b) {
			p.model.AddRow(row)
			continue
		}
		for _, term := range row.Terms {
			p.model.Cols[term.Col].Cost -= prices[i] * term.Coef
		}
	}
	return p
}

// isOf says whether all columns of r that are not settled are of part b.
func (t *tree) isOf(r mip.Row, b int) bool {
	return !slices.ContainsFunc(r.Terms, func(term mip.Term) bool {
		return t.m.Parts[term.Col] != b && t.rootLo[term.Col] < t.rootHi[term.Col]
	})
}

// atLeast is the row that says that the part costs v or more, if x breaks it.
func (p *piece) atLeast(v float64, x []float64) (mip.Row, bool) {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return mip.Row{}, false
	}
	row := mip.Row{Name: "part", Rel: mip.AtLeast}
	sum, size, largest := 0.0, math.Abs(v), 0.0
	for k, j := range p.cols {
		c := p.model.Cols[k].Cost
		sum += c * x[j]
		size += math.Abs(c * x[j])
		if c != 0 {
			row.Terms = append(row.Terms, mip.Term{Col: j, Coef: c})
			largest = max(largest, math.Abs(c))
		}
	}
	row.RHS = v - 1e-9*size // gives way by a hair, so that noise cannot cut off an answer
	if row.RHS-sum < 1e-6*size {
		return mip.Row{}, false
	}
	for k := range row.Terms {
		row.Terms[k].Coef /= largest
	}
	row.RHS /= largest
	return row, true
}
