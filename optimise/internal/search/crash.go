package search

import (
	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// From how many parts and rows the first relaxation starts from the parts, each
// solved by itself: on random jobs of ten and thirty sites that took about a tenth of
// the time, as the simplex takes a number of steps that grows faster than the rows.
const (
	crashParts = 3
	crashRows  = 500
)

// askEarly asks for a purchase at once, before rows are found that lie between the first
// relaxation and a truer bound, where these take many seconds: where the caller says so,
// and with many parts. Then the first relaxation begins with what the parts come to.
func (t *tree) askEarly() error {
	switch {
	case t.parts() >= crashParts && len(t.rows) >= crashRows:
		if err := t.crash(); err != nil {
			return err
		}
	case !t.opt.Early:
		return nil
	}
	status, bound, err := t.relax()
	if err != nil || status != lpsolve.Optimal || bound >= t.dropAt() || t.fractions() == 0 {
		return err
	}
	return t.ask(false)
}

// crash gives the first relaxation a start: each part is solved by itself, with what
// parts share at its upper bound, where it stands in no part's way. What the parts
// come to is the start of the whole, not an answer: rows of several parts may be
// broken in it. A part that has no answer by itself starts from nothing.
func (t *tree) crash() error {
	rows := make([][]int, t.parts())
	for i := range t.rows {
		if part, ok := t.partOf(i); ok {
			rows[part] = append(rows[part], i)
		}
	}
	var pieces []lpsolve.Piece
	for part := range rows {
		if err := t.limits(); err != nil {
			return err
		}
		pc, ok, err := t.alone(part, rows[part])
		if err != nil {
			return err
		}
		if ok {
			pieces = append(pieces, pc)
		}
	}
	_ = t.lp.SetBasis(t.lp.Join(pieces)) // refused: the solve starts cold
	return nil
}

// partOf is the part whose columns are all that row i has but for shared ones; false
// where there is none, or the row is not in the linear program.
func (t *tree) partOf(i int) (part int, ok bool) {
	if t.rowAt[i] == settled {
		return 0, false
	}
	part = -1
	for _, term := range t.rows[i].Terms {
		switch p := t.m.Parts[term.Col]; {
		case p < 0 || t.colAt[term.Col] == settled:
		case part >= 0 && p != part:
			return 0, false
		default:
			part = p
		}
	}
	return part, part >= 0
}

// alone solves one part by itself; false where that comes to no optimum.
func (t *tree) alone(part int, rows []int) (pc lpsolve.Piece, ok bool, err error) {
	lp, err := lpsolve.New()
	if err != nil {
		return pc, false, err
	}
	defer lp.Close()
	at := map[int]int{}
	for j, c := range t.m.Cols {
		if t.m.Parts[j] != part || t.colAt[j] == settled {
			continue
		}
		if at[j], err = lp.AddColumn(c.Name, c.Cost, t.lo[j], t.hi[j], nil, nil); err != nil {
			return pc, false, err
		}
		pc.Cols = append(pc.Cols, t.colAt[j])
	}
	for _, i := range rows {
		r := t.rows[i]
		rhs := r.RHS
		var cols []int
		var coef []float64
		for _, term := range r.Terms {
			if k, mine := at[term.Col]; mine {
				cols, coef = append(cols, k), append(coef, term.Coef)
			} else {
				rhs -= term.Coef * t.rootHi[term.Col]
			}
		}
		if _, err := lp.AddRow(r.Name, relations[r.Rel], rhs, cols, coef); err != nil {
			return pc, false, err
		}
		pc.Rows = append(pc.Rows, t.rowAt[i])
	}
	var res lpsolve.Result
	if err := lp.SolveSteady(t.ctx, lpsolve.Options{TimeLimit: t.timeLeft()}, &res); err != nil {
		return pc, false, err
	}
	if res.Status != lpsolve.Optimal {
		return pc, false, nil
	}
	if pc.Basis, err = lp.GetBasis(nil); err != nil {
		return pc, false, nil // solved without a simplex: there is no basis
	}
	return pc, true, nil
}

// relations are a model's relations as the linear solver has them.
var relations = map[mip.Rel]lpsolve.Relation{mip.AtMost: lpsolve.AtMost, mip.AtLeast: lpsolve.AtLeast, mip.Equal: lpsolve.Equal}
