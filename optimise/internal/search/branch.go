package search

import (
	"math"
)

// pseudo is what branching on a column has done to the bound so far, per unit
// moved, up and down.
type pseudo struct {
	upSum, downSum float64
	upN, downN     int
}

// learn records how far the bound rose in the branch that made n.
func (t *tree) learn(n *node, bound float64) {
	if n.branchCol < 0 || math.IsInf(n.bound, 0) {
		return
	}
	per := max(0, bound-n.bound) / max(n.moved, 1e-6)
	p := &t.pseudo[n.branchCol]
	if n.branchUp {
		p.upSum += per
		p.upN++
	} else {
		p.downSum += per
		p.downN++
	}
}

// choose picks the column to branch on: of the lowest rank with a fraction, the
// one whose two branches promise to raise the bound most; -1 when all are whole.
func (t *tree) choose() int {
	rank := math.MaxInt
	for j, c := range t.m.Cols {
		if c.Integer && c.Rank < rank && fraction(t.x[j]) > intTol {
			rank = c.Rank
		}
	}
	if rank == math.MaxInt {
		return -1
	}
	best, bestScore := -1, -1.0
	for j, c := range t.m.Cols {
		if !c.Integer || (c.Rank != rank) || fraction(t.x[j]) <= intTol {
			continue
		}
		down := t.x[j] - math.Floor(t.x[j])
		up := 1 - down
		p := t.pseudo[j]
		// A column never branched on is guessed by its own cost.
		guess := math.Abs(c.Cost) + 1e-3
		upGain, downGain := guess*up, guess*down
		if p.upN > 0 {
			upGain = p.upSum / float64(p.upN) * up
		}
		if p.downN > 0 {
			downGain = p.downSum / float64(p.downN) * down
		}
		score := max(upGain, 1e-6) * max(downGain, 1e-6)
		if score > bestScore {
			best, bestScore = j, score
		}
	}
	return best
}

func fraction(v float64) float64 { return math.Abs(v - math.Round(v)) }

// widest is a whole column that still has room, with the middle of its range.
func (t *tree) widest() (int, float64) {
	best, width := -1, 0.0
	for j, c := range t.m.Cols {
		if w := t.hi[j] - t.lo[j]; c.Integer && w > width {
			best, width = j, w
		}
	}
	if best < 0 {
		return -1, 0
	}
	return best, math.Floor((t.lo[best]+t.hi[best])/2) + 0.5
}

// propagate narrows whole columns by the rows, starting from the node's own
// changes, and reports false when a row can no longer hold.
func (t *tree) propagate(n *node) bool {
	for _, c := range n.changes {
		if t.lo[c.col] > t.hi[c.col] {
			return false
		}
	}
	queue := make([]int32, 0, 16)
	queued := map[int32]bool{}
	push := func(col int32) {
		for _, r := range t.colRows[col] {
			if i := int32(r.Col); !queued[i] {
				queued[i] = true
				queue = append(queue, i)
			}
		}
	}
	for _, c := range n.changes {
		push(c.col)
	}
	// The count bounds the work: ranges could creep for long.
	for work := 0; len(queue) > 0 && work < 200; work++ {
		i := queue[0]
		queue = queue[1:]
		delete(queued, i)
		moved, ok := t.propagateRow(int(i), n)
		if !ok {
			return false
		}
		for _, col := range moved {
			push(col)
		}
	}
	return true
}
