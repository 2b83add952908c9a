package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// hangs leaves a fee for a load to a person that may be the price of a load of goods, and a number of packs that stands with a
// price for who has the goods brought or fetches them: "(min 10 t)" behind "£38 delivered", "on delivered orders".
func (r *reading) hangs(i int, c *clause, f *fact) {
	tells := func(g *fact) bool {
		return g.kind == aCollect || g.kind == aDelivery && g.before || g.kind == aHaul || g.kind == aTruck
	}
	switch {
	case f.bare && f.kind == aLoadFee && (len(c.media()) > 0 || r.now != nil && !r.now.offered()):
		f.drop("it may be the price of a load of goods, or of bringing one")
	case f.kind == aDelivery && i+1 < len(r.all) && r.all[i+1].sentence == c.sentence && cues.EachLoad.MatchString(r.low[r.all[i+1].From:r.all[i+1].To]):
		f.drop("the words behind it may limit it") // "70 to deliver (a load, 5 yd)"
	case f.kind == aMinOrder && !cues.OfOrders.MatchString(r.low[f.From:f.To]):
		for _, d := range r.all[max(0, i-1) : i+1] {
			for _, g := range d.facts {
				if d.sentence == c.sentence && g.From < f.From && oneOf(g.kind, aHaul, aLoadFee, aDelivery, aTruck) && g.text != "0" {
					g.drop("a charge for delivery, and the least of it beside it")
					f.drop("it may be the least charge for delivery, or the least order")
				}
			}
		}
	case f.kind == aMax && cues.MostOfLoad.MatchString(r.low[c.From:f.From]), f.kind == aMax && i > 0 && r.all[i-1].sentence == c.sentence && cues.MostOfLoad.MatchString(r.low[r.all[i-1].From:c.From]):
		f.drop("it may be the most that a load holds")
	case f.kind == aMax && slices.ContainsFunc(r.all[max(0, i-1):i+1], func(d *clause) bool {
		return d.sentence == c.sentence && slices.ContainsFunc(d.facts, func(g *fact) bool {
			fee := g.From < f.From && (oneOf(g.kind, aLoadFee, aDelivery, aHaul, aTruck) || g.kind == aPrice && g.unit.Form == "load")
			if fee && g.kind == aDelivery {
				g.drop("it may be for each load, of which the most stands behind it")
			}
			return fee
		})
	}):
		f.drop("it may be the most that a load holds")
	case f.kind == aMin || f.kind == aStep:
		at, before := slices.Index(c.facts, f), false
		if at == 0 && i > 0 && r.all[i-1].sentence == c.sentence && len(r.all[i-1].facts) > 0 {
			last := r.all[i-1].facts[len(r.all[i-1].facts)-1]
			before = tells(last) && (last.kind == aTruck || strings.Contains(r.low[last.To:f.From], "("))
		}
		if before || at+1 < len(c.facts) && tells(c.facts[at+1]) {
			f.drop("it holds for goods that are brought, or fetched, alone")
		}
	}
}
