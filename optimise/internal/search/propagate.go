package search

import (
	"math"

	"mediabuy/optimise/mip"
)

// propagate narrows whole columns by the rows, starting from the node's own
// changes, and reports false when a row can no longer hold.
func (t *tree) propagate(n *node) bool {
	for _, c := range n.changes {
		if t.lo[c.col] > t.hi[c.col] {
			return false
		}
	}
	q := &t.queue
	q.reset(len(t.rows))
	for _, c := range n.changes {
		q.push(t.colRows[c.col])
	}
	// The count bounds the work: ranges could creep for long.
	for work := 0; work < 200; work++ {
		i, some := q.pop()
		if !some {
			break
		}
		moved, ok := t.propagateRow(i, n)
		if !ok {
			return false
		}
		for _, col := range moved {
			q.push(t.colRows[col])
		}
	}
	return true
}

// rowQueue is the rows still to look at, each once, first in first out.
type rowQueue struct {
	rows  []int
	first int
	in    []bool // by row
}

func (q *rowQueue) reset(rows int) {
	for _, i := range q.rows[q.first:] {
		q.in[i] = false
	}
	q.rows, q.first = q.rows[:0], 0
	if len(q.in) < rows {
		q.in = make([]bool, rows+rows/4)
	}
}

// push adds the rows that a column stands in.
func (q *rowQueue) push(rows []mip.Term) {
	for _, r := range rows {
		if i := r.Col; !q.in[i] {
			q.in[i] = true
			q.rows = append(q.rows, i)
		}
	}
}

// pop takes the first row; false when there is none.
func (q *rowQueue) pop() (int, bool) {
	if q.first == len(q.rows) {
		return 0, false
	}
	i := q.rows[q.first]
	q.first++
	q.in[i] = false
	return i, true
}

// propagateRow narrows the whole columns of row i from the least the others can
// add up to, and reports the columns moved; false when the row cannot hold. Other
// columns are narrowed only where they have no room at all, and only for a proof,
// whose bounds hang on their range: searches without are no quicker for it.
//
// For Σ a_j·x_j ≤ b with least activity L = Σ min(a_j·l_j, a_j·u_j): the row
// cannot hold if L > b; else a_j·x_j ≤ b − (L − own least part).
func (t *tree) propagateRow(i int, n *node) (moved []int32, ok bool) {
	r := t.rows[i]
	if r.Rel == mip.AtMost || r.Rel == mip.Equal {
		if moved, ok = t.atMost(r.Terms, 1, r.RHS, n, moved); !ok {
			return nil, false
		}
	}
	if r.Rel == mip.AtLeast || r.Rel == mip.Equal {
		if moved, ok = t.atMost(r.Terms, -1, -r.RHS, n, moved); !ok {
			return nil, false
		}
	}
	return moved, true
}

// noRoom is the slack, as a share of a row's size, that is none but for the
// rounding of its own sum.
const noRoom = 1e-12

func (t *tree) atMost(terms []mip.Term, sign, rhs float64, n *node, moved []int32) ([]int32, bool) {
	least, size := 0.0, max(1, math.Abs(rhs))
	for _, term := range terms {
		a := sign * term.Coef
		v := a * t.lo[term.Col]
		if a < 0 {
			v = a * t.hi[term.Col]
		}
		least += v
		size = max(size, math.Abs(v))
	}
	slack := rhs - least
	if slack < -feasTol*size {
		return nil, false
	}
	for _, term := range terms {
		j := term.Col
		if t.lo[j] == t.hi[j] {
			continue
		}
		a := sign * term.Coef
		if !t.m.Cols[j].Integer {
			if a > 0 && slack <= noRoom*size && (t.proof != nil || t.holding) {
				n.changes = append(n.changes, change{int32(j), t.lo[j], t.lo[j]})
				t.setRange(j, t.lo[j], t.lo[j])
				moved = append(moved, int32(j))
			}
			continue
		}
		lo, hi := t.lo[j], t.hi[j]
		room := (max(slack, 0) + feasTol*size) / math.Abs(a)
		if a > 0 {
			hi = min(hi, math.Floor(lo+room+intTol))
		} else {
			lo = max(lo, math.Ceil(hi-room-intTol))
		}
		if lo > t.lo[j] || hi < t.hi[j] {
			n.changes = append(n.changes, change{int32(j), lo, hi})
			t.setRange(j, lo, hi)
			moved = append(moved, int32(j))
			if lo > hi {
				return nil, false
			}
		}
	}
	return moved, true
}
