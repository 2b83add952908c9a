package optimise

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files/jobtest"
)

// TestMended names the quote that would fill the beds if a word of the yard mended what it lacks, before any table is asked to bear
// more. 1000 L of fluff weigh 500 kg and as much rock 2000 kg, on 600 kg.
func TestMended(t *testing.T) {
	const beds = "bed,volume,limit,min_size\none,1000 L,600 kg,8 mm\n"
	for _, c := range []struct {
		name, quotes, settings string
		first                  string // how the remedy begins
		rule                   string
	}{
		{"a price that ended", "quote,supplier,medium,pack,price,size,valid_until\nf,Yard,fluff,100 L,50,8-16 mm,2026-04-01\nr,Quay,rock,100 L,10,8-16 mm,\n", `date = "2026-05-01"`,
			`with "f" the beds can be filled, but its price ended on 2026-04-01: ask for a new last day and write it under valid_until. Failing that, the lightest mix is`, RuleLimit},
		{"ready too late", "quote,supplier,medium,pack,price,size,ready_by\nf,Yard,fluff,100 L,50,8-16 mm,2026-06-01\nr,Quay,rock,100 L,10,8-16 mm,\n", `need_by = "2026-05-20"`,
			`with "f" the beds can be filled, but it is ready on 2026-06-01 and needed by 2026-05-20: ask for it sooner, or wait for it. Failing that`, RuleLimit},
		{"no size", "quote,supplier,medium,pack,price,size\nf,Yard,fluff,100 L,50,\nr,Quay,rock,100 L,10,8-16 mm\n", "",
			`with "f" the beds can be filled, but its grain size is not stated: ask the yard for its sieves and write them under size. Failing that`, RuleLimit},
		{"too few", "quote,supplier,medium,pack,price,size,max_qty\nf,Yard,fluff,100 L,50,8-16 mm,2\nr,Quay,rock,100 L,10,8-16 mm,\n", "",
			`with "f" the beds can be filled, but there are only 2 × 100 L bag of it: ask whether there will be more. Failing that`, RuleLimit},
		// 500 L of one of two quotes that ended, 250 kg, and 500 L of rock, 1000 kg, are too heavy still.
		{"two together", "quote,supplier,medium,pack,price,size,valid_until,max_qty\nf,Yard,fluff,100 L,50,8-16 mm,2026-04-01,5\ng,Mill,fluff,100 L,50,8-16 mm,2026-04-01,5\nr,Quay,rock,100 L,10,8-16 mm,,\n", `date = "2026-05-01"`,
			`with "f" and "g" together the beds can be filled, but of each its price ended on 2026-04-01`, RuleLimit},
		{"nothing to mend", "quote,supplier,medium,pack,price,size\nr,Quay,rock,100 L,10,8-16 mm\n", "", "the lightest mix is 3087 lb over the limit", RuleLimit},
		{"too few of all there is", "quote,supplier,medium,pack,price,size,max_qty\nf,Yard,fluff,100 L,50,8-16 mm,2\n", "", "28.3 ft³ more must be for sale of fluff", RuleStock},
		{"the nearest lacks a test", "quote,supplier,medium,pack,price,size\nl,Yard,limy,100 L,50,8-16 mm\n", "",
			`no quote suits it; the nearest is "l", but limy may carry lime and this sample is untested; want an acid drop on several stones that shows none. Put an acid drop on several stones`, "carbonate"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := jobtest.Files{Quotes: c.quotes, Beds: beds, Media: jobtest.PlainMedia + "limy,0.5 kg/L,0,0,smooth,suspect,no,0%,0%,0\n", Settings: c.settings}.Job(t)
			p := solved(t, job, Options{})
			require.Equal(t, Infeasible, p.Status)
			require.NotEmpty(t, p.Why)
			assert.Equal(t, c.rule, p.Why[0].Rule)
			require.GreaterOrEqual(t, len(p.Why[0].Remedy), len(c.first), p.Why[0].Remedy)
			assert.Equal(t, c.first, p.Why[0].Remedy[:len(c.first)])
		})
	}
}

// TestMendedKeepsTheReason looks for quotes to mend in half of the time that is left, so that the reason is told in any case.
func TestMendedKeepsTheReason(t *testing.T) {
	job := jobtest.Files{Quotes: "quote,supplier,medium,pack,price,size,max_qty\nf,Yard,fluff,100 L,50,8-16 mm,2\nr,Quay,rock,100 L,10,8-16 mm,\n",
		Beds: "bed,volume,limit,min_size\none,1000 L,600 kg,8 mm\n", Media: jobtest.PlainMedia}.Job(t)
	ctx, cancel := context.WithTimeout(t.Context(), time.Hour)
	defer cancel()
	p, err := Solve(ctx, job, Options{})
	require.NoError(t, err)
	require.NoError(t, ctx.Err())
	require.NotEmpty(t, p.Why)
	past, stop := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
	defer stop()
	_, err = mended(past, job, p.Fit, p.Why, Options{})
	require.ErrorIs(t, err, context.DeadlineExceeded, "a time that is over is told, and not taken for nothing to mend")
}
