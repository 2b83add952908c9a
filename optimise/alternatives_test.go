package optimise

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/jobtest"
	"mediabuy/quotes"
)

// An unproven purchase of dear bags, 200 L at 12.00 for 50 L, makes way for all bulk at
// 30.00, which is a plan of the whole job then; a proven one does not, and a dearer way
// is not taken.
func TestBestOf(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,form,pack,price,size\nbag,Aldermoor,grit,bag,50 L,12.00,8-16 mm\nloose,Brackwell,grit,bulk,100 L,15.00,8-16 mm\nsack,Colne,grit,sack,200 L,70.00,8-16 mm\n",
		Beds:   "bed,volume\none,200 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	ctx := context.Background()
	only := func(names ...string) *Plan {
		p := solved(t, Restrict(job, func(q *quotes.Quote) bool {
			for _, n := range names {
				if q.Name == n {
					return true
				}
			}
			return false
		}), Options{})
		return p
	}
	cheapest, err := Solve(ctx, job, Options{})
	require.NoError(t, err)
	bags := *only("bag")
	bags.Job, bags.Fit, bags.Status, bags.Bound = cheapest.Job, cheapest.Fit, TimeLimit, 20
	require.Equal(t, "48.00", bags.Bill.Total.Text(2))
	others := []Alternative{{Name: "sacks", Plan: only("sack")}, {Name: AllBulk, Plan: only("loose")}, {Name: "none", Plan: &Plan{Status: Infeasible}}}

	best, err := BestOf(&bags, others)
	require.NoError(t, err)
	require.Equal(t, "30.00", best.Bill.Total.Text(2))
	require.Equal(t, TimeLimit, best.Status)
	require.Equal(t, "20.00", best.LowerBound().Text(2), "the bound stays the job's")
	require.Same(t, job, best.Job)
	require.NoError(t, Verify(best))

	best, err = BestOf(&bags, others[:1])
	require.NoError(t, err)
	require.Same(t, &bags, best, "sacks are dearer")
	bags.Status = Optimal
	best, err = BestOf(&bags, others)
	require.NoError(t, err)
	require.Same(t, &bags, best, "what is proven stands")
}
