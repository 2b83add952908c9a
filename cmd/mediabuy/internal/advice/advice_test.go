package advice

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

// planOf solves a small job given as its files.
func planOf(t *testing.T, quotesCSV, bedsCSV, deliveryCSV string) *optimise.Plan {
	src := func(name, text string) files.Source {
		if text == "" {
			return files.Source{Name: name}
		}
		return files.Source{Name: name, R: strings.NewReader(text)}
	}
	job, rep, err := files.Read(files.Sources{
		Quotes: src("quotes.csv", quotesCSV), Beds: src("beds.csv", bedsCSV), Delivery: src("delivery.csv", deliveryCSV),
	}, files.Options{Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, plan.Status)
	return plan
}

// about lists the cautions of one kind.
func about(p *optimise.Plan, kind string) []string {
	var out []string
	for _, c := range Cautions(p, units.Metric) {
		if c.About == kind {
			out = append(out, c.Words)
		}
	}
	return out
}

func TestMore(t *testing.T) {
	for _, c := range []struct {
		name, quote, delivery string
		want                  []string
	}{
		// 400 placed litres ÷ 47.53 a bag = 8.4, so 9. 9 × 29 = 261 and 10 × 26 = 260.
		{"ten for nine", "a,Yard,expanded clay,50 L,29,10: 26", "", []string{
			"a: buying 10 costs $260.00, less than 9 would",
			"a: 9 would hold enough; buying 10 makes the whole order $1.00 cheaper",
		}},
		// 40 × 20 = 800 is below 28 × 29 = 812, but 9 × 29 = 261 is what it takes.
		{"enough is cheapest", "a,Yard,expanded clay,50 L,29,40: 20", "", nil},
		{"the smallest order", "a,Yard,expanded clay,50 L,20,", "supplier,min_order\nYard,240\n", []string{
			`a: 9 would hold enough, 12 are bought: Yard to site "": goods of 180.00, the smallest order by "delivered" is 240.00`,
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := planOf(t, "quote,supplier,medium,pack,price,breaks\n"+c.quote+"\n", "bed,volume\nb,400 L\n", c.delivery)
			assert.Equal(t, c.want, More(p))
		})
	}
}

// Breaks count the packs of all sites: 5 here and 5 there reach the break at 10.
func TestMoreOverSites(t *testing.T) {
	p := planOf(t, "quote,supplier,medium,pack,price,breaks\na,Yard,expanded clay,50 L,29,10: 26\n", "bed,volume,site\nb,230 L,north\nc,230 L,south\n", "")
	assert.Equal(t, []string{"a: buying 10 costs $260.00, less than 9 would"}, More(p))
}

func TestFloating(t *testing.T) {
	const clay = "quote,supplier,medium,pack,price,carbonate\nballs,Yard,expanded clay,50 L,20,none\n"
	p := planOf(t, clay, "bed,length,width,depth,top\nb,1 m,1 m,300 mm,100 mm\n", "")
	got := about(p, "floats")
	require.Len(t, got, 1)
	// A grain: 0.35 ÷ (1 − 0.42) = 0.60 dry, 0.4375 ÷ 0.58 = 0.75 soaked.
	assert.Contains(t, got[0], "a grain is 0.60 kg/L dry, 0.75 soaked")
	assert.Contains(t, got[0], "top of b: it floats even after a soak")
	assert.Contains(t, got[0], "base of b: nothing above weighs enough to hold it")

	// Under gravel it is held: 100 L × (1.5655 − 0.6 × 0.998) = 97 kg above a lift
	// of 200 L × (0.58 × 0.998 − 0.35) = 46 kg.
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
	// Gravel weighs 1.5655 − 0.6 × 0.998 = 0.967 kg/L under water; dry clay lifts
	// 0.58 × 0.998 − 0.35 = 0.229 kg/L: 200 L lift 45.8 kg, which 48 L of gravel hold.
	assert.True(t, heldDown(fill("river gravel", "expanded clay", 48)))
	assert.False(t, heldDown(fill("river gravel", "expanded clay", 47)))
	assert.False(t, heldDown(fill("expanded clay", "expanded clay", 100)))
	assert.True(t, heldDown(fill("river gravel", "lava rock", 1)), "lava sinks, so there is no lift")
}

func TestWeightAndLifting(t *testing.T) {
	// 300 L of clay flooded to the rim: 300 × 0.85666 = 257 kg of 280 is 92 %.
	p := planOf(t, "quote,supplier,medium,pack,price,density\nballs,Yard,expanded clay,80 L,20,0.4 kg/L\n",
		"bed,volume,table,limit\nb,300 L,frame,280 kg\n", "")
	near := about(p, "weight")
	require.Len(t, near, 1)
	assert.Contains(t, near[0], "table frame at 92 % (257 kg of 280 kg)")
	// 80 L × 0.4 = 32 kg a bag, above 23.
	lift := about(p, "lifting")
	require.Len(t, lift, 1)
	assert.Contains(t, lift[0], "a bag of balls weighs about 32 kg dry; 23 kg is the most")
	density := about(p, "density")
	require.Len(t, density, 1)
	assert.Contains(t, density[0], "Yard says balls weighs 0.4 kg/L and the tables were weighed with 0.35 kg/L")

	// 300 L × (0.4 − 0.35) = 15 kg more: 272 of 280 still holds.
	assert.Empty(t, about(p, "overload"))
	p = planOf(t, "quote,supplier,medium,pack,price,density\nballs,Yard,expanded clay,80 L,20,0.45 kg/L\n",
		"bed,volume,table,limit\nb,300 L,frame,280 kg\n", "")
	// 300 L × (0.45 − 0.35) = 30 kg more: 257 + 30 = 287 of 280.
	over := about(p, "overload")
	require.Len(t, over, 1)
	assert.Contains(t, over[0], "table frame (287 kg of 280 kg)")
	told := Warnings(p, "quotes.csv")
	require.Len(t, told, 2, "a machine is told of the density and the overload")
	assert.Equal(t, optimise.DocumentComplaint{File: "quotes.csv", Line: 1, Column: 1, Message: over[0]}, told[1])

	p = planOf(t, "quote,supplier,medium,pack,price\nballs,Yard,expanded clay,50 L,20\n", "bed,volume,limit\nb,300 L,300 kg\n", "")
	assert.Empty(t, about(p, "weight"), "86 % is not near")
	assert.Empty(t, about(p, "lifting"), "17.5 kg is not heavy")
	assert.Empty(t, about(p, "density"))
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
	for _, words := range []string{"each load of stones", "eye protection and gloves", "acid to water and never water to acid", "does not clear dolomite"} {
		assert.Contains(t, lime[0], words)
	}
	require.Len(t, about(p, "dust"), 1)

	p = planOf(t, "quote,supplier,medium,pack,price\nballs,Yard,expanded clay,50 L,20\n", "bed,volume\nb,300 L\n", "")
	assert.Empty(t, about(p, "lime"), "clay carries no lime")
	assert.Empty(t, Cautions(&optimise.Plan{}, units.Metric), "no purchase, no caution")
}
