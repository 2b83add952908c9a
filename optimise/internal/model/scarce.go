package model

import (
	"cmp"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
)

// Lack is litres that are not for sale of all that may fill some suits, the last of
// which is Suit.
type Lack struct {
	Suit   int
	Litres float64 // placed
}

// Scarce lists what stays short of the suits whatever is bought, by stocks alone: the
// most that can flow from the quotes, each with u[q]·max[q] litres for all its sites
// together, to the suits that it may fill is less than these take. Weights, shares,
// packs and orders may ask for more. It is nothing where no stock is too small.
//
// Suits that one quote without a limit may fill are never short, and those of the same
// quotes are short together, so that a few dozen suits are left of any job.
func (p *Program) Scarce() []Lack {
	f := p.stockFlow()
	order := make([]int, len(f.of))
	for g := range order {
		order[g] = g
	}
	// What few quotes may fill comes first, so that more of what suits most helps.
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(f.of[a]), len(f.of[b])) })
	for _, g := range order {
		for f.augment(g) {
		}
	}
	var out []Lack
	for i, l := range f.lacks {
		if missing := f.wanted[i]; missing > max(feather*l.Litres, spoonful) {
			out = append(out, Lack{l.Suit, missing})
		}
	}
	return out
}

// spoonful is the litres that nobody misses.
const spoonful = 1e-3

// flow is litres on their way from quotes to groups of suits that the same quotes fill.
type flow struct {
	lacks  []Lack    // each group with all that it takes
	of     [][]int   // group → quotes, as indexes into left
	left   []float64 // by quote: litres still for sale
	wanted []float64 // by group: litres still wanted
	sent   [][]float64
}

// stockFlow is the flow before anything is sent.
func (p *Program) stockFlow() *flow {
	f := &flow{}
	if !slices.ContainsFunc(p.In.Job.Quotes, func(q *quotes.Quote) bool { return q.MaxQty != nil }) {
		return f
	}
	stock := make([]float64, len(p.In.Job.Quotes))
	for qi, q := range p.In.Job.Quotes {
		stock[qi] = -1 // no limit
		if q.MaxQty != nil {
			stock[qi] = float64(bill.StepsDown(*q.MaxQty, q.Step)) * q.Step.Float() * float64(p.In.Job.Yield(q))
		}
	}
	at, groups := map[int]int{}, map[string]int{} // quote → its place in left; quotes → group
	var of []int
	for u, su := range p.In.Suits {
		of = of[:0]
		free := false
		for _, k := range su.Classes {
			for _, qi := range p.In.Classes[k].Quotes {
				if p.sold(qi, su.Site) {
					free = free || stock[qi] < 0
					of = append(of, qi)
				}
			}
		}
		if free {
			continue
		}
		slices.Sort(of)
		key := make([]byte, len(stock))
		for _, qi := range of {
			key[qi] = 1
		}
		g, ok := groups[string(key)]
		if !ok {
			g = len(f.lacks)
			groups[string(key)] = g
			var mine []int
			for _, qi := range of {
				j, ok := at[qi]
				if !ok {
					j = len(f.left)
					at[qi] = j
					f.left = append(f.left, stock[qi])
				}
				mine = append(mine, j)
			}
			f.lacks, f.of, f.wanted = append(f.lacks, Lack{}), append(f.of, mine), append(f.wanted, 0)
		}
		f.lacks[g].Suit = u
		f.lacks[g].Litres += su.Litres
		f.wanted[g] += su.Litres
	}
	for range f.of {
		f.sent = append(f.sent, make([]float64, len(f.left)))
	}
	return f
}

// augment sends what it can along a shortest way from a quote with litres left to the
// group to: over groups that can do with another quote's (Edmonds and Karp, Journal of
// the ACM 19, 1972; from memory). It is false when there is no way, or nothing wanted.
func (f *flow) augment(to int) bool {
	tiny := func(g int) float64 { return feather * f.lacks[g].Litres / 100 }
	if f.wanted[to] <= tiny(to) {
		return false
	}
	from := make([]int, len(f.left)) // quote → the group that would take more of it
	for i := range from {
		from[i] = unseen
	}
	prev := make([]int, len(f.of)) // group → the quote of which it would give some for another's
	for g := range prev {
		prev[g] = unseen
	}
	prev[to] = wants
	queue := []int{to} // groups
	for len(queue) > 0 {
		g := queue[0]
		queue = queue[1:]
		for _, q := range f.of[g] {
			if from[q] != unseen {
				continue
			}
			from[q] = g
			if f.left[q] > tiny(g) {
				f.send(q, from, prev)
				return true
			}
			for h := range f.of {
				if prev[h] == unseen && f.sent[h][q] > tiny(h) {
					prev[h] = q
					queue = append(queue, h)
				}
			}
		}
	}
	return false
}

// Marks of a quote or group that no way has reached, and of the group at which a way ends.
const (
	unseen = -1
	wants  = -2
)

// send sends along the way from quote q what all of it lets through.
func (f *flow) send(q int, from, prev []int) {
	most := f.left[q]
	for at := q; ; {
		g := from[at]
		if prev[g] == wants {
			most = min(most, f.wanted[g])
			break
		}
		at = prev[g]
		most = min(most, f.sent[g][at])
	}
	f.left[q] -= most
	for at := q; ; {
		g := from[at]
		f.sent[g][at] += most
		if prev[g] == wants {
			f.wanted[g] -= most
			return
		}
		at = prev[g]
		f.sent[g][at] -= most
	}
}
