package breakeven

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
)

// Where the one search fails, nothing is taken for proven. Bags are in the plan: 9 of
// them, worth 90 ÷ 1.1 before tax, come free for 90; 2 heaps cost 2·30 + 60 = 120. The
// search is made to fail by prices that carry tax, whose worth before tax moves with
// what is paid, so that its two models differ in rows.
func TestAFailedSearchProvesNothing(t *testing.T) {
	job := fromFiles(t, fmt.Sprintf(twoQuotes, ""), oneBed, "supplier,name,order_fee,free_over\nBrackwell,truck,60,\nAldermoor,van,20,80\n", "tax = 10\ntax_included = true\n")
	ctx := context.Background()
	plan, err := Today(ctx, job, optimise.Options{})
	require.NoError(t, err)
	target := named("bag")(job)
	w := newWorld(job)
	w.plain = job
	s := &sweep{w: w, t: target, hinged: true, grain: grainOf(w, target), most: 200}
	require.NoError(t, s.seed(plan))
	_, _, err = s.lastBelow(ctx, 16, 16, 120)
	require.ErrorIs(t, err, errOnEdge)
	done, err := s.leave(ctx, target.Now.Float(), target.Most.Float())
	require.NoError(t, err)
	require.False(t, done)
	require.Nil(t, s.left)
	for _, f := range s.facts {
		require.Contains(t, []float64{target.Now.Float(), target.Most.Float()}, f.x, "noted without a solve")
	}
}
