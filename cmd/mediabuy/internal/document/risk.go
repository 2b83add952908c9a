package document

import (
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
)

// Risk is the machine-readable answer of risk: how sure the plan is, and what more or
// less sureness costs.
type Risk struct {
	Currency string               `json:"currency"`
	Total    string               `json:"total"`
	Proof    string               `json:"proof"`
	Risk     *risk.Document       `json:"risk"`
	Curve    []risk.CurveDocument `json:"curve"`
	// Cut is true where time was up before the whole curve was worked out.
	Cut bool `json:"cut"`
}

// NewRisk sets out how sure a plan is and its curve.
func NewRisk(r *risk.Reached, report *risk.Report, c *risk.Curve) Risk {
	digits := r.Job.Settings.CurrencyDigits
	proof := "optimal"
	if r.Plan.Status != optimise.Optimal || r.Above().Sign() > 0 {
		proof = "bound"
	}
	return Risk{Currency: r.Job.Settings.Currency, Total: r.Plan.Bill.Total.Text(digits), Proof: proof, Risk: risk.NewDocument(report, digits), Curve: c.Document(digits), Cut: c.Cut}
}
