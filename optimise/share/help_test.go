package share

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// read makes a job of the texts of its files; delivery may be empty.
func read(t testing.TB, quotesCSV, bedsCSV, deliveryCSV, jobTOML string) *quotes.Job {
	t.Helper()
	return jobtest.Files{Quotes: quotesCSV, Beds: bedsCSV, Delivery: deliveryCSV, Settings: jobTOML, Media: plainMedia}.Job(t)
}

// plainMedia loses nothing on rinsing or settling, so that litres bought are
// litres placed.
const plainMedia = "medium,settle,rinse_loss\nexpanded clay,0,0%\nriver gravel,0,0%\n"

// One quote, sold by the litre at 1.00, and a van for 30.00: what a group pays
// is its litres and the van.
const (
	litreQuotes = "quote,supplier,medium,form,pack,price,size,carbonate,rinse_loss\nclay,Tor Yard,expanded clay,bag,1 L,1.00,8-16 mm,none,0%\n"
	vanDelivery = "supplier,order_fee\nTor Yard,30\n"
)

func solve(t testing.TB, job *quotes.Job, opt Options) *Result {
	t.Helper()
	res, err := Solve(context.Background(), job, opt)
	require.NoError(t, err)
	return res
}

// pays lists what members pay, as text.
func pays(sp Split) []string {
	var out []string
	for _, p := range sp.Pays {
		out = append(out, p.Text(2))
	}
	return out
}

func by(t testing.TB, res *Result, rule Rule) Split {
	t.Helper()
	for _, sp := range res.Splits {
		if sp.Rule == rule {
			return sp
		}
	}
	require.Fail(t, "no such split", "%s", rule)
	return Split{}
}

func sum(list []units.Money) units.Money {
	var out units.Money
	for _, m := range list {
		out = out.Add(m)
	}
	return out
}
