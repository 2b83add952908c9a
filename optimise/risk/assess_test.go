package risk

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes/files/jobtest"
)

const exactMedia = "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle\ngrit,1 kg/L,0,0,smooth,none,no,0%,0%\nrock,2 kg/L,0,0,rough,none,no,0%,0%\n"

func assessed(t *testing.T, f jobtest.Files) (*optimise.Plan, *Report) {
	t.Helper()
	job := f.Job(t)
	plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, plan.Status)
	a, err := NewAssessor(job)
	require.NoError(t, err)
	defer a.Close()
	r, err := a.Assess(context.Background(), plan.Purchase, optimise.Options{})
	require.NoError(t, err)
	return plan, r
}

// Ten bags of 100 L fill 970 L when they hold at least 97 %. With 95-100-105 %,
// P(fill < 0.97) = 0.02²/(0.10·0.05) = 0.08, so 92 % sure. In a bad case, the draw
// that 5 % lie below: 0.95 + √(0.05·0.10·0.05) = 0.965811, which is 965.811 L, 4.189
// short. One more bag at 12 and a drop of 30 finish any of it: 42, and 0.08·42 = 3.36
// is expected.
func TestAssessByHand(t *testing.T) {
	_, r := assessed(t, jobtest.Files{
		Quotes:   "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,100 L,12.00,95-100-105%\n",
		Beds:     "bed,volume\none,970 L\n",
		Delivery: "supplier,order_fee\nYard,30\n",
		Media:    exactMedia,
	})
	se := math.Sqrt(0.08 * 0.92 / Draws)
	assert.InDelta(t, 0.92, r.Sure, 4*se)
	assert.InDelta(t, se, r.StandardError, 0.0003)
	assert.InDelta(t, 4.189, float64(r.ShortP95), 1)
	assert.Equal(t, "42", r.TopUpP95.String())
	assert.InDelta(t, 3.36, r.ExpectedTopUp.Float(), 42*4*se)
	assert.True(t, r.Finished)
}

// Without any spread a purchase that fills the beds fills them for sure.
func TestAssessWithoutSpread(t *testing.T) {
	_, r := assessed(t, jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,100 L,12.00,100%\n", Beds: "bed,volume\none,1000 L\n", Media: exactMedia,
	})
	assert.Equal(t, Report{Sure: 1, Finished: true}, *r)
}

// A pack that holds less than it says is short in every case, and what is in stock
// does not finish the beds.
func TestAssessOfShortPacks(t *testing.T) {
	_, r := assessed(t, jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill,max_qty\nbag,Yard,grit,100 L,12.00,90%,10\n", Beds: "bed,volume\none,1000 L\n", Media: exactMedia,
	})
	assert.Zero(t, r.Sure)
	assert.InDelta(t, 100, float64(r.ShortP95), 1e-6)
}

// Rock may not go on top, grit may go below: what is short of grit cannot be made
// up by rock, what is short of rock can by grit. Ten bags of each fill 1000 L; with
// grit short the top is short, whatever there is of rock. Grit has a spread, rock
// has none and one bag to spare (1100 L came for 1000).
func TestAssessKeepsToTheLayers(t *testing.T) {
	_, r := assessed(t, jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill,min_qty\ngrit,Yard,grit,100 L,12.00,95-100-105%,\nrock,Yard,rock,100 L,3.00,100%,11\n",
		Beds:   "bed,volume,top_volume\none,2000 L,1000 L\n", Media: exactMedia,
	})
	// Half of the law of grit lies below its usual value.
	assert.InDelta(t, 0.5, r.Sure, 4*math.Sqrt(0.25/Draws))
}
