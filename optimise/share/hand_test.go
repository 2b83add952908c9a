package share

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/units"
)

// Three plots of 100, 200 and 300 L. A group of L litres pays L + 30.
//
//	alone: 130, 230, 330; all: 600 + 30 = 630
//	litres: 630 × 1/6, 2/6, 3/6 = 105, 210, 315
//	use: 100, 200, 300 and the van by litres: 5, 10, 15: the same
//	savings: 630 × 130/690 = 118.70, 230/690: 210.00, 330/690: 301.30
//	Shapley, nucleolus: the van in thirds: 110, 210, 310
//
// Any two share a van: 100 + 200 + 30 = 330 for the first two.
func TestOneVan(t *testing.T) {
	job := read(t, litreQuotes, "bed,volume,member\nb1,100 L,ash\nb2,200 L,birch\nb3,300 L,cedar\n", vanDelivery, "")
	res := solve(t, job, Options{})
	assert.Equal(t, "630.00", res.Total.Text(2))
	assert.True(t, res.Exact)
	assert.True(t, res.Proven)
	for rule, want := range map[Rule][]string{
		ByLitres:  {"105.00", "210.00", "315.00"},
		ByUse:     {"105.00", "210.00", "315.00"},
		BySavings: {"118.70", "210.00", "301.30"},
		Shapley:   {"110.00", "210.00", "310.00"},
		Nucleolus: {"110.00", "210.00", "310.00"},
	} {
		sp := by(t, res, rule)
		assert.Equal(t, want, pays(sp), "%s", rule)
		assert.True(t, sp.Stable, "%s", rule)
		assert.Empty(t, sp.Objections)
		assert.NotEmpty(t, sp.Reason)
	}
	assert.Equal(t, Nucleolus, res.Chosen.Rule, "the default")
	m := res.Members[0]
	assert.Equal(t, "ash", m.Name)
	assert.InDelta(t, 100, float64(m.Litres), 1e-9)
	assert.Equal(t, "130.00", m.Alone.Text(2))
	assert.Equal(t, "20.00", m.Saves.Text(2))
	// Without ash the others pay 530; now they pay 210 + 310 = 520.
	assert.Equal(t, "10.00", m.Leaving.Text(2))
	require.Len(t, res.Groups, 6)
	assert.Equal(t, []string{"ash", "birch"}, res.Groups[3].Members)
	assert.Equal(t, "330.00", res.Groups[3].Cost.Text(2))
	assert.Equal(t, "320.00", res.Groups[3].Pays.Text(2))
	assert.Nil(t, res.Apart)
	assert.Empty(t, res.Hosts, "one site only")
}

// The far yard brings goods only to plots that stand near it, for 5 instead of
// 60: near pays 100 + 5 alone. All: 300 + 5 + 60 = 365. By litres near pays
// 365/3 = 121.67, which is 16.67 more than alone.
func TestObjection(t *testing.T) {
	job := read(t, litreQuotes, "bed,volume,site,member\nb1,100 L,Near End,near\nb2,200 L,Far End,far\n",
		"supplier,site,order_fee\nTor Yard,Near End,5\nTor Yard,Far End,60\n", "")
	res := solve(t, job, Options{Rule: ByLitres})
	assert.Equal(t, []string{"243.33", "121.67"}, pays(res.Chosen))
	assert.False(t, res.Chosen.Stable)
	require.Len(t, res.Chosen.Objections, 1)
	o := res.Chosen.Objections[0]
	assert.Equal(t, []string{"near"}, o.Members)
	assert.Equal(t, "near would pay $16.67 less by itself", o.Sentence("USD"))
	assert.Contains(t, res.Chosen.Reason, "but near would pay $16.67 less by itself; the nucleolus would leave nobody better off alone.")
	assert.InDelta(t, 16.0+2.0/3, res.Chosen.Excess, 1e-6)
	assert.Equal(t, "-16.67", res.Members[1].Saves.Text(2), "near pays more than alone")
	assert.True(t, by(t, res, Nucleolus).Stable)

	// All to Near End: 300 + 5 = 305, 60 less. All to Far End: 360, 5 less.
	require.Len(t, res.Hosts, 2)
	assert.Equal(t, "Near End", res.Hosts[0].Site)
	assert.Equal(t, []string{"near"}, res.Hosts[0].Members)
	assert.Equal(t, "305.00", res.Hosts[0].Total.Text(2))
	assert.Equal(t, "60.00", res.Hosts[0].Saves.Text(2))
	assert.Equal(t, "5.00", res.Hosts[1].Saves.Text(2))
}

// By use each pays for its own goods and its own drop, whatever the others buy:
// 100 + 5 near, 200 + 60 far. Tax of 10 % goes with them; a rough lava that only
// far may take and rinsing by the litre too.
func TestByUse(t *testing.T) {
	quotesCSV := "quote,supplier,medium,form,pack,price,size,carbonate,rinse_loss\n" +
		"clay,Tor Yard,expanded clay,bag,1 L,1.00,8-16 mm,none,0%\n" +
		"gravel,Tor Yard,river gravel,bag,1 L,0.50,8-16 mm,none,0%\n"
	job := read(t, quotesCSV, "bed,volume,only,site,member\nb1,100 L,expanded clay,Near End,near\nb2,200 L,river gravel,Far End,far: 3; near: 1\n",
		"supplier,site,handling,order_fee\nTor Yard,Near End,15,5\nTor Yard,Far End,15,60\n", "tax = \"10%\"\n")
	// Goods 100 + 100; drops 5 + 60; handling 15 by litres: 100 + 50 near, 150 far.
	// near: (100 + 25 + 5 + 15 + 7.50) × 1.1 = 167.75
	// far: (75 + 45 + 7.50) × 1.1 = 140.25
	res := solve(t, job, Options{})
	assert.Equal(t, "308.00", res.Total.Text(2))
	assert.Equal(t, []string{"140.25", "167.75"}, pays(by(t, res, ByUse)))
	near := res.Members[1]
	require.Len(t, near.Used, 2)
	assert.Equal(t, "clay", near.Used[0].Quote.Name)
	assert.InDelta(t, 50, near.Used[1].Litres, 1e-6)
	require.Len(t, near.Beds, 2)
	assert.InDelta(t, 0.25, near.Beds[1].Share, 1e-12)
}

// Odd cents: 100.00 in three equal parts is 33.34, 33.33, 33.33.
func TestOddCents(t *testing.T) {
	job := read(t, litreQuotes, "bed,volume,member\nb1,20 L,ash\nb2,20 L,birch\nb3,20 L,cedar\n", "supplier,order_fee\nTor Yard,40\n", "")
	res := solve(t, job, Options{})
	for _, sp := range res.Splits {
		assert.Equal(t, []string{"33.34", "33.33", "33.33"}, pays(sp), "%s", sp.Rule)
	}
}

// A bed of 90 L shared 2 : 1, on a frame of its own: alone, oak owns 60 L of it.
func TestSharedBedAlone(t *testing.T) {
	job := read(t, litreQuotes, "bed,volume,limit,own_weight,member\nb1,90 L,300 kg,9 kg,oak: 2; pine: 1\nb2,30 L,,,pine\n", vanDelivery, "extra = 50\n")
	c, err := newClub(job)
	require.NoError(t, err)
	assert.Equal(t, []string{"oak", "pine"}, c.names)
	oak := c.groupJob(1)
	require.Len(t, oak.Beds, 1)
	assert.InDelta(t, 60, float64(oak.Beds[0].Volume), 1e-9)
	assert.InDelta(t, 200, float64(*oak.Beds[0].Limit), 1e-9)
	assert.InDelta(t, 6, float64(oak.Beds[0].OwnWeight), 1e-9)
	assert.Equal(t, units.Litres(90), job.Beds[0].Volume, "the job is as it was")
	assert.Same(t, job.Beds[0], c.groupJob(3).Beds[0], "both own the bed whole")
	res := solve(t, job, Options{})
	// 1.5 × 60 + 30 = 120; 1.5 × (30 + 30) + 30 = 120; together 1.5 × 120 + 30 = 210.
	assert.Equal(t, "120.00", res.Members[0].Alone.Text(2))
	assert.Equal(t, "120.00", res.Members[1].Alone.Text(2))
	assert.Equal(t, "210.00", res.Total.Text(2))
	assert.InDelta(t, 60, float64(res.Members[0].Litres), 1e-9, "spare is bought, not placed")
}

// Scaling goes by length: the depths, and so the layers and the water line, stay.
func TestSliceOfAMeasuredBed(t *testing.T) {
	job := read(t, litreQuotes, "bed,length,width,depth,top,displaced,member\nb1,3 m,1 m,0.3 m,0.1 m,6 L,oak: 2; pine: 1\n", "", "")
	c, err := newClub(job)
	require.NoError(t, err)
	slice := c.groupJob(2).Beds[0]
	for _, l := range []struct{ got, want float64 }{
		{float64(slice.LayerLitres("top")), 100},      // 300 / 3
		{float64(slice.LayerLitres("base")), 200 - 2}, // (600 − 6) / 3
		{slice.Below("top"), job.Beds[0].Below("top")},
	} {
		assert.InDelta(t, l.want, l.got, 1e-9)
	}
}

// A table for 700 kg, frames of 50 kg each, beds of 100 and 300 L: of 600 kg for
// media the small bed has a quarter, so its frame and media may weigh 200 kg.
func TestSharedTableAlone(t *testing.T) {
	job := read(t, litreQuotes, "bed,volume,table,limit,own_weight,member\nb1,100 L,T,700 kg,50 kg,oak\nb2,300 L,T,700 kg,50 kg,pine\n", "", "")
	c, err := newClub(job)
	require.NoError(t, err)
	assert.InDelta(t, 200, float64(*c.groupJob(1).Beds[0].Limit), 1e-9)
	assert.InDelta(t, 500, float64(*c.groupJob(2).Beds[0].Limit), 1e-9)
	assert.InDelta(t, 700, float64(*c.groupJob(3).Beds[0].Limit), 1e-9)
}

// heavy may take gravel only, and its quarter of the table is too little for it;
// pooled, light takes clay and the table holds. heavy cannot go alone: no
// objection, and the pair's bill stands in for its own.
func TestNoPlanAlone(t *testing.T) {
	quotesCSV := litreQuotes + "gravel,Tor Yard,river gravel,bag,1 L,0.50,8-16 mm,none,0%\n"
	job := read(t, quotesCSV, "bed,volume,only,water_line,table,limit,member\nb1,100 L,river gravel,none,T,300 kg,heavy\nb2,100 L,,none,T,300 kg,light\n", vanDelivery, "")
	res := solve(t, job, Options{})
	require.NotNil(t, res.Plan.Bill)
	heavy := res.Members[0]
	assert.Nil(t, heavy.Alone)
	assert.Nil(t, heavy.Saves)
	assert.Nil(t, res.Members[1].Leaving, "light leaving leaves heavy without a plan")
	require.NotNil(t, res.Members[1].Alone)
	assert.True(t, res.Chosen.Stable)
	assert.Nil(t, res.Groups[0].Cost)
	// savings: heavy is counted at the pair's bill, light at its own.
	total, light := res.Total.Float(), res.Members[1].Alone.Float()
	assert.InDelta(t, total*total/(total+light), by(t, res, BySavings).Pays[0].Float(), 0.0051)
}

func TestOneMember(t *testing.T) {
	res := solve(t, read(t, litreQuotes, "bed,volume,member\nb1,100 L,ash\n", vanDelivery, ""), Options{})
	assert.Equal(t, []string{"130.00"}, pays(res.Chosen))
	assert.True(t, res.Chosen.Stable)
	assert.Equal(t, "Every bed is paid for by ash, so ash pays the whole bill.", res.Chosen.Reason)
	assert.Nil(t, res.Members[0].Leaving)
	assert.Equal(t, "0.00", res.Members[0].Saves.Text(2))
}

func TestRefusedJobs(t *testing.T) {
	ctx := context.Background()
	_, err := Solve(ctx, read(t, litreQuotes, "bed,volume\nb1,100 L\n", "", ""), Options{})
	assert.ErrorAs(t, err, &NoMembersError{})

	job := read(t, litreQuotes, "bed,volume,member\nb1,100 L,ash\nb2,100 L,birch\n", "", "")
	job.Beds[1].Member = nil // the reader refuses it; a caller might not
	_, err = Solve(ctx, job, Options{})
	assert.ErrorContains(t, err, `bed "b2" has no member, while others have one`)

	_, err = Solve(ctx, job, Options{Rule: "lottery"})
	assert.ErrorContains(t, err, `rule "lottery" is not known`)
	_, err = Solve(ctx, job, Options{Pairs: 1})
	assert.ErrorContains(t, err, "Pairs 1")
}

// A bed nothing may fill: the result holds the plan, which says why.
func TestInfeasible(t *testing.T) {
	job := read(t, litreQuotes, "bed,volume,only,member\nb1,100 L,pumice,ash\nb2,100 L,,birch\n", "", "")
	res := solve(t, job, Options{})
	assert.Equal(t, optimise.Infeasible, res.Plan.Status)
	assert.Empty(t, res.Members)
	d := NewDocument(res, Nucleolus, nil)
	assert.Equal(t, optimise.Infeasible, d.Status)
	assert.False(t, d.Stable)
}

// The budget is for the pooled order: 230 is below the 130 + 130 of two orders
// and no group is refused for it.
func TestBudgetIsForThePooledOrder(t *testing.T) {
	bedsCSV := "bed,volume,member\nb1,100 L,ash\nb2,100 L,birch\n"
	res := solve(t, read(t, litreQuotes, bedsCSV, vanDelivery, "budget = 230\n"), Options{})
	assert.Equal(t, []string{"115.00", "115.00"}, pays(res.Chosen))
	res = solve(t, read(t, litreQuotes, bedsCSV, vanDelivery, "budget = 229\n"), Options{})
	assert.Equal(t, optimise.Infeasible, res.Plan.Status)
}
