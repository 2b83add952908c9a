package optimise

import (
	"context"
	"testing"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"

	"github.com/stretchr/testify/require"
)

// What came holds enough by a hair less than nothing: within what a row may be off, and
// so within what a plan may, the beds are full. How it lies is found all the same.
func TestFinishWithJustEnough(t *testing.T) {
	job := randjob.Job(7, randjob.Simple(3, 6, 4))
	holds := map[string]float64{"q004": 0.9778023532534184, "q006": 0.9525548041053521}
	packs := map[string]float64{"q004": 5, "q006": 2.5}
	var stock []Stock
	for _, q := range job.Quotes {
		if holds[q.Name] > 0 {
			stock = append(stock, Stock{q, "site 01", units.DecimalOf(packs[q.Name]), holds[q.Name]})
		}
	}
	f, err := FinishWith(context.Background(), job, stock, job.Settings.Date, Options{})
	require.NoError(t, err)
	require.Empty(t, f.Buy)
	require.True(t, f.ToPay.IsZero())
}

// Who buys two things and finishes with what came of both may still buy a third: what is
// there already counts for nothing.
func TestFinishWithAThirdThing(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,max_qty\na,Low,grit,100 L,9,1\nb,Mid,grit,100 L,9.50,1\nc,High,grit,100 L,10,1\n",
		Beds:   "bed,volume\none,300 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	job.Settings.MaxQuotes = 2
	one := units.DecimalFromInt(1)
	stock := []Stock{{Quote: job.Quotes[0], Packs: one}, {Quote: job.Quotes[1], Packs: one}}
	f, err := FinishWith(context.Background(), &quotes.Job{Quotes: job.Quotes[2:], Beds: job.Beds, Media: job.Media, Settings: job.Settings}, stock, job.Settings.Date, Options{})
	require.NoError(t, err)
	require.NotNil(t, f.Plan.Bill)
	require.Equal(t, "10.00", f.ToPay.Text(2))
}

// Where one thing fills each layer, what is there of a quote and what is bought of it besides are one: two bags of 34 + 2
// fill the layer, and not 36 new ones.
//
//	34 bags of 100 L lie there, torn ones of 36; the bed takes 3,600 L: 2 more at 10.00 and one drop at 5.00
func TestFinishOneThingWithMoreOfIt(t *testing.T) {
	for name, set := range map[string]func(*quotes.Settings){
		"one":         func(s *quotes.Settings) { s.LayerMix = quotes.OneMix },
		"least share": func(s *quotes.Settings) { s.LeastShare = 0.25 },
	} {
		job := jobtest.Files{
			Quotes:   "quote,supplier,medium,pack,price\na,Low,grit,100 L,10\nb,Mid,grit,100 L,9.50\n",
			Beds:     "bed,volume\none,3600 L\n",
			Delivery: "supplier,order_fee\nLow,5\nMid,400\n",
			Media:    jobtest.PlainMedia,
		}.Job(t)
		set(&job.Settings)
		stock := []Stock{{Quote: job.Quotes[0], Packs: units.DecimalFromInt(34)}}
		for _, plain := range []bool{false, true} {
			f, err := FinishWith(context.Background(), job, stock, job.Settings.Date, Options{Plain: plain})
			require.NoError(t, err)
			require.Len(t, f.Buy, 1, name)
			require.Equal(t, "25.00", f.ToPay.Text(2), name)
			require.InDelta(t, 3400, float64(f.Used[0]), 1e-6)
			parts := f.Plan.Fills[0].Layers[0].Parts
			parts[0].Quote, parts[1].Quote = job.Quotes[0], job.Quotes[1]
			require.ErrorContains(t, Verify(f.Plan), map[string]string{"one": "holds 2 things, want one", "least share": "want none or at least"}[name])
		}
	}
}

// What finishes costs the same however the model is set up, and no more than the packs that lack.
func TestFinishMixing(t *testing.T) {
	done := 0
	for seed := range jobtest.Seeds(16, 60) {
		job := randjob.Job(seed, randjob.Simple(3, 6, 4))
		if job.Settings.LayerMix = quotes.OneMix; seed%2 == 1 {
			job.Settings.LayerMix, job.Settings.LeastShare = quotes.AnyMix, 0.3
		}
		plan, err := Solve(context.Background(), job, Options{})
		require.NoError(t, err)
		if plan.Bill == nil {
			continue
		}
		var stock []Stock
		for i, l := range plan.Bill.Lines {
			packs := l.Packs
			if i == 0 { // the first comes short by a third, in whole steps
				packs = l.Quote.Step.Mul(units.DecimalFromInt(int64(l.Packs.Float() / l.Quote.Step.Float() * 2 / 3)))
			}
			if packs.Sign() > 0 {
				stock = append(stock, Stock{Quote: l.Quote, Site: l.Site, Packs: packs})
			}
		}
		f, err := FinishWith(context.Background(), job, stock, job.Settings.Date, Options{})
		require.NoError(t, err, seed)
		require.NotNil(t, f.Plan.Bill, seed)
		plain, err := FinishWith(context.Background(), job, stock, job.Settings.Date, Options{Plain: true})
		require.NoError(t, err, seed)
		require.InDelta(t, plain.Plan.Bill.Total.Float(), f.Plan.Bill.Total.Float(), 0.02, "seed %d", seed)
		require.LessOrEqual(t, f.ToPay.Float(), plan.Bill.Total.Float()+0.005, "seed %d", seed)
		done++
	}
	require.Greater(t, done, 8)
}
