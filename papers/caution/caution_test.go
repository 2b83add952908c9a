package caution

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// planOf solves a small job given as its files.
func planOf(t *testing.T, quotesCSV, bedsCSV, deliveryCSV string, media ...string) *optimise.Plan {
	job := jobtest.Files{Quotes: quotesCSV, Beds: bedsCSV, Delivery: deliveryCSV, Media: strings.Join(media, "")}.Job(t)
	plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, plan.Status)
	return plan
}

// about lists the cautions of one kind.
func about(p *optimise.Plan, kind string) []string {
	var out []string
	for _, c := range Of(p, units.Metric) {
		if c.About == kind {
			out = append(out, c.Words)
		}
	}
	return out
}

func TestFloating(t *testing.T) {
	const clay = "quote,supplier,medium,pack,price,carbonate\nballs,Yard,expanded clay,50 L,20,none\n"
	p := planOf(t, clay, "bed,length,width,depth,top\nb,1 m,1 m,300 mm,100 mm\n", "")
	got := about(p, "floats")
	require.Len(t, got, 1)
	// A grain: 0.35 ÷ (1 − 0.40) = 0.58 dry, 0.44 ÷ 0.60 = 0.73 soaked.
	assert.Contains(t, got[0], "a grain is 0.58 kg/L dry, 0.73 soaked")
	assert.Contains(t, got[0], "top of b: it floats even after a soak")
	assert.Contains(t, got[0], "base of b: nothing above weighs enough to hold it, so there too")
	assert.Equal(t, 1, strings.Count(got[0], "raise the water slowly"), "what helps is said once")

	// Under gravel it is held: 100 L × (1.61 − 0.65 × 0.998) = 96 kg above a lift
	// of 200 L × (0.60 × 0.998 − 0.35) = 50 kg.
	p = planOf(t, clay+"stones,Yard,river gravel,1 yd3,5,none\n", "bed,length,width,depth,top,top_media,max_share\nb,1 m,1 m,300 mm,100 mm,river gravel,river gravel: 0.34\n", "")
	got = about(p, "floats")
	require.Len(t, got, 1)
	assert.Contains(t, got[0], "base of b: the top weighs enough to hold it")
}

func TestHeldDown(t *testing.T) {
	media := files.BuiltinMedia()
	quote := func(name string) *quotes.Quote {
		m, ok := media.Lookup(name)
		require.True(t, ok)
		return &quotes.Quote{Name: name, Medium: m}
	}
	fill := func(top, base string, topLitres units.Litres) optimise.BedFill {
		return optimise.BedFill{Bed: &quotes.Bed{Name: "b"}, Layers: []optimise.LayerFill{
			{Layer: quotes.Top, Parts: []optimise.FillPart{{Quote: quote(top), Litres: topLitres}}},
			{Layer: quotes.Base, Parts: []optimise.FillPart{{Quote: quote(base), Litres: 200}}},
		}}
	}
	// Gravel weighs 1.61 − 0.65 × 0.998 = 0.9613 kg/L under water; dry clay lifts
	// 0.60 × 0.998 − 0.35 = 0.2488 kg/L: 200 L lift 49.8 kg, which 52 L of gravel hold.
	assert.True(t, heldDown(fill("river gravel", "expanded clay", 52)))
	assert.False(t, heldDown(fill("river gravel", "expanded clay", 51)))
	assert.False(t, heldDown(fill("expanded clay", "expanded clay", 100)))
	assert.True(t, heldDown(fill("river gravel", "lava rock", 1)), "lava sinks, so there is no lift")
}

// Limits that are whole kilograms have no tenths of a pound.
func TestLimitsOfLiftingAreWhole(t *testing.T) {
	for kg, lb := range map[units.Kilograms]string{IdealLift: "51 lb", closeLiftMen: "55 lb", closeLiftWomen: "35 lb"} {
		assert.Equal(t, lb, whole(kg, units.US))
	}
	assert.Equal(t, "23 kg", whole(IdealLift, units.Metric))
}

func TestWeightAndLifting(t *testing.T) {
	// 300 L of heavy clay flooded to the rim: dry 0.45, held 0.16, 0.40 × 0.998 of
	// water between: 300 × 1.0092 = 303 kg of 320 is 95 %. A bag: 80 × 0.4 = 32 kg.
	const balls, frame = "quote,supplier,medium,pack,price,density\nballs,Yard,expanded clay,80 L,20,0.4 kg/L\n", "bed,volume,table,limit\nb,300 L,frame,320 kg\n"
	p := planOf(t, balls, frame, "")
	assert.Equal(t, []string{"near the limit when flooded: table frame at 95 % (303 kg of 320 kg); a lot heavier still can use up the rest"}, about(p, "weight"))
	lifting := about(p, "lifting")
	require.Len(t, lifting, 1)
	assert.Contains(t, lifting[0], "balls about 32 kg (share it or use a trolley)")
	assert.Empty(t, about(p, "overload"))

	p = planOf(t, "quote,supplier,medium,pack,price\nrock,Yard,lava rock,800 kg,60\n", "bed,volume\nb,300 L\n", "")
	lifting = about(p, "lifting")
	require.Len(t, lifting, 1)
	assert.Contains(t, lifting[0], "rock about 800 kg (no hand lifts that: have it set down by a machine)")

	p = planOf(t, "quote,supplier,medium,pack,price\nballs,Yard,expanded clay,50 L,20\n", "bed,volume,limit\nb,300 L,350 kg\n", "")
	assert.Empty(t, about(p, "weight"), "86 % is not near")
	assert.Empty(t, about(p, "lifting"), "17.5 kg is not heavy")
}

// Held to usual weights, 300 × (0.4 + 0.09 + 0.3992) = 267 kg stand on a frame for
// 280, and heavy stone would come to 303.
func TestHeavyStone(t *testing.T) {
	p := planOf(t, "quote,supplier,medium,pack,price,density\nballs,Yard,expanded clay,80 L,20,0.4 kg/L\n", "bed,volume,table,limit\nb,300 L,frame,320 kg\n", "")
	job := *p.Job
	job.Settings.Weights = quotes.UsualWeights
	limit := units.Kilograms(280)
	job.Beds[0].Limit = &limit
	p, err := optimise.Solve(context.Background(), &job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, p.Status)
	over := about(p, "overload")
	require.Len(t, over, 1)
	assert.Contains(t, over[0], "table frame (303 kg of 280 kg)")
	told := Warnings(p, "quotes.csv")
	require.Len(t, told, 1, "a machine is told of the overload")
	assert.Equal(t, optimise.DocumentComplaint{File: "quotes.csv", Line: 1, Column: 1, Message: over[0]}, told[0])
}

func TestUnknownSizeAndSharpTop(t *testing.T) {
	p := planOf(t, "quote,supplier,medium,pack,price,size\nchips,Yard,crushed granite,50 L,20,\nballs,Yard,expanded clay,50 L,40,8-16 mm\n",
		"bed,volume,top_volume,top_media,max_size\na,300 L,100 L,crushed granite;expanded clay,20 mm\nb,100 L,0 L,,\n", "")
	assert.Equal(t, []string{"no size is stated of what goes where a bed asks for one: chips in bed a; ask the yard, and measure at the tailgate"}, about(p, "grain size"))
	assert.Equal(t, []string{"sharp stone lies on top of a: wear gloves when planting"}, about(p, "hands"))
}

func TestAcidDropsAndDust(t *testing.T) {
	p := planOf(t, "quote,supplier,medium,pack,price,carbonate\nstones,Yard,river gravel,1 yd3,30,none\n", "bed,volume\nb,300 L\n", "")
	lime := about(p, "lime")
	require.Len(t, lime, 1)
	for _, words := range []string{"each load of stones", "eye protection and gloves", "acid to water and never water to acid", "Dolomite fizzes late"} {
		assert.Contains(t, lime[0], words)
	}
	dust := about(p, "dust")
	require.Len(t, dust, 1)
	assert.NotContains(t, dust[0], "local")
	p.Job.Settings.Currency = "GBP"
	assert.Contains(t, about(p, "dust")[0], "At work local limits apply: ask for yours. For comparison, the limit for breathable crystalline silica in the United States is 50 micrograms")

	p = planOf(t, "quote,supplier,medium,pack,price\nballs,Yard,expanded clay,50 L,20\n", "bed,volume\nb,300 L\n", "")
	assert.Empty(t, about(p, "lime"), "clay carries no lime")
	assert.Empty(t, Of(&optimise.Plan{}, units.Metric), "no purchase, no caution")
}

// A table of the job's own that calls limestone free of carbonate is believed, and
// the buyer is told wherever cautions stand; the built-in table says otherwise, and a
// name that only sounds alike is left alone.
func TestLimeCalledFree(t *testing.T) {
	const media = "medium,other_names,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle,rinse_minutes\n%s,%s,1.4 kg/L,0,0.4,rough,%s,no,0%%,0%%,0\n"
	for _, c := range []struct {
		name, others, carbonate string
		told                    bool
	}{
		{"limestone", "", "none", true},
		{"Dolomite chips", "", "none", true},
		{"white stone", "chalk rubble", "none", true},
		{"oyster shell", "", "none", true},
		{"reef rubble", "coral", "none", true},
		{"lime green glass", "", "suspect", false},
		{"foamed slag", "", "none", false},
		{"shelled nuts", "", "none", false},
		{"limelight pumice", "", "none", false},
	} {
		plan := planOf(t, "quote,supplier,medium,pack,price,carbonate\na,Yard,"+c.name+",50 L,20,none\n", "bed,volume\none,100 L\n", "",
			fmt.Sprintf(media, c.name, c.others, c.carbonate))
		assert.Equal(t, c.told, len(about(plan, "lime by name")) == 1, c.name)
		_, inOrder := CalledFree(plan.Job.Quotes)
		assert.Equal(t, c.told, inOrder, c.name)
		warned := false
		for _, w := range Warnings(plan, "quotes.csv") {
			warned = warned || strings.Contains(w.Message, "calls this free of carbonate")
		}
		assert.Equal(t, c.told, warned, c.name)
	}
}

// Two stones come in two loads for the $85 of one order: once it is asked whether each truck costs that. With a fee for each
// load, or one stone, there is nothing to ask.
func TestOneFee(t *testing.T) {
	const two = "quote,supplier,medium,form,pack,price,max_qty,carbonate\na,Yard,pumice,bulk,1 m3,60,1,none\nb,Yard,lava rock,bulk,1 m3,61,1,none\n"
	const beds = "bed,volume\none,1800 L\n"
	assert.Equal(t, []string{"a fee for the order brings several loads: 2 loads from Yard for $85.00; have it in writing that it is not for each truck"},
		about(planOf(t, two, beds, "supplier,order_fee\nYard,85\n"), "one fee"))
	assert.Empty(t, about(planOf(t, two, beds, "supplier,order_fee,load_fee\nYard,85,20\n"), "one fee"))
	assert.Empty(t, about(planOf(t, strings.ReplaceAll(two, ",1,none", ",3,none"), beds, "supplier,order_fee\nYard,85\n"), "one fee"))
}
