package propose

import (
	"context"
	"testing"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes/files/jobtest"

	"github.com/stretchr/testify/require"
)

// proposing is a proposer for two sites of one bed of 100 L each, with bags of
// 50 L of which three are to be had, and dearer sacks.
func proposing(t *testing.T) *Proposer {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,max_qty,size\nbag,Aldermoor,grit,50 L,10.00,3,8-16 mm\nsack,Brackwell,grit,50 L,14.00,,8-16 mm\n",
		Beds:   "bed,volume,site\none,100 L,north\ntwo,100 L,south\n",
		Media:  jobtest.PlainMedia,
	}.Job(t)
	pr, err := New(context.Background(), model.Build(model.NewInstance(job, suitability.New(job), false), model.Options{Strong: true}))
	require.NoError(t, err)
	t.Cleanup(pr.Close)
	return pr
}

// counts are the steps by quote name and site.
func (pr *Proposer) counts(n []int) map[string]int {
	out := map[string]int{}
	for i, k := range n {
		if k > 0 {
			out[pr.p.In.Job.Quotes[pr.Items[i].Quote].Name+" "+pr.p.In.Sites[pr.Items[i].Site]] = k
		}
	}
	return out
}

// 1.4 and 1.2 bags rounded up are 4, one more than there are; rounding added 0.6
// to the first and 0.8 to the second, which gives one up.
func TestWithinStock(t *testing.T) {
	pr := proposing(t)
	n, x := make([]int, len(pr.Items)), make([]float64, len(pr.p.Cols))
	for i, it := range pr.Items {
		if pr.p.In.Job.Quotes[it.Quote].Name == "bag" {
			n[i], x[it.col] = 2, map[string]float64{"north": 1.4, "south": 1.2}[pr.p.In.Sites[it.Site]]
		}
	}
	pr.withinStock(n, x)
	require.Equal(t, map[string]int{"bag north": 2, "bag south": 1}, pr.counts(n))

	// What the south then lacks is mended with a sack, since the bags are sold out.
	require.True(t, pr.mend(n, func(int) bool { return true }))
	require.NoError(t, pr.err)
	require.Equal(t, map[string]int{"bag north": 2, "bag south": 1, "sack south": 1}, pr.counts(n))
}
