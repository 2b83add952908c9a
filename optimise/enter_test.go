package optimise

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// One bed of 400 L. Eight bags of 50 L at 10 cost 80. Two heaps of 200 L at x and
// a fee of 30 cost 2x + 30, below 80 up to x = 25; a heap and four bags cost
// x + 70, below 80 up to 10 only.
func TestEnterByHand(t *testing.T) {
	job := func(x float64) *quotes.Job {
		return jobtest.Files{
			Quotes:   fmt.Sprintf("quote,supplier,medium,form,pack,price,size\nbag,Aldermoor,grit,bag,50 L,10.00,8-16 mm\nheap,Brackwell,grit,bulk,200 L,%.4f,8-16 mm\n", x),
			Beds:     "bed,volume\none,400 L\n",
			Delivery: "supplier,name,order_fee\nBrackwell,truck,30\n",
			Media:    jobtest.PlainMedia,
		}.Job(t)
	}
	e, err := Enter(context.Background(), Ray{At: job, From: 1, To: 2, Limit: 80})
	require.NoError(t, err)
	require.InDelta(t, 25, e.X, 1e-6)
	require.Len(t, e.Buy.Items, 1)
	require.Equal(t, "heap", e.Buy.Items[0].Quote.Name)
	require.EqualValues(t, 2, e.Buy.Items[0].Steps)
	bill, err := bill.Price(e.Job, *e.Buy)
	require.NoError(t, err)
	require.Equal(t, "32", bill.Total.String(), "priced at From: 2·1 + 30")

	// Dearer than that from the start, it enters nowhere above.
	e, err = Enter(context.Background(), Ray{At: job, From: 26, To: 30, Limit: 80})
	require.NoError(t, err)
	require.Nil(t, e.Buy)
}

// A search cut short says so and gives nothing.
func TestEnterInNoTime(t *testing.T) {
	at := func(x float64) *quotes.Job {
		job := *randjob.Job(3, randjob.Simple(5, 25, 25))
		job.Quotes = slices.Clone(job.Quotes)
		q := *job.Quotes[0]
		q.Tax, q.Breaks = units.DecimalOf(x), nil
		job.Quotes[0] = &q
		return &job
	}
	_, err := Enter(context.Background(), Ray{At: at, From: 1, To: 2, Limit: 1e5, TimeLimit: 1})
	require.ErrorIs(t, err, ErrNoPurchase)
}

// Jobs that differ in more than what is paid are refused.
func TestEnterWantsTheSameRows(t *testing.T) {
	job := func(x float64) *quotes.Job {
		return jobtest.Files{
			Quotes: "quote,supplier,medium,pack,price,size\nbag,Aldermoor,grit,50 L,10.00,8-16 mm\n",
			Beds:   fmt.Sprintf("bed,volume\none,%.0f L\n", 100*x),
			Media:  jobtest.PlainMedia,
		}.Job(t)
	}
	_, err := Enter(context.Background(), Ray{At: job, From: 1, To: 2, Limit: 80})
	require.ErrorContains(t, err, "the models at two prices differ")
}
