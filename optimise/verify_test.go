package optimise

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// verifyJob has something for every rule to be about: two sites, a share, a limit
// of a bed's own and of a table, counts, a smallest order and a least quantity.
func verifyJob(t require.TestingT) *quotes.Job {
	return jobtest.Files{
		Quotes: "quote,supplier,medium,form,pack,price,breaks,min_qty,max_qty,tax\nf,Yard,fluff,bag,100 L,50,4: 45,2,40,5%\nr,Quay,rock,bulk,100 L,10,,3,40,\ng,Yard,grit,bag,100 L,90,,,40,\nc,Quay,coconut coir,bag,100 L,1,,,,\n",
		Beds: "bed,count,volume,top_volume,max_share,table,limit,own_weight,site,avoid\n" +
			"one,2,1000 L,200 L,rock: 0.6,,1500 kg,5 kg,north,\ntwo,1,500 L,,,T,1000 kg,10 kg,north,\nthree,1,500 L,,,T,1000 kg,10 kg,north,\nfour,1,300 L,,,,,,south,grit\n",
		Delivery: "supplier,handling,order_fee,load_fee,load_volume,free_over,min_order\nYard,7,20,5,1 m3,900,50\nQuay,0,15,0,,,20\n",
		Media:    jobtest.PlainMedia, Settings: "tax = 8\nlabour_rate = 10\nextra = 2\nmax_suppliers = 2\nmax_deliveries = 4",
	}.Job(t)
}

// spoil changes one thing of a good plan.
type spoil struct {
	name, want string // part of the breach that must be found
	do         func(p *Plan)
}

// part finds the fill of a quote in a bed's layer.
func part(p *Plan, bed int, layer quotes.Layer, quote string) *FillPart {
	for i := range p.Fills[bed].Layers {
		l := &p.Fills[bed].Layers[i]
		if l.Layer != layer {
			continue
		}
		for j := range l.Parts {
			if l.Parts[j].Quote.Name == quote {
				return &l.Parts[j]
			}
		}
	}
	return nil
}

func spoils() []spoil {
	withSettings := func(p *Plan, change func(*quotes.Settings)) {
		job := *p.Job
		change(&job.Settings)
		p.Job = &job
	}
	return []spoil{
		{"a layer too low", "holds", func(p *Plan) { p.Fills[0].Layers[0].Parts[0].Litres -= 1 }},
		{"a layer too full", "holds", func(p *Plan) { p.Fills[0].Layers[1].Parts[0].Litres += 1 }},
		{"a layer left out", "holds 0.0000 L", func(p *Plan) { p.Fills[3].Layers = nil }},
		{"rough stone in the top", "refused there", func(p *Plan) { p.Fills[0].Layers[0].Parts[0].Quote = p.Job.Quotes[1] }},
		{"coir", "refused there", func(p *Plan) { p.Fills[3].Layers[0].Parts[0].Quote = p.Job.Quotes[3] }},
		{"avoided", "refused there", func(p *Plan) { p.Fills[3].Layers[0].Parts[0].Quote = p.Job.Quotes[2] }},
		{"over a share", "at most", func(p *Plan) {
			l := &p.Fills[0].Layers[1]
			l.Parts = []FillPart{{p.Job.Quotes[1], l.Demand}}
		}},
		{"a bed too heavy", `bed "one" weighs`, func(p *Plan) { p.Fills[0].Flooded = 1501 }},
		{"a table too heavy", `table "T" weighs`, func(p *Plan) { p.Tables[0].Flooded = 1001 }},
		{"a limit lowered", `table "T" weighs`, func(p *Plan) {
			less := p.Tables[0].Flooded - 1
			p.Tables[0].Limit = &less
		}},
		{"placed and not bought", "L bought", func(p *Plan) {
			p.Bill.Lines = slices.Clone(p.Bill.Lines)
			p.Bill.Lines[0].Placed /= 2
		}},
		{"bought for the other site", "L bought", func(p *Plan) {
			p.Bill.Lines = slices.Clone(p.Bill.Lines)
			i := slices.IndexFunc(p.Bill.Lines, func(l bill.Line) bool { return l.Quote.Name == "r" && l.Site == "north" })
			p.Bill.Lines[i].Site = "south"
		}},
		{"too many suppliers", "suppliers used", func(p *Plan) { withSettings(p, func(s *quotes.Settings) { s.MaxSuppliers = 1 }) }},
		{"too many deliveries", "deliveries used", func(p *Plan) { withSettings(p, func(s *quotes.Settings) { s.MaxDeliveries = 1 }) }},
		{"a pack fewer", "priced again", func(p *Plan) { p.Purchase.Items[0].Steps-- }},
		{"a pack more", "priced again", func(p *Plan) { p.Purchase.Items[0].Steps++ }},
		{"below the least quantity", "sold from", func(p *Plan) { p.Purchase.Items[0].Steps = 1; p.Purchase.Items = p.Purchase.Items[:1] }},
		{"more than in stock", "in stock", func(p *Plan) { p.Purchase.Items[0].Steps = 41 }},
		{"below the smallest order", "smallest order", func(p *Plan) {
			dear := units.M("100000")
			for _, d := range p.Job.Delivery {
				d.MinOrder = &dear
			}
		}},
		{"no way to bring it", "ways to bring", func(p *Plan) {
			for _, d := range p.Job.Delivery {
				d.Covers = []quotes.Form{quotes.Sack}
			}
			p.Purchase.Carry = nil
		}},
		{"a price changed", "priced again", func(p *Plan) {
			p.Purchase.Items[0].Quote.Breaks, p.Purchase.Items[0].Quote.Price = nil, units.M("49.99")
		}},
		{"a total a cent off", "priced again", func(p *Plan) { p.Bill.Total = p.Bill.Total.Sub(units.M("0.01")) }},
	}
}

// Every rule that Verify holds a plan against can fail: a plan spoilt in one part
// is caught, by the words that name the part.
func TestVerifyCatchesSpoiltPlans(t *testing.T) {
	for _, s := range spoils() {
		t.Run(s.name, func(t *testing.T) {
			job := verifyJob(t)
			p := solved(t, job, Options{})
			require.Equal(t, Optimal, p.Status, "%+v", p.Why)
			require.NoError(t, Verify(p))
			require.NotNil(t, part(p, 0, quotes.Top, "f"))
			s.do(p)
			err := Verify(p)
			require.Error(t, err)
			assert.Contains(t, err.Error(), s.want)
		})
	}
}

// Weights are worked out again from what the beds hold: a plan whose own weights
// were wrong would be caught.
func TestVerifyWeighsForItself(t *testing.T) {
	p := solved(t, verifyJob(t), Options{})
	require.NoError(t, Verify(p))
	rock := p.Job.Quotes[1]
	for i := range p.Fills[1].Layers { // bed two all in rock, and three: 2040 kg on a table for 1000
		l := &p.Fills[1].Layers[i]
		l.Parts = []FillPart{{rock, l.Demand}}
		l = &p.Fills[2].Layers[i]
		l.Parts = []FillPart{{rock, l.Demand}}
	}
	err := Verify(p)
	require.Error(t, err)
	assert.Contains(t, err.Error(), `table "T" weighs`)
}

// Any plan of a random job passes, and loses its proof when a random layer holds
// a hundredth less.
func TestVerifyOnRandomJobs(t *testing.T) {
	jobtest.FewerChecks(t, 40)
	rapid.Check(t, func(t *rapid.T) {
		job, name := drawJob(t)
		p := solved(t, job, Options{})
		if p.Bill == nil {
			return
		}
		require.NoError(t, Verify(p), name)
		var parts []*FillPart
		for b := range p.Fills {
			for l := range p.Fills[b].Layers {
				for i := range p.Fills[b].Layers[l].Parts {
					parts = append(parts, &p.Fills[b].Layers[l].Parts[i])
				}
			}
		}
		i := rapid.IntRange(0, len(parts)-1).Draw(t, "part")
		parts[i].Litres += max(1, parts[i].Litres/100)
		require.Error(t, Verify(p), fmt.Sprintf("%s, part %d", name, i))
	})
}

// Who stated no delivery counts among the suppliers and brings a delivery: 10 bags of the one and 10 of the other are bought of
// two and come in two.
func TestVerifyCountsSuppliersWithoutDelivery(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,max_qty\na,Aldermoor,grit,50 L,10,10\nb,Brackwell,grit,50 L,11,10\n",
		Beds:   "bed,volume\none,1000 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	plan, err := Solve(t.Context(), job, Options{})
	require.NoError(t, err)
	require.Len(t, plan.Bill.Lines, 2)
	require.NoError(t, Verify(plan))
	for breach, set := range map[string]func(*quotes.Settings){
		"2 suppliers used, want at most 1":  func(s *quotes.Settings) { s.MaxSuppliers = 1 },
		"2 deliveries used, want at most 1": func(s *quotes.Settings) { s.MaxDeliveries = 1 },
	} {
		strict := *job
		set(&strict.Settings)
		plan.Job = &strict
		require.ErrorContains(t, Verify(plan), breach)
		none, err := Solve(t.Context(), &strict, Options{})
		require.NoError(t, err)
		require.Equal(t, Infeasible, none.Status)
	}
}
