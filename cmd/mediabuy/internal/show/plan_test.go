package show

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

func smallPlan(t *testing.T) *optimise.Plan {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,delivery\nballs,Yard,expanded clay,50 L,20,45\n",
		Beds:   "bed,count,length,width,depth\nb,2,1 m,1 m,300 mm\n",
	}.Job(t)
	plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	return plan
}

// opening is the text before the first heading.
func opening(text string) string {
	head, _, _ := strings.Cut(text, "\n\n")
	return head
}

// What is not proven says so in its first lines, with the bound and the gap.
func TestUnprovenPlanSaysSoFirst(t *testing.T) {
	// 600 L ÷ 47.53 = 12.6, so 13 bags: 13 × 20 + 45 = 305.
	plan := smallPlan(t)
	assert.Equal(t, "Buy for $305.00 in all: 600 L of media for 2 beds, from 1 supplier.\nProven: nothing is cheaper by even the smallest coin.",
		opening(Plan(PlanView{Plan: plan}, Style{})))
	plan.Status, plan.Bound = optimise.TimeLimit, 298.768
	assert.Equal(t, "Buy for $305.00 in all: 600 L of media for 2 beds, from 1 supplier.\n"+
		"Not proven: time was up. No purchase can cost less than $298.76, so at most $6.24 could still be saved.",
		opening(Plan(PlanView{Plan: plan}, Style{})))
}

func TestOtherWaysToBuy(t *testing.T) {
	plan := smallPlan(t)
	dearer := *plan
	bill := *plan.Bill
	bill.Total = bill.Total.Add(plan.Bill.Delivery) // 305 + 45
	dearer.Bill = &bill
	unproven := dearer
	unproven.Status = optimise.TimeLimit
	view := PlanView{Plan: plan, Others: []optimise.Alternative{
		{Name: "all bags", Plan: &dearer},
		{Name: "all bulk", Plan: &optimise.Plan{Status: optimise.Infeasible}},
		{Name: "one supplier", Plan: plan},
		{Name: "cash only", Plan: &unproven},
		{Name: "by boat", Plan: &optimise.Plan{Status: optimise.TimeLimit}},
	}}
	assert.Contains(t, Plan(view, Style{}), "Saves $45.00 against all bags (Yard) and "+
		"up to $45.00 against the best found for cash only (Yard). No cheaper than one supplier (Yard). Cannot fill the beds at all: all bulk. Not settled in time: by boat.\n")
}

// Beside a plan that is not proven another way may be found that costs less: it is said
// first, with what to do, and never called no dearer.
func TestCheaperWayBesideAnUnprovenPlan(t *testing.T) {
	cheaper := smallPlan(t)
	plan := *cheaper
	bill := *cheaper.Bill
	bill.Total = bill.Total.Add(cheaper.Bill.Delivery) // 305 + 45
	plan.Bill, plan.Status, plan.Bound = &bill, optimise.TimeLimit, 298.768
	view := PlanView{Plan: &plan, Others: []optimise.Alternative{{Name: "all bags", Plan: cheaper}}}
	assert.Contains(t, Plan(view, Style{}), "Cheaper was found: $45.00 less by all bags (Yard); give the search more time with --time-limit.\n")
	view.Others[0].Plain = true
	assert.Contains(t, Plan(view, Style{}), "more time with --time-limit, or take the plainer way with --tidy.\n")
}

func TestObstaclesInWords(t *testing.T) {
	plan := smallPlan(t)
	text := Plan(PlanView{Plan: &optimise.Plan{Job: plan.Job, Fit: plan.Fit, Status: optimise.Infeasible, Why: []optimise.Obstacle{
		{Bed: "b", Layer: quotes.Top, Rule: "top", Short: 120, Remedy: "allow a rough top"},
		{Table: "frame", Rule: optimise.RuleLimit, Over: 12.5, Remedy: "raise its limit by 12.5 kg"},
	}}}, Style{})
	assert.Equal(t, `No mix of these quotes can satisfy the beds.

WHAT STANDS IN THE WAY
  - bed b, top layer, rule top, 120 L short: allow a rough top
  - table frame, rule limit, too heavy: raise its limit by 12.5 kg

LEFT OUT
  nothing was refused
`, text)
}
