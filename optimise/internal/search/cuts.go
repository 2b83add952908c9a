package search

import (
	"math"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// maxCutRounds bounds the passes of cutting at the root; each is one more linear
// program, and passes late in the row raise the bound little.
const maxCutRounds = 8

// minViolation is how far, as a share of its right side, a cut must be broken by
// the relaxation to be worth a row.
const minViolation = 1e-3

// cutRoot adds mixed-integer rounding cuts to the relaxation at the root.
//
// A row Σ a_j·n_j + s ≥ b with whole n_j ≥ 0 and s ≥ 0, divided by some d > 0,
// with f the fraction of b/d and f_j of a_j/d, implies
//
//	Σ (⌊a_j/d⌋ + min(1, f_j/f))·n_j + s/(f·d) ≥ ⌈b/d⌉
//
// (Nemhauser and Wolsey, Integer and Combinatorial Optimization, 1988, II.1.7;
// from memory). The rows rounded are the model's own and those in its Implied
// list, such as "the packs that may fill these layers place what they need".
// Whole columns are first shifted to their lower bound or complemented at their
// upper, so that n_j ≥ 0: those of 0 or 1 at their upper where a_j < 0, but for late ones,
// of which hundreds stand in a row, most of them at 0. Continuous columns with a
// coefficient of the wrong sign are moved to their bound, which only weakens the row.
// Bounds are firmLo and firmHi.
func (t *tree) cutRoot() error {
	base := append(append([]mip.Row(nil), t.m.Rows...), t.m.Implied...)
	last := math.Inf(-1)
	for range maxCutRounds {
		status, bound, err := t.relax()
		if err != nil {
			return err
		}
		if status != lpsolve.Optimal || t.fractions() == 0 {
			return nil
		}
		if bound-last < 1e-4*max(1, math.Abs(last)) && !math.IsInf(last, -1) {
			return nil
		}
		last = bound
		added := 0
		for i, r := range base {
			for _, cut := range t.round(r) {
				if err := t.add(cut, source{i, r}); err != nil {
					return err
				}
				added++
			}
		}
		if added == 0 {
			return nil
		}
	}
	return nil
}

func (t *tree) fractions() int {
	n := 0
	for j, c := range t.m.Cols {
		if c.Integer && fraction(t.x[j]) > intTol {
			n++
		}
	}
	return n
}

// round returns the most broken rounding cut of each sense of r, if any.
func (t *tree) round(r mip.Row) []mip.Row {
	var out []mip.Row
	if r.Rel == mip.AtLeast || r.Rel == mip.Equal {
		if c, ok := t.mir(r, 1); ok {
			out = append(out, c)
		}
	}
	if r.Rel == mip.AtMost || r.Rel == mip.Equal {
		if c, ok := t.mir(r, -1); ok {
			out = append(out, c)
		}
	}
	return out
}

// part is a whole column of a shifted row: n = x − lower, or upper − x.
type part struct {
	col   int
	a     float64 // coefficient of n ≥ 0
	value float64 // n in the relaxation
	flip  bool
}

// mir rounds sign·row ≥ sign·rhs.
func (t *tree) mir(r mip.Row, sign float64) (mip.Row, bool) {
	b := sign * r.RHS
	var parts []part
	var rest []mip.Term // continuous, coefficient ≥ 0, measured from the lower bound
	slack := 0.0        // Σ of rest in the relaxation
	broken := false
	for _, term := range r.Terms {
		j, a := term.Col, sign*term.Coef
		x := t.x[j]
		lo, hi := t.firmLo[j], t.firmHi[j]
		if lo == hi {
			b -= a * lo
			continue
		}
		if t.m.Cols[j].Integer {
			p := part{col: j, a: a, value: x - lo}
			b -= a * lo
			if a < 0 && (hi-x < x-lo || hi-lo <= 1 && !t.m.Cols[j].Late) {
				p = part{col: j, a: -a, value: hi - x, flip: true}
				b += a*lo - a*hi
			}
			broken = broken || fraction(x) > intTol
			parts = append(parts, p)
			continue
		}
		if a > 0 {
			b -= a * lo
			rest = append(rest, mip.Term{Col: j, Coef: a})
			slack += a * (x - lo)
		} else {
			b -= a * lo // a·x ≤ a·lo: drop it at its most
		}
	}
	if !broken || len(parts) == 0 {
		return mip.Row{}, false
	}
	best, bestD := minViolation, 0.0
	tried := 0
	for _, p := range parts {
		d := math.Abs(p.a)
		if p.value < intTol || d < 1e-9 || tried > 12 {
			continue
		}
		tried++
		for _, k := range []float64{1, 2} {
			if v := violation(parts, slack, b, d/k); v > best {
				best, bestD = v, d/k
			}
		}
	}
	if bestD == 0 {
		return mip.Row{}, false
	}
	return t.cutRow(r.Name, parts, rest, b, bestD), true
}

// minFraction keeps cuts whose fraction of the right side is so near 0 or 1 that
// rounding noise would decide them out of the model.
const minFraction = 1e-3

// roundUp is ⌊a⌋ + min(1, frac(a)/f).
func roundUp(a, f float64) float64 {
	fl := math.Floor(a + 1e-9)
	return fl + min(1, max(0, a-fl)/f)
}

func violation(parts []part, slack, b, d float64) float64 {
	f := b/d - math.Floor(b/d)
	if f < minFraction || f > 1-minFraction {
		return 0
	}
	sum := slack / (f * d)
	for _, p := range parts {
		sum += roundUp(p.a/d, f) * p.value
	}
	want := math.Ceil(b / d)
	return (want - sum) / max(1, math.Abs(want))
}

// cutRow writes the cut in the model's own columns.
func (t *tree) cutRow(name string, parts []part, rest []mip.Term, b, d float64) mip.Row {
	f := b/d - math.Floor(b/d)
	// The right side gives way by a hair, so that noise cannot cut off an answer.
	row := mip.Row{Name: "round/" + name, Rel: mip.AtLeast, RHS: math.Ceil(b/d) - 1e-7}
	for _, p := range parts {
		g := roundUp(p.a/d, f)
		if p.flip {
			row.RHS -= g * t.firmHi[p.col]
			g = -g
		} else {
			row.RHS += g * t.firmLo[p.col]
		}
		row.Terms = append(row.Terms, mip.Term{Col: p.col, Coef: g})
	}
	for _, term := range rest {
		g := term.Coef / (f * d)
		row.RHS += g * t.firmLo[term.Col]
		row.Terms = append(row.Terms, mip.Term{Col: term.Col, Coef: g})
	}
	return row
}
