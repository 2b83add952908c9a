package propose

import (
	"cmp"
	"math"
	"slices"

	"mediabuy/optimise/bill"
)

// deal is a purchase on its way to one that every supplier would sell and bring as it
// is. Rounding up and covering what is short look at litres alone, and may leave an
// order too small for its supplier, or orders at more suppliers than may be asked.
type deal struct {
	*Proposer
	n      []int
	barred []bool // items that are given up
}

func (pr *Proposer) newDeal(n []int) *deal {
	return &deal{Proposer: pr, n: n, barred: make([]bool, len(pr.Items))}
}

// maxSales bounds the changes by which a purchase becomes one that is sold: each gives
// up an order, a supplier or a quote for good, or adds to one.
const maxSales = 300

// sell changes the purchase, which covers all rows known, until it is sold; false
// where that does not come about.
func (d *deal) sell() bool {
	for range maxSales {
		changed, ok := d.mendAmounts()
		if ok && !changed {
			changed, ok = d.mendOrders()
		}
		if ok && !changed {
			changed, ok = d.mendLimits()
		}
		switch {
		case !ok || d.err != nil:
			return false
		case !changed:
			return !math.IsInf(d.Cost(d.n, nil), 1)
		}
	}
	return false
}

// allowed reports whether more may be bought of item i.
func (d *deal) allowed(i int) bool { return !d.barred[i] }

// giveUp buys none of the items that are out, and of others what is then short;
// false, with nothing changed, where no others can make up for them.
func (d *deal) giveUp(out func(i int) bool) bool {
	n, barred := slices.Clone(d.n), slices.Clone(d.barred)
	for i := range d.n {
		if out(i) {
			d.n[i], d.barred[i] = 0, true
		}
	}
	if d.fillCheapest(d.n, d.allowed) {
		copy(d.n, n)
		copy(d.barred, barred)
		return false
	}
	return true
}

// bought is the steps of each quote for all sites.
func (d *deal) bought() map[int]int {
	out := make(map[int]int, 8)
	for i, k := range d.n {
		if k > 0 {
			out[d.Items[i].Quote] += k
		}
	}
	return out
}

// mendAmounts sees to it that of the first quote of which too little is bought for
// its supplier to sell it, or more than is there, enough is, or none.
func (d *deal) mendAmounts() (changed, ok bool) {
	bought := d.bought()
	for i := range d.Items {
		it := &d.Items[i]
		k := bought[it.Quote]
		ofQuote := func(j int) bool { return d.Items[j].Quote == it.Quote }
		switch {
		case d.n[i] == 0 || k >= it.least && k <= it.stock:
			continue
		case k > it.stock:
			d.n[i] -= min(d.n[i], k-it.stock)
			return true, !d.fillCheapest(d.n, d.allowed)
		case d.n[i]+it.least-k <= it.most:
			d.n[i] += it.least - k
			return true, true
		default:
			return true, d.giveUp(ofQuote)
		}
	}
	return false, true
}

// values is what each send's goods are worth, before tax.
func (d *deal) values() []float64 {
	value := make([]float64, len(d.Sends))
	d.goods(d.n, value, func(int, float64) {})
	return value
}

// mendOrders sees to the first order that is too small to be brought: where half of it
// is there more is bought, else it is given up, or the other way round where that fails.
func (d *deal) mendOrders() (changed, ok bool) {
	value := d.values()
	for s := range d.Sends {
		if d.delivered(s, d.n, value[s]).ok {
			continue
		}
		missing := d.missing(s, value[s])
		ofSend := func(i int) bool { return d.Items[i].Send == s }
		if missing <= value[s] {
			return true, d.addTo(s, missing) || d.giveUp(ofSend)
		}
		return true, d.giveUp(ofSend) || d.addTo(s, missing)
	}
	return false, true
}

// missing is the money by which an order of a value is too small for some way to bring
// each of its forms.
func (d *deal) missing(s int, value float64) float64 {
	var by [3]float64
	var has [3]bool
	for _, i := range d.Sends[s].items {
		has[d.Items[i].Form] = has[d.Items[i].Form] || d.n[i] > 0
	}
	for f, drops := range d.Sends[s].Ways {
		if !has[f] {
			continue
		}
		by[f] = math.Inf(1)
		for _, di := range drops {
			by[f] = min(by[f], max(0, d.drops[di].minOrder-value))
		}
	}
	return slices.Max(by[:])
}

// addTo buys more of one item of a send, worth as little above what is missing as can
// be; false where none is to be had.
func (d *deal) addTo(s int, missing float64) bool {
	bought := d.bought()
	best, bestSteps, least := -1, 0, math.Inf(1)
	for _, i := range d.Sends[s].items {
		it := &d.Items[i]
		worth := it.value[len(it.value)-1]
		room := min(it.most-d.n[i], it.stock-bought[it.Quote])
		if d.n[i] == 0 || worth <= 0 || room <= 0 {
			continue
		}
		k := min(max(1, int(min(math.Ceil(missing/worth), bill.MaxSteps))), room)
		if over := math.Abs(float64(k)*worth - missing); over < least {
			best, bestSteps, least = i, k, over
		}
	}
	if best < 0 {
		return false
	}
	d.n[best] += bestSteps
	return true
}

// mendLimits gives up the supplier, the delivery or the quote that is worth least
// among those without which the beds can be covered, where there are too many of them.
func (d *deal) mendLimits() (changed, ok bool) {
	limits, value := d.p.In.Job.Settings, d.values()
	deliveries, orders := 0, 0
	for s := range d.Sends {
		drops := d.delivered(s, d.n, value[s]).drops
		deliveries += drops
		if drops > 0 {
			orders++
		}
	}
	sends := func(i int) int { return d.Items[i].Send }
	seller := func(i int) int { return d.Sends[d.Items[i].Send].supplier }
	switch used := d.worths(seller); {
	case limits.MaxSuppliers > 0 && len(used) > limits.MaxSuppliers:
		return true, d.giveUpLeast(used, seller)
	case limits.MaxDeliveries > 0 && deliveries > limits.MaxDeliveries && orders > 1:
		return true, d.giveUpLeast(d.worths(sends), sends)
	}
	ofQuote := func(i int) int { return d.Items[i].Quote }
	if used := d.worths(ofQuote); limits.MaxQuotes > 0 && len(used) > limits.MaxQuotes {
		return true, d.giveUpLeast(used, ofQuote)
	}
	return false, true
}

// worths is what is paid for the goods of each group of items that is bought, at
// prices before breaks.
func (d *deal) worths(group func(i int) int) map[int]float64 {
	out := map[int]float64{}
	for i, k := range d.n {
		if k > 0 {
			out[group(i)] += float64(k) * d.Items[i].price[0]
		}
	}
	return out
}

// giveUpLeast gives up the first group, from the one worth least, without which the
// beds can be covered.
func (d *deal) giveUpLeast(worth map[int]float64, group func(i int) int) bool {
	order := make([]int, 0, len(worth))
	for g := range worth {
		order = append(order, g)
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(worth[a], worth[b]), a-b) })
	for _, g := range order {
		if d.giveUp(func(i int) bool { return group(i) == g }) {
			return true
		}
	}
	return false
}
