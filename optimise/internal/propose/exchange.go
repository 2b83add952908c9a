package propose

import (
	"cmp"
	"math"
	"slices"

	"mediabuy/optimise/bill"
)

// oneSupplierStarts buys everything from each supplier in turn, as far as it
// goes.
func (pr *Proposer) oneSupplierStarts() [][]int {
	var out [][]int
	for s := range pr.suppliers {
		n := make([]int, len(pr.Items))
		rest := pr.fillCheapest(n, func(i int) bool { return pr.Sends[pr.Items[i].Send].supplier == s })
		if rest {
			continue
		}
		out = append(out, n)
	}
	return out
}

// fillCheapest adds the items allowed, cheapest for what they still cover first,
// until nothing is short; it reports whether something still is.
func (pr *Proposer) fillCheapest(n []int, allowed func(i int) bool) bool {
	bought := map[int]int{} // quote → steps for all sites
	for i, k := range n {
		bought[pr.Items[i].Quote] += k
	}
	for pr.deficits(n, pr.deficit) {
		best, bestRate, bestAdd := -1, math.Inf(1), 0
		for i, it := range pr.Items {
			room := min(it.most-n[i], it.stock-bought[it.Quote])
			if room <= 0 || !allowed(i) {
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
			add := min(int(math.Ceil(need-1e-9)), room)
			if bought[it.Quote]+add < it.least {
				add = it.least - bought[it.Quote]
			}
			if add > room {
				continue
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
		bought[pr.Items[best].Quote] += bestAdd
	}
	return false
}

// repair makes n cover everything; false when that cannot be done.
func (pr *Proposer) repair(n []int) bool {
	return !pr.fillCheapest(n, func(int) bool { return true })
}

// trim takes away what is more than needed, dearest steps first, sparing item
// keep.
func (pr *Proposer) trim(n []int, keep int) {
	order := pr.order[:0]
	for i := range n {
		if n[i] > 0 && i != keep {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(pr.Items[b].price[0], pr.Items[a].price[0])
	})
	spare := pr.spare[:0]
	for r := range pr.covers {
		spare = append(spare, -pr.covers[r].litres*(1-1e-7))
	}
	pr.order, pr.spare = order, spare
	for i, k := range n {
		if k > 0 {
			for _, h := range pr.Items[i].covers {
				spare[h.row] += float64(k) * h.per
			}
		}
	}
	for _, i := range order {
		it := &pr.Items[i]
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

// move is a purchase that may replace the one at hand.
type move struct {
	n    []int
	cost float64
}

// maxMoves is how many exchanges follow one another, and maxChecks how many of the
// cheapest are held against the beds for each.
const (
	maxMoves  = 40
	maxChecks = 6
)

// exchange swaps packs while that saves money and the beds can still be filled.
// The start itself is only kept if it fits and beats limit.
func (pr *Proposer) exchange(n []int, cost, limit float64) ([]int, float64) {
	var kept []int
	keptCost := math.Inf(1)
	if cost < limit && pr.check(n) {
		kept, keptCost = slices.Clone(n), cost
	}
	for range maxMoves {
		if pr.err != nil || pr.budget < 0 {
			break
		}
		moves := pr.swaps(n, min(cost, keptCost)-worthwhile)
		moves = append(moves, pr.raises(n, min(cost, keptCost)-worthwhile)...)
		slices.SortStableFunc(moves, func(x, y move) int { return cmp.Compare(x.cost, y.cost) })
		i := slices.IndexFunc(moves[:min(len(moves), maxChecks)], func(m move) bool { return m.cost < limit && pr.check(m.n) })
		switch {
		case i >= 0:
			n, cost = moves[i].n, moves[i].cost
			kept, keptCost = n, cost
		case kept == nil && len(moves) > 0:
			n, cost = moves[0].n, moves[0].cost // not yet below the best: walk on anyway
		default:
			return kept, keptCost
		}
	}
	return kept, keptCost
}

// try keeps m if it costs less than below and holds what it has to.
func (pr *Proposer) try(moves []move, m []int, below float64) []move {
	pr.budget -= len(pr.Items) + len(pr.Sends)
	if !pr.holdsMoving(m) {
		return moves
	}
	if c := pr.Cost(m, nil); c < below {
		return append(moves, move{slices.Clone(m), c})
	}
	return moves
}

// swaps are the purchases below a cost in which one step of an item, or all of
// it, makes way for as much of another as is then missing.
func (pr *Proposer) swaps(n []int, below float64) []move {
	var moves []move
	for a := range n {
		if n[a] == 0 || pr.budget < 0 {
			continue
		}
		for _, k := range []int{1, n[a]} {
			for _, b := range pr.others[pr.Items[a].Site] {
				if b == a {
					continue
				}
				if m := pr.swap(n, a, k, b); m != nil {
					moves = pr.try(moves, m, below)
				}
			}
			if n[a] == 1 {
				break
			}
		}
	}
	return moves
}

// swap takes k steps of item a out of n and puts in of item b what is then
// missing; nil where b does not mend all of it, or cannot be bought like that. What
// it gives holds until it is called again.
func (pr *Proposer) swap(n []int, a, k, b int) []int {
	m := append(pr.trial[:0], n...)
	pr.trial = m
	m[a] -= k
	if m[a] > 0 && m[a] < pr.Items[a].least {
		return nil
	}
	pr.deficits(m, pr.deficit)
	need, missing := 0, 0
	for _, d := range pr.deficit {
		if d > 0 {
			missing++
		}
	}
	for _, h := range pr.Items[b].covers {
		if d := pr.deficit[h.row]; d > 0 {
			missing--
			need = max(need, int(math.Ceil(d/h.per-1e-9)))
		}
	}
	if missing > 0 || m[b]+need > pr.Items[b].most {
		return nil
	}
	m[b] += need
	if m[b] > 0 && m[b] < pr.Items[b].least {
		m[b] = pr.Items[b].least
	}
	pr.trim(m, b)
	return m
}

// raises are the purchases below a cost in which more is bought of one item, which
// can pay by a break, a waiver or a full load.
func (pr *Proposer) raises(n []int, below float64) []move {
	var moves []move
	for b := range n {
		if n[b] == 0 && !pr.isOther[b] || pr.budget < 0 {
			continue
		}
		for _, to := range pr.goals(b, n[b]) {
			m := append(pr.trial[:0], n...)
			pr.trial = m
			m[b] = to
			pr.trim(m, b)
			moves = pr.try(moves, m, below)
		}
	}
	return moves
}

// goals are the counts above have of item b that might pay: one more, and each
// break.
func (pr *Proposer) goals(b, have int) []int {
	it := &pr.Items[b]
	var out []int
	if have+1 <= it.most {
		out = append(out, max(have+1, min(it.least, it.most)))
	}
	for _, lv := range pr.p.In.Pools[it.pool].Levels {
		if k := bill.StepsUp(lv.From, pr.p.In.Job.Quotes[it.Quote].Step); k > have+1 && k <= it.most {
			out = append(out, k)
		}
	}
	return out
}
