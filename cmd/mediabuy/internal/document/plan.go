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
}

// NewPlan sets out a plan. One that was made surer is proven against the least that
// any purchase costs, not against what may be cheaper and as sure.
func NewPlan(r *risk.Reached, report *risk.Report, rep *quotes.Report) Plan {
	d := Plan{optimise.NewDocument(r.Plan, rep), risk.NewDocument(report, r.Job.Settings.CurrencyDigits)}
	if above := r.Above(); above.Sign() > 0 {
		digits := r.Job.Settings.CurrencyDigits
		d.Proof, d.LowerBound, d.Gap = "bound", r.Least.Text(digits), above.Text(digits)
	}
	return d
}
