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
