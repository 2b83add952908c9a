package optimise

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
	"time"

	"mediabuy/optimise/mip"
)

// A cent less is what an improvement must bring to be worth another look.
const worthwhile = 0.005

// proposer turns fractional answers into whole purchases by rounding up,
// trimming what is then too much, and exchanging packs for others while that
// saves money. It only proposes: the solver checks that the beds can be filled
// with what is bought, and proves by itself that nothing is cheaper.
type proposer struct {
	*completer
	deficit []float64
	buf     []float64 // a whole vector of columns
	fits    func([]float64) bool
	placers []*placer // by site
	byCol   map[int]int
	others  [][]int // by site: items to exchange packs for
	isOther []bool
	budget  int // items that may still be looked at
	ctx     context.Context
	until   time.Time // when to stop; zero for never
	err     error
}

func newProposer(ctx context.Context, p *program) (*proposer, error) {
	c := newCompleter(p)
	pr := &proposer{completer: c, deficit: make([]float64, len(c.covers)), buf: make([]float64, len(p.Cols)), byCol: map[int]int{}, ctx: ctx}
	for i, it := range c.items {
		pr.byCol[it.col] = i
	}
	pr.findOthers()
	for s := range p.in.sites {
		pl, err := newPlacer(p, s)
		if err != nil {
			pr.close()
			return nil, err
		}
		pr.placers = append(pr.placers, pl)
	}
	return pr, nil
}

// findOthers lists, for each site and medium in turn, the items that place a
// litre cheapest, so that no medium is left out.
func (pr *proposer) findOthers() {
	pr.isOther = make([]bool, len(pr.items))
	rate := func(i int) float64 {
		it := &pr.items[i]
		return (it.price[len(it.price)-1] + it.other) / it.placed
	}
	for s := range pr.p.in.sites {
		byGrade := map[int][]int{}
		var grades []int
		for i, it := range pr.items {
			if it.site != s {
				continue
			}
			g := pr.p.in.classes[it.class].grade
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

func (pr *proposer) close() {
	for _, pl := range pr.placers {
		pl.lp.Close()
	}
}

// propose offers whole columns that cost less than best to fits; see
// [mip.Options].
func (pr *proposer) propose(x []float64, best float64, thorough bool, fits func([]float64) bool) error {
	pr.fits = fits
	n := make([]int, len(pr.items))
	for i, it := range pr.items {
		n[i] = min(int(math.Ceil(x[it.col]-1e-6)), it.most)
		if n[i] > 0 {
			n[i] = min(max(n[i], it.least), it.most)
		}
	}
	pr.budget = quickWork
	if thorough {
		pr.budget = thoroughWork
	}
	starts := [][]int{n}
	if thorough {
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
			ready = append(ready, start{n, pr.cost(n, nil)})
		}
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
	return pr.err
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

// oneSupplierStarts buys everything from each supplier in turn, as far as it
// goes.
func (pr *proposer) oneSupplierStarts() [][]int {
	var out [][]int
	for s := range pr.suppliers {
		n := make([]int, len(pr.items))
		rest := pr.fillCheapest(n, func(i int) bool { return pr.sends[pr.items[i].send].supplier == s })
		if rest {
			continue
		}
		out = append(out, n)
	}
	return out
}

// fillCheapest adds the items allowed, cheapest for what they still cover first,
// until nothing is short; it reports whether something still is.
func (pr *proposer) fillCheapest(n []int, allowed func(i int) bool) bool {
	for pr.deficits(n, pr.deficit) {
		best, bestRate, bestAdd := -1, math.Inf(1), 0
		for i, it := range pr.items {
			if n[i] >= it.most || !allowed(i) {
				continue
			}
			need, gain := 0.0, 0.0
			for _, h := range it.covers {
				if d := pr.deficit[h.row]; d > 0 {
					need = max(need, d/h.per)
				}
			}
			if need <= 0 {
				continue
			}
			add := min(int(math.Ceil(need-1e-9)), it.most-n[i])
			if n[i]+add < it.least {
				add = it.least - n[i]
			}
			for _, h := range it.covers {
				gain += min(pr.deficit[h.row], h.per*float64(add))
			}
			price := it.price[len(it.price)-1] + it.other
			if rate := float64(add) * price / gain; rate < bestRate {
				best, bestRate, bestAdd = i, rate, add
			}
		}
		if best < 0 {
			return true
		}
		n[best] += bestAdd
	}
	return false
}

// repair makes n cover everything; false when that cannot be done.
func (pr *proposer) repair(n []int) bool {
	return !pr.fillCheapest(n, func(int) bool { return true })
}

// trim takes away what is more than needed, dearest steps first, sparing item
// keep.
func (pr *proposer) trim(n []int, keep int) {
	var order []int
	for i := range n {
		if n[i] > 0 && i != keep {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(pr.items[b].price[0], pr.items[a].price[0])
	})
	spare := make([]float64, len(pr.covers))
	for r := range pr.covers {
		spare[r] = -pr.covers[r].litres * (1 - 1e-7)
	}
	for i, k := range n {
		if k > 0 {
			for _, h := range pr.items[i].covers {
				spare[h.row] += float64(k) * h.per
			}
		}
	}
	for _, i := range order {
		it := &pr.items[i]
		k := n[i]
		for _, h := range it.covers {
			k = min(k, int(math.Floor(max(0, spare[h.row])/h.per)))
		}
		if k <= 0 {
			continue
		}
		if n[i]-k < it.least && n[i]-k > 0 {
			k = n[i] - it.least
		}
		n[i] -= k
		for _, h := range it.covers {
			spare[h.row] -= float64(k) * h.per
		}
	}
}

// exchange swaps packs while that saves money and the beds can still be filled.
// The start itself is only kept if it fits and beats limit.
func (pr *proposer) exchange(n []int, cost, limit float64) ([]int, float64) {
	var kept []int
	keptCost := math.Inf(1)
	if cost < limit && pr.check(n) {
		kept, keptCost = slices.Clone(n), cost
	}
	type move struct {
		n    []int
		cost float64
	}
	for range 40 {
		if pr.err != nil || pr.budget < 0 {
			break
		}
		var moves []move
		floor := min(cost, keptCost)
		try := func(m []int) {
			pr.budget -= len(pr.items) + len(pr.sends)
			if c := pr.cost(m, nil); c < floor-worthwhile {
				moves = append(moves, move{m, c})
			}
		}
		for a := range n {
			if n[a] == 0 || pr.budget < 0 {
				continue
			}
			for _, k := range []int{1, n[a]} {
				for _, b := range pr.others[pr.items[a].site] {
					if b == a {
						continue
					}
					m := slices.Clone(n)
					m[a] -= k
					if m[a] > 0 && m[a] < pr.items[a].least {
						continue
					}
					pr.deficits(m, pr.deficit)
					need := 0
					ok := true
					missing := 0
					for _, d := range pr.deficit {
						if d > 0 {
							missing++
						}
					}
					for _, h := range pr.items[b].covers {
						if d := pr.deficit[h.row]; d > 0 {
							missing--
							need = max(need, int(math.Ceil(d/h.per-1e-9)))
						}
					}
					ok = missing == 0
					if !ok || m[b]+need > pr.items[b].most {
						continue
					}
					m[b] += need
					if m[b] > 0 && m[b] < pr.items[b].least {
						m[b] = pr.items[b].least
					}
					pr.trim(m, b)
					try(m)
				}
				if n[a] == 1 {
					break
				}
			}
		}
		// Buying more of one can pay by a break, a waiver or a full load.
		for b := range n {
			if n[b] == 0 && !pr.isOther[b] || pr.budget < 0 {
				continue
			}
			for _, to := range pr.goals(b, n[b]) {
				m := slices.Clone(n)
				m[b] = to
				pr.trim(m, b)
				try(m)
			}
		}
		slices.SortStableFunc(moves, func(x, y move) int { return cmp.Compare(x.cost, y.cost) })
		moved := false
		for i, mv := range moves {
			if i >= 6 {
				break
			}
			if mv.cost >= limit || !pr.check(mv.n) {
				continue
			}
			n, cost = mv.n, mv.cost
			kept, keptCost = mv.n, mv.cost
			moved = true
			break
		}
		if !moved && kept == nil && len(moves) > 0 {
			// Not yet below the best: walk on anyway.
			n, cost = moves[0].n, moves[0].cost
			moved = true
		}
		if !moved {
			break
		}
	}
	return kept, keptCost
}

// goals are the counts above have of item b that might pay: one more, and each
// break.
func (pr *proposer) goals(b, have int) []int {
	it := &pr.items[b]
	var out []int
	if have+1 <= it.most {
		out = append(out, max(have+1, min(it.least, it.most)))
	}
	for _, lv := range pr.p.in.pools[it.pool].levels {
		if k := stepsUp(lv.from, pr.p.in.job.Quotes[it.quote].Step); k > have+1 && k <= it.most {
			out = append(out, k)
		}
	}
	return out
}

// check reports whether the beds can be filled with n. If they cannot, it keeps
// the row that says so, which steers every later trial.
func (pr *proposer) check(n []int) bool {
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
	pr.cost(n, pr.buf)
	return pr.fits(pr.buf)
}

// broken finds, site by site, a row that a purchase of steps(i) of each item
// breaks because the beds cannot be filled with it; none when they can.
func (pr *proposer) broken(steps func(i int) float64) ([]mip.Row, error) {
	var out []mip.Row
	for site, pl := range pr.placers {
		litres := make(map[int]float64, len(pl.classes))
		for i, it := range pr.items {
			if n := steps(i); n > 0 && it.site == site {
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
		row := mip.Row{Name: "place/" + pr.p.in.sites[site], Rel: mip.AtLeast, RHS: rhs * (1 - 1e-9)}
		for j, k := range pl.classes {
			if weights[j] < 1e-9 {
				continue
			}
			for _, it := range pr.items {
				if it.class == k && it.site == site {
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
func (pr *proposer) lazy(x []float64) ([]mip.Row, error) {
	return pr.broken(func(i int) float64 { return x[pr.items[i].col] })
}
