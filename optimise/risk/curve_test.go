package risk

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/jobtest"
	"mediabuy/optimise/internal/randjob"
)

// Bags of 10 L at 2.00 that hold 95-100-105 %: n bags fill 970 L where each holds
// 970/n L or more, so 97 bags in 50 of 100 cases, 98 (9.898) in 1−½·(0.0398/0.05)²
// = 68.3 of 100 and so on up to 103 (9.417 < 9.5), which is always enough.
func TestCurveByHand(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,10 L,2.00,95-100-105%\n", Beds: "bed,volume\none,970 L\n", Media: exactMedia,
	}.Job(t)
	r, err := Plan(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	c, err := NewCurve(context.Background(), job, r.Plan, optimise.Options{})
	require.NoError(t, err)
	assert.False(t, c.Cut)
	law := Triangular{0.95, 1, 1.05}
	for _, p := range c.Points {
		bags := p.Plan.Bill.Lines[0].Packs.Float()
		assert.InDelta(t, 1-law.Below(97/bags), p.Sure, 0.02, "%v bags", bags)
	}
	assert.Equal(t, 0, c.Chosen())
	assert.Equal(t, "194", c.Points[0].Total().String())
	last := c.Points[len(c.Points)-1]
	assert.InDelta(t, 1, last.Sure, 1e-3)
	assert.Contains(t, []string{"204", "206"}, last.Total().String())
	p, ok := c.AtLeast(0.9)
	require.True(t, ok)
	assert.Equal(t, "200", p.Total().String(), "as Reach finds it")
}

// Along the curve both sureness and cost rise, from the cheapest plan on.
func TestAlongTheCurveBothRise(t *testing.T) {
	for seed := range uint64(8) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			job := randjob.Job(seed, randjob.Simple(3, 6, 4))
			plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
			require.NoError(t, err)
			if plan.Bill == nil {
				return
			}
			c, err := NewCurve(context.Background(), job, plan, optimise.Options{})
			require.NoError(t, err)
			require.NotEmpty(t, c.Points)
			for i := 1; i < len(c.Points); i++ {
				assert.Greater(t, c.Points[i].Sure, c.Points[i-1].Sure)
				assert.GreaterOrEqual(t, c.Points[i].Total().Cmp(c.Points[i-1].Total()), 0)
			}
			assert.Equal(t, 0, c.Chosen(), "nothing is cheaper than the cheapest")
		})
	}
}
