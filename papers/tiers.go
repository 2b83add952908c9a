package papers

import (
	"fmt"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// tier is packs of one goods line bought at one price.
type tier struct {
	packs units.Decimal
	price units.Money
}

// tiers are the packs of a goods line by price: one for all-units breaks, one for
// each level used for incremental ones. They are held against the line's goods, so
// that no paper shows packs and prices that do not make its money.
func tiers(p *optimise.Plan, l bill.Line) ([]tier, error) {
	out := []tier{{l.Packs, l.PackPrice}}
	q := l.Quote
	if q.BreakKind == quotes.Incremental && len(q.Breaks) > 0 {
		var err error
		if out, err = levelsOf(p, l); err != nil {
			return nil, err
		}
	}
	var sum units.Money
	for _, t := range out {
		sum = sum.Add(t.price.Times(t.packs))
	}
	if got := sum.Round(p.Job.Settings.CurrencyDigits); !got.Equal(l.Goods) {
		return nil, fmt.Errorf("%q%s: its packs at their prices come to %s and the bill says %s", q.Name, AtSite("to", l.Site), got, l.Goods)
	}
	return out, nil
}

// levelsOf shares the steps of an incremental line out among its price levels, as
// the purchase says or else in order.
func levelsOf(p *optimise.Plan, l bill.Line) ([]tier, error) {
	q := l.Quote
	for _, it := range p.Purchase.Items {
		if it.Quote != q || it.Site != l.Site || it.Steps == 0 {
			continue
		}
		levels := q.Levels()
		steps := it.Tiers
		if steps == nil {
			// Nothing else draws on these levels: they fill in order, and the step that
			// brings the sum to a break is the first at the new price.
			left := it.Steps
			before := int64(0)
			for i := range levels {
				n := left
				if i+1 < len(levels) {
					reach, err := levels[i+1].From.Quo(q.Step).Ceil()
					if err != nil {
						return nil, fmt.Errorf("%q: the break from %s packs: %w", q.Name, levels[i+1].From, err)
					}
					n = min(left, max(0, reach-1-before))
				}
				steps = append(steps, n)
				before += n
				left -= n
			}
		}
		if len(steps) != len(levels) {
			return nil, fmt.Errorf("%q: its steps are shared among %d prices and it has %d", q.Name, len(steps), len(levels))
		}
		var out []tier
		for i, n := range steps {
			if n > 0 {
				out = append(out, tier{units.DecimalFromInt(n).Mul(q.Step), levels[i].Price})
			}
		}
		return out, nil
	}
	return nil, fmt.Errorf("%q%s is on the bill and not in the purchase", q.Name, AtSite("to", l.Site))
}
