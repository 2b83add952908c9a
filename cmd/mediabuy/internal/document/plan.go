package document

import (
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/quotes"
)

// Plan is the machine-readable answer of plan: the plan and how sure it is.
type Plan struct {
	*optimise.Document
	Risk *risk.Document `json:"risk,omitempty"`
	Tidy *Tidy          `json:"tidy,omitempty"`
}

// Tidy tells that a plainer way to buy was taken in place of the cheapest.
type Tidy struct {
	Way      string `json:"way"`
	Cheapest string `json:"cheapest"` // total
	More     string `json:"more"`
}

// NewPlan sets out a plan. One that was made surer, or plainer, is proven against the least that
// any purchase costs, not against what may be cheaper and as sure.
func NewPlan(r *risk.Tidied, report *risk.Report, rep *quotes.Report) Plan {
	d := Plan{Document: optimise.NewDocument(r.Plan, rep), Risk: risk.NewDocument(report, r.Job.Settings.CurrencyDigits)}
	if r.Way != "" {
		digits, least := r.Job.Settings.CurrencyDigits, r.Cheapest.Plan.Bill.Total
		d.Tidy = &Tidy{r.Way, least.Text(digits), r.Plan.Bill.Total.Sub(least).Text(digits)}
	}
	if above := r.Above(); above.Sign() > 0 {
		digits := r.Job.Settings.CurrencyDigits
		d.Proof, d.LowerBound, d.Gap = "bound", r.Least.Text(digits), above.Text(digits)
	}
	return d
}
