package breakeven

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/units"
)

// The bed takes 100 L. A buy of 20 bags of 50 L places ten times that, which is the most
// that is told; the change below which 21 are bought goes, and all below it, but for the
// one at which the target enters.
func TestNobodyBuysByTheThousandToMakeUpAnOrder(t *testing.T) {
	job := withMedia(t, "quote,supplier,medium,form,pack,price,size,carbonate\nfar,Brackwell,lava rock,bag,50 L,30.00,8-16 mm,none\n",
		"bed,volume\none,100 L\n", "", "", stoneMedia)
	bags := func(n int64) []Bought {
		return []Bought{{Quote: job.Quotes[0], Packs: units.DecimalFromInt(n)}}
	}
	at := func(text string) units.Decimal { return units.M(text).Decimal() }
	change := func(x string, below, above int64) Change {
		return Change{At: at(x), Below: bags(below), Above: bags(above)}
	}
	all := []Change{change("0.02", 2500, 500), change("2.4", 21, 20), change("2.5", 20, 2), change("40", 2, 3000)}
	told := func(s Series) []string {
		s.Changes = slices.Clone(all)
		s.Target.Now = at("30")
		s.leaveOutSenseless(job)
		var out []string
		for _, c := range s.Changes {
			out = append(out, c.At.String())
		}
		return append(out, s.Partial)
	}
	const why = "at 2.4000 and below, more than 10 times what the beds take would be bought to make up an order, which is left out"
	assert.Equal(t, []string{"2.5", "40", why}, told(Series{}))
	assert.Equal(t, []string{"2.5", "40", "cut short; " + why}, told(Series{Partial: "cut short"}))
	enters := at("2.4")
	got := told(Series{Enters: &enters})
	assert.Equal(t, []string{"2.4", "2.5", "40"}, got[:3], "where it enters stays told")
	assert.Contains(t, got[3], "at 0.0200 and below")
}

// Of a job where free delivery hangs on the price the changes near nothing are left out.
func TestBreakEvensNearNothing(t *testing.T) {
	shape := randjob.Simple(3, 6, 4)
	shape.MinOrder = true
	job := randjob.Job(12, shape)
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	i := slices.IndexFunc(job.Quotes, func(q *quotes.Quote) bool { return q.Name == "q002" })
	series, err := ByPrice(context.Background(), job, plan, []Target{OfQuote(job, job.Quotes[i])}, Options{Depth: Every})
	require.NoError(t, err)
	s := series[0]
	require.NotEmpty(t, s.Changes)
	assert.Contains(t, s.Partial, "at 4.4829 and below")
	assert.Equal(t, 1, s.Changes[0].At.Cmp(units.M("4.4829").Decimal()))
}
