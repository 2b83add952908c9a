// Package advice looks at a finished plan with the eyes of someone who has
// carried the bags: what floats, what is heavy, what is near a limit, and where
// more was bought than is needed because more costs less.
package advice

import (
	"fmt"
	"slices"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// More says in words where buying more is cheaper than buying less: lines whose
// break makes them cost less than fewer packs would, and lines with more packs
// than the beds need.
func More(p *optimise.Plan) []string {
	var out []string
	money := func(m units.Money) string { return units.FormatMoney(m, p.Job.Settings.Currency) }
	for _, l := range linesByQuote(p.Bill) {
		if from, to, ok := dearerBelow(l); ok {
			words := from.String()
			if !from.Equal(to) {
				words += " to " + to.String()
			}
			out = append(out, fmt.Sprintf("%s: buying %s costs %s, less than %s would", l.Quote.Name, l.Packs, money(l.Goods), words))
		}
	}
	for _, o := range Overbought(p) {
		if o.Enough.Cmp(o.Quote.MinQty) < 0 {
			out = append(out, fmt.Sprintf("%s: %s would hold enough, and no fewer than %s are sold", o.Quote.Name, o.Enough, o.Quote.MinQty))
			continue
		}
		if o.Refused != "" {
			out = append(out, fmt.Sprintf("%s: %s would hold enough, %s are bought: %s", o.Quote.Name, o.Enough, o.Bought, o.Refused))
			continue
		}
		out = append(out, fmt.Sprintf("%s: %s would hold enough; buying %s makes the whole order %s cheaper",
			o.Quote.Name, o.Enough, o.Bought, money(o.Dearer)))
	}
	return out
}

// linesByQuote adds up the lines of a quote that goes to several sites, as its
// breaks count all of its packs.
func linesByQuote(b *bill.Bill) []bill.Line {
	var out []bill.Line
	for _, l := range b.Lines { // by quote already
		if n := len(out); n > 0 && out[n-1].Quote == l.Quote {
			out[n-1].Packs = out[n-1].Packs.Add(l.Packs)
			out[n-1].Goods = out[n-1].Goods.Add(l.Goods)
			continue
		}
		out = append(out, l)
	}
	return out
}

// dearerBelow is the range of packs just below those of a line that would cost
// more at their own, higher price: 9 bags at 29.00 cost 261.00 and 10 at 26.00
// cost 260.00. ok is false where there is none, or where breaks are not the
// line's alone (a group) or never lower the price of earlier packs (incremental).
func dearerBelow(l bill.Line) (from, to units.Decimal, ok bool) {
	q := l.Quote
	if l.BreakFrom.IsZero() || q.BreakGroup != "" || q.BreakKind == quotes.Incremental {
		return from, to, false
	}
	earlier := q.Price
	for _, b := range q.Breaks {
		if b.From.Cmp(l.BreakFrom) < 0 {
			earlier = b.Price
		}
	}
	if earlier.IsZero() {
		return from, to, false
	}
	paid := l.PackPrice.Times(l.Packs)
	// The fewest whole steps that cost more than is paid, and the most below the break.
	least, errLeast := paid.Decimal().Quo(earlier.Decimal()).Quo(q.Step).Floor()
	most, errMost := l.BreakFrom.Quo(q.Step).Ceil()
	if errLeast != nil || errMost != nil || least+1 > most-1 {
		return from, to, false
	}
	steps := func(n int64) units.Decimal { return units.DecimalFromInt(n).Mul(q.Step) }
	return steps(least + 1), steps(most - 1), true
}

// Overbuy is a line of the plan that buys more packs than its litres need,
// because buying only enough would cost more.
type Overbuy struct {
	Quote   *quotes.Quote
	Bought  units.Decimal // packs
	Enough  units.Decimal // the fewest packs that hold what is placed
	Dearer  units.Money   // what buying only enough would add to the total; 0 if Refused
	Refused string        // why the supplier would not sell only enough, or ""
}

// Overbought finds the lines that buy more than enough, by pricing the purchase
// again with only enough of each in turn. Lines where only enough would cost the
// same are left out: they are not a saving.
func Overbought(p *optimise.Plan) []Overbuy {
	type at struct {
		quote *quotes.Quote
		site  string
	}
	left := map[at]float64{}
	for _, l := range p.Leftover {
		left[at{l.Quote, l.Site}] = float64(l.Litres)
	}
	var out []Overbuy
	for i, it := range p.Purchase.Items {
		perStep := float64(it.Quote.Placed()) * it.Quote.Step.Float()
		spare := int64(left[at{it.Quote, it.Site}] / perStep)
		if spare < 1 {
			continue
		}
		less := p.Purchase
		less.Items = slices.Clone(p.Purchase.Items)
		less.Items[i].Steps -= spare
		less.Items[i].Tiers = nil // shared out anew
		o := Overbuy{Quote: it.Quote, Bought: it.Packs(), Enough: less.Items[i].Packs()}
		bill, err := bill.Price(p.Job, less)
		switch {
		case err != nil:
			o.Refused = err.Error()
		case bill.Total.Cmp(p.Bill.Total) <= 0:
			continue
		default:
			o.Dearer = bill.Total.Sub(p.Bill.Total)
		}
		out = append(out, o)
	}
	return out
}
