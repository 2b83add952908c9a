package papers

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/risk"
	"mediabuy/quotes"
	"mediabuy/units"
)

// The plot takes 20 bags at 8.00 = 160, delivered for 15: 175. Two heaps are 190
// and 30: goods 30 more and delivery 15 more.
func TestWhyAWayCostsMore(t *testing.T) {
	job := plot.withMedia(t)
	plan := solve(t, job)
	heaps := bought(t, job, bill.Item{Quote: named(t, job, "heap"), Steps: 2})
	in := Input{Plan: plan, Ways: []Way{WayOf("all bulk", heaps), WayOf("the same again", plan)}}
	text := string(written(t, in, asMarkdown))
	assert.Contains(t, text, "| all bulk | $220.00 | $45.00 | goods $30.00 more and delivery $15.00 more |")
	assert.Contains(t, text, "| the same again | $175.00 | $0.00 | the decision is of this kind already |")
	dearer := *plan.Bill // another purchase for the same money
	dearer.Lines = slices.Clone(dearer.Lines)
	other := *dearer.Lines[0].Quote
	other.Name = "others"
	dearer.Lines[0].Quote = &other
	alike := *plan
	alike.Bill = &dearer
	in.Ways = []Way{WayOf("the same money", &alike)}
	assert.Contains(t, string(written(t, in, asMarkdown)), "| the same money | $175.00 | $0.00 | costs the same in every part |")
	heaps.Status = optimise.TimeLimit
	in.Ways = []Way{WayOf("all bulk", heaps)}
	assert.Contains(t, string(written(t, in, asMarkdown)), "more; best found before time was up |")
}

func TestWhatStopsAWay(t *testing.T) {
	r := &report{scribe: scribe{Style: Style{Units: units.Metric}}}
	for _, c := range []struct {
		want string
		why  []optimise.Obstacle
	}{
		{"the lightest mix is 40.5 kg over the limit of table birch", []optimise.Obstacle{{Table: "birch", Rule: optimise.RuleLimit, Over: 40.5}}},
		{"the lightest mix is 40.5 kg over the limit of bed tub, and 1 thing more", []optimise.Obstacle{{Bed: "tub", Rule: optimise.RuleLimit, Over: 40.5}, {Bed: "vat", Rule: optimise.RuleLimit, Over: 1}}},
		{"120 L of the top layer of bed tub cannot be had", []optimise.Obstacle{{Bed: "tub", Layer: quotes.Top, Rule: optimise.RuleStock, Short: 120}}},
		{"nothing of that kind suits the base layer of bed tub", []optimise.Obstacle{{Bed: "tub", Layer: quotes.Base, Rule: "min_size", Short: 120}}},
		{"so few suppliers do not have enough of what suits", []optimise.Obstacle{{Rule: optimise.RuleSuppliers, Remedy: "allow 2 more"}}},
		{"so few deliveries do not bring enough", []optimise.Obstacle{{Rule: optimise.RuleDeliveries}}},
		{"of \"heap\" fewer packs can be used than the least it is sold in", []optimise.Obstacle{{Rule: optimise.RuleMinQty, Remedy: "of \"heap\" fewer packs can be used than the least it is sold in: ask for 2 steps less"}}},
	} {
		assert.Equal(t, c.want, r.stops(c.why))
	}
}

// The first price to end is what the order must be in time for.
func TestOrderByTheFirstDay(t *testing.T) {
	f := plot
	f.quotes = strings.Replace(f.quotes, "2026-06-30", "2026-05-02", 1)
	job := f.withMedia(t)
	plan := bought(t, job, bill.Item{Quote: named(t, job, "bags"), Steps: 10}, bill.Item{Quote: named(t, job, "heap"), Steps: 1})
	text := string(written(t, Input{Plan: plan}, asMarkdown))
	assert.Contains(t, text, "the first price ends on 2026-04-30")
	assert.Contains(t, text, "| Tansy Hill Supply | 10 × 50 L bag of pebble | delivered, 1 load | 2026-05-02, price ends |")
	require.NotContains(t, text, "The beds once filled", "a purchase that fills no bed has no picture")
}

// A price may hold until after the goods are needed: then the need is what counts.
func TestOrderByTheDayTheGoodsAreNeeded(t *testing.T) {
	f := plot
	f.settings += "need_by = 2026-04-20\n"
	job := f.withMedia(t)
	plan := bought(t, job, bill.Item{Quote: named(t, job, "bags"), Steps: 10}, bill.Item{Quote: named(t, job, "heap"), Steps: 1})
	text := string(written(t, Input{Plan: plan}, asMarkdown))
	assert.Contains(t, text, "in time for the goods to come: they are needed by 2026-04-20.")
	assert.NotContains(t, text, "in time for the orders")
	assert.Contains(t, text, "| Tansy Hill Supply | 10 × 50 L bag of pebble | delivered, 1 load | well before 2026-04-20 |")
	assert.Equal(t, "ask", lastDay{}.words())
	assert.Empty(t, lastDay{}.inTime())
}

// A figure made from one of two digits has two.
func TestTwoFigures(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 0.09: "0.09", 5.62: "5.6", 76.46: "76", 114.7: "110"} {
		assert.Equal(t, want, twoFigures(v))
	}
}

// A bed of 300 L. Three yards have one pack of 100 L each, at 9, 9.50 and 10: 28.50 in
// all, and a fourth two packs of 150 L at 14.40: 28.80.
var yards = filesText{
	quotes:   "quote,supplier,medium,pack,price,max_qty,carbonate\na,Low,pebble,100 L,9,1,none\nb,Mid,pebble,100 L,9.50,1,none\nc,High,pebble,100 L,10,1,none\nd,Barn,pebble,150 L,14.40,,none\n",
	beds:     "bed,volume\none,300 L\n",
	delivery: "supplier,order_fee\n",
}

// A plainer purchase than the cheapest says what it costs more and what it spares, and
// nothing says that nothing cheaper can be bought.
func TestPlainerDecisionSaysWhatItCostsAndSpares(t *testing.T) {
	job := yards.withMedia(t)
	how, err := risk.Tidy(context.Background(), job, 0.02, 0, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.OneSupplier, how.Way)
	least := WayOf("the cheapest of all", how.Cheapest.Plan)
	least.Pains = risk.PainsOf(how.Cheapest.Plan).Against(risk.PainsOf(how.Plan))
	in := Input{Plan: how.Plan, How: how, Ways: []Way{least}}
	text := string(written(t, in, asMarkdown))
	assert.Contains(t, text, "Plainer than the cheapest: one supplier, for $0.30 (1.1 %) more than the $28.50 that is the least. It takes 1 supplier in place of 3, 1 thing to order in place of 3, 1 load to receive in place of 3 and no mixed layers in place of 1. Other ways")
	assert.Contains(t, text, "| the cheapest of all | $28.50 | \\-$0.30 | goods $0.30 less; takes 3 suppliers in place of 1, 3 things to order in place of 1, 3 loads to receive in place of 1 and 1 mixed layer in place of none |")
	assert.Contains(t, text, "| **the decision** | **Barn** | **$28.80** | **$0.00** | **proven of its kind** |")
	assert.NotContains(t, text, "nothing is cheaper")
	assert.NotContains(t, text, "> **Not proven", "the least is proven, and so is this of its kind")

	// Where the least is not proven, what may be saved is counted against what is.
	cut := *how.Cheapest
	plan := *cut.Plan
	plan.Status, cut.Plan = optimise.TimeLimit, &plan
	late := *how
	late.Cheapest = &cut
	reached := *how.Reached
	reached.Least, late.Reached = units.M("28.00"), &reached
	in.How = &late
	text = string(written(t, in, asMarkdown))
	assert.Contains(t, text, "No purchase can cost less than $28.00, so at most $0.80 could still be saved.")
	assert.Contains(t, text, "Plainer than the cheapest found: one supplier, for $0.30 (1.1 %) more than its $28.50.")
}

// A purchase that was made as sure as asked is not called the cheapest there is.
func TestSurerDecisionIsNotCalledTheCheapest(t *testing.T) {
	job := yards.withMedia(t)
	job.Settings.Sure = 0.9
	plan := solve(t, job)
	how := &risk.Reached{Job: job, Plan: plan, Sure: 0.97, Met: true, Least: plan.Bill.Total.Sub(units.M("1.25"))}
	in := Input{Plan: plan, How: &risk.Tidied{Reached: how, Cheapest: how}, Ways: []Way{WayOf("the same", plan)}}
	text := string(written(t, in, asMarkdown))
	assert.Contains(t, text, "The cheapest found that is 90 % sure to fill every bed; a cheaper one as sure could save at most $1.25.")
	assert.Contains(t, text, "| **cheapest found** |")
	assert.Contains(t, text, "as much is held back")
	assert.NotContains(t, text, "nothing is cheaper")
	how.Least = plan.Bill.Total // surer than asked as it is
	text = string(written(t, in, asMarkdown))
	assert.Contains(t, text, "Proven: nothing is cheaper by even the smallest coin.")
	assert.Contains(t, text, "| **proven** |")

	// Not as sure as asked, for want of time.
	late := *plan
	late.Status = optimise.TimeLimit
	how.Plan, in.Plan, how.Met, how.Cut, how.Least = &late, &late, false, true, plan.Bill.Total.Sub(units.M("1.25"))
	text = string(written(t, in, asMarkdown))
	assert.Contains(t, text, "> **Not as sure as asked for: time was up. Of what was found this is the surest, and the job asks for 90 of 100 cases with every bed full.")
	assert.NotContains(t, text, "nothing is cheaper")
}

// Who quoted no delivery is counted as bringing goods for nothing, which nobody should
// sign unawares, and is asked about it on the order; each site is told of its own.
func TestDeliveryThatWasNotQuoted(t *testing.T) {
	f := yards
	f.beds = "bed,volume,site\none,150 L,north\ntwo,150 L,south\n"
	job := f.withMedia(t)
	d := named(t, job, "d")
	plan := bought(t, job, bill.Item{Quote: d, Site: "north", Steps: 1}, bill.Item{Quote: d, Site: "south", Steps: 1})
	text := string(written(t, Input{Plan: plan}, asMarkdown))
	assert.Contains(t, text, "not quoted: taken as free to north; not quoted: taken as free to south")
	assert.Contains(t, text, "Have it in writing that Barn delivers for nothing: no terms of delivery were quoted.")
	assert.Contains(t, text, "Delivery, none quoted and taken as free")
	assert.Contains(t, text, "for $28.80 in all, with delivery and no tax added:")
	assert.Contains(t, text, "Have it in writing that the prices are what is paid: no tax is reckoned here.")
	assert.NotContains(t, text, "Handling")
	orders, err := Orders(plan, Style{})
	require.NoError(t, err)
	require.Len(t, orders, 2)
	for _, o := range orders {
		assert.Len(t, o.Drops, 1, o.Site)
		text := markdown(t, o.Page(Style{}))
		assert.Contains(t, text, "You quoted no delivery, so it is taken as free: please tell us before you load if it is not.")
		assert.NotContains(t, text, "Handling")
	}
}
