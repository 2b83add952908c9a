package risk

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
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
	c, err := NewCurve(context.Background(), job, r.Plan, nil, optimise.Options{})
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

// The same bags, and a van at 15.00 an order. Finishing costs the van and a bag for each
// 10 L that are short, so n bags cost 2n + 15 at first and 15·P(short) +
// 2·Σ_{k≥0} P(short by more than 10k) is to be expected besides, short being 970 −
// 10·n·f with f of the triangular law. In all, 97 bags cost 203.7 and the van, 98 201.4,
// 99 201.0, 100 201.4, 101 202.4: the hundredth bag costs 2.00 and saves 1.60, so 99 are
// worth their money.
func TestWorthItsMoney(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,10 L,2.00,95-100-105%\n", Beds: "bed,volume\none,970 L\n", Media: exactMedia,
		Delivery: "supplier,order_fee\nYard,15\n",
	}.Job(t)
	r, err := Plan(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	c, err := NewCurve(context.Background(), job, r.Plan, nil, optimise.Options{})
	require.NoError(t, err)
	law := Triangular{0.95, 1, 1.05}
	best, least := 0.0, 1e9
	for _, p := range c.Points {
		n := p.Plan.Bill.Lines[0].Packs.Float()
		want := 15 * law.Below(97/n)
		for k := 0.0; k < 10; k++ {
			want += 2 * law.Below((97-k)/n)
		}
		require.NotNil(t, p.TopUp)
		assert.InDelta(t, want, p.TopUp.Float(), 0.3, "%v bags", n)
		if in := p.Total().Float() + want; in < least {
			best, least = n, in
		}
	}
	assert.Equal(t, 99.0, best, "by the closed form")
	require.GreaterOrEqual(t, c.Worth(), 0)
	assert.Equal(t, "99", c.Points[c.Worth()].Plan.Bill.Lines[0].Packs.String())
	doc := c.Document(2)
	for i, d := range doc {
		assert.Equal(t, i == c.Worth(), d.Worth)
		assert.NotNil(t, d.ExpectedTopUp)
	}
}

// A report that is there already is taken for the chosen plan, of a purchase that is
// surer than the cheapest too: it says what the curve finds by itself, and where it says
// otherwise it is believed, so that nothing is worked out twice.
func TestCurveTakesTheReport(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,fill\nbag,Yard,grit,10 L,2.00,95-100-105%\n", Beds: "bed,volume\none,970 L\n", Media: exactMedia,
	}.Job(t)
	job.Settings.Sure = 0.8
	r, err := Plan(t.Context(), job, optimise.Options{})
	require.NoError(t, err)
	report, err := Assessed(t.Context(), r, time.Minute)
	require.NoError(t, err)
	require.NotNil(t, report)
	alone, err := NewCurve(t.Context(), job, r.Plan, nil, optimise.Options{})
	require.NoError(t, err)
	want := alone.Document(2)
	chosen := alone.Chosen()
	require.Positive(t, chosen, "the cheapest is not as sure")
	require.NotNil(t, want[chosen].ExpectedTopUp)
	assert.Equal(t, report.ExpectedTopUp.Text(2), *want[chosen].ExpectedTopUp)

	other := *report
	other.ExpectedTopUp = units.MoneyOf(units.DecimalFromInt(70))
	told, err := NewCurve(t.Context(), job, r.Plan, &other, optimise.Options{})
	require.NoError(t, err)
	seventy := "70.00"
	want[chosen].ExpectedTopUp = &seventy
	assert.Equal(t, want, told.Document(2))
}

// Where finishing was not known of every point in time, no spare is called worth it.
func TestWorthIsNotGuessed(t *testing.T) {
	known := units.MoneyOf(units.DecimalFromInt(3))
	at := func(topUp *units.Money) Point {
		return Point{Plan: &optimise.Plan{Bill: &bill.Bill{Total: units.MoneyOf(units.DecimalFromInt(10))}}, TopUp: topUp}
	}
	assert.Equal(t, -1, (&Curve{Cut: true, Points: []Point{at(&known), at(nil)}}).Worth())
	assert.Equal(t, 0, (&Curve{Points: []Point{at(&known), at(nil)}}).Worth(), "nothing finishes the other: it is out")
	assert.Equal(t, -1, (&Curve{}).Worth())
}

// Along the curve both sureness and cost rise, from the cheapest plan on.
func TestAlongTheCurveBothRise(t *testing.T) {
	jobtest.Long(t)
	for seed := range uint64(8) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			job := randjob.Job(seed, randjob.Simple(3, 6, 4))
			plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
			require.NoError(t, err)
			if plan.Bill == nil {
				return
			}
			c, err := NewCurve(context.Background(), job, plan, nil, optimise.Options{})
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

// Of 10,000 draws no finer number is known than a whole one of 100, and only every case
// is called 100.
func TestCasesAreWholeAndRoundedDown(t *testing.T) {
	for share, want := range map[float64]string{0: "0", 0.289: "28", 0.29: "29", 0.8996: "89", 0.9: "90", 0.9986: "99", 0.9999: "99", 1: "100"} {
		assert.Equal(t, want, Cases(share))
	}
	money := func(m units.Money) string { return m.Text(2) }
	assert.Contains(t, (&Report{Sure: 1}).Words(money, nil), "In 100 of 100 cases every bed is full")
	assert.Contains(t, (&Report{Sure: 0.9986}).Words(money, nil), "In 99 of 100 cases every bed is full")
}
