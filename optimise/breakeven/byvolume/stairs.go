package byvolume

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// tread is a stretch of volume with one price: the cheapest way to place any
// volume above the tread before and up to UpTo.
type tread struct {
	upTo  float64 // placed litres
	total units.Money
	quote *quotes.Quote
	packs units.Decimal
}

// stairs is what it costs to place a volume, as a staircase: treads with rising
// upTo. Past the last there is none to buy.
type stairs []tread

// volumeSlack is the share of a step by which a volume may pass a whole number of
// packs and still be held by them: the noise of binary fractions, less than a
// grain of stone.
const volumeSlack = 1e-9

// at is the tread of a volume, and whether there is one.
func (s stairs) at(v float64) (tread, bool) {
	i, _ := slices.BinarySearchFunc(s, v, func(t tread, v float64) int { return cmp.Compare(t.upTo, v) })
	if i == len(s) {
		return tread{}, false
	}
	return s[i], true
}

// staircase is the stairs of one quote bought alone for one site, up to most
// placed litres or to the stock, whichever is less.
//
// The price of n steps is the bill for n steps, brought the cheapest way. A
// volume needing n steps costs the least of n and all more, because more can
// reach a break, free delivery or the smallest order. Beyond all the steps looked
// at only the first step of each break, of free delivery and of the smallest
// order can be cheaper, so that those are looked at too.
func staircase(job *quotes.Job, q *quotes.Quote, site string, most float64) (stairs, error) {
	perStep := float64(q.Placed()) * q.Step.Float()
	if perStep <= 0 {
		return nil, nil // all of it is lost to rinsing
	}
	a := newPricer(job, q, site)
	stock := int64(math.MaxInt32)
	if q.MaxQty != nil {
		steps, err := q.MaxQty.Quo(q.Step).Floor()
		if err != nil {
			return nil, fmt.Errorf("counting the stock of %q: %w", q.Name, err)
		}
		stock = min(stock, steps)
	}
	last := min(int64(math.Ceil(most/perStep-volumeSlack)), stock)
	if last > mostSteps {
		return nil, fmt.Errorf("%q: %d packs would have to be priced, want at most %d; ask for less volume", q.Name, last, mostSteps)
	}
	prices := make([]*units.Money, last+1) // by steps; nil: not sold so
	for n := int64(1); n <= last; n++ {
		prices[n] = a.total(n)
	}
	// best is the cheapest count of steps from n on.
	var best *units.Money
	var bestN int64
	for _, n := range a.beyond(last, stock) {
		if p := a.total(n); p != nil && (best == nil || p.Cmp(*best) < 0) {
			best, bestN = p, n
		}
	}
	var out stairs
	for n := last; n >= 1; n-- {
		if p := prices[n]; p != nil && (best == nil || p.Cmp(*best) <= 0) {
			best, bestN = p, n
		}
		if best != nil {
			out = append(out, tread{upTo: float64(n) * perStep, total: *best, quote: q, packs: units.DecimalFromInt(bestN).Mul(q.Step)})
		}
	}
	slices.Reverse(out)
	return out, a.err
}

// mostSteps bounds the packs priced for one staircase, so that a wrong unit does
// not keep the machine busy for an hour.
const mostSteps = 50_000

// pricer prices one quote bought alone.
type pricer struct {
	job  *quotes.Job // of that quote only
	q    *quotes.Quote
	site string
	ways []*quotes.Delivery // nil: the supplier states no terms
	err  error              // that no way leads to the site
}

func newPricer(job *quotes.Job, q *quotes.Quote, site string) *pricer {
	p := &pricer{job: optimise.Restrict(job, func(o *quotes.Quote) bool { return o == q }), q: q, site: site}
	stated := false
	for _, d := range job.Delivery {
		if d.Supplier == q.Supplier {
			stated = true
			if (d.Site == "" || d.Site == site) && slices.Contains(d.Covers, q.Form) {
				p.ways = append(p.ways, d)
			}
		}
	}
	if stated && len(p.ways) == 0 {
		p.err = fmt.Errorf("%s does not deliver %s goods to site %q", q.Supplier, q.Form, site)
	}
	return p
}

// bills are the bills of n steps, one for each way that takes the order.
func (p *pricer) bills(n int64) []*bill.Bill {
	items := []bill.Item{{Quote: p.q, Site: p.site, Steps: n}}
	ways := p.ways
	if len(ways) == 0 {
		if p.err != nil {
			return nil
		}
		ways = []*quotes.Delivery{nil}
	}
	var out []*bill.Bill
	for _, w := range ways {
		buy := bill.Purchase{Items: items}
		if w != nil {
			buy.Carry = map[bill.Carry]*quotes.Delivery{{Supplier: p.q.Supplier, Site: p.site, Form: p.q.Form}: w}
		}
		// The only errors are orders that the supplier does not take: too few
		// packs, too many, or goods of too little value.
		if bill, err := bill.Price(p.job, buy); err == nil {
			out = append(out, bill)
		}
	}
	return out
}

// total is the cheapest total of n steps, nil where they are not sold so.
func (p *pricer) total(n int64) *units.Money {
	var best *units.Money
	for _, b := range p.bills(n) {
		if best == nil || b.Total.Cmp(*best) < 0 {
			best = &b.Total
		}
	}
	return best
}

// beyond lists the counts of steps above last, up to the stock, from which the
// price changes for the better: the least quantity, each break, and for each
// price level where an order is first taken and where it first comes free.
func (p *pricer) beyond(last, stock int64) []int64 {
	var out []int64
	add := func(n int64) {
		if n > last && n <= stock && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	steps := func(packs units.Decimal) int64 {
		n, err := packs.Quo(p.q.Step).Ceil()
		if err != nil {
			return math.MaxInt32
		}
		return n
	}
	least := steps(p.q.MinQty)
	add(least)
	levels := p.q.Levels()
	for l, level := range levels {
		from, to := max(steps(level.From), last+1, least), stock
		if l+1 < len(levels) {
			to = min(to, steps(levels[l+1].From)-1)
		}
		if from > to {
			continue
		}
		add(from)
		for _, w := range p.ways {
			for _, goal := range []*units.Money{w.FreeOver, w.MinOrder} {
				if goal == nil {
					continue
				}
				// Within a level goods are worth more with each step, so halving
				// finds the first that is worth the goal.
				if n := from + int64(sort.Search(int(to-from)+1, func(i int) bool { return p.worth(from+int64(i)).Cmp(*goal) >= 0 })); n <= to {
					add(n)
				}
			}
		}
	}
	return out
}

// worth is the value before tax of the goods of n steps, unrounded.
func (p *pricer) worth(n int64) units.Money {
	job := *bill.TaxOnTop(p.job)
	job.Settings.CurrencyDigits = bill.ExactDigits
	job.Delivery = nil
	bill, err := bill.Price(&job, bill.Purchase{Items: []bill.Item{{Quote: job.Quotes[0], Site: p.site, Steps: n}}})
	if err != nil {
		return units.Money{} // too few or too many packs to be sold at all
	}
	return bill.Goods
}

// cheapest is the lower of several stairs at every volume.
func cheapest(all []stairs) stairs {
	var ends []float64
	for _, s := range all {
		for _, t := range s {
			ends = append(ends, t.upTo)
		}
	}
	slices.Sort(ends)
	var out stairs
	for _, v := range slices.Compact(ends) {
		var best *tread
		for _, s := range all {
			if t, ok := s.at(v); ok && (best == nil || t.total.Cmp(best.total) < 0) {
				best = &t
			}
		}
		best.upTo = v
		out = append(out, *best)
	}
	return out
}
