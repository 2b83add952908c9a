package papers

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Counted is one quote at one site: what was ordered, what came, what of it is
// good. All amounts are packs.
type Counted struct {
	Quote    *quotes.Quote
	Site     string
	Orders   []string // numbers of the orders, sorted
	Ordered  units.Decimal
	Arrived  units.Decimal
	Rejected units.Decimal
	// Worth is the goods money of what is missing or was rejected, at the order's
	// price, before tax; 0 if nothing is.
	Worth units.Money
	Notes []string // as written, in the order read
}

// Accepted is what came and was kept.
func (c Counted) Accepted() units.Decimal { return c.Arrived.Sub(c.Rejected) }

// Short is what was ordered and is not there in good order; 0 if nothing.
func (c Counted) Short() units.Decimal { return above(c.Ordered.Sub(c.Accepted())) }

// Over is what came in good order and was not ordered; 0 if nothing.
func (c Counted) Over() units.Decimal { return above(c.Accepted().Sub(c.Ordered)) }

func above(d units.Decimal) units.Decimal {
	if d.Sign() < 0 {
		return units.Decimal{}
	}
	return d
}

// Count adds up arrivals, of however many days and files, against what was
// ordered: one entry for each quote and site that was ordered or came, by
// supplier, site and quote.
func Count(job *quotes.Job, ordered []Ordered, arrived []Arrival) []Counted {
	var out []Counted
	amounts := map[int]units.Money{}
	at := func(q *quotes.Quote, site string) int {
		i := slices.IndexFunc(out, func(c Counted) bool { return c.Quote == q && c.Site == site })
		if i < 0 {
			i = len(out)
			out = append(out, Counted{Quote: q, Site: site})
		}
		return i
	}
	for _, o := range ordered {
		i := at(o.Quote, o.Site)
		out[i].Ordered = out[i].Ordered.Add(o.Packs)
		amounts[i] = amounts[i].Add(o.Amount)
		if !slices.Contains(out[i].Orders, o.Order) {
			out[i].Orders = append(out[i].Orders, o.Order)
		}
	}
	for _, a := range arrived {
		i := at(a.Quote, a.Site)
		out[i].Arrived = out[i].Arrived.Add(a.Packs)
		out[i].Rejected = out[i].Rejected.Add(a.Rejected)
		if a.Note != "" {
			out[i].Notes = append(out[i].Notes, a.Note)
		}
	}
	for i := range out {
		slices.Sort(out[i].Orders)
		if short := out[i].Short(); short.Sign() > 0 {
			out[i].Worth = units.MoneyOf(amounts[i].Decimal().Mul(short).Quo(out[i].Ordered)).Round(job.Settings.CurrencyDigits)
		}
	}
	slices.SortStableFunc(out, func(a, b Counted) int {
		return cmp.Or(cmp.Compare(a.Quote.Supplier, b.Quote.Supplier), cmp.Compare(a.Site, b.Site), cmp.Compare(a.Quote.Name, b.Quote.Name))
	})
	return out
}

// Settlement is the count and the cheapest way to finish.
type Settlement struct {
	Counted []Counted
	Day     quotes.Date    // the pricing day of what is still to buy
	Plan    *optimise.Plan // of the finishing job; its Bill is nil where nothing finishes the beds
	// Buy and Drops are the lines of the plan's bill that are bought anew.
	Buy   []bill.Line
	Drops []bill.DropLine
	// Goods, Delivery, Tax and ToPay are the money of those. Rinsing is one's own
	// time for all that goes into the beds, what is there already included.
	Goods, Delivery, Tax, ToPay, Rinsing units.Money
	// Used is how much of each stock of Counted goes into the beds, in placed litres.
	Used []units.Litres

	stock []*quotes.Quote // by Counted; nil where nothing is there
}

// Settle finds the cheapest way to finish the beds: what was accepted counts as
// bought already and costs nothing more, quotes are those that still hold on the
// day, and what is missing is taken not to come. The job's budget is left out, as
// part of it is spent.
//
// A job's limits on suppliers and deliveries hold for what is bought anew.
func Settle(ctx context.Context, job *quotes.Job, counted []Counted, day quotes.Date, opt optimise.Options) (*Settlement, error) {
	s := &Settlement{Counted: counted, Day: day}
	rest := *job
	rest.Settings.Date = day
	rest.Settings.Budget = nil
	rest.Quotes = slices.Clone(job.Quotes)
	rest.Delivery = slices.Clone(job.Delivery)
	sites := map[string]string{} // site → the name under which its stock is held
	for _, c := range counted {
		var q *quotes.Quote
		if c.Accepted().Sign() > 0 {
			name, ok := sites[c.Site]
			if !ok {
				name = freeName(&rest, "already there"+AtSite("at", c.Site))
				sites[c.Site] = name
				rest.Delivery = append(rest.Delivery, &quotes.Delivery{Supplier: name, Site: c.Site, Name: "on site", Covers: quotes.Forms})
			}
			q = stockOf(&rest, c, name)
			rest.Quotes = append(rest.Quotes, q)
		}
		s.stock = append(s.stock, q)
	}
	if rest.Settings.MaxSuppliers > 0 {
		rest.Settings.MaxSuppliers += len(sites)
	}
	if rest.Settings.MaxDeliveries > 0 {
		rest.Settings.MaxDeliveries += len(sites)
	}
	var err error
	if s.Plan, err = optimise.Solve(ctx, &rest, opt); err != nil {
		return nil, fmt.Errorf("finding the cheapest way to finish: %w", err)
	}
	if s.Plan.Bill == nil {
		return s, nil
	}
	if err := s.fill(job); err != nil {
		return nil, fmt.Errorf("finding the cheapest way to finish: %w", err)
	}
	return s, nil
}

// stockOf makes what was accepted of a quote into one free pack at its site. Its
// days are over and its price is paid, so neither is looked at again; its grain
// and its acid test are those of the quote.
func stockOf(job *quotes.Job, c Counted, supplier string) *quotes.Quote {
	q := *c.Quote
	n := c.Accepted()
	one := units.DecimalFromInt(1)
	q.Name = freeName(job, c.Quote.Name+" already there"+AtSite("at", c.Site))
	q.Supplier = supplier
	q.PackLitres *= units.Litres(n.Float())
	q.PackMass *= units.Kilograms(n.Float())
	q.Step, q.MinQty, q.MaxQty = one, units.Decimal{}, &one
	q.Price, q.Breaks, q.BreakKind, q.BreakGroup = units.Money{}, nil, quotes.AllUnits, ""
	q.Tax = units.Decimal{}
	q.ValidUntil, q.ReadyBy = quotes.Date{}, quotes.Date{}
	return &q
}

// freeName is a name that no quote and no supplier of the job has.
func freeName(job *quotes.Job, name string) string {
	taken := func(n string) bool {
		return slices.ContainsFunc(job.Quotes, func(q *quotes.Quote) bool {
			return strings.EqualFold(q.Name, n) || strings.EqualFold(q.Supplier, n)
		})
	}
	for try, i := name, 2; ; i++ {
		if !taken(try) {
			return try
		}
		try = fmt.Sprintf("%s (%d)", name, i)
	}
}

// fill takes what is bought anew out of the finishing plan's bill.
func (s *Settlement) fill(job *quotes.Job) error {
	there := map[string]bool{}
	s.Used = make([]units.Litres, len(s.Counted))
	for i, q := range s.stock {
		if q == nil {
			continue
		}
		there[q.Supplier] = true
		for _, f := range s.Plan.Fills {
			for _, l := range f.Layers {
				for _, part := range l.Parts {
					if part.Quote == q {
						s.Used[i] += part.Litres * units.Litres(f.Bed.Count)
					}
				}
			}
		}
	}
	b := s.Plan.Bill
	suppliers := map[string]bool{}
	drops := 0
	for _, l := range b.Lines {
		if !there[l.Quote.Supplier] {
			s.Buy = append(s.Buy, l)
			suppliers[l.Quote.Supplier] = true
		}
	}
	for _, d := range b.Drops {
		if !there[d.Supplier] {
			s.Drops = append(s.Drops, d)
			if d.Loads > 0 {
				drops++
			}
		}
	}
	// The places made for what is there are free to others if it is not used, which
	// only a stock that fits no bed leaves.
	if most := job.Settings.MaxSuppliers; most > 0 && len(suppliers) > most {
		return fmt.Errorf("%d suppliers are needed to finish and max_suppliers is %d; raise it in job.toml or leave the stock that fits no bed out of the arrivals", len(suppliers), most)
	}
	if most := job.Settings.MaxDeliveries; most > 0 && drops > most {
		return fmt.Errorf("%d deliveries are needed to finish and max_deliveries is %d; raise it in job.toml or leave the stock that fits no bed out of the arrivals", drops, most)
	}
	s.Goods, s.Delivery, s.Tax, s.Rinsing = b.Goods, b.Delivery, b.Tax, b.Rinsing
	s.ToPay = b.Goods.Add(b.Delivery).Add(b.Tax)
	return nil
}
