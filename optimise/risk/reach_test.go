package risk

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// Bags of 10 L that hold 95-100-105 %: to fill 970 L in nine cases of ten, n bags
// must give 970 L at the tenth part of the law, 0.95 + √(0.1·0.1·0.05) = 0.97236.
// 970/9.7236 = 99.76, so 100 bags at 2; 97 are enough at usual fill.
func TestReachByHand(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,10 L,2.00,95-100-105%\n", Beds: "bed,volume\none,970 L\n", Media: exactMedia,
	}.Job(t)
	r, err := Reach(context.Background(), job, 0.9, optimise.Options{})
	require.NoError(t, err)
	require.True(t, r.Met)
	assert.Equal(t, "200", r.Plan.Bill.Total.String())
	assert.GreaterOrEqual(t, r.Sure, 0.9)
	// 97 bags are the least that could ever do.
	assert.Equal(t, "194", r.Least.String())
	assert.Equal(t, "6", r.Above().String())

	// Where the job asks for it nobody is told that nothing is cheaper.
	job.Settings.Sure = 0.9
	r, err = Plan(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	money := func(m units.Money) string { return m.String() }
	words, warns := r.Proof(money)
	assert.Equal(t, "The cheapest found that is 90 % sure to fill every bed; a cheaper one as sure could save at most 6.", words)
	assert.False(t, warns)
	r.Met = false
	words, warns = r.Proof(money)
	assert.Equal(t, "Not as sure as asked for: time was up. Of what was found this is the surest, and the job asks for 90 of 100 cases with every bed full.", words)
	assert.True(t, warns)
}

// What is asked for and is there already costs nothing more.
func TestReachWhatIsSureAnyway(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,100 L,12.00,95-100-105%\n", Beds: "bed,volume\none,910 L\n", Media: exactMedia,
	}.Job(t)
	r, err := Reach(context.Background(), job, 0.99, optimise.Options{})
	require.NoError(t, err)
	assert.True(t, r.Met)
	assert.Equal(t, "120", r.Plan.Bill.Total.String())
	assert.True(t, r.Above().IsZero())
}

// Where the stock is too small, the surest purchase is told and not called enough.
func TestReachTooMuch(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill,max_qty\nbag,Yard,grit,100 L,12.00,95-100-105%,10\n", Beds: "bed,volume\none,1000 L\n", Media: exactMedia,
	}.Job(t)
	r, err := Reach(context.Background(), job, 0.95, optimise.Options{})
	require.NoError(t, err)
	assert.False(t, r.Met)
	assert.InDelta(t, 0.5, r.Sure, 0.03)
	assert.False(t, r.Cut)
}

// Where it is the budget that keeps the purchase from being as sure, it is the budget that is named, with what would pay for it.
//
//	1,000 L of bags that hold 95-100-105 L: 10 for 120 fill the bed in one case of two (in a little less of these draws, and
//	cases are rounded down), 11 for 132 always
func TestReachOverTheBudget(t *testing.T) {
	for _, c := range []struct{ budget, want string }{
		{"125", "the budget is $125.00 and the cheapest purchase found that is 95 % sure to fill every bed costs $132.00: raise the budget by $7.00, or ask for less under sure, as the surest found within the budget fills every bed in 49 of 100 cases"},
		{"100", "the budget is $100.00 and the cheapest purchase found that is 95 % sure to fill every bed costs $132.00: raise the budget by $32.00; however sure, the cheapest costs at least $120.00"},
	} {
		job := jobtest.Files{
			Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,100 L,12.00,95-100-105%\n", Beds: "bed,volume\none,1000 L\n", Media: exactMedia,
			Settings: "sure = 95\nbudget = " + c.budget + "\n",
		}.Job(t)
		r, err := Plan(context.Background(), job, optimise.Options{})
		require.NoError(t, err)
		assert.Equal(t, []optimise.Obstacle{{Rule: optimise.RuleBudget, Remedy: c.want}}, r.Plan.Why)
	}
}

// A limit of time is one limit for all the searches. One that is over when the first
// ends leaves the plan without reserve, which is then called unproven and never
// called the most that can be had.
func TestReachOutOfTime(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,10 L,2.00,95-100-105%\n", Beds: "bed,volume\none,970 L\n", Media: exactMedia,
		Settings: "sure = 90\n",
	}.Job(t)
	a, err := NewAssessor(job)
	require.NoError(t, err)
	defer a.Close()
	plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	r := &Reached{Job: job, Plan: plan, Least: plan.LowerBound()}
	s := &reserve{ctx: context.Background(), a: a, job: job, target: 0.9, best: r, until: time.Now().Add(-time.Second)}
	require.NoError(t, s.search())
	assert.True(t, r.Cut)
	assert.False(t, r.Met)
	assert.Same(t, plan, r.Plan)
	conclude(r, nil, job, 0.9)
	assert.Equal(t, optimise.TimeLimit, r.Plan.Status)
	assert.Empty(t, r.Plan.Why)
	assert.NotNil(t, r.Plan.Bill)
}

// More sureness never costs less, and what is reached is reached.
func TestMoreSurenessNeverCostsLess(t *testing.T) {
	jobtest.Long(t)
	for seed := range uint64(6) {
		job := randjob.Job(seed, randjob.Simple(3, 6, 4))
		last := -1.0
		for _, target := range []float64{0.5, 0.8, 0.95} {
			r, err := Reach(context.Background(), job, target, optimise.Options{})
			require.NoError(t, err)
			if r.Plan.Bill == nil || !r.Met {
				break
			}
			require.GreaterOrEqual(t, r.Sure, target)
			require.GreaterOrEqual(t, r.Plan.Bill.Total.Cmp(r.Least), 0)
			total := r.Plan.Bill.Total.Float()
			// Each target is a search of its own, and may miss by less than it says.
			require.GreaterOrEqual(t, total+r.Above().Float(), last, "seed %d", seed)
			last = total
		}
	}
}

// At the other weights a surer purchase is looked for anew: the reserve of what was bought says nothing of what was not.
//
//	500 L of heavy for 1 a bag of 10 L pass 700 kg at their heavy end, light ones for 3 do not. Heavy ones hold
//	95-100-105 %: 51.4 bags in nine cases of ten; light ones what they say: 50 bags for 150
func TestOtherWeightsAsSure(t *testing.T) {
	job := jobtest.Files{
		Quotes:   "quote,supplier,medium,pack,price,fill\nheavy,Yard,heavy,10 L,1.00,95-100-105%\nlight,Yard,light,10 L,3.00,100%\n",
		Beds:     "bed,volume,limit\none,500 L,700 kg\n",
		Media:    "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle\nheavy,0.9-1.0-1.5,0,0,smooth,none,no,0,0\nlight,0.5,0,0,smooth,none,no,0,0\n",
		Settings: "sure = 90\nweights = \"usual\"\nunits = { density = \"kg/L\" }\n",
	}.Job(t)
	r, err := Plan(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, "52", r.Plan.Bill.Total.String())
	other, err := AtOtherWeights(context.Background(), r.Job, optimise.Options{})
	require.NoError(t, err)
	heavy := *job
	heavy.Settings.Weights = quotes.HeavyWeights
	want, err := Plan(context.Background(), &heavy, optimise.Options{})
	require.NoError(t, err)
	assert.Equal(t, want.Plan.Bill.Total.String(), other.Bill.Total.String())
}
