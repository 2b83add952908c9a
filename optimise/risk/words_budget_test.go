package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// 1423.49 leave 76.51 of 1500: enough for a top-up of 64.89, and not for one of 80.
func TestBudgetWords(t *testing.T) {
	say := func(m units.Money) string { return units.FormatMoney(m, "USD") }
	budget := units.M("1500")
	plan := &optimise.Plan{Job: &quotes.Job{Settings: quotes.Settings{Budget: &budget}}}
	plan.Bill = &bill.Bill{Total: units.M("1423.49")}
	short := &Report{ShortP95: 30, Finished: true, TopUpP95: units.M("80")}
	assert.Equal(t, " The budget leaves $76.51, which does not pay for that.", short.BudgetWords(plan, say))
	short.TopUpP95 = units.M("64.89")
	assert.Empty(t, short.BudgetWords(plan, say))
	short.TopUpP95, plan.Bill.Total = units.M("80"), units.M("1500.01")
	assert.Empty(t, short.BudgetWords(plan, say), "which is said already")
	plan.Job = &quotes.Job{}
	assert.Empty(t, short.BudgetWords(plan, say), "without a budget")
}
