package propose

import (
	"context"
	"math"
	"testing"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"

	"github.com/stretchr/testify/require"
)

// proposer is one for a job.
func proposer(t *testing.T, job *quotes.Job) *Proposer {
	t.Helper()
	pr, err := New(context.Background(), model.Build(model.NewInstance(job, suitability.New(job), false), model.Options{Strong: true}))
	require.NoError(t, err)
	t.Cleanup(pr.Close)
	return pr
}

// What covers the beds is made an order that is sold: enough of what has a smallest
// number of packs, an order brought up to the smallest value or given up, no more
// suppliers, deliveries and quotes than are wanted.
func TestSell(t *testing.T) {
	const heading = "quote,supplier,medium,pack,price,min_qty,max_qty,size\n"
	for name, c := range map[string]struct {
		quotes, delivery, settings string
		from, want                 map[string]int
	}{
		"a smallest number of packs": { // 2 of 5: the other three are bought with them
			quotes: "a,Aldermoor,grit,50 L,10,5,,8-16 mm\n", from: map[string]int{"a": 2}, want: map[string]int{"a": 5},
		},
		"more than there is": { // 4 wanted, 3 there; what lacks is the other's
			quotes: "a,Aldermoor,grit,50 L,10,,3,8-16 mm\nb,Brackwell,grit,50 L,14,,,8-16 mm\n", from: map[string]int{"a": 4}, want: map[string]int{"a": 3, "b": 1},
		},
		"more than half of a smallest order": { // 30 of 50: two more at 10
			quotes: "a,Aldermoor,grit,50 L,10,,,8-16 mm\nb,Brackwell,grit,50 L,14,,,8-16 mm\n", delivery: "Aldermoor,50\nBrackwell,0\n",
			from: map[string]int{"a": 3, "b": 1}, want: map[string]int{"a": 5, "b": 1},
		},
		"little of a smallest order": { // 10 of 50: the other one fills in, three in place of one
			quotes: "a,Aldermoor,grit,50 L,10,,,8-16 mm\nb,Brackwell,grit,50 L,14,,,8-16 mm\n", delivery: "Aldermoor,50\nBrackwell,0\n",
			from: map[string]int{"a": 1, "b": 3}, want: map[string]int{"b": 4},
		},
		"little of a smallest order, and nobody else": { // 20 of 95: eight more at 10 are 100
			quotes: "a,Aldermoor,grit,100 L,10,,,8-16 mm\n", delivery: "Aldermoor,95\n", from: map[string]int{"a": 2}, want: map[string]int{"a": 10},
		},
		"too many suppliers": { // the one worth least goes, 14 for 20 + 14
			quotes: "a,Aldermoor,grit,50 L,10,,,8-16 mm\nb,Brackwell,grit,50 L,14,,,8-16 mm\n", settings: "max_suppliers = 1\n",
			from: map[string]int{"a": 3, "b": 1}, want: map[string]int{"a": 4},
		},
		"too many deliveries": {
			quotes: "a,Aldermoor,grit,50 L,10,,,8-16 mm\nb,Brackwell,grit,50 L,14,,,8-16 mm\n", settings: "max_deliveries = 1\n",
			from: map[string]int{"a": 1, "b": 3}, want: map[string]int{"b": 4},
		},
	} {
		t.Run(name, func(t *testing.T) {
			files := jobtest.Files{Quotes: heading + c.quotes, Beds: "bed,volume\none,200 L\n", Media: jobtest.PlainMedia, Settings: c.settings}
			if c.delivery != "" {
				files.Delivery = "supplier,min_order\n" + c.delivery
			}
			job := files.Job(t)
			pr := proposer(t, job)
			n := make([]int, len(pr.Items))
			for i, it := range pr.Items {
				n[i] = c.from[job.Quotes[it.Quote].Name]
			}
			require.True(t, math.IsInf(pr.Cost(n, nil), 1), "as it is, nobody sells it")
			require.True(t, pr.newDeal(n).sell())
			got := map[string]int{}
			for i, k := range n {
				if k > 0 {
					got[job.Quotes[pr.Items[i].Quote].Name] = k
				}
			}
			require.Equal(t, c.want, got)
		})
	}
}

// From nothing at all, a purchase that fills the beds of ten sites and is sold is
// found at once, whatever smallest orders stand in the way.
func TestFirst(t *testing.T) {
	for seed := range uint64(4) {
		pr := proposer(t, randjob.Job(seed, randjob.All(10, 8, 60, 300)))
		offered := false
		pr.fits = func(x []float64) bool { offered = true; return true }
		n := make([]int, len(pr.Items))
		require.True(t, pr.repair(n))
		pr.first(n)
		require.NoError(t, pr.err)
		require.True(t, offered, "seed %d", seed)
		require.False(t, math.IsInf(pr.Cost(n, nil), 1), "seed %d", seed)
	}
}
