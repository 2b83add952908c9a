package breakeven

import (
	"fmt"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// segment is a stretch of x on which a candidate costs a + b·x, from its start
// up to the start of the candidate's next segment. The floats draw the envelope,
// the decimals give what is told.
type segment struct {
	from, a, b    units.Decimal
	fromF, aF, bF float64
	none          bool // the stand-in for no buy at all
}

func newSegment(from, a, b units.Decimal) segment {
	return segment{from: from, a: a, b: b, fromF: from.Float(), aF: a.Float(), bF: b.Float()}
}

func (s segment) value(x float64) float64 { return s.aF + s.bF*x }

// candidate is a purchase with what it costs at every x. Below its first segment
// some order is too small to be taken.
type candidate struct {
	key      string
	buy      bill.Purchase // of the job as read
	bought   []Bought
	segments []segment // rising from
}

// noBuy costs more than any purchase: it stands where none is known.
const noBuy = 1e12

func nothing() *candidate {
	s := newSegment(units.Decimal{}, units.DecimalOf(noBuy), units.Decimal{})
	s.none = true
	return &candidate{segments: []segment{s}}
}

// onEdge is how close to a segment's start an x counts as inside it: far below
// the four decimals that are told.
const onEdge = 1e-9

// active is the segment at x, and whether there is one.
func (c *candidate) active(x float64) (int, bool) {
	at := -1
	for i, s := range c.segments {
		if s.fromF <= x+onEdge*max(1, x) {
			at = i
		}
	}
	return at, at >= 0
}

// newCandidate prices a purchase of the job as read, as a function of x.
//
// With no fee waived and no order refused the total is a + b·x exactly; two
// prices give a and b. The goods of supplier s to site i are worth c + g·x before
// tax. A fee with free_over V falls away from x = (V − c)/g on, and a row with
// min_order V takes the order from there on.
func (w *world) newCandidate(t Target, buy bill.Purchase) (*candidate, error) {
	one, two := units.DecimalFromInt(1), units.DecimalFromInt(2)
	var bills [2]*bill.Bill
	var jobs [2]*quotes.Job
	for i, x := range []units.Decimal{one, two} {
		jobs[i] = t.at(w.bare, x, x)
		bill, err := bill.Price(jobs[i], translate(buy, w.job, jobs[i]))
		if err != nil {
			return nil, fmt.Errorf("pricing a purchase without rounding: %w", err)
		}
		bills[i] = bill
	}
	b := bills[1].Total.Sub(bills[0].Total).Decimal()
	a := bills[0].Total.Decimal().Sub(b)

	type event struct{ from, lessA, lessB units.Decimal }
	var start units.Decimal
	var waivers []event
	for k, d := range bills[0].Drops {
		if d.Terms == nil || d.Loads == 0 {
			continue
		}
		at := slices.Index(jobs[0].Delivery, d.Terms)
		if at < 0 {
			continue // free delivery of a supplier that states no terms
		}
		row := w.plain.Delivery[at]
		var worth [2]units.Decimal
		for i := range bills {
			for _, l := range bills[i].Lines {
				if l.Quote.Supplier == d.Supplier && l.Site == d.Site {
					worth[i] = worth[i].Add(l.Goods.Decimal())
				}
			}
		}
		g := worth[1].Sub(worth[0])
		c := worth[0].Sub(g)
		// reach is the x from which the goods are worth v; never is false.
		reach := func(v units.Money) (units.Decimal, bool) {
			if g.Sign() <= 0 {
				return units.Decimal{}, c.Cmp(v.Decimal()) >= 0
			}
			x := v.Decimal().Sub(c).Quo(g)
			if x.Sign() < 0 {
				x = units.Decimal{}
			}
			return x, true
		}
		if row.MinOrder != nil {
			x, ok := reach(*row.MinOrder)
			if !ok {
				return nil, fmt.Errorf("pricing a purchase: %s to site %q is below the smallest order at any price", d.Supplier, d.Site)
			}
			if x.Cmp(start) > 0 {
				start = x
			}
		}
		if row.FreeOver != nil {
			if x, ok := reach(*row.FreeOver); ok {
				var fee [2]units.Decimal
				for i := range bills {
					e := bills[i].Drops[k]
					fee[i] = e.Order.Add(e.Load).Decimal().Mul(one.Add(row.Tax))
				}
				lessB := fee[1].Sub(fee[0])
				waivers = append(waivers, event{x, fee[0].Sub(lessB), lessB})
			}
		}
	}
	slices.SortStableFunc(waivers, func(x, y event) int { return x.from.Cmp(y.from) })
	c := &candidate{key: keyOf(buy), buy: buy, bought: BoughtOf(buy)}
	c.segments = []segment{newSegment(start, a, b)}
	for _, v := range waivers {
		a, b = a.Sub(v.lessA), b.Sub(v.lessB)
		last := len(c.segments) - 1
		if v.from.Cmp(c.segments[last].from) <= 0 {
			c.segments[last] = newSegment(c.segments[last].from, a, b)
			continue
		}
		c.segments = append(c.segments, newSegment(v.from, a, b))
	}
	return c, nil
}

// holds reports whether the candidate buys something that moves with x: a quote
// of the target, or a drop at its fee.
func (c *candidate) holds(t Target) bool {
	if t.Row != nil {
		for _, row := range c.buy.Carry {
			if row == t.Row {
				return true
			}
		}
		return false
	}
	return slices.ContainsFunc(c.bought, func(b Bought) bool { return t.moves(b.Quote) })
}
