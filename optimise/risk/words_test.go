package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// What holding frames to heavy stone costs is said whichever way they are held.
func TestMarginWords(t *testing.T) {
	plan := func(w quotes.Weights, total int64, st optimise.Status) *optimise.Plan {
		return &optimise.Plan{Job: &quotes.Job{Settings: quotes.Settings{Weights: w}}, Status: st, Bill: &bill.Bill{Total: units.MoneyOf(units.DecimalFromInt(total))}}
	}
	const heavy, usual, held = quotes.HeavyWeights, quotes.UsualWeights, "Frames are held to usual weights: a lot of stone heavier or wetter than usual can pass these limits."
	none := &optimise.Plan{Status: optimise.Infeasible}
	for _, c := range []struct {
		plan, other *optimise.Plan
		want        string
	}{
		{plan(heavy, 120, optimise.Optimal), plan(usual, 100, optimise.Optimal), "Frames are held to heavy stone: 20 more than at usual weights."},
		{plan(heavy, 120, optimise.TimeLimit), plan(usual, 100, optimise.Optimal), "Frames are held to heavy stone: about 20 more than at usual weights."},
		{plan(heavy, 100, optimise.Optimal), plan(usual, 100, optimise.Optimal), "Frames are held to heavy stone: it costs no more than holding to usual weights."},
		{plan(heavy, 100, optimise.Optimal), nil, ""},
		{plan(usual, 100, optimise.Optimal), plan(heavy, 130, optimise.Optimal), held + " Holding them to heavy stone costs 30 more."},
		{plan(usual, 100, optimise.Optimal), plan(heavy, 130, optimise.TimeLimit), held + " Holding them to heavy stone costs about 30 more."},
		{plan(usual, 100, optimise.Optimal), plan(heavy, 100, optimise.Optimal), held + " Holding them to heavy stone costs no more."},
		{plan(usual, 100, optimise.Optimal), none, held + " Held to heavy stone, nothing on offer fills the beds."},
		{plan(usual, 100, optimise.Optimal), nil, held},
	} {
		assert.Equal(t, c.want, MarginWords(c.plan, c.other, func(m units.Money) string { return m.Text(0) }))
	}
}

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
