package breakeven

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Clay is smooth at 0.20 a litre, lava rough at 0.10, granite rough at 0.04 and
// heavy. The bed takes 100 L of top and 300 L of base.
const threeStones = `quote,supplier,medium,form,pack,price,size,carbonate
clay,Aldermoor,expanded clay,bag,50 L,10.00,8-16 mm,none
lava,Brackwell,lava rock,bag,50 L,5.00,8-16 mm,none
granite,Colne End,crushed granite,bag,50 L,2.00,4-16 mm,none
`

const stoneMedia = "medium,rinse_loss,settle,rinse_minutes\nexpanded clay,0,0,0\nlava rock,0,0,0\ncrushed granite,0,0,0\n"

func stoneJob(t *testing.T, beds string) (*quotes.Job, *optimise.Plan) {
	job := withMedia(t, threeStones, beds, "", "", stoneMedia)
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, plan.Status)
	return job, plan
}

func told(o Other) [2]string { return [2]string{o.Name, o.Difference.Text(2)} }

// The smallest grain of 8 mm bars granite. 100 L of clay in the top and 300 L of
// lava below cost 20 + 30 = 50.
//
//	without Aldermoor   no smooth stone: nothing fills the top
//	without Brackwell   all clay: 400 L, 80
//	any top             all lava: 400 L, 40
//	no smallest grain   clay above granite: 20 + 12 = 32
func TestWhatRulesAndSuppliersCost(t *testing.T) {
	job, plan := stoneJob(t, "bed,volume,top_volume,min_size\none,400 L,100 L,8 mm\n")
	require.Equal(t, "50.00", plan.Bill.Total.Text(2))
	w, err := LookElsewhere(context.Background(), job, plan, nil, Options{})
	require.NoError(t, err)
	require.Len(t, w.LeaveOut, 2)
	assert.True(t, w.LeaveOut[0].Infeasible)
	assert.Equal(t, [2]string{"without Brackwell", "30.00"}, told(w.LeaveOut[1]))
	require.Len(t, w.Rules, 2)
	assert.Equal(t, [2]string{"any medium in the top layer", "-10.00"}, told(w.Rules[0]))
	assert.Equal(t, [2]string{"no smallest grain", "-18.00"}, told(w.Rules[1]))
	assert.Empty(t, w.Limits)
	require.NotNil(t, w.NextBest)
	assert.Equal(t, "without Brackwell", w.NextBest.Name)
	assert.False(t, w.Exact, "Colne End might be added")
	d := NewDocument(&Answer{Job: job, Total: plan.Bill.Total, WhatIf: w}).WhatIf
	assert.Nil(t, d.LeaveOut[0].Total)
	assert.Equal(t, "80.00", deref(d.NextBest.Total))
}

// A supplier that is not in the plan is looked for by lowering its prices until it
// is bought. A fee of 15 keeps Brackwell out: 20 + 12 = 32 of clay and granite.
// At a factor f its heap of lava for the base costs 30f + 15 = 12 only below 0, so
// it never enters; without the fee it does at 12/30.
func TestNextBestWithASupplierAdded(t *testing.T) {
	job, plan := stoneJob(t, "bed,volume,top_volume\none,400 L,100 L\n")
	require.Equal(t, "32.00", plan.Bill.Total.Text(2))
	added, err := ByPrice(context.Background(), job, plan, []Target{OfSupplier("Brackwell")}, Options{})
	require.NoError(t, err)
	require.NotNil(t, added[0].Enters)
	assert.Equal(t, "0.4", added[0].Enters.String())
	w, err := LookElsewhere(context.Background(), job, plan, added, Options{})
	require.NoError(t, err)
	// Clay and lava, 50, differ from clay and granite by 18; all clay by 48.
	require.NotNil(t, w.NextBest)
	assert.Equal(t, "18.00", w.NextBest.Difference.Text(2))
}

// One litre of flooded granite weighs more than one of clay. A limit that bars some
// granite makes 10 kg worth what it lets be swapped; a limit that bars none is worth
// nothing.
func TestMoreLimit(t *testing.T) {
	job, plan := stoneJob(t, "bed,volume,limit\nlight,200 L,300 kg\nfree,200 L,2000 kg\n")
	w, err := LookElsewhere(context.Background(), job, plan, nil, Options{})
	require.NoError(t, err)
	require.Len(t, w.Limits, 3)
	assert.Equal(t, "10 kg more on every limit", w.Limits[0].Name)
	assert.Negative(t, w.Limits[0].Difference.Sign())
	assert.Equal(t, [2]string{"10 kg more on bed free", "0.00"}, told(w.Limits[1]))
	assert.Equal(t, w.Limits[0].Difference, w.Limits[2].Difference)
	// Raised by itself and solved again, the bed gives the same saving.
	again := withBeds(job, func(b *quotes.Bed) {
		if b.Name == "light" {
			v := *b.Limit + MoreLimit
			b.Limit = &v
		}
	})
	p, err := optimise.Solve(context.Background(), again, optimise.Options{})
	require.NoError(t, err)
	assert.Equal(t, p.Bill.Total.Sub(plan.Bill.Total).Text(2), w.Limits[2].Difference.Text(2))
}

// Bags of 50 L at 10 or heaps of 200 L at 25 with a truck for 20 fill s × 400 L. A
// tenth is 40 L: one bag. The job itself: 2 heaps, 70. Below 350 L, 0.875 of the
// job, bags cost no more than heaps.
func TestWholeJobBySize(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,size
bag,Aldermoor,expanded clay,bag,50 L,10.00,8-16 mm
heap,Brackwell,expanded clay,bulk,200 L,25.00,8-16 mm
`, oneBed, "supplier,order_fee\nBrackwell,20\n", "")
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	z, err := BySize(context.Background(), job, plan, Options{})
	require.NoError(t, err)
	require.Len(t, z.Sizes, len(Factors))
	assert.Equal(t, "10.00", z.Sizes[0].Total.Text(2))
	assert.InDelta(t, 0, z.Sizes[0].Bulk, 1e-9)
	assert.Equal(t, "70.00", z.Sizes[4].Total.Text(2))
	assert.InDelta(t, 1, z.Sizes[4].Bulk, 1e-9)
	require.NotEmpty(t, z.Changes)
	for _, c := range z.Changes {
		assert.LessOrEqual(t, c.To-c.From, sizeStep)
	}
	d := NewDocument(&Answer{Job: job, Sizes: z}).BySize
	assert.Len(t, d.Sizes, len(Factors))
	assert.Len(t, d.Changes, len(z.Changes))
}

func TestScaledBedsHoldAndCarryInProportion(t *testing.T) {
	job := fromFiles(t, "supplier,medium,pack,price,size\nAldermoor,expanded clay,50 L,1,8-16 mm\n",
		"bed,length,width,depth,top,displaced,table,limit,own_weight\na,2 m,1 m,30 cm,10 cm,20 L,T,1500 kg,40 kg\n", "", "")
	half := Scaled(job, 0.5)
	for _, l := range quotes.Layers {
		assert.InDelta(t, float64(job.Beds[0].LayerLitres(l))/2, float64(half.Beds[0].LayerLitres(l)), 1e-9)
	}
	assert.Equal(t, units.Kilograms(750), *half.Beds[0].Limit)
	assert.Equal(t, units.Kilograms(20), half.Beds[0].OwnWeight)
	assert.Equal(t, units.Kilograms(1500), *job.Beds[0].Limit, "the job itself stays")
}

// 400 L are 8 bags at 10; 200 L more are 4 more. The beds share a table of 900 kg:
// the new one carries its third.
func TestOneMoreBed(t *testing.T) {
	job := fromFiles(t, "quote,supplier,medium,pack,price,size\nbag,Aldermoor,expanded clay,50 L,10.00,8-16 mm\n",
		"bed,volume,table,limit\nbig,400 L,T,900 kg\nsmall,200 L,T,900 kg\n", "", "")
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	o, err := OneMore(context.Background(), job, plan, "SMALL", Options{})
	require.NoError(t, err)
	assert.Equal(t, [2]string{"one more bed like small", "40.00"}, told(*o))
	assert.Len(t, job.Beds, 2, "the job itself stays")
	_, err = OneMore(context.Background(), job, plan, "smal", Options{})
	var unknown *UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, "small", unknown.Nearest)
	_, err = OneMore(context.Background(), job, &optimise.Plan{Status: optimise.Infeasible}, "small", Options{})
	require.ErrorIs(t, err, ErrInfeasible)
}
