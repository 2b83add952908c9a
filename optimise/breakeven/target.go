package breakeven

import (
	"fmt"
	"slices"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Kind is what a [Target] moves.
type Kind string

// The kinds of target. The zero Kind is invalid.
const (
	QuotePrice     Kind = "quote"     // one quote's pack price, in money
	SupplierPrices Kind = "supplier"  // all prices of a supplier, as a factor of today's
	BulkPrices     Kind = "bulk"      // all prices of what does not come in bags, as a factor
	OrderFee       Kind = "order_fee" // one delivery row's order fee, in money
	LoadFee        Kind = "load_fee"  // one delivery row's fee for a load, in money
)

// Target is the one number that a break-even is asked about, called x.
type Target struct {
	Kind  Kind
	Name  string           // in words: the quote, the supplier, "all bulk", "Quarry, truck, order fee"
	Quote *quotes.Quote    // of a QuotePrice, else nil
	Row   *quotes.Delivery // of a fee, else nil
	// Now is x today: a pack price, a fee, or 1 for a factor.
	Now units.Decimal
	// Most is the highest x looked at: what lies past it is no sensible price.
	Most units.Decimal

	truck    int // which of a row's trucks a load fee is of
	supplier string
	included bool // a quote's x carries its tax
}

// Factor reports whether x is a factor of today's prices and not money.
func (t Target) Factor() bool { return t.Kind == SupplierPrices || t.Kind == BulkPrices }

// moves reports whether the prices of q move with x.
func (t Target) moves(q *quotes.Quote) bool {
	switch t.Kind {
	case QuotePrice:
		return q.Name == t.Quote.Name
	case SupplierPrices:
		return q.Supplier == t.supplier
	case BulkPrices:
		return q.Form != quotes.Bag
	}
	return false
}

// sensible is how many times today's price counts as a sensible price.
const sensible = 10

// OfQuote is the target of one quote's price. Its highest sensible price is ten
// times today's, or ten times what the dearest quote of the job asks for as much
// volume, whichever is more.
func OfQuote(job *quotes.Job, q *quotes.Quote) Target {
	most := q.Price.Decimal()
	for _, o := range job.Quotes {
		same := optimise.ListPrice(o).Decimal().Mul(units.DecimalOf(float64(q.PackLitres)))
		if same.Cmp(most) > 0 {
			most = same
		}
	}
	most = most.Mul(units.DecimalFromInt(sensible)).Round(job.Settings.CurrencyDigits)
	return Target{Kind: QuotePrice, Name: q.Name, Quote: q, Now: q.Price.Decimal(), Most: most, included: job.Settings.TaxIncluded}
}

// Quotes lists the target of every quote's price, by quote name.
func Quotes(job *quotes.Job) []Target {
	var out []Target
	for _, q := range job.Quotes {
		out = append(out, OfQuote(job, q))
	}
	slices.SortFunc(out, func(a, b Target) int { return compareText(a.Name, b.Name) })
	return out
}

// OfSupplier is the target of all of a supplier's prices together.
func OfSupplier(supplier string) Target {
	return Target{
		Kind: SupplierPrices, Name: supplier, supplier: supplier,
		Now: units.DecimalFromInt(1), Most: units.DecimalFromInt(sensible),
	}
}

// Bulk is the target of the prices of everything that does not come in bags,
// together. The error says that there is no such quote.
func Bulk(job *quotes.Job) (Target, error) {
	if !slices.ContainsFunc(job.Quotes, func(q *quotes.Quote) bool { return q.Form != quotes.Bag }) {
		return Target{}, byvolume.ErrNoBulk
	}
	return Target{Kind: BulkPrices, Name: "all bulk", Now: units.DecimalFromInt(1), Most: units.DecimalFromInt(sensible)}, nil
}

// FeesOf lists the targets of a supplier's order and load fees, in file order;
// none if it charges neither. The highest sensible fee is ten times today's, or what
// the dearest quote of the job would ask for all that the beds hold, whichever is more:
// a small fee for a load can rise to many times itself before anything else is cheaper.
func FeesOf(job *quotes.Job, supplier string) []Target {
	var out []Target
	all := allBeds(job)
	for _, d := range job.Delivery {
		if d.Supplier != supplier {
			continue
		}
		add := func(kind Kind, fee units.Money, words string) {
			if fee.Sign() > 0 {
				name := fmt.Sprintf("%s, %s, %s", supplier, d.Name, words)
				if d.Site != "" {
					name = fmt.Sprintf("%s, %s to %s, %s", supplier, d.Name, d.Site, words)
				}
				now := fee.Decimal()
				most := now.Mul(units.DecimalFromInt(sensible))
				if all.Cmp(most) > 0 {
					most = all
				}
				out = append(out, Target{Kind: kind, Name: name, Row: d, supplier: supplier, Now: now, Most: most})
			}
		}
		add(OrderFee, d.OrderFee, "order fee")
		for t, truck := range d.Trucks {
			words := "fee for a load"
			if len(d.Trucks) > 1 {
				words += fmt.Sprintf(" of size %d", t+1)
			}
			add(LoadFee, truck.Fee, words)
			if truck.Fee.Sign() > 0 {
				out[len(out)-1].truck = t
			}
		}
	}
	return out
}

// allBeds is what the dearest quote would ask, by its list price, for all that the beds hold.
func allBeds(job *quotes.Job) units.Decimal {
	var dearest units.Decimal
	for _, q := range job.Quotes {
		if price := optimise.ListPrice(q).Decimal(); price.Cmp(dearest) > 0 {
			dearest = price
		}
	}
	return dearest.Mul(units.DecimalOf(float64(bedLitres(job)))).Round(job.Settings.CurrencyDigits)
}

// hinged reports whether some purchase is let off a fee or refused at some x and
// not at others, so that the least cost need not be concave.
func (t Target) hinged(job *quotes.Job) bool {
	return slices.ContainsFunc(job.Quotes, func(q *quotes.Quote) bool {
		return t.moves(q) && slices.ContainsFunc(job.Delivery, func(d *quotes.Delivery) bool {
			return d.Supplier == q.Supplier && (d.FreeOver != nil || d.MinOrder != nil)
		})
	})
}

// at is the job with x paid and with goods valued at u where that decides what
// is free or refused. The two must be the same unless the job's prices are
// before tax; u is above 0 unless it equals x.
func (t Target) at(job *quotes.Job, u, x units.Decimal) *quotes.Job {
	out := *job
	out.Quotes = slices.Clone(job.Quotes)
	one := units.DecimalFromInt(1)
	for i, q := range out.Quotes {
		if !t.moves(q) {
			continue
		}
		c := *q
		scale := func(m units.Money) units.Money { return m.Times(u) }
		if t.Kind == QuotePrice {
			scale = func(m units.Money) units.Money {
				if t.Now.IsZero() { // then all its breaks are 0 too: a flat price
					if t.included && !job.Settings.TaxIncluded {
						return units.MoneyOf(u.Quo(one.Add(q.Tax)))
					}
					return units.MoneyOf(u)
				}
				return units.MoneyOf(m.Decimal().Mul(u).Quo(t.Now))
			}
		}
		c.Price = scale(q.Price)
		c.Breaks = nil
		for _, b := range q.Breaks {
			c.Breaks = append(c.Breaks, quotes.Break{From: b.From, Price: scale(b.Price)})
		}
		if !u.Equal(x) {
			c.Tax = one.Add(q.Tax).Mul(x).Quo(u).Sub(one)
		}
		out.Quotes[i] = &c
	}
	if t.Row != nil {
		out.Delivery = slices.Clone(job.Delivery)
		for i, d := range out.Delivery {
			if d.Pos != t.Row.Pos || d.Name != t.Row.Name || d.Supplier != t.Row.Supplier {
				continue
			}
			c := *d
			if t.Kind == OrderFee {
				c.OrderFee = units.MoneyOf(x)
			} else {
				c.Trucks = slices.Clone(d.Trucks)
				c.Trucks[t.truck].Fee = units.MoneyOf(x)
			}
			out.Delivery[i] = &c
		}
	}
	return &out
}
