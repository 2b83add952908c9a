package optimise

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes"
	"mediabuy/units"
)

func TestBudgetWords(t *testing.T) {
	say := func(m units.Money) string { return units.FormatMoney(m, "USD") }
	budget := units.M("1500")
	job := &quotes.Job{Settings: quotes.Settings{Budget: &budget}}
	for total, want := range map[string]string{
		"1423.49": "Of the budget of $1,500.00, $76.51 is left.",
		"1500.00": "It takes all of the budget of $1,500.00.",
		"1621.90": "That is $121.90 over the budget of $1,500.00.",
	} {
		assert.Equal(t, want, BudgetWords(job, units.M(total), say))
		assert.Equal(t, total == "1621.90", OverBudget(job, units.M(total)))
	}
	assert.Empty(t, BudgetWords(&quotes.Job{}, units.M("1"), say))
	assert.False(t, OverBudget(&quotes.Job{}, units.M("1")))
}
