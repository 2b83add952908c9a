package optimise

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// obstacle is what a hand-worked job must name: where, the rule, and how much.
type obstacle struct {
	where, rule string
	short, over float64
	remedy      string // part of it
}

func where(o Obstacle) string {
	switch {
	case o.Table != "":
		return "table " + o.Table
	case o.Layer != "":
		return o.Bed + "/" + string(o.Layer)
	}
	return o.Bed
}

func TestObstaclesByHand(t *testing.T) {
	const two = "quote,supplier,medium,pack,price\nf,Yard,fluff,100 L,50\nr,Quay,rock,100 L,10\n"
	const rock = "quote,supplier,medium,pack,price\nr,Quay,rock,100 L,10\n"
	for _, c := range []struct {
		name string
		filesText
		want []obstacle
	}{
		{
			// The lightest fill is 1000 L of fluff, 500 kg, and 20 of its own: 520 − 480 = 40.
			name: "a table too weak", filesText: filesText{two, "bed,volume,table,limit,own_weight\none,600 L,T,480 kg,10 kg\ntwo,400 L,T,480 kg,10 kg\n", "", ""},
			want: []obstacle{{where: "table T", rule: RuleLimit, over: 40, remedy: "raise the limit by 88.2 lb"}},
		},
		{
			// 1000 L of rock are 2000 kg: 100 over, for each of the three.
			name: "a limit of each of a count", filesText: filesText{rock, "bed,count,volume,limit\none,3,1000 L,1900 kg\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleLimit, over: 100, remedy: "each of the 3 beds"}},
		},
		{
			// Two alike beds, 50 kg over each.
			name: "alike beds are named each", filesText: filesText{rock, "bed,volume,limit\none,500 L,950 kg\ntwo,500 L,950 kg\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleLimit, over: 50}, {where: "two", rule: RuleLimit, over: 50}},
		},
		{
			// Twice the size, twice the limit, twice the excess: 50 and 100 kg.
			name: "beds alike but for size", filesText: filesText{rock, "bed,volume,limit\none,500 L,950 kg\ntwo,1000 L,1900 kg\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleLimit, over: 50}, {where: "two", rule: RuleLimit, over: 100}},
		},
		{
			// Frame fittings of 60 kg alone pass 50 kg, and 100 L of fluff weigh 50 more.
			name: "fittings alone too heavy", filesText: filesText{two, "bed,volume,limit,own_weight\none,100 L,50 kg,60 kg\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleLimit, over: 60}},
		},
		{
			// Only rock is sold, and in each of three beds it may fill 0.6 of 1000 L.
			name: "a share of each of several", filesText: filesText{rock, "bed,count,volume,max_share\none,3,1000 L,rock: 0.6\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleShare, short: 400, remedy: `rock 14.2 ft³ more in each of the 3 beds "one"`}},
		},
		{
			// 1000 L of fluff at best, 100 L for 50: 500 and 400 kg too heavy, on a budget of
			// 400: 100 more is wanted too.
			name: "a limit and a budget", filesText: filesText{two, "bed,volume,limit\none,1000 L,100 kg\n", "", "budget = 400"},
			want: []obstacle{{where: "one", rule: RuleLimit, over: 400}, {rule: RuleBudget, remedy: "even then the cheapest safe purchase costs about $500.00 and the budget is $400.00: raise the budget by $100.00 as well"}},
		},
		{
			// Only rock is sold and it may fill 0.6 of 1000 L: 400 L too few.
			name: "a share with nothing beside it", filesText: filesText{rock, "bed,volume,max_share\none,1000 L,rock: 0.6\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleShare, short: 400, remedy: `rock 14.2 ft³ more in bed "one"`}},
		},
		{
			// Two alike beds: 400 L in each.
			name: "shares of alike beds", filesText: filesText{rock, "bed,volume,max_share\none,1000 L,rock: 0.6\ntwo,1000 L,rock: 0.6\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleShare, short: 400}, {where: "two", rule: RuleShare, short: 400}},
		},
		{
			// A bed that shares a weighed table: the bed is named, not the table. 200 L of
			// fluff in stock: of 1000 L 800 would be rock, 200 L more than 600.
			name: "a share on a table", filesText: filesText{
				"quote,supplier,medium,pack,price,max_qty\nf,Yard,fluff,100 L,50,2\nr,Quay,rock,100 L,10,\n",
				"bed,volume,max_share,table,limit\none,1000 L,rock: 0.6,T,1800 kg\n", "", "",
			},
			want: []obstacle{{where: "one", rule: RuleShare, short: 200}},
		},
		{
			// 4 packs in stock: 400 L of 1000.
			name: "stock", filesText: filesText{"quote,supplier,medium,pack,price,max_qty\nr,Quay,rock,100 L,10,4\n", "bed,volume\none,1000 L\n", "", ""},
			want: []obstacle{{where: "one/base", rule: RuleStock, short: 600, remedy: "21.2 ft³ more must be for sale of rock"}},
		},
		{
			// 300 L of top, 100 L of fluff in stock.
			name: "stock of a top layer", filesText: filesText{"quote,supplier,medium,pack,price,max_qty\nf,Yard,fluff,100 L,50,1\nr,Quay,rock,100 L,10,\n", "bed,volume,top_volume\none,1000 L,300 L\n", "", ""},
			want: []obstacle{{where: "one/top", rule: RuleStock, short: 200}},
		},
		{
			// 100 L in stock of 1000, and 1000 L of fluff would be 400 kg too heavy: both
			// have to give.
			name: "a limit and stock", filesText: filesText{"quote,supplier,medium,pack,price,max_qty\nf,Yard,fluff,100 L,50,1\n", "bed,volume,limit\none,1000 L,100 kg\n", "", ""},
			want: []obstacle{{where: "one", rule: RuleLimit, over: 400}, {where: "one/base", rule: RuleStock, short: 900}},
		},
		{
			// A top of fluff from one yard, a base of rock from another.
			name: "too few suppliers", filesText: filesText{two, "bed,volume,only\none,100 L,fluff\ntwo,100 L,rock\n", "", "max_suppliers = 1"},
			want: []obstacle{{rule: RuleSuppliers, remedy: "allow 1 more"}},
		},
		{
			name: "too few deliveries", filesText: filesText{two, "bed,volume,site\none,100 L,a\ntwo,100 L,b\nthree,100 L,c\n", "", "max_deliveries = 1"},
			want: []obstacle{{rule: RuleDeliveries, remedy: "allow 2 more"}},
		},
		{
			// Two sites need two deliveries, and their media two suppliers.
			name: "too few of both", filesText: filesText{two, "bed,volume,site,only\none,100 L,a,fluff\ntwo,100 L,b,rock\n", "", "max_deliveries = 1\nmax_suppliers = 1"},
			want: []obstacle{{rule: RuleSuppliers, remedy: "allow 1 more"}, {rule: RuleDeliveries, remedy: "allow 1 more"}},
		},
		{
			// 10 × 10 = 100 against 90.25: raise by 9.75.
			name: "budget", filesText: filesText{rock, "bed,volume\none,1000 L\n", "", "budget = 90.25"},
			want: []obstacle{{rule: RuleBudget, remedy: "costs $100.00: raise the budget by $9.75"}},
		},
		{
			name: "nothing smooth for the top", filesText: filesText{rock, "bed,count,volume,top_volume\none,2,1000 L,300 L\n", "", ""},
			want: []obstacle{{where: "one/top", rule: string(suitability.RuleTop), short: 600, remedy: `the nearest is "r"`}},
		},
		{
			// One rule stands against each; a coarser grade of the smooth one is nearer than another feel of the rough one.
			name: "a size before a stone", filesText: filesText{"quote,supplier,medium,pack,price,size\na,Quay,rock,100 L,10,8-16 mm\nb,Quay,grit,100 L,10,4-8 mm\n", "bed,volume,top_volume,min_size\none,100 L,40 L,8 mm\n", "", ""},
			want: []obstacle{{where: "one/top", rule: string(suitability.RuleMinSize), short: 40, remedy: `the nearest is "b"`}},
		},
		{
			// Half of each is 25 + 50 = 75 kg, within 80; grit alone is 100. Two suppliers are asked for before a stronger frame.
			name: "too few suppliers for a frame", filesText: filesText{"quote,supplier,medium,pack,price\nf,Quay,fluff,10 L,1\ng,Hill,grit,10 L,2\n", "bed,volume,limit,max_share\none,100 L,80 kg,fluff: 0.5\n", "", "max_suppliers = 1"},
			want: []obstacle{{rule: RuleSuppliers, remedy: "allow 1 more"}},
		},
		{
			name: "one stone in a layer of shares", filesText: filesText{"quote,supplier,medium,pack,price\nf,Quay,fluff,10 L,1\ng,Quay,grit,10 L,2\n", "bed,volume,max_share\none,100 L,fluff: 0.5; grit: 0.5\n", "", "layer_mix = \"one\""},
			want: []obstacle{{rule: RuleLayerMix, remedy: `write layer_mix = "any"`}},
		},
		{
			// 30 L of grit at most, and at least 40 of whatever is laid; of fluff there are 80.
			name: "too large a least share", filesText: filesText{"quote,supplier,medium,pack,price,max_qty\nf,Quay,fluff,10 L,1,8\ng,Quay,grit,10 L,2,\n", "bed,volume,max_share\none,100 L,grit: 0.3\n", "", "least_share = \"40%\""},
			want: []obstacle{{rule: RuleLeastShare, remedy: "ask for less under least_share"}},
		},
		{
			name: "only a medium that is not sold", filesText: filesText{rock, "bed,volume,only\none,100 L,fluff\n", "", ""},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleOnly), short: 100}},
		},
		{
			name: "a medium avoided", filesText: filesText{rock, "bed,volume,avoid\none,100 L,rock\n", "", ""},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleAvoid), short: 100}},
		},
		{
			name: "grain too fine", filesText: filesText{"quote,supplier,medium,pack,price,size\nr,Quay,rock,100 L,10,4-8 mm\n", "bed,volume,min_size\none,100 L,8 mm\n", "", ""},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleMinSize), short: 100, remedy: "8 mm"}},
		},
		{
			name: "grain too coarse", filesText: filesText{"quote,supplier,medium,pack,price,size\nr,Quay,rock,100 L,10,8-16 mm\n", "bed,volume,max_size\none,100 L,12 mm\n", "", ""},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleMaxSize), short: 100}},
		},
		{
			name: "grain not stated", filesText: filesText{rock, "bed,volume,min_size\none,100 L,8 mm\n", "", ""},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleUnknownSize), short: 100}},
		},
		{
			name: "lime", filesText: filesText{"quote,supplier,medium,pack,price,carbonate\nr,Quay,rock,100 L,10,fizzed\n", "bed,volume\none,100 L\n", "", ""},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleCarbonate), short: 100}},
		},
		{
			name: "breaks down", filesText: filesText{"quote,supplier,medium,pack,price\nr,Quay,coconut coir,100 L,10\n", "bed,volume\none,100 L\n", "", ""},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleBreaksDown), short: 100}},
		},
		{
			name: "too late", filesText: filesText{"quote,supplier,medium,pack,price,ready_by\nr,Quay,rock,100 L,10,2026-05-02\n", "bed,volume\none,100 L\n", "", `need_by = "2026-05-01"`},
			want: []obstacle{{where: "one/base", rule: string(suitability.RuleDate), short: 100}},
		},
		{
			name: "nobody comes to the site", filesText: filesText{rock, "bed,volume,site\none,100 L,north\ntwo,200 L,south\n", "supplier,site,order_fee\nQuay,north,5\n", ""},
			want: []obstacle{{where: "two/base", rule: RuleDelivery, short: 200, remedy: `does not deliver`}},
		},
		{
			name: "nothing in stock at all", filesText: filesText{"quote,supplier,medium,pack,price,max_qty\nr,Quay,rock,100 L,10,0\n", "bed,volume\none,100 L\n", "", ""},
			want: []obstacle{{where: "one/base", rule: RuleStock, short: 100}},
		},
	} {
		for _, plain := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, plain %v", c.name, plain), func(t *testing.T) {
				p := solved(t, jobtest.Files{Quotes: c.quotes, Beds: c.beds, Delivery: c.delivery, Media: jobtest.PlainMedia, Settings: c.settings}.Job(t), Options{Plain: plain})
				require.Equal(t, Infeasible, p.Status)
				require.Nil(t, p.Bill)
				var got []string
				for _, o := range p.Why {
					got = append(got, fmt.Sprintf("%s %s %.1f L %.1f kg", where(o), o.Rule, float64(o.Short), float64(o.Over)))
				}
				var want []string
				for i, o := range c.want {
					want = append(want, fmt.Sprintf("%s %s %.1f L %.1f kg", o.where, o.rule, o.short, o.over))
					if i < len(p.Why) {
						assert.Contains(t, p.Why[i].Remedy, o.remedy)
					}
				}
				assert.Equal(t, want, got)
			})
		}
	}
}

// filesText is a job without its media.
type filesText struct{ quotes, beds, delivery, settings string }

// An infeasible job names what stands in its way, and giving just that much makes
// it feasible.
func TestHeedingTheObstaclesHelps(t *testing.T) {
	jobtest.Long(t)
	for _, pinches := range [][]string{{"limits", "shares", "limits and shares"}, {"stock"}, {"counts"}, {"limits and stock"}} {
		t.Run(strings.Join(pinches, ", "), func(t *testing.T) {
			jobtest.FewerChecks(t, 40)
			seen := map[string]int{}
			rapid.Check(t, func(t *rapid.T) {
				shape := randjob.Shape{Sites: rapid.IntRange(1, 2).Draw(t, "sites"), Suppliers: 3, Quotes: 6, Beds: rapid.IntRange(1, 5).Draw(t, "beds"), Tables: true, Shares: true, Handling: true}
				job := pinched(t, randjob.Job(rapid.Uint64Range(0, 1000).Draw(t, "seed"), shape), pinches)
				p := solved(t, job, Options{Plain: rapid.Bool().Draw(t, "plain")})
				if p.Status != Infeasible {
					return
				}
				require.NotEmpty(t, p.Why)
				helped, ok := heed(t, job, p.Fit, p.Why)
				if !ok {
					seen["hopeless"]++
					return
				}
				seen[p.Why[0].Rule]++
				again := solved(t, helped, Options{})
				require.Equal(t, Optimal, again.Status, "advised %+v, then %+v", p.Why, again.Why)
			})
			heeded := 0
			for rule, n := range seen {
				if rule != "hopeless" {
					heeded += n
				}
			}
			assert.Positive(t, heeded, "some jobs could be helped: %v", seen)
		})
	}
}

// The budget that is named is the least: with it the job is feasible, with a cent
// less it is not.
func TestTheBudgetNamedIsTheLeast(t *testing.T) {
	jobtest.FewerChecks(t, 25)
	rapid.Check(t, func(t *rapid.T) {
		job := randjob.Job(rapid.Uint64Range(0, 1000).Draw(t, "seed"), randjob.Simple(3, 6, 4))
		full := solved(t, job, Options{})
		if full.Bill == nil {
			return
		}
		for _, c := range []struct {
			cents int64
			want  Status
		}{{-1, Infeasible}, {0, Optimal}, {1, Optimal}} {
			tight := *job
			budget := full.Bill.Total.Add(units.MoneyOf(units.DecimalFromInt(c.cents).Mul(units.D("0.01"))))
			tight.Settings.Budget = &budget
			p := solved(t, &tight, Options{})
			require.Equal(t, c.want, p.Status, "%d cents from the least", c.cents)
			if p.Status == Infeasible {
				require.Len(t, p.Why, 1)
				assert.Equal(t, RuleBudget, p.Why[0].Rule)
				assert.Contains(t, p.Why[0].Remedy, "raise the budget by $0.01")
			} else {
				assert.LessOrEqual(t, p.Bill.Total.Float(), math.Nextafter(budget.Float(), math.Inf(1)))
			}
		}
	})
}
