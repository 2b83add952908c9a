package packs

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/units"
)

func of(t *testing.T, number, unit, word string) Pack {
	p, why := Of(number, unit, word, units.MarkPoint)
	require.Empty(t, why)
	return p
}

func TestOnePack(t *testing.T) {
	yard, bag, bulkBag := of(t, "1", "yd3", ""), of(t, "50", "L", "bags"), of(t, "0.8", "m3", "bag")
	assert.Equal(t, "sack", bulkBag.Form, "a bag as large as that is a bulk bag")
	assert.Equal(t, "bag", of(t, "25", "kg", "sack").Form, "and a small sack a bag")
	assert.True(t, Loose(yard) && Single(yard) && !Loose(bag))
	assert.True(t, bag.Fits(Pack{Form: "bag"}))
	assert.False(t, bag.Fits(yard))
	assert.False(t, yard.Fits(Pack{Form: "bag"}), "a yard is no bag")
	assert.True(t, yard.Counts(of(t, "1", "yd3", "")))
	assert.True(t, yard.Counts(Pack{}), "a bare number counts anything")
	assert.False(t, yard.Counts(Pack{Form: "bag"}))
	assert.Equal(t, "50 L", Pack{Form: "bag"}.With(bag).Text)
	assert.Equal(t, "sack", of(t, "2", "yd3", "").With(Pack{Form: "bag"}).Form, "what is called a bag and holds so much")
	assert.True(t, Pack{Form: "pallet"}.Unheld())
	assert.Equal(t, "sack", FormOf("ton bags"))
	assert.Equal(t, "m3", UnitName("cube"))
	_, why := Of("3", "furlongs", "", units.MarkPoint)
	assert.NotEmpty(t, why)
}
