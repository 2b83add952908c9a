package chart

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

func TestChangeWords(t *testing.T) {
	assert.Equal(t, "10 kg more on table A", ChangeWords("10 kg more on table A", units.Metric))
	assert.Equal(t, "22 lb more on table A", ChangeWords("10 kg more on table A", units.US))
	assert.Equal(t, "no weight limit", ChangeWords("no weight limit", units.US))
}

func TestSmallWords(t *testing.T) {
	less := func(n int64) units.Money { return units.MoneyOf(units.DecimalFromInt(-n)) }
	changes := []breakeven.Other{{Name: "10 kg more on bed one", Difference: less(3)}, {Name: "the top layer of one 1 in thinner", Difference: less(2), Unproven: true}}
	money := func(m units.Money) string { return "$" + m.Text(2) }
	assert.Equal(t, []string{"22 lb more on bed one: saves $3.00, if someone qualified finds that the frame carries it", "the top layer of one 1 in thinner: saves at least $2.00"}, SmallWords(changes, units.US, money))
	assert.Nil(t, SmallWords(nil, units.US, money))
}

func TestOrdinal(t *testing.T) {
	for n, want := range map[int64]string{1: "1st bag", 2: "2nd bag", 3: "3rd bag", 4: "4th bag", 11: "11th bag", 12: "12th bag", 13: "13th bag", 21: "21st bag", 112: "112th bag"} {
		assert.Equal(t, want, ordinal(units.DecimalFromInt(n), "bag"))
	}
}

// Bags of 50 L at 10 against heaps of 200 L at 30. Above 150 L a heap costs less than
// four bags, above 200 L two heaps more than five, and above 450 L heaps always less.
// Where only 5 bags are to be had they end at 250 L.
func TestSentenceTellsOfVolumesInBetween(t *testing.T) {
	for stock, want := range map[string]string{
		"":  "expanded clay: from the 4th bag of 50 L, above 150 L, heap of Brackwell is cheaper than bags, but not at every volume up to 450 L; from there on always.",
		"5": "expanded clay: from the 4th bag of 50 L, above 150 L, heap of Brackwell is cheaper than bags, but not at every volume up to 250 L, where the bags on offer end.",
	} {
		job := jobtest.Files{
			Quotes: "quote,supplier,medium,form,pack,price,max_qty,size\nbag,Aldermoor,expanded clay,bag,50 L,10.00," + stock + ",8-16 mm\nheap,Brackwell,expanded clay,bulk,200 L,30.00,,8-16 mm\n",
			Beds:   "bed,volume\none,400 L\n",
			Media:  "medium,rinse_loss,settle\nexpanded clay,0,0\n",
		}.Job(t)
		plan, err := breakeven.Today(context.Background(), job, optimise.Options{})
		require.NoError(t, err)
		both := byvolume.SoldBothWays(job, plan.Fit)
		require.Len(t, both, 1)
		v, err := byvolume.OfMedium(job, both[0], "", 800)
		require.NoError(t, err)
		assert.Equal(t, want, Sentence(v, units.Metric))
	}
}

// A tick is a sum of steps; what a binary fraction adds is not written beside the axis.
func TestTicksAreShort(t *testing.T) {
	for _, ends := range [][2]float64{{78.35, 79.05}, {0, 0.3}, {1.1, 1.7}, {1900, 2060}, {0, 1e6}} {
		for _, tick := range (plainTicks{}).Ticks(ends[0], ends[1]) {
			assert.LessOrEqual(t, len(tick.Label), 7, "%v: %s", ends, tick.Label)
		}
	}
}
