package search

import (
	"container/heap"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// Proof is how a search came to its answer, kept to be held against a model that
// differs in costs or in some coefficients: where it branched, and the row prices
// that bounded each node. The same prices bound the same nodes again, whatever has
// changed (weak duality), without a linear program; only what they do not settle is
// searched anew. Nothing is taken on trust: each bound is worked out from the model
// at hand, so that an ill-fitting proof costs time and no more.
//
// Starting a search from the tree of a like one is known as reoptimisation (T.
// Ralphs and M. Güzelsoy, Duality and warm starting in integer programming, 2006;
// G. Gamrath, B. Hiller and J. Witzig, Reoptimization techniques for MIP solvers,
// 2015; from memory).
type Proof struct {
	cols []mip.Column
	rels []mip.Rel // of the model's rows
	rows []mip.Row // beyond the model's
	from []source  // and what they follow from
	root *step
}

// source is what a row that is not the model's follows from: the row it was
// rounded from, by its place among the model's own and implied rows.
type source struct {
	at  int
	row mip.Row
}

// What rows follow from that are not rounded from one row.
var (
	always     = source{at: -1} // from the columns' meaning: true at any costs and coefficients
	theseCosts = source{at: -2} // from the costs
)

// step is a node of a proof.
type step struct {
	prices []price // that bound it; nil where those of the step above do
	col    int     // the column branched on, leaf if none
	at     float64 // below, the column is at most this; above, at least this plus 1
	below  *step
	above  *step
	then   *step // the same node with other prices; then it has no branching
}

// leaf is in place of the column branched on.
const leaf = -1

// price is the price of a row, by its place among the rows of the tree.
type price struct {
	row int32
	y   float64
}

// lower and upper are the sides of a branching, nil of none.
func (s *step) lower() *step {
	if s == nil {
		return nil
	}
	return s.below
}

func (s *step) upper() *step {
	if s == nil {
		return nil
	}
	return s.above
}

// become makes a step the branching b, if a proof is kept.
func (s *step) become(b *step) {
	if s != nil {
		s.col, s.at, s.below, s.above = b.col, b.at, b.below, b.above
	}
}

// leaves is how many steps are not branched.
func (s *step) leaves() int {
	s = s.last()
	if s.col == leaf {
		return 1
	}
	return s.below.leaves() + s.above.leaves()
}

// last is the step with the last prices of its node.
func (s *step) last() *step {
	for s.then != nil {
		s = s.then
	}
	return s
}

// again has more prices follow for the same node, if a proof is kept.
func (n *node) again() {
	if n.proof != nil {
		n.proof.then = &step{col: leaf}
		n.proof = n.proof.then
	}
}

// split is a branching of column j at a value, nil if no proof is kept.
func (t *tree) split(j int, at float64) *step {
	if t.proof == nil {
		return nil
	}
	return &step{col: j, at: at, below: &step{col: leaf}, above: &step{col: leaf}}
}

// note keeps the row prices of the relaxation just solved.
func (t *tree) note(s *step, status lpsolve.Status) {
	if s == nil || status != lpsolve.Optimal {
		return
	}
	n := 0
	for _, y := range t.y {
		if y != 0 {
			n++
		}
	}
	s.prices = make([]price, 0, n)
	for i, y := range t.y {
		if y != 0 {
			s.prices = append(s.prices, price{int32(i), y})
		}
	}
}

// kept is the proof of a search that has ended.
func (t *tree) kept() *Proof {
	p := &Proof{cols: t.m.Cols, rows: t.rows[len(t.m.Rows):], from: t.sources, root: t.proof}
	for _, r := range t.m.Rows {
		p.rels = append(p.rels, r.Rel)
	}
	return p
}

// Split is the proof with everything in it said twice: of column j at most at, and
// of j above that. For a change that matters to one side only, half is then as
// good as proven.
func (p *Proof) Split(j int, at float64) *Proof {
	if p == nil {
		return nil
	}
	q := *p
	q.root = &step{prices: p.root.prices, col: j, at: at, below: p.root, above: p.root}
	return &q
}

// fits reports whether p is of a model with the same columns and rows.
func (p *Proof) fits(m *mip.Model) bool {
	same := slices.EqualFunc(p.cols, m.Cols, func(a, b mip.Column) bool { return a.Name == b.Name && a.Integer == b.Integer })
	return same && slices.EqualFunc(p.rels, m.Rows, func(a mip.Rel, r mip.Row) bool { return a == r.Rel })
}

// takeRows adds the rows of a proof to those of the model. A row rounded from one
// that is not the same here, or of columns that may go further, gives way to one
// that says nothing, so that the others keep their places.
func (t *tree) takeRows(p *Proof) {
	if p == nil {
		return
	}
	base := append(slices.Clip(t.m.Rows), t.m.Implied...)
	for i, r := range p.rows {
		if !t.stillTrue(p, r, p.from[i], base) {
			r = mip.Row{Name: "nothing", Rel: mip.AtLeast}
		} else if p.from[i].at == always.at {
			t.lazyRows = append(t.lazyRows, r)
		}
		t.rows, t.sources = append(t.rows, r), append(t.sources, p.from[i])
	}
}

func (t *tree) stillTrue(p *Proof, r mip.Row, from source, base []mip.Row) bool {
	switch {
	case from.at == always.at:
		return true
	case from.at < 0 || from.at >= len(base):
		return false
	}
	now := base[from.at]
	return now.Rel == from.row.Rel && now.RHS == from.row.RHS && slices.Equal(now.Terms, from.row.Terms) &&
		!slices.ContainsFunc(r.Terms, func(term mip.Term) bool {
			was, is := p.cols[term.Col], t.m.Cols[term.Col]
			return is.Lower < was.Lower || is.Upper > was.Upper
		})
}

// mostOpen is the share of a proof's leaves that may be open for it to be worth
// more than a look at the root, and of a branching's for the branching to be kept
// as it is: else its first node is solved again, and what is left is branched as
// before. With a half and with all, break-even prices took up to a third longer.
const mostOpen = 0.8

// hold holds a proof against the model and opens the nodes that it does not settle.
// It reports whether it settles enough of them.
func (t *tree) hold(p *Proof, root *node) bool {
	h := &holder{tree: t, y: make([]float64, len(t.rows))}
	lo, hi := slices.Clone(t.lo), slices.Clone(t.hi)
	t.holding = true
	all, open := h.walk(p.root, root, nil)
	t.holding = false
	copy(t.lo, lo)
	copy(t.hi, hi)
	heap.Init(&t.open)
	return float64(open) <= mostOpen*float64(all)
}

// letGo undoes a hold.
func (t *tree) letGo(root *node) {
	t.open, root.changes = nil, nil
	if t.proof != nil {
		*t.proof = step{col: leaf}
		root.proof = t.proof
	}
}

// holder is a hold under way.
type holder struct {
	*tree
	y     []float64 // prices by row
	saved []float64 // ranges of the steps above
}

// walk holds step s against node n, whose ranges are set; prices are those that
// bound the step above. It counts the leaves below s and those that stay open.
func (h *holder) walk(s *step, n *node, prices []price) (leaves, open int) {
	for ; ; s = s.then {
		if s.prices != nil {
			prices = s.prices
		}
		if !h.apply(n, prices) {
			return s.leaves(), 0
		}
		if s.then == nil {
			break
		}
		n.again()
	}
	if s.col == leaf {
		h.leave(n)
		return 1, 1
	}
	if n.proof != nil {
		n.proof.become(h.split(s.col, s.at))
	}
	first := len(h.open)
	j, lo, hi := s.col, h.lo[s.col], h.hi[s.col]
	l, o := h.side(s.below, n, n.proof.lower(), change{int32(j), lo, min(hi, s.at)}, prices)
	leaves, open = leaves+l, open+o
	l, o = h.side(s.above, n, n.proof.upper(), change{int32(j), max(lo, s.at+1), hi}, prices)
	leaves, open = leaves+l, open+o
	if open > 1 && float64(open) > mostOpen*float64(leaves) {
		h.open = h.open[:first]
		n.advice = s
		if n.proof != nil {
			*n.proof = step{prices: prices, col: leaf}
		}
		h.leave(n)
	}
	return leaves, open
}

// apply bounds and narrows n by row prices; false when nothing is left of it.
func (h *holder) apply(n *node, prices []price) bool {
	if n.proof != nil {
		n.proof.prices = prices
	}
	clear(h.y)
	for _, p := range prices {
		h.y[p.row] = fitting(h.rows[p.row].Rel, p.y)
	}
	bound := h.dualBound(h.y)
	if n.bound = max(n.bound, bound); n.bound >= h.dropAt() {
		return false
	}
	h.tightenByCost(n, bound)
	return h.propagate(n)
}

// leave leaves a node open.
func (h *holder) leave(n *node) {
	h.seq++
	n.seq = h.seq
	h.open = append(h.open, n)
}

// side walks one side of a branching and puts the ranges back as they were.
func (h *holder) side(s *step, parent *node, proof *step, c change, prices []price) (leaves, open int) {
	at, m := len(h.saved), len(h.lo)
	h.saved = append(append(h.saved, h.lo...), h.hi...)
	n := &node{parent: parent, changes: []change{c}, bound: parent.bound, proof: proof, depth: parent.depth + 1, branchCol: -1}
	h.lo[c.col], h.hi[c.col] = c.lo, c.hi
	if h.propagate(n) {
		leaves, open = h.walk(s, n, prices)
	} else {
		leaves = s.leaves()
	}
	copy(h.lo, h.saved[at:at+m])
	copy(h.hi, h.saved[at+m:])
	h.saved = h.saved[:at]
	return leaves, open
}

// advised is the column on which a proof branched here, if the relaxation now
// solved is in between: else the side that it is on may know.
func (t *tree) advised(n *node) (col int, ok bool) {
	for n.advice != nil {
		a := n.advice.last()
		if a.col == leaf {
			break
		}
		switch v := t.x[a.col]; {
		case v <= a.at+intTol:
			n.advice = a.below
		case v >= a.at+1-intTol:
			n.advice = a.above
		default:
			n.advice = a
			return a.col, true
		}
	}
	n.advice = nil
	return 0, false
}
