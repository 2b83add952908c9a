package propose

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
	"time"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/ways"
	"mediabuy/optimise/mip"
)

// A cent less is what an improvement must bring to be worth another look.
const worthwhile = 0.005

// Proposer turns fractional answers into whole purchases by rounding up,
// trimming what is then too much, and exchanging packs for others while that
// saves money. It only proposes: the solver checks that the beds can be filled
// with what is bought, and proves by itself that nothing is cheaper.
type Proposer struct {
	*Completer
	deficit []float64
	buf     []float64 // a whole vector of columns
	fits    func([]float64) bool
	placers []*placer  // by site
	ways    *ways.Ways // where layers are not filled freely; nil else
	byCol   map[int]int
	others  [][]int // by site: items to exchange packs for
	isOther []bool
	budget  int   // items that may still be looked at
	Near    *near // nil where proposals are free to hold anything
	ctx     context.Context
	until   time.Time // when to stop; zero for never
	err     error

	// Room for what is only needed for a moment.
	trial, order []int
	spare        []float64
}

func New(ctx context.Context, p *model.Program) (*Proposer, error) {
	c := NewCompleter(p)
	pr := &Proposer{Completer: c, deficit: make([]float64, len(c.covers)), buf: make([]float64, len(p.Cols)), byCol: map[int]int{}, ctx: ctx}
	for i, it := range c.Items {
		pr.byCol[it.col] = i
	}
	pr.findOthers()
	for s := range p.In.Sites {
		pl, err := newPlacer(p, s)
		if err != nil {
			pr.Close()
			return nil, err
		}
		pr.placers = append(pr.placers, pl)
	}
	return pr, nil
}

// Steer readies a search for a purchase: the lean model of p, with the options by
// which the search asks the proposer, which is for the caller to close.
func Steer(ctx context.Context, p *model.Program, begun time.Time, limit time.Duration) (*Proposer, *mip.Model, mip.Options, error) {
	pr, err := New(ctx, p)
	if err != nil {
		return nil, nil, mip.Options{}, err
	}
	if limit > 0 {
		pr.until = begun.Add(limit)
	}
	opt := mip.Options{TimeLimit: limit, Propose: pr.propose, Lazy: pr.lazy}
	if p.In.Mixing { // every layer has its columns in the lean model, too: nothing is left for placing to find
		if pr.ways, err = ways.New(ctx, p); err != nil {
			pr.Close()
			return nil, nil, mip.Options{}, err
		}
		opt.Lazy, opt.Tighten = pr.ways.Broken, true
	}
	return pr, p.Lean(), opt, nil
}

// findOthers lists, for each site and medium in turn, the items that place a
// litre cheapest, so that no medium is left out.
func (pr *Proposer) findOthers() {
	pr.isOther = make([]bool, len(pr.Items))
	rate := func(i int) float64 {
		it := &pr.Items[i]
		return (it.price[len(it.price)-1] + it.other) / it.placed
	}
	for s := range pr.p.In.Sites {
		byGrade := map[int][]int{}
		var grades []int
		for i, it := range pr.Items {
			if it.Site != s {
				continue
			}
			g := pr.p.In.Classes[it.class].Grade
			if byGrade[g] == nil {
				grades = append(grades, g)
			}
			byGrade[g] = append(byGrade[g], i)
		}
		for _, g := range grades {
			slices.SortStableFunc(byGrade[g], func(a, b int) int { return cmp.Compare(rate(a), rate(b)) })
		}
		var out []int
		for k := 0; len(out) < maxOthers; k++ {
			some := false
			for _, g := range grades {
				if k < len(byGrade[g]) {
					some = true
					out = append(out, byGrade[g][k])
					pr.isOther[byGrade[g][k]] = true
				}
			}
			if !some {
				break
			}
		}
		pr.others = append(pr.others, out)
	}
}

func (pr *Proposer) Close() {
	for _, pl := range pr.placers {
		pl.lp.Close()
	}
	if pr.ways != nil {
		pr.ways.Close()
	}
}

// propose offers whole columns that cost less than best to fits; see
// [mip.Options].
func (pr *Proposer) propose(x []float64, best float64, thorough bool, fits func([]float64) bool) error {
	pr.fits = fits
	n := make([]int, len(pr.Items))
	for i, it := range pr.Items {
		n[i] = min(int(math.Ceil(x[it.col]-1e-6)), it.most)
		if n[i] > 0 {
			n[i] = min(max(n[i], it.least), it.most)
		}
	}
	pr.withinStock(n, x)
	pr.budget = quickWork
	if thorough {
		pr.budget = thoroughWork
	}
	starts := [][]int{n}
	if thorough && (pr.Near == nil || len(pr.Near.buys) == 0) {
		starts = append(starts, pr.oneSupplierStarts()...)
	}
	type start struct {
		n    []int
		cost float64
	}
	var ready []start
	for _, n := range starts {
		if pr.repair(n) {
			pr.trim(n, -1)
			cost := pr.Cost(n, nil)
			if math.IsInf(cost, 1) && pr.newDeal(n).sell() {
				cost = pr.Cost(n, nil)
			}
			if pr.holdsMoving(n) {
				ready = append(ready, start{n, cost})
			}
		}
	}
	for _, n := range pr.nearStarts(thorough) {
		ready = append(ready, start{n, pr.Cost(n, nil)})
	}
	slices.SortStableFunc(ready, func(a, b start) int { return cmp.Compare(a.cost, b.cost) })
	for i, s := range ready {
		if pr.err != nil {
			return pr.err
		}
		if i >= maxStarts || !thorough && s.cost > best*1.02 {
			break
		}
		if n, cost := pr.exchange(s.n, s.cost, best); n != nil && cost < best-worthwhile {
			best = cost
		}
	}
	if math.IsInf(best, 1) && pr.err == nil && pr.repair(n) {
		pr.first(n)
	}
	return pr.err
}

// first makes n one that both fills the beds and is sold, whatever it costs, and
// offers it.
func (pr *Proposer) first(n []int) {
	d := pr.newDeal(n)
	for range maxMends {
		if !pr.mend(n, d.allowed) {
			return
		}
		if !math.IsInf(pr.Cost(n, nil), 1) {
			pr.check(n)
			return
		}
		if !d.sell() {
			return
		}
	}
}

// maxMends bounds the passes of mend; with thirty sites three were enough.
const maxMends = 10

// mend makes n cover the rows by which the placers refuse it, with more of the items
// allowed, until they do not; false when that cannot be done.
func (pr *Proposer) mend(n []int, allowed func(i int) bool) bool {
	for range maxMends {
		rows, err := pr.broken(func(i int) float64 { return float64(n[i]) })
		switch {
		case errors.Is(err, errUnplaced):
			return false
		case err != nil:
			pr.err = err
			return false
		case len(rows) == 0:
			return true
		case pr.fillCheapest(n, allowed):
			return false
		}
	}
	return false
}

// withinStock takes steps out of n, which is x rounded up, where a quote has not
// got so many for all sites together: those that rounding added most to first.
func (pr *Proposer) withinStock(n []int, x []float64) {
	byQuote := map[int][]int{}
	bought := map[int]int{}
	for i, it := range pr.Items {
		if n[i] > 0 {
			byQuote[it.Quote] = append(byQuote[it.Quote], i)
			bought[it.Quote] += n[i]
		}
	}
	for q, items := range byQuote {
		over := bought[q] - pr.Items[items[0]].stock
		if over <= 0 {
			continue
		}
		added := func(i int) float64 { return float64(n[i]) - x[pr.Items[i].col] }
		slices.SortStableFunc(items, func(a, b int) int { return cmp.Compare(added(b), added(a)) })
		for _, i := range items {
			if over > 0 && n[i] > 0 {
				n[i]--
				over--
			}
		}
	}
}

// maxStarts is how many of the cheapest starts are worked on, and maxOthers how
// many other items each is held against when packs are exchanged: those that
// place a litre cheapest.
const (
	maxStarts = 4
	maxOthers = 30
)

// What a round of proposals may cost, in items looked at: about a fifth of a
// second when thorough. On small jobs the search by exchange ends by itself long
// before; on large ones the proof gets on better without it.
const (
	thoroughWork = 10_000_000
	quickWork    = 2_000_000
)

// check reports whether the beds can be filled with n. If they cannot, it keeps
// the row that says so, which steers every later trial.
func (pr *Proposer) check(n []int) bool {
	if pr.deficits(n, pr.deficit) {
		return false
	}
	rows, err := pr.broken(func(i int) float64 { return float64(n[i]) })
	if errors.Is(err, errUnplaced) {
		return false
	}
	if err != nil {
		pr.err = err
		return false
	}
	if len(rows) > 0 {
		return false
	}
	pr.Cost(n, pr.buf)
	return pr.fits(pr.buf)
}

// broken finds, site by site, a row that a purchase of steps(i) of each item
// breaks because the beds cannot be filled with it; none when they can.
func (pr *Proposer) broken(steps func(i int) float64) ([]mip.Row, error) {
	var out []mip.Row
	for site, pl := range pr.placers {
		litres := make(map[int]float64, len(pl.classes))
		for i, it := range pr.Items {
			if n := steps(i); n > 0 && it.Site == site {
				litres[it.class] += n * it.placed
			}
		}
		short, weights, rhs, err := pl.place(pr.ctx, pr.until, func(k int) float64 { return litres[k] })
		if err != nil {
			return nil, err
		}
		if short == 0 {
			continue
		}
		row := mip.Row{Name: "place/" + pr.p.In.Sites[site], Rel: mip.AtLeast, RHS: rhs * (1 - 1e-9)}
		for j, k := range pl.classes {
			if weights[j] < 1e-9 {
				continue
			}
			for _, it := range pr.Items {
				if it.class == k && it.Site == site {
					row.Terms = append(row.Terms, mip.Term{Col: it.col, Coef: weights[j] * it.placed})
				}
			}
		}
		out = append(out, row)
		pr.p.Implied = append(pr.p.Implied, row)
		pr.addCover(row, pr.byCol)
		pr.deficit = append(pr.deficit, 0)
	}
	return out, nil
}

// lazy is the rows of placing, found as they are needed: see [mip.Options]. What
// is short by less than a spoonful in a site is noise of the linear solver.
func (pr *Proposer) lazy(x []float64) ([]mip.Row, error) {
	return pr.broken(func(i int) float64 { return x[pr.Items[i].col] })
}
