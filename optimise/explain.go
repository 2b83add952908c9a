package optimise

import (
	"context"
	"fmt"
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Obstacle is one thing that keeps a job from having any purchase, with the
// least change that would help.
type Obstacle struct {
	Bed    string // "" where it is not about one bed
	Layer  quotes.Layer
	Table  string
	Rule   string
	Short  units.Litres    // missing litres; 0 where it is about weight
	Over   units.Kilograms // kilograms too many
	Remedy string
}

// Obstacle rules besides those of suitability.
const (
	RuleLimit      = "limit"
	RuleShare      = "max_share"
	RuleStock      = "stock"
	RuleDelivery   = "delivery"
	RuleSuppliers  = "max_suppliers"
	RuleDeliveries = "max_deliveries"
	RuleBudget     = "budget"
)

func overBudget(job *quotes.Job, least units.Money) Obstacle {
	d := job.Settings.CurrencyDigits
	return Obstacle{Rule: RuleBudget, Remedy: fmt.Sprintf("the budget is %s and the cheapest safe purchase costs %s: raise the budget by %s",
		job.Settings.Budget.Text(d), least.Text(d), least.Sub(*job.Settings.Budget).Text(d))}
}

// hopeless reports whether some layer has nothing that may fill it, so that no
// solve is needed to know.
func (p *program) hopeless() bool {
	for u, su := range p.in.suits {
		if !slices.ContainsFunc(su.classes, func(k int) bool { _, ok := p.v[[2]int{k, u}]; return ok }) {
			return true
		}
	}
	return false
}

func explain(ctx context.Context, job *quotes.Job, fit *Fit, solver mip.Solver, limit any) ([]Obstacle, error) {
	return nil, nil
}
