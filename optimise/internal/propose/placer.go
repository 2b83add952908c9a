package propose

import (
	"context"
	"errors"
	"fmt"
	"time"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/mip"
)

// placer answers whether what is bought for one site can fill its beds within
// the weights and shares, and if not, gives a row that every purchase that can
// must satisfy.
//
// With S[k] the litres that class k places, the least shortage
//
//	σ(S) = min Σ_u short[u]   s.t.  Σ_k v[k,u] + short[u] = D[u],
//	                                Σ_u v[k,u] ≤ S[k],
//	                                the rows of slots, grades, weights, shares
//
// is convex in S, so with its row prices g[k] ≤ 0 at S0, σ(S) ≥ σ(S0) +
// Σ_k g[k]·(S[k] − S0[k]); a purchase fills the beds only if σ(S) = 0, hence only
// if Σ_k −g[k]·S[k] ≥ σ(S0) − Σ_k g[k]·S0[k] (Benders, Numerische Mathematik 4,
// 1962; from memory).
//
// A slot's weight can be too small for any mix, so a short slot is let off its
// weight too: what is short is not placed.
type placer struct {
	lp      *lpsolve.Problem
	cols    map[int]int // program column → column here
	shorts  []int       // columns of what is short
	demands []float64   // and the litres each is short of
	classes []int       // of the site
	row     map[int]int // class → its supply row
	res     lpsolve.Result
	last    []float64 // litres by class last asked about
	fitted  bool      // and whether they fill the beds
}

func newPlacer(p *model.Program, site int) (*placer, error) {
	pl := &placer{row: map[int]int{}}
	lp, err := lpsolve.New()
	if err != nil {
		return nil, err
	}
	pl.lp = lp
	cols := map[int]int{}
	pl.cols = cols
	add := func(name string, cost, upper float64) int {
		j, e := lp.AddColumn(name, cost, 0, upper, nil, nil)
		if e != nil && err == nil {
			err = e
		}
		return j
	}
	use := func(col int) int {
		j, ok := cols[col]
		if !ok {
			j = add(p.Cols[col].Name, 0, p.Cols[col].Upper)
			cols[col] = j
		}
		return j
	}
	row := func(name string, rel lpsolve.Relation, rhs float64, terms []mip.Term, more ...mip.Term) int {
		var at []int
		var coef []float64
		for _, t := range terms {
			at, coef = append(at, use(t.Col)), append(coef, t.Coef)
		}
		for _, t := range more { // columns of this problem already
			at, coef = append(at, t.Col), append(coef, t.Coef)
		}
		i, e := lp.AddRow(name, rel, rhs, at, coef)
		if e != nil && err == nil {
			err = e
		}
		return i
	}
	for u, su := range p.In.Suits {
		if su.Site != site {
			continue
		}
		short := mip.Term{Col: add("short/"+su.Name, 1, su.Litres), Coef: 1}
		pl.shorts, pl.demands = append(pl.shorts, short.Col), append(pl.demands, su.Litres)
		var terms []mip.Term
		for _, g := range su.Grades {
			terms = append(terms, p.GradeOf(g, u, 1)...)
		}
		row("fill/"+su.Name, lpsolve.Equal, su.Litres, terms, short)
		var shortSlots []mip.Term
		for _, t := range su.Slots {
			if !p.InUnit(t) {
				continue
			}
			s := mip.Term{Col: add("short/"+p.In.Slots[t].Name, 0, p.In.Slots[t].Litres), Coef: 1}
			pl.shorts, pl.demands = append(pl.shorts, s.Col), append(pl.demands, p.In.Slots[t].Litres)
			shortSlots = append(shortSlots, mip.Term{Col: s.Col, Coef: 1})
			terms = nil
			for _, g := range su.Grades {
				terms = append(terms, p.GradeIn(g, t, 1)...)
			}
			row("fill slot/"+p.In.Slots[t].Name, lpsolve.Equal, p.In.Slots[t].Litres, terms, s)
		}
		if shortSlots == nil {
			continue
		}
		// What slots are short is what the suit is short.
		row("short/"+su.Name, lpsolve.AtMost, 0, nil, append(shortSlots, mip.Term{Col: short.Col, Coef: -1})...)
		for _, g := range su.Grades {
			terms = p.GradeOf(g, u, -1)
			for _, t := range su.Slots {
				if p.InUnit(t) {
					terms = append(terms, p.GradeIn(g, t, 1)...)
				}
			}
			row("grade", lpsolve.AtMost, 0, terms)
		}
	}
	for k, cl := range p.In.Classes {
		if cl.Site != site || !p.ClassSold(k) {
			continue
		}
		var terms []mip.Term
		for u := range p.In.Suits {
			if v, ok := p.V[[2]int{k, u}]; ok {
				terms = append(terms, mip.Term{Col: v, Coef: 1})
			}
		}
		pl.classes = append(pl.classes, k)
		pl.row[k] = row("supply/"+cl.Name, lpsolve.AtMost, 0, terms)
	}
	for _, un := range p.In.Units {
		if p.In.Slots[un.Slots[0]].Site != site {
			continue
		}
		for _, r := range p.UnitRows(un) {
			row(r.Name, lpsolve.AtMost, r.RHS, r.Terms)
		}
	}
	pl.last = make([]float64, len(pl.classes))
	if err != nil {
		lp.Close()
		return nil, fmt.Errorf("preparing the placing of site %q: %w", p.In.Sites[site], err)
	}
	return pl, nil
}

// errUnplaced says that the linear solver could not tell whether a purchase fits.
// A search can pass over that purchase: it is a proposal, not a proof.
var errUnplaced = errors.New("the linear solver gave up on placing what is bought")

// place reports the least shortage in litres for the litres each class places,
// and the weight of each class in the row it implies when there is one.
//
// It stops at the time until, unless that is zero, with [mip.ErrLimit].
func (pl *placer) place(ctx context.Context, until time.Time, litres func(class int) float64) (short float64, weights []float64, rhs float64, err error) {
	same := pl.fitted
	for i, k := range pl.classes {
		if l := litres(k); l != pl.last[i] {
			same, pl.last[i] = false, l
		}
	}
	if same {
		return 0, nil, 0, nil
	}
	pl.fitted = false
	for i, k := range pl.classes {
		if err := pl.lp.SetRHS(pl.row[k], pl.last[i]); err != nil {
			return 0, nil, 0, err
		}
	}
	opt := lpsolve.Options{Pricing: pl.rule()}
	if !until.IsZero() {
		if opt.TimeLimit = time.Until(until); opt.TimeLimit <= 0 {
			return 0, nil, 0, mip.ErrLimit
		}
	}
	if err := pl.lp.SolveSteady(ctx, opt, &pl.res); err != nil {
		return 0, nil, 0, err
	}
	if pl.res.Limit == "time" {
		return 0, nil, 0, mip.ErrLimit
	}
	if pl.res.Status != lpsolve.Optimal {
		return 0, nil, 0, errUnplaced
	}
	short = pl.res.Objective
	if short <= 1e-6 {
		pl.fitted = true
		return 0, nil, 0, nil
	}
	y, err := pl.lp.Duals(nil)
	if err != nil {
		return 0, nil, 0, err
	}
	rhs = short
	weights = make([]float64, len(pl.classes))
	for i, k := range pl.classes {
		weights[i] = max(0, -y[pl.row[k]])
		rhs += weights[i] * litres(k)
	}
	return short, weights, rhs, nil
}

// large is from how many rows and columns steepest edge goes first: the placing of thousands of beds takes about as many steps with
// it as with devex, each in a quarter of the time.
const large = 5000

// rule is how the simplex picks its next move.
func (pl *placer) rule() lpsolve.Pricing {
	if pl.lp.Rows()+pl.lp.Columns() > large {
		return lpsolve.PricingSteepest
	}
	return lpsolve.PricingDevex
}
