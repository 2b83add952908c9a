package bill

import (
	"mediabuy/quotes"
	"mediabuy/units"
)

// ExactDigits is how many digits a bill is rounded to when it is priced
// unrounded: so many that no sum of them shows in a cent.
const ExactDigits = 20

// TaxOnTop is the job with the tax taken out of its prices and put on top, so
// that a quote's price and what is paid for it can be moved apart.
func TaxOnTop(job *quotes.Job) *quotes.Job {
	if !job.Settings.TaxIncluded {
		return job
	}
	out := *job
	out.Settings.TaxIncluded = false
	out.Quotes, out.Delivery = nil, nil
	for _, q := range job.Quotes {
		c := *q
		rate := units.DecimalFromInt(1).Add(q.Tax)
		net := func(m units.Money) units.Money { return units.MoneyOf(m.Decimal().Quo(rate)) }
		c.Price = net(q.Price)
		c.Breaks = nil
		for _, b := range q.Breaks {
			c.Breaks = append(c.Breaks, quotes.Break{From: b.From, Price: net(b.Price)})
		}
		out.Quotes = append(out.Quotes, &c)
	}
	for _, d := range job.Delivery {
		c := *d
		c.Tax = units.Decimal{} // fees count in full, and no threshold looks at them
		out.Delivery = append(out.Delivery, &c)
	}
	return &out
}
