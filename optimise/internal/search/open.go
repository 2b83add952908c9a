package search

import (
	"container/heap"

	"mediabuy/optimise/internal/lpsolve"
)

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
	proof   *step // where the node stands in the proof; nil if none is kept
	advice  *step // how a proof held against the model branched here; nil for none
	depth   int
	seq     int // order of making, to break ties

	// the branch that made the node, to learn from its bound
	branchCol int
	branchUp  bool
	moved     float64 // distance from the fractional value to the new bound
}

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

func (h *nodeHeap) Push(x any) { *h = append(*h, x.(*node)) }

func (h *nodeHeap) Pop() any {
	old := *h
	n := old[len(old)-1]
	*h = old[:len(old)-1]
	return n
}
