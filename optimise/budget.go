package optimise

import (
	"fmt"

	"mediabuy/quotes"
	"mediabuy/units"
)

// BudgetWords say in a sentence what of a job's budget a purchase leaves, or by how much it goes over; "" without a budget.
func BudgetWords(job *quotes.Job, total units.Money, money func(units.Money) string) string {
	b := job.Settings.Budget
	if b == nil {
		return ""
	}
	switch left := b.Sub(total); left.Sign() {
	case 1:
		return fmt.Sprintf("Of the budget of %s, %s is left.", money(*b), money(left))
	case 0:
		return fmt.Sprintf("It takes all of the budget of %s.", money(*b))
	default:
		return fmt.Sprintf("That is %s over the budget of %s.", money(left.Neg()), money(*b))
	}
}

// OverBudget says whether a purchase costs more than a job's budget.
func OverBudget(job *quotes.Job, total units.Money) bool {
	return job.Settings.Budget != nil && total.Cmp(*job.Settings.Budget) > 0
}

// overBudget is what stands in the way where the least cost is over the budget.
func overBudget(job *quotes.Job, least units.Money) Obstacle {
	say := func(m units.Money) string { return units.FormatMoney(m, job.Settings.Currency) }
	return Obstacle{Rule: RuleBudget, Remedy: fmt.Sprintf("the budget is %s and the cheapest safe purchase costs %s: raise the budget by %s",
		say(*job.Settings.Budget), say(least), say(least.Sub(*job.Settings.Budget)))}
}
