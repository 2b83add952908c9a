package document

import (
	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/risk"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Plan is the machine-readable answer of plan: the plan and how sure it is.
type Plan struct {
	*optimise.Document
	Risk *risk.Document `json:"risk,omitempty"`
	Tidy *Tidy          `json:"tidy,omitempty"`
	*Compared
}

// Compared is what a plan is compared with, where that was asked for.
type Compared struct {
	Ways         []Way         `json:"ways"`
	SmallChanges []SmallChange `json:"small_changes"`
}

// Way is another way to buy. Total and More are null where there is no such purchase,
// and Stopped then names what stands in its way; Settled is false where time was up before
// the cheapest of the kind was proven, or found.
type Way struct {
	Name    string   `json:"name"`
	Total   *string  `json:"total"`
	More    *string  `json:"more"` // than the plan
	Settled bool     `json:"settled"`
	Stopped []string `json:"stopped"`
}

// SmallChange is a small change of the job that saves at least [breakeven.SmallShare].
type SmallChange struct {
	Name   string `json:"name"`
	Saves  string `json:"saves"`
	Proven bool   `json:"proven"`
}

// NewCompared sets out what a plan is compared with.
func NewCompared(plan *optimise.Plan, others []optimise.Alternative, small []breakeven.Other) *Compared {
	digits := plan.Job.Settings.CurrencyDigits
	c := &Compared{Ways: []Way{}, SmallChanges: []SmallChange{}}
	for _, o := range others {
		w := Way{Name: o.Name, Settled: o.Plan.Status != optimise.TimeLimit, Stopped: []string{}}
		if o.Plan.Bill != nil {
			total, more := o.Plan.Bill.Total.Text(digits), o.Plan.Bill.Total.Sub(plan.Bill.Total).Text(digits)
			w.Total, w.More = &total, &more
		}
		for _, why := range o.Plan.Why {
			w.Stopped = append(w.Stopped, why.About()...)
		}
		c.Ways = append(c.Ways, w)
	}
	for _, s := range small {
		c.SmallChanges = append(c.SmallChanges, SmallChange{s.Name, units.Money{}.Sub(s.Difference).Text(digits), !s.Unproven})
	}
	return c
}

// Tidy tells that a plainer way to buy was taken in place of the cheapest.
type Tidy struct {
	Way      string `json:"way"`
	Cheapest string `json:"cheapest"` // total
	More     string `json:"more"`
	// Pains are what the purchase asks of those who carry it out, beside what the
	// cheapest asks.
	Pains         Pains `json:"pains"`
	CheapestPains Pains `json:"cheapest_pains"`
}

// Pains are counts; see [risk.Pains].
type Pains struct {
	Suppliers   int `json:"suppliers"`
	Things      int `json:"things"`
	Loads       int `json:"loads"`
	MixedLayers int `json:"mixed_layers"`
	Fillings    int `json:"fillings"`
}

func newPains(p risk.Pains) Pains { return Pains{p.Suppliers, p.Things, p.Loads, p.Mixed, p.Mixes} }

// NewPlan sets out a plan. One that was made surer, or plainer, is proven against the least that
// any purchase costs, not against what may be cheaper and as sure.
func NewPlan(r *risk.Tidied, report *risk.Report, rep *quotes.Report) Plan {
	d := Plan{Document: optimise.NewDocument(r.Plan, rep), Risk: risk.NewDocument(report, r.Job.Settings.CurrencyDigits)}
	if r.Way != "" {
		digits, least := r.Job.Settings.CurrencyDigits, r.Cheapest.Plan.Bill.Total
		d.Tidy = &Tidy{r.Way, least.Text(digits), r.Plan.Bill.Total.Sub(least).Text(digits),
			newPains(risk.PainsOf(r.Plan)), newPains(risk.PainsOf(r.Cheapest.Plan))}
	}
	if above := r.Above(); above.Sign() > 0 {
		digits := r.Job.Settings.CurrencyDigits
		d.Proof, d.LowerBound, d.Gap = "bound", r.Least.Text(digits), above.Text(digits)
	}
	return d
}
