package search

import (
	"cmp"
	"math"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
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

// A column's record counts once each of its branches has been looked at this
// often; until then its branches are tried out before choosing (reliability
// branching: Achterberg, Koch and Martin, Operations Research Letters 33, 2005;
// from memory). Small trees do better with hasty records, large ones with sure
// ones: on the benchmark's 210 jobs of every kind, reliable from 1 to 4 with the
// size of the tree took a quarter less time than 1 throughout, and so did the
// slowest job.
const (
	mostReliable = 4
	reliableStep = 300 // linear programs after which one more look is wanted
	maxTrials    = 16  // columns tried out at one node
	lookAhead    = 8   // trials without a better column after which to stop
)

// What choose reports instead of a column.
const (
	allWhole = -1
	dead     = -2 // both branches of some column are empty
	again    = -3 // a range was narrowed: solve the node once more
)

// choose picks the column to branch on: the one whose two branches promise to
// raise the bound most, a late one only where no other is left: with that and with late
// columns rounded from the nearer bound (see cutRoot), the median of 22 jobs of one quote in
// each layer took six tenths of the linear programs. A trial that shows a branch to be
// empty narrows the range at once.
func (t *tree) choose(n *node, bound float64) (col int, err error) {
	type candidate struct {
		col   int
		score float64
	}
	var list, late []candidate
	for j, c := range t.m.Cols {
		if c.Integer && fraction(t.x[j]) > intTol {
			if of := (candidate{j, t.promise(j, t.x[j])}); c.Late {
				late = append(late, of)
			} else {
				list = append(list, of)
			}
		}
	}
	if len(list) == 0 {
		list = late
	}
	if len(list) == 0 {
		return allWhole, nil
	}
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(b.score, a.score) })
	best, bestScore := list[0].col, -1.0
	trials, since, reliable := 0, 0, min(mostReliable, 1+t.nodes/reliableStep)
	var x []float64
	var basis lpsolve.Basis
	for i, c := range list {
		p := t.pseudo[c.col]
		if len(list) > 1 && min(p.upN, p.downN) < reliable && trials < maxTrials && since < lookAhead {
			if x == nil {
				x = append(x, t.x...)
				if basis, err = t.lp.GetBasis(nil); err != nil {
					basis = nil
				}
			}
			trials++
			down, up, proof, err := t.try(n, c.col, x[c.col], bound, basis)
			if err != nil {
				return 0, err
			}
			v := math.Floor(x[c.col] + intTol)
			if empty := math.IsInf(down, 1) || math.IsInf(up, 1); empty {
				n.proof.become(proof)
			}
			switch {
			case math.IsInf(down, 1) && math.IsInf(up, 1):
				return dead, nil
			case math.IsInf(up, 1):
				n.proof = proof.lower()
				t.narrow(n, c.col, t.lo[c.col], v)
				return again, nil
			case math.IsInf(down, 1):
				n.proof = proof.upper()
				t.narrow(n, c.col, v+1, t.hi[c.col])
				return again, nil
			}
			list[i].score = max(down, 1e-6) * max(up, 1e-6)
		}
		since++
		if list[i].score > bestScore {
			best, bestScore = c.col, list[i].score
			since = 0
		}
	}
	if x != nil {
		copy(t.x, x)
		if basis != nil {
			_ = t.lp.SetBasis(basis) // refused: the next solve starts cold
		}
	}
	return best, nil
}

// narrow records a tighter range of column j for node n.
func (t *tree) narrow(n *node, j int, lo, hi float64) {
	n.changes = append(n.changes, change{int32(j), lo, hi})
	t.setRange(j, lo, hi)
}

// promise is the product of the rises expected from both branches of column j at
// value v.
func (t *tree) promise(j int, v float64) float64 {
	down := v - math.Floor(v)
	up := 1 - down
	p := t.pseudo[j]
	// A column never branched on is guessed by its own cost.
	guess := math.Abs(t.m.Cols[j].Cost) + 1e-3
	upGain, downGain := guess*up, guess*down
	if p.upN > 0 {
		upGain = p.upSum / float64(p.upN) * up
	}
	if p.downN > 0 {
		downGain = p.downSum / float64(p.downN) * down
	}
	return max(upGain, 1e-6) * max(downGain, 1e-6)
}

// try solves both branches of column j and reports how far each raises the
// bound; +Inf for a branch that is empty or cannot matter. proof is the branching
// with what bounds its sides.
func (t *tree) try(n *node, j int, v, bound float64, basis lpsolve.Basis) (down, up float64, proof *step, err error) {
	lo, hi := t.lo[j], t.hi[j]
	fl := math.Floor(v + intTol)
	proof = t.split(j, fl)
	side := func(a, b float64, of *step) (float64, error) {
		t.setRange(j, a, b)
		defer t.setRange(j, lo, hi)
		if basis != nil {
			_ = t.lp.SetBasis(basis) // refused: the solve starts cold
		}
		status, got, err := t.relax()
		if err != nil {
			return 0, err
		}
		if status == lpsolve.Infeasible || status == lpsolve.Optimal && got >= t.dropAt() {
			t.note(of, status)
			return math.Inf(1), nil
		}
		if status != lpsolve.Optimal {
			return 0, nil
		}
		return max(0, got-bound), nil
	}
	if down, err = side(lo, fl, proof.lower()); err != nil {
		return 0, 0, nil, err
	}
	if up, err = side(fl+1, hi, proof.upper()); err != nil {
		return 0, 0, nil, err
	}
	p := &t.pseudo[j]
	if !math.IsInf(down, 1) {
		p.downSum += down / max(v-fl, 1e-6)
		p.downN++
	}
	if !math.IsInf(up, 1) {
		p.upSum += up / max(fl+1-v, 1e-6)
		p.upN++
	}
	return down, up, proof, nil
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
