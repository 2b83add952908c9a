package risk

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// Bags of 10 L that hold 95-100-105 % and 970 L to fill in nine cases of ten: planned are
// 100 bags, see TestReachByHand. If all came, nothing more is needed, as surely as planned.
// Of 90 bags the fill has a standard deviation of 0.05/√6 = 2.04 %, so with n more bags
// there are 900 + 10n L give or take 0.0204·√(900² + (10n)²): with 9 bags 990 ± 18.5,
// enough in Φ(20/18.5) = 86 of 100 cases, with 10 bags 1000 ± 18.5, in Φ(30/18.5) = 95.
// At what bags usually hold 7 would do.
func TestFinishKeepsTheSurenessAsked(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,10 L,2.00,95-100-105%\n", Beds: "bed,volume\none,970 L\n", Media: exactMedia,
	}.Job(t)
	ctx, opt := context.Background(), optimise.Options{}
	usual, err := Finish(ctx, job, []optimise.Stock{{Quote: job.Quotes[0], Packs: units.D("90")}}, job.Settings.Date, opt)
	require.NoError(t, err)
	assert.Equal(t, "14 0", usual.ToPay.String()+" "+units.DecimalOf(usual.Sure).String(), "7 bags, where no sureness is asked")

	job.Settings.Sure = 0.9
	planned, err := Plan(ctx, job, opt)
	require.NoError(t, err)
	require.Equal(t, "200", planned.Plan.Bill.Total.String())
	// As it was read, and as planning left it: quotes counted on for less.
	for _, j := range []struct {
		name string
		of   *Reached
	}{{"read", &Reached{Job: job}}, {"planned", planned}} {
		q := j.of.Job.Quotes[0]
		f, err := Finish(ctx, j.of.Job, []optimise.Stock{{Quote: q, Packs: units.D("90")}}, job.Settings.Date, opt)
		require.NoError(t, err)
		assert.Equal(t, "20", f.ToPay.String(), j.name)
		assert.GreaterOrEqual(t, f.Sure, 0.9, j.name)
		f, err = Finish(ctx, j.of.Job, []optimise.Stock{{Quote: q, Packs: units.D("100")}}, job.Settings.Date, opt)
		require.NoError(t, err)
		assert.Empty(t, f.Buy, j.name)
		assert.InDelta(t, planned.Sure, f.Sure, 1e-9, j.name)
		assert.InDelta(t, 970, float64(f.Used[0]), 30, j.name)
	}
}
