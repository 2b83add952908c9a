// Package search finds least-cost whole answers by branch and bound outside
// lp_solve, which only solves the linear relaxation at each node:
//
//  1. Solve the relaxation. Its row prices y give the bound
//     b·y + Σ_j min over [l_j,u_j] of (c_j − A_j·y)·x_j, which no answer below
//     this node can beat whatever lp_solve thinks of its own result (weak
//     duality). A node whose bound is not better than the best answer by more
//     than the gap is dropped.
//  2. Reduced costs tighten the range of whole columns that cannot move without
//     passing the best answer.
//  3. If every whole column is whole, it is fixed, the rest solved again, the rows
//     are checked, and it becomes the best answer if cheaper.
//  4. Otherwise branch on the column whose two branches promise to raise the bound
//     most, by what its branches did before or, without a record, by trying
//     them; upwards first. Follow that child at once (its basis is warm); keep
//     the other. When a dive ends, go on from the open node with the lowest
//     bound, so that the bound on the whole answer rises steadily and is known
//     at any moment.
//
// Columns are not settled in a fixed order: a trial in this project settled
// suppliers first and bags last, which lp_solve's own search needs to end at
// all, and took three to eight times as many linear programs as choosing freely.
//
// The search uses no clock and no randomness to choose, so the same model gives
// the same answer.
package search

import (
	"container/heap"
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// Tolerances. Rows are in litres, kilograms, packs or shares of a load.
const (
	// intTol is how far from whole a column may be and still count as whole:
	// well above the noise of the linear solver, well below a step of any pack.
	intTol = 1e-6
	// feasTol is how far, as a share of its size, a row may be off in an answer
	// that is shown: a thimbleful in a bed.
	feasTol = 1e-6
	// boundTol is shaved off each bound for the rounding of its own sum, as a
	// share of the sum's size.
	boundTol = 1e-12
)

// Solver is the branch and bound. The zero value works.
type Solver struct {
	// NoCuts leaves out the rounding cuts at the root.
	NoCuts bool
}

var _ mip.Solver = Solver{}

// change narrows one column's range.
type change struct {
	col    int32
	lo, hi float64
}

// node is an open part of the tree.
type node struct {
	parent  *node
	changes []change
	bound   float64
	basis   lpsolve.Basis
	depth   int
	seq     int // order of making, to break ties

	// the branch that made the node, to learn from its bound
	branchCol int
	branchUp  bool
	moved     float64 // distance from the fractional value to the new bound
}

type tree struct {
	ctx  context.Context
	m    *mip.Model
	opt  mip.Options
	gap  float64
	lp   *lpsolve.Problem
	rows []mip.Row // the model's, and cuts

	lo, hi         []float64 // at the node now loaded
	rootLo, rootHi []float64 // true everywhere
	open           nodeHeap
	best           []float64
	bestValue      float64
	cutOff         float64 // nodes at or above it are dropped
	lost           float64 // lowest bound among nodes given up by a limit; +Inf
	nodes, seq     int
	dives          int
	pseudo         []pseudo
	res            lpsolve.Result
	x, y           []float64 // columns and row prices of the relaxation last solved; y by place in lp
	reduced        []float64
	started        time.Time
	told           time.Time
	colRows        [][]mip.Term // column → (row, coefficient)
	colAt, rowAt   []int        // where columns and rows stand in lp, or settled
}

// Solve implements [mip.Solver].
func (s Solver) Solve(ctx context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
	t := &tree{ctx: ctx, m: m, opt: opt, gap: opt.Gap, bestValue: math.Inf(1), lost: math.Inf(1), started: time.Now()}
	if t.gap == 0 {
		t.gap = mip.DefaultGap
	}
	t.cutOff = math.Inf(1)
	if opt.CutOff != 0 {
		t.cutOff = opt.CutOff - t.gap
	}
	if opt.Start != nil && len(m.Check(opt.Start, feasTol)) == 0 {
		t.take(opt.Start)
	}
	if err := t.prepare(s); errors.Is(err, errEmpty) {
		return &mip.Answer{Status: mip.Infeasible, Bound: math.Inf(1), Objective: math.Inf(1)}, nil
	} else if err != nil {
		return nil, err
	}
	defer func() { t.lp.Close() }()
	limited, err := t.run(s)
	if err != nil {
		return nil, err
	}
	return t.answer(limited), nil
}

// answer sums up the search.
func (t *tree) answer(limited bool) *mip.Answer {
	a := &mip.Answer{Nodes: t.nodes, X: t.best, Objective: t.bestValue}
	a.Bound = min(t.bestValue, t.lost)
	for _, n := range t.open {
		a.Bound = min(a.Bound, n.bound)
	}
	proven := t.bestValue-a.Bound <= t.gap
	switch {
	case t.best != nil && (!limited || proven):
		a.Status = mip.Optimal
		a.Bound = max(a.Bound, t.bestValue-t.gap)
	case t.best != nil:
		a.Status = mip.Feasible
	case limited || !math.IsInf(t.lost, 1):
		a.Status = mip.NoAnswer
	default:
		a.Status = mip.Infeasible
	}
	return a
}

// errEmpty says that a column has no value within its bounds.
var errEmpty = errors.New("a column's range is empty")

// prepare loads the linear relaxation.
func (t *tree) prepare(s Solver) error {
	t.rows = t.m.Rows
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
	return t.load()
}

// load builds the lp_solve problem of the rows so far, without the columns that
// are settled for the whole tree and the rows that can then no longer bind.
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
		if t.colAt[j], err = lp.AddColumn(c.Name, c.Cost, t.lo[j], t.hi[j], false, nil, nil); err != nil {
			return err
		}
	}
	t.rowAt = t.rowAt[:0]
	for i := range t.rows {
		if err := t.loadRow(i); err != nil {
			return err
		}
	}
	return nil
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
	rel := map[mip.Rel]lpsolve.Relation{mip.AtMost: lpsolve.AtMost, mip.AtLeast: lpsolve.AtLeast, mip.Equal: lpsolve.Equal}[r.Rel]
	at, err := t.lp.AddRow(r.Name, rel, rhs, cols, coef)
	t.rowAt = append(t.rowAt, at)
	return err
}

// errStop ends the search at a limit.
var errStop = errors.New("limit reached")

// run searches until the tree is empty or a limit comes; limited says which.
func (t *tree) run(s Solver) (limited bool, err error) {
	root := &node{bound: math.Inf(-1), branchCol: -1}
	if done, err := t.atRoot(root, s); done || err != nil {
		return stopped(err)
	}
	for n := root; n != nil; {
		if n.bound >= t.dropAt() {
			n = t.next()
			continue
		}
		child, err := t.expand(n)
		if err != nil {
			t.lost = min(t.lost, n.bound)
			return stopped(err)
		}
		if n = child; n == nil {
			n = t.next()
		}
	}
	return false, nil
}

// atRoot readies the root: a first answer, cuts, and a smaller linear program
// once the bound and the answer settle columns. It reports true when that ends
// the search.
func (t *tree) atRoot(root *node, s Solver) (done bool, err error) {
	defer func() {
		if err != nil {
			t.lost = min(t.lost, root.bound)
		}
	}()
	for pass := range 3 {
		status, bound, err := t.relaxLazily()
		if err != nil {
			return false, err
		}
		if status == lpsolve.Infeasible {
			return true, nil
		}
		if status != lpsolve.Optimal {
			return false, nil
		}
		root.bound = max(root.bound, bound)
		if t.fractions() == 0 {
			return false, nil
		}
		if pass < 2 {
			if err := t.ask(pass == 0); err != nil {
				return false, err
			}
			if _, bound, err = t.relax(); err != nil {
				return false, err
			}
		}
		if root.bound >= t.dropAt() {
			return true, nil
		}
		root.changes = nil
		t.tightenByCost(root, bound)
		if !t.propagate(root) {
			return true, nil
		}
		for _, c := range root.changes {
			t.rootLo[c.col], t.rootHi[c.col] = max(t.rootLo[c.col], c.lo), min(t.rootHi[c.col], c.hi)
		}
		if pass < 2 && len(root.changes) > 0 {
			if err := t.load(); err != nil {
				return false, err
			}
		}
		if pass == 0 && !s.NoCuts {
			if err := t.cutRoot(); err != nil {
				return false, err
			}
		}
	}
	return false, nil
}

func stopped(err error) (bool, error) {
	if errors.Is(err, errStop) {
		return true, nil
	}
	return false, err
}

// dropAt is the bound from which a node cannot matter.
func (t *tree) dropAt() float64 { return min(t.cutOff, t.bestValue-t.gap) }

// next takes the open node with the lowest bound and loads its ranges.
func (t *tree) next() *node {
	if len(t.open) == 0 {
		return nil
	}
	n := heap.Pop(&t.open).(*node)
	if n.bound >= t.dropAt() {
		t.open = nil // every other is at or above it
		return nil
	}
	t.restore(n)
	return n
}

// restore sets the ranges and basis of n.
func (t *tree) restore(n *node) {
	lo, hi := append([]float64(nil), t.rootLo...), append([]float64(nil), t.rootHi...)
	for p := n; p != nil; p = p.parent {
		for _, c := range p.changes { // changes only narrow, so their order does not matter
			lo[c.col], hi[c.col] = max(lo[c.col], c.lo), min(hi[c.col], c.hi)
		}
	}
	for j := range lo {
		t.setRange(j, lo[j], hi[j])
	}
	if n.basis != nil && len(n.basis) == t.lp.Rows()+t.lp.Columns()+1 {
		_ = t.lp.SetBasis(n.basis) // a refused basis only costs time: the solve starts cold
	}
}

func (t *tree) setRange(j int, lo, hi float64) {
	if t.lo[j] == lo && t.hi[j] == hi {
		return
	}
	t.lo[j], t.hi[j] = lo, hi
	if lo > hi || t.colAt[j] == settled {
		return // an empty node is seen before any solve; a settled column stays
	}
	if err := t.lp.SetBounds(t.colAt[j], lo, hi); err != nil {
		panic(err) // indexes and numbers are ours: a refusal is a fault of this package
	}
}

// expand solves a node and returns the child to follow, nil when there is none.
func (t *tree) expand(n *node) (*node, error) {
	for first := true; ; first = false {
		if n.changes != nil && !t.propagate(n) {
			return nil, nil
		}
		status, bound, err := t.relax()
		if err != nil {
			return nil, err
		}
		if status == lpsolve.Infeasible {
			return nil, nil
		}
		if status != lpsolve.Optimal {
			// lp_solve gave up on the numbers: nothing is known of this node but
			// its parent's bound. Split it anyway; smaller parts are easier.
			j, v := t.widest()
			if j < 0 {
				t.lost = min(t.lost, n.bound)
				return nil, nil
			}
			return t.branch(n, j, v), nil
		}
		if first {
			t.learn(n, bound)
		}
		n.bound = max(n.bound, bound)
		if n.bound >= t.dropAt() {
			return nil, nil
		}
		t.tightenByCost(n, bound)
		if first && t.asks(n) {
			if err := t.ask(false); err != nil {
				return nil, err
			}
			if n.bound >= t.dropAt() {
				return nil, nil
			}
		}
		j, err := t.choose(n, bound)
		if err != nil {
			return nil, err
		}
		switch j {
		case again:
			continue
		case dead:
			return nil, nil
		case allWhole:
			added, err := t.addLazy()
			if err != nil {
				return nil, err
			}
			if added {
				continue
			}
			return nil, t.accept()
		}
		return t.branch(n, j, t.x[j]), nil
	}
}

// branch splits n at column j, whose value is v: the upper part is followed, the
// lower kept.
func (t *tree) branch(n *node, j int, v float64) *node {
	basis, err := t.lp.GetBasis(nil)
	if err != nil {
		basis = nil // the child starts cold
	}
	down := math.Floor(v + intTol)
	if down >= t.hi[j] {
		down = t.hi[j] - 1
	}
	up := &node{parent: n, changes: []change{{int32(j), down + 1, t.hi[j]}}, bound: n.bound, depth: n.depth + 1, branchCol: j, branchUp: true, moved: down + 1 - v}
	low := &node{parent: n, changes: []change{{int32(j), t.lo[j], down}}, bound: n.bound, basis: basis, depth: n.depth + 1, branchCol: j, moved: v - down}
	t.seq++
	low.seq = t.seq
	heap.Push(&t.open, low)
	t.setRange(j, down+1, t.hi[j])
	return up
}

// asks reports whether a node is one from which to ask for a proposal: the root,
// and now and then where a dive begins.
func (t *tree) asks(n *node) bool {
	if n.parent != nil && !n.branchUp {
		t.dives++
		return t.dives%8 == 0
	}
	return false
}

// relax solves the linear relaxation at the ranges now set and returns the bound
// worked out from its row prices.
func (t *tree) relax() (lpsolve.Status, float64, error) {
	t.nodes++
	if err := t.limits(); err != nil {
		return 0, 0, err
	}
	status, err := t.solve()
	if err != nil {
		return 0, 0, err
	}
	if status != lpsolve.Optimal {
		return status, 0, nil
	}
	y, _, err := t.lp.Duals()
	if err != nil {
		return 0, 0, err
	}
	t.spread()
	t.y = y
	return status, t.dualBound(y), nil
}

// spread puts the linear program's answer into t.x, settled columns included.
func (t *tree) spread() {
	if t.x == nil {
		t.x = make([]float64, len(t.m.Cols))
	}
	for j, at := range t.colAt {
		if at == settled {
			t.x[j] = t.rootLo[j]
		} else {
			t.x[j] = t.res.X[at]
		}
	}
}

// maxLazyRounds bounds the passes at the root; the rows still missing then are
// found where an answer breaks them.
const maxLazyRounds = 60

// relaxLazily solves the relaxation and adds lazy rows until it breaks none.
func (t *tree) relaxLazily() (lpsolve.Status, float64, error) {
	for range maxLazyRounds {
		status, bound, err := t.relax()
		if err != nil || status != lpsolve.Optimal || bound >= t.dropAt() {
			return status, bound, err
		}
		added, err := t.addLazy()
		if err != nil || !added {
			return status, bound, err
		}
	}
	return t.relax()
}

// lazyTol is how far, as a share of its size, x must break a lazy row for it to
// be added: below that the linear solver holds it for kept and would break it
// again for ever.
const lazyTol = 1e-7

// breaks reports whether x breaks an AtLeast row.
func breaks(r mip.Row, x []float64) bool {
	sum, size := 0.0, max(1, math.Abs(r.RHS))
	for _, t := range r.Terms {
		sum += t.Coef * x[t.Col]
	}
	return r.RHS-sum > lazyTol*size
}

// addLazy adds the lazy rows that the relaxation now solved breaks.
func (t *tree) addLazy() (bool, error) {
	if t.opt.Lazy == nil {
		return false, nil
	}
	rows, err := t.opt.Lazy(t.x)
	if errors.Is(err, mip.ErrLimit) {
		return false, errStop
	}
	if err != nil {
		return false, fmt.Errorf("finding rows: %w", err)
	}
	added := false
	for _, r := range rows {
		if !breaks(r, t.x) {
			continue
		}
		t.rows = append(t.rows, r)
		if err := t.loadRow(len(t.rows) - 1); err != nil {
			return false, err
		}
		added = true
	}
	return added, nil
}

func (t *tree) solve() (lpsolve.Status, error) {
	var opt lpsolve.Options
	if t.opt.TimeLimit > 0 {
		opt.TimeLimit = max(time.Millisecond, t.opt.TimeLimit-time.Since(t.started))
	}
	if err := t.lp.SolveSteady(t.ctx, opt, &t.res); err != nil {
		return 0, err
	}
	if t.res.Status == lpsolve.Limit || t.res.Status == lpsolve.Feasible {
		return 0, errStop
	}
	return t.res.Status, nil
}

// limits stops the search when its time is up, and tells of progress.
func (t *tree) limits() error {
	if err := t.ctx.Err(); err != nil {
		return err
	}
	now := time.Now()
	if t.opt.TimeLimit > 0 && now.Sub(t.started) >= t.opt.TimeLimit {
		return errStop
	}
	if t.opt.Progress != nil && now.Sub(t.told) > 250*time.Millisecond {
		t.told = now
		bound := t.bestValue
		if len(t.open) > 0 {
			bound = min(bound, t.open[0].bound)
		}
		t.opt.Progress(mip.Progress{Nodes: t.nodes, Best: t.bestValue, Bound: bound})
	}
	return nil
}

// dualBound is b·y + Σ_j min over the column's range of (c_j − A_j·y)·x_j, with y
// made to fit the sense of its row. It also leaves c − A·y in t.reduced.
func (t *tree) dualBound(y []float64) float64 {
	sum, size := t.m.Constant, math.Abs(t.m.Constant)
	t.reduced = t.reduced[:0]
	for _, c := range t.m.Cols {
		t.reduced = append(t.reduced, c.Cost)
	}
	for i, r := range t.rows {
		v := t.price(i, y)
		if v == 0 {
			continue
		}
		sum += v * r.RHS
		size += math.Abs(v * r.RHS)
		for _, term := range r.Terms {
			t.reduced[term.Col] -= v * term.Coef
		}
	}
	for j, d := range t.reduced {
		v := d * t.lo[j]
		if d < 0 {
			v = d * t.hi[j]
		}
		sum += v
		size += math.Abs(v)
	}
	return sum - boundTol*size
}

// price is the price of row i among y, made to fit the sense of the row.
func (t *tree) price(i int, y []float64) float64 {
	if t.rowAt[i] == settled {
		return 0
	}
	v := y[t.rowAt[i]]
	switch t.rows[i].Rel {
	case mip.AtMost:
		return min(v, 0)
	case mip.AtLeast:
		return max(v, 0)
	}
	return v
}

// tightenByCost narrows whole columns whose reduced cost says that moving them
// further would pass the best answer.
func (t *tree) tightenByCost(n *node, bound float64) {
	room := t.dropAt() - bound
	if math.IsInf(room, 1) {
		return
	}
	for j, c := range t.m.Cols {
		if !c.Integer || t.lo[j] == t.hi[j] {
			continue
		}
		d := t.reduced[j]
		lo, hi := t.lo[j], t.hi[j]
		if d > 0 {
			hi = min(hi, math.Floor(lo+room/d+intTol))
		} else if d < 0 {
			lo = max(lo, math.Ceil(hi+room/d-intTol))
		}
		if lo > t.lo[j] || hi < t.hi[j] {
			if lo > hi {
				lo = hi // the node is about to be dropped; keep the range sane
			}
			n.changes = append(n.changes, change{int32(j), lo, hi})
			t.setRange(j, lo, hi)
		}
	}
}

// accept makes an answer of the relaxation now solved, all of whose whole
// columns are whole: they are fixed exactly and the rest solved once more.
func (t *tree) accept() error {
	x, ok, err := t.settle(t.x)
	if err != nil {
		return err
	}
	if !ok {
		// Rounded by less than intTol, it no longer holds: nothing is lost but
		// this point, which the rows would not have passed.
		return fmt.Errorf("the answer of the linear solver does not hold: %w", t.m.Check(x, feasTol)[0])
	}
	t.take(x)
	return nil
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
		status, _, err = t.relax()
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
	if v := t.m.Value(x); v < t.bestValue {
		t.best, t.bestValue = append(make([]float64, 0, len(x)), x...), v // not nil, even without columns
	}
}

// nodeHeap orders open nodes by bound, then by age.
type nodeHeap []*node

func (h nodeHeap) Len() int { return len(h) }
func (h nodeHeap) Less(i, j int) bool {
	if h[i].bound != h[j].bound {
		return h[i].bound < h[j].bound
	}
	return h[i].seq > h[j].seq
}
func (h nodeHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *nodeHeap) Push(x any)   { *h = append(*h, x.(*node)) }
func (h *nodeHeap) Pop() any {
	old := *h
	n := old[len(old)-1]
	*h = old[:len(old)-1]
	return n
}
