package breakeven

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
)

// The bed takes 100 L, two bags. Brackwell brings for 60.00, for nothing from 50.00 on,
// so that at 0.02 a bag it is cheapest to buy 2,500 of them. Of that nobody would think:
// what places more than 1,000 L, 20 bags, is not told. At 2.50 the 20 bags make 50.00;
// just below, 21 are bought.
func TestNobodyBuysByTheThousandToMakeUpAnOrder(t *testing.T) {
	job := withMedia(t, `quote,supplier,medium,form,pack,price,size,carbonate
near,Aldermoor,lava rock,bag,50 L,50.00,8-16 mm,none
far,Brackwell,lava rock,bag,50 L,30.00,8-16 mm,none
`, "bed,volume\none,100 L\n", "supplier,order_fee,free_over\nAldermoor,0,\nBrackwell,60,50\n", "", stoneMedia)
	ctx := context.Background()
	plan, err := Today(ctx, job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, "60.00", plan.Bill.Total.Text(2))
	series, err := ByPrice(ctx, job, plan, []Target{OfQuote(job, job.Quotes[1])}, Options{Depth: Every})
	require.NoError(t, err)
	s := series[0]
	require.NotEmpty(t, s.Changes)
	for _, c := range s.Changes {
		assert.LessOrEqual(t, float64(placedBy(c.Below)), 1000.0, "below %s", c.At)
	}
	assert.Contains(t, s.Partial, "at 2.5000 and below, more than 10 times what the beds take")
	assert.Equal(t, "50", s.Told(s.Leaves, 2).String(), "2 bags at 50.00 and above cost what the other's do")
	assert.NotContains(t, series[0].Unproven, "left out")
}
