package optimise

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Stock is goods that are there already and paid for.
type Stock struct {
	Quote *quotes.Quote
	Site  string
	Packs units.Decimal
	// Holds is what the packs really hold, as a share of what they are sold as; 0
	// means all of it.
	Holds float64
}

// Finish is the cheapest way to fill the beds with what is there and what is bought
// besides.
type Finish struct {
	Plan *Plan // of the finishing job; its Bill is nil where nothing finishes the beds
	// Buy and Drops are the lines of the plan's bill that are bought anew.
	Buy   []bill.Line
	Drops []bill.DropLine
	// Goods, Delivery, Tax and ToPay are the money of those. Rinsing is one's own
	// time for all that goes into the beds, what is there already included.
	Goods, Delivery, Tax, ToPay, Rinsing units.Money
	// Used is how much of each stock goes into the beds, in placed litres.
	Used []units.Litres
	// Sure is the chance that what is there and bought fills every bed, where the job
	// asks for one; 0 where none is asked or nothing finishes the beds.
	Sure float64
}

// Finishing is the question that finishing asks: a job in which what is there is free, for
// whoever solves it by rules of his own.
type Finishing struct {
	Job   *quotes.Job
	There []*quotes.Quote // each stock as one free pack, in the order of the stocks
	of    *quotes.Job     // that is to be finished
}

// FinishWith finds the cheapest way to finish the beds: stock counts as bought
// already and costs nothing more, quotes are those that still hold on the day, and
// nothing else is taken to come. The job's budget is left out, as part of it is
// spent.
//
// A job's limits on suppliers, things and deliveries hold for what is bought anew. How
// sure a job asks to be is not looked at, see risk.Finish.
func FinishWith(ctx context.Context, job *quotes.Job, stock []Stock, day quotes.Date, opt Options) (*Finish, error) {
	g := FinishingOf(job, stock, day)
	plan, err := Solve(ctx, g.Job, opt)
	if err != nil {
		return nil, fmt.Errorf("finding the cheapest way to finish: %w", err)
	}
	return g.Finish(plan)
}

// FinishingOf sets the question that finishing a job on a day asks.
func FinishingOf(job *quotes.Job, stock []Stock, day quotes.Date) *Finishing {
	rest := *job
	g := &Finishing{Job: &rest, of: job}
	rest.Settings.Date = day
	rest.Settings.Budget = nil
	rest.Quotes = slices.Clone(job.Quotes)
	rest.Delivery = slices.Clone(job.Delivery)
	sites := map[string]string{} // site → the name under which its stock is held
	for _, c := range stock {
		name, ok := sites[c.Site]
		if !ok {
			name = freeName(&rest, "already there"+atSite(c.Site))
			sites[c.Site] = name
			rest.Delivery = append(rest.Delivery, &quotes.Delivery{Supplier: name, Site: c.Site, Name: "on site", Covers: quotes.Forms, Trucks: []quotes.Truck{{}}})
		}
		q := stockOf(&rest, c, name)
		rest.Quotes = append(rest.Quotes, q)
		g.There = append(g.There, q)
	}
	if rest.Settings.MaxSuppliers > 0 {
		rest.Settings.MaxSuppliers += len(sites)
	}
	if rest.Settings.MaxDeliveries > 0 {
		rest.Settings.MaxDeliveries += len(sites)
	}
	if rest.Settings.MaxQuotes > 0 {
		rest.Settings.MaxQuotes += len(g.There)
	}
	return g
}

// Finish sets out a plan for the finishing job.
func (g *Finishing) Finish(plan *Plan) (*Finish, error) {
	f := &Finish{Plan: plan}
	if plan.Bill == nil {
		return f, nil
	}
	if err := f.fill(g.of, g.There); err != nil {
		return nil, fmt.Errorf("finding the cheapest way to finish: %w", err)
	}
	return f, nil
}

// stockOf makes goods that are there into one free pack at their site. Their days
// are over and their price is paid, so neither is looked at again; their grain and
// acid test are those of the quote.
func stockOf(job *quotes.Job, c Stock, supplier string) *quotes.Quote {
	q := *c.Quote
	n := c.Packs.Float()
	if c.Holds > 0 {
		n *= c.Holds
	}
	one := units.DecimalFromInt(1)
	q.Name = freeName(job, c.Quote.Name+" already there"+atSite(c.Site))
	q.Supplier = supplier
	q.PackLitres *= units.Litres(n)
	q.PackMass *= units.Kilograms(n)
	q.Step, q.MinQty, q.MaxQty = one, units.Decimal{}, &one
	q.Price, q.Breaks, q.BreakKind, q.BreakGroup = units.Money{}, nil, quotes.AllUnits, ""
	q.Tax, q.CountOn = units.Decimal{}, 0
	q.ValidUntil, q.ReadyBy = quotes.Date{}, quotes.Date{}
	q.MoreOf = c.Quote.Name
	return &q
}

func atSite(site string) string {
	if site == "" {
		return ""
	}
	return " at " + site
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
func (f *Finish) fill(job *quotes.Job, stock []*quotes.Quote) error {
	there := map[string]bool{}
	f.Used = make([]units.Litres, len(stock))
	for i, q := range stock {
		there[q.Supplier] = true
		for _, bed := range f.Plan.Fills {
			for _, l := range bed.Layers {
				for _, part := range l.Parts {
					if part.Quote.Name == q.Name { // a surer plan is of copies
						f.Used[i] += part.Litres * units.Litres(bed.Bed.Count)
					}
				}
			}
		}
	}
	b := f.Plan.Bill
	suppliers := map[string]bool{}
	drops := 0
	for _, l := range b.Lines {
		if !there[l.Quote.Supplier] {
			f.Buy = append(f.Buy, l)
			suppliers[l.Quote.Supplier] = true
		}
	}
	for _, d := range b.Drops {
		if !there[d.Supplier] {
			f.Drops = append(f.Drops, d)
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
	f.Goods, f.Delivery, f.Tax, f.Rinsing = b.Goods, b.Delivery, b.Tax, b.Rinsing
	f.ToPay = b.Goods.Add(b.Delivery).Add(b.Tax)
	return nil
}
