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
// A model in parts (sites) whose search goes on for long is begun anew part by
// part; see byParts. Costs may rise under way; see Highest. A search may begin with
// what another proved at other costs; see Proof.
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
	// From is the proof of a like model to begin with; nil for none. One of a model
	// with other columns or rows is not used.
	From *Proof
	// Kept is told of the proof of [Solver.Solve], where the search kept one: not where a
	// limit ended it, nor where it was begun anew by parts. Nil for none.
	Kept func(*Proof)
	// maxNodes bounds the linear programs solved; 0 for no bound.
	maxNodes int
	// partsAfter is the linear programs after which to begin anew by parts; 0 for
	// longSearch.
	partsAfter int
}

var _ mip.Solver = Solver{}

type tree struct {
	ctx      context.Context
	m        *mip.Model
	opt      mip.Options
	ray      *ray // nil for costs that stand still
	gap      float64
	lp       *lpsolve.Problem
	rows     []mip.Row // the model's, lazy ones and cuts
	lazyRows []mip.Row // the lazy ones alone
	sources  []source  // of the rows after the model's

	lo, hi         []float64 // at the node now loaded
	rootLo, rootHi []float64 // true everywhere
	firmLo, firmHi []float64 // what cuts are rounded with: without what hangs on costs where a proof is kept
	open           nodeHeap
	best           []float64
	bestValue      float64
	cutOff         float64 // nodes at or above it are dropped
	lost           float64 // lowest bound among nodes given up by a limit; +Inf
	floor          float64 // bound of the node at hand, for telling of progress
	nodes, seq     int
	maxNodes       int
	dives          int
	pseudo         []pseudo
	res            lpsolve.Result
	x, y           []float64 // columns and row prices of the relaxation last solved
	duals          []float64 // the same prices by place in lp
	reduced        []float64
	started        time.Time
	told           time.Time
	colRows        [][]mip.Term // column → (row, coefficient)
	colAt, rowAt   []int        // where columns and rows stand in lp, or settled
	short          int          // the column of the shortfall in lp, or settled
	shortCost      float64      // 0 while it is not allowed
	proof          *step        // what is proven; nil if it is not kept
	holding        bool         // ranges are not those of lp
	queue          rowQueue
}

// Solve implements [mip.Solver].
func (s Solver) Solve(ctx context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
	ans, proof, err := s.solve(ctx, m, opt, nil)
	if proof != nil {
		s.Kept(proof)
	}
	return ans, err
}

func (s Solver) solve(ctx context.Context, m *mip.Model, opt mip.Options, r *ray) (*mip.Answer, *Proof, error) {
	t := &tree{ctx: ctx, m: m, opt: opt, ray: r, gap: opt.Gap, maxNodes: s.maxNodes, bestValue: math.Inf(1), lost: math.Inf(1), started: time.Now()}
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
	if s.Kept != nil || r != nil {
		t.proof = &step{col: leaf}
	}
	if s.From != nil && !s.From.fits(m) {
		s.From = nil
	}
	if err := t.prepare(s); errors.Is(err, errEmpty) {
		return &mip.Answer{Status: mip.Infeasible, Bound: math.Inf(1), Objective: math.Inf(1)}, nil, nil
	} else if err != nil {
		return nil, nil, err
	}
	defer func() { t.lp.Close() }()
	limited, err := t.run(s)
	if err != nil {
		return nil, nil, err
	}
	var p *Proof
	if t.proof != nil && !limited {
		p = t.kept()
	}
	return t.answer(limited), p, nil
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

// errStop ends the search at a limit.
var errStop = errors.New("limit reached")

// A search is long enough to begin anew by parts after longSearch linear programs,
// or earlier where each is large: after largeSearch rows of all taken together.
const (
	longSearch  = 700
	largeSearch = 300_000
)

// run searches until the tree is empty or a limit comes; limited says which.
func (t *tree) run(s Solver) (limited bool, err error) {
	n := &node{bound: math.Inf(-1), branchCol: -1, proof: t.proof}
	if s.From != nil {
		n, err = t.fromProof(n, s)
	} else {
		n, err = t.fromRoot(n, s)
	}
	if err != nil {
		return stopped(err)
	}
	whole := t.parts() > 1 // not yet begun anew by parts
	for n != nil {
		if whole && t.isLong(s) {
			whole = false
			t.proof = nil
			n = t.newRoot(n)
			t.floor = n.bound
			done, err := t.byParts(n, s)
			if err != nil {
				t.lost = min(t.lost, n.bound)
			}
			if done || err != nil {
				return stopped(err)
			}
		}
		if n.bound >= t.dropAt() {
			n = t.next()
			continue
		}
		t.floor = n.bound
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

// fromRoot readies the root and gives it back, nil if that ends the search.
func (t *tree) fromRoot(root *node, s Solver) (*node, error) {
	if done, err := t.atRoot(root, s); done || err != nil {
		return nil, err
	}
	return root, t.allowShortfall(root.bound)
}

// fromProof begins with what a proof leaves open, at once where that is little: else
// after a look at the root, which may find an answer. Where costs rise with what is
// found, it comes first in any case. It gives the node to go on from, nil if there
// is none.
func (t *tree) fromProof(root *node, s Solver) (n *node, err error) {
	defer func() {
		if err != nil {
			t.lost = min(t.lost, root.bound)
		}
	}()
	if t.ray == nil {
		if t.hold(s.From, root) {
			if err := t.allowShortfall(root.bound); err != nil {
				return nil, err
			}
			return t.next(), nil
		}
		t.letGo(root)
	}
	if t.ray != nil {
		if err := t.askFirst(); err != nil {
			return nil, err
		}
	}
	if n, err = t.fromRoot(root, s); n == nil || err != nil {
		return nil, err
	}
	t.hold(s.From, root)
	return t.next(), nil
}

// isLong says whether it is time to begin anew by parts.
func (t *tree) isLong(s Solver) bool {
	after := longSearch
	if s.partsAfter > 0 {
		after = s.partsAfter
	}
	return t.nodes > after || t.nodes*len(t.rows) > largeSearch
}

// newRoot is a root in place of n and all open nodes, whose bounds it keeps.
func (t *tree) newRoot(n *node) *node {
	root := &node{bound: n.bound, branchCol: -1}
	for _, o := range t.open {
		root.bound = min(root.bound, o.bound)
	}
	t.open = nil
	return root
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
	if err := t.askEarly(); err != nil {
		return false, err
	}
	for pass := range 3 {
		status, bound, err := t.relaxLazily()
		if err != nil {
			root.bound = max(root.bound, bound)
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
			if err := t.askWhileRising(pass == 0); err != nil {
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
		t.note(root.proof, status)
		root.again()
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
		if pass == 0 && !s.NoCuts && s.From == nil {
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
		t.note(n.proof, status)
		if first {
			t.learn(n, bound)
		}
		n.bound = max(n.bound, bound)
		if n.bound >= t.dropAt() {
			return nil, nil
		}
		t.tightenByCost(n, bound)
		if first && (t.asks(n) || t.lateOnly()) {
			if err := t.ask(false); err != nil {
				return nil, err
			}
			if n.bound >= t.dropAt() {
				return nil, nil
			}
		}
		if first && t.opt.Tighten {
			added, err := t.addLazy()
			if err != nil {
				return nil, err
			}
			if added {
				continue
			}
		}
		if j, ok := t.advised(n); ok {
			return t.branch(n, j, t.x[j]), nil
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
			risen, child, err := t.accept(n)
			if risen {
				continue // what is left of the node may stay below for longer
			}
			return child, err
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
	if n.proof != nil {
		n.proof.become(t.split(j, down))
		low.proof, up.proof = n.proof.below, n.proof.above
	}
	if a := n.advice; a != nil && a.col == j && a.at == down {
		low.advice, up.advice = a.below, a.above
	}
	t.seq++
	low.seq = t.seq
	heap.Push(&t.open, low)
	t.setRange(j, down+1, t.hi[j])
	return up
}
