package talk

import (
	"slices"

	"mediabuy/quotes"
	"mediabuy/units"
)

// with is the job with one quote, by its name, changed.
func with(job *quotes.Job, change func(*quotes.Quote) bool) *quotes.Job {
	out := *job
	out.Quotes = slices.Clone(job.Quotes)
	for i, q := range out.Quotes {
		c := *q
		if change(&c) {
			out.Quotes[i] = &c
		}
	}
	return &out
}

// Lowered is the job with a quote at the prices of a step.
func Lowered(job *quotes.Job, quote *quotes.Quote, s Step) *quotes.Job {
	return with(job, func(q *quotes.Quote) bool {
		if q.Name != quote.Name {
			return false
		}
		q.Price, q.Breaks = s.Price, s.Breaks
		return true
	})
}

// Cheaper is the job with all prices of a supplier times a factor.
func Cheaper(job *quotes.Job, supplier string, factor units.Decimal) *quotes.Job {
	return with(job, func(q *quotes.Quote) bool {
		if q.Supplier != supplier {
			return false
		}
		q.Price = q.Price.Times(factor)
		q.Breaks = slices.Clone(q.Breaks)
		for i := range q.Breaks {
			q.Breaks[i].Price = q.Breaks[i].Price.Times(factor)
		}
		return true
	})
}

// Stepped is the job with a quote sold in another step.
func Stepped(job *quotes.Job, quote *quotes.Quote, step units.Decimal) *quotes.Job {
	return with(job, func(q *quotes.Quote) bool {
		if q.Name != quote.Name {
			return false
		}
		q.Step = step
		return true
	})
}

// Free is the job with all delivery of a supplier free, whatever is ordered.
func Free(job *quotes.Job, supplier string) *quotes.Job {
	out := *job
	out.Delivery = slices.Clone(job.Delivery)
	for i, d := range out.Delivery {
		if d.Supplier != supplier {
			continue
		}
		c := *d
		c.Handling, c.OrderFee, c.Haul = units.Money{}, units.Money{}, units.PerVolume{}
		c.Trucks = slices.Clone(d.Trucks)
		for k := range c.Trucks {
			c.Trucks[k].Fee = units.Money{}
		}
		out.Delivery[i] = &c
	}
	return &out
}

// charges reports whether any delivery of a supplier costs something.
func charges(job *quotes.Job, supplier string) bool {
	return slices.ContainsFunc(job.Delivery, func(d *quotes.Delivery) bool {
		return d.Supplier == supplier && (d.Handling.Sign() > 0 || d.OrderFee.Sign() > 0 || d.Haul.PerLitre() > 0 ||
			slices.ContainsFunc(d.Trucks, func(t quotes.Truck) bool { return t.Fee.Sign() > 0 }))
	})
}
