package papers

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
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
	assert.Contains(t, text, "| the same again | $175.00 | $0.00 | costs the same in every part |")
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
		{"the lightest mix is 40.5 kg over the limit of bed tub, and 1 more", []optimise.Obstacle{{Bed: "tub", Rule: optimise.RuleLimit, Over: 40.5}, {Bed: "vat", Rule: optimise.RuleLimit, Over: 1}}},
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
	assert.Contains(t, text, "| Tansy Hill Supply | 10 × 50 L bag of pebble | delivered, 1 load | 2026-05-02 |")
	require.NotContains(t, text, "The beds once filled", "a purchase that fills no bed has no picture")
}

// A figure made from one of two digits has two.
func TestTwoFigures(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 0.09: "0.09", 5.62: "5.6", 76.46: "76", 114.7: "110"} {
		assert.Equal(t, want, twoFigures(v))
	}
}
