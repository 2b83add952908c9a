package share

import (
	"maps"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
)

// join puts the orders of two parts of group s, already solved, together into
// one order, and returns the cheapest such order that suppliers would take: an
// upper bound on the cost of s. It is nil when there is none. The beds of the
// parts do not overlap and tables are shared out between them, so the joined
// goods fill the beds of s within every limit. A bed that members of both parts
// share is cut into slices, which together are the bed.
func (g *groups) join(s costgame.Group) *solved {
	if s.Size() < 2 {
		return nil
	}
	var best *solved
	try := func(parts ...costgame.Group) {
		var buys []*bill.Purchase
		for _, p := range parts {
			r := g.cost(p)
			if r == nil || r.purchase == nil {
				return
			}
			buys = append(buys, r.purchase)
		}
		// Where parts get goods of one form to one site in different ways, the
		// first or the last decides.
		back := slices.Clone(buys)
		slices.Reverse(back)
		for _, order := range [][]*bill.Purchase{buys, back} {
			if r := g.price(order); r != nil && (best == nil || r.cost < best.cost) {
				best = r
			}
		}
	}
	var singles []costgame.Group
	for _, i := range s.Players() {
		try(s&^costgame.One(i), costgame.One(i))
		singles = append(singles, costgame.One(i))
	}
	if best == nil {
		try(singles...)
	}
	return best
}

// price prices orders put together, nil if a supplier or the job refuses it. A
// refusal is no error: the group is then solved from nothing.
func (g *groups) price(buys []*bill.Purchase) *solved {
	type key struct {
		q    *quotes.Quote
		site string
	}
	at := map[key]int{}
	joined := bill.Purchase{Carry: map[bill.Carry]*quotes.Delivery{}}
	for _, buy := range buys {
		for _, it := range buy.Items {
			k := key{it.Quote, it.Site}
			i, ok := at[k]
			if !ok {
				i = len(joined.Items)
				at[k] = i
				// Tiers are left out: the pool fills its levels item by item.
				joined.Items = append(joined.Items, bill.Item{Quote: it.Quote, Site: it.Site})
			}
			joined.Items[i].Steps += it.Steps
		}
		first := joined.Carry
		joined.Carry = maps.Clone(buy.Carry)
		maps.Copy(joined.Carry, first)
	}
	bill, err := bill.Price(g.c.job, joined)
	if err != nil {
		return nil
	}
	set := g.c.job.Settings
	suppliers, drops := map[string]bool{}, 0
	for _, d := range bill.Drops {
		suppliers[d.Supplier] = true
		if d.Loads > 0 {
			drops++
		}
	}
	if set.MaxSuppliers > 0 && len(suppliers) > set.MaxSuppliers || set.MaxDeliveries > 0 && drops > set.MaxDeliveries {
		return nil
	}
	cost, err := g.c.minor(bill.Total)
	if err != nil {
		return nil
	}
	return &solved{cost: cost, possible: true, purchase: &joined}
}
