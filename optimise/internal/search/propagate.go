package search

import (
	"math"

	"mediabuy/optimise/mip"
)

// propagateRow narrows the whole columns of row i from the least the others can
// add up to, and reports the columns moved; false when the row cannot hold.
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
		if !t.m.Cols[j].Integer || t.lo[j] == t.hi[j] {
			continue
		}
		a := sign * term.Coef
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
