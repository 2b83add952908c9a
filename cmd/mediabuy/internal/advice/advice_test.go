package advice

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes/files/jobtest"
)

// planOf solves a small job given as its files.
func planOf(t *testing.T, quotesCSV, bedsCSV, deliveryCSV string) *optimise.Plan {
	job := jobtest.Files{Quotes: quotesCSV, Beds: bedsCSV, Delivery: deliveryCSV}.Job(t)
	plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, plan.Status)
	return plan
}

func TestMore(t *testing.T) {
	for _, c := range []struct {
		name, quote, delivery string
		want                  []string
	}{
		// 400 placed litres ÷ 46.55 a bag = 8.6, so 9. 9 × 29 = 261 and 10 × 26 = 260.
		{"ten for nine", "a,Yard,expanded clay,50 L,29,10: 26,", "", []string{
			"a: buying 10 costs $260.00, less than 9 would",
			"a: 9 would hold enough; buying 10 makes the whole order $1.00 cheaper",
		}},
		// 40 × 20 = 800 is below 28 × 29 = 812, but 9 × 29 = 261 is what it takes.
		{"enough is cheapest", "a,Yard,expanded clay,50 L,29,40: 20,", "", nil},
		{"the smallest order", "a,Yard,expanded clay,50 L,20,,", "supplier,min_order\nYard,240\n", []string{
			`a: 9 would hold enough, 12 are bought: Yard: goods of 180.00, the smallest order by "delivered" is 240.00`,
		}},
		{"sold from twelve on", "a,Yard,expanded clay,50 L,20,,12", "", []string{"a: 9 would hold enough, and no fewer than 12 are sold"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := planOf(t, "quote,supplier,medium,pack,price,breaks,min_qty\n"+c.quote+"\n", "bed,volume\nb,400 L\n", c.delivery)
			assert.Equal(t, c.want, More(p))
		})
	}
}

// Breaks count the packs of all sites: 5 here and 5 there reach the break at 10.
func TestMoreOverSites(t *testing.T) {
	p := planOf(t, "quote,supplier,medium,pack,price,breaks\na,Yard,expanded clay,50 L,29,10: 26\n", "bed,volume,site\nb,230 L,north\nc,230 L,south\n", "")
	assert.Equal(t, []string{"a: buying 10 costs $260.00, less than 9 would"}, More(p))
}
