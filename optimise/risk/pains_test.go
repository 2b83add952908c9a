package risk

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// Three suppliers, three things, three loads and one layer of three stones, against one
// of each and a layer of one: who states no delivery brings a load all the same.
func TestPainsByHand(t *testing.T) {
	job := tidyJob(t)
	got, err := Tidy(context.Background(), job, 0.02, 0, optimise.Options{})
	require.NoError(t, err)
	assert.Equal(t, Pains{Suppliers: 3, Things: 3, Loads: 3, Mixed: 1, Mixes: 1}, PainsOf(got.Cheapest.Plan))
	assert.Equal(t, Pains{Suppliers: 1, Things: 1, Loads: 1, Mixed: 0, Mixes: 1}, PainsOf(got.Plan))
	assert.Equal(t, "Plainer than the cheapest: one supplier, for 0.30 (1.1 %) more than the 28.50 that is the least. "+
		"It takes 1 supplier in place of 3, 1 thing to order in place of 3, 1 load to receive in place of 3 and no mixed layers in place of 1.",
		got.Words(func(m units.Money) string { return m.Text(2) }))

	got, err = Tidy(context.Background(), job, 0.01, 0, optimise.Options{})
	require.NoError(t, err)
	assert.Equal(t, "No plainer way to buy was found that costs at most 1 % more; the nearest, one supplier, costs 0.30 more.", got.Words(func(m units.Money) string { return m.Text(2) }))
}

// What is worse about a plainer way is said as well.
func TestPainsThatAreAdded(t *testing.T) {
	assert.Equal(t, "1 supplier in place of 2, but 3 loads to receive in place of 2", Pains{Suppliers: 1, Loads: 3}.Against(Pains{Suppliers: 2, Loads: 2}))
	assert.Equal(t, "2 kinds of filling in place of 1", Pains{Mixes: 2}.Against(Pains{Mixes: 1}))
	assert.Empty(t, Pains{Mixes: 2}.Against(Pains{Mixes: 2}))
}

// Beds of a count count; layers that take nothing do not; two beds with the same shares
// are one filling.
func TestPainsCountBeds(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,max_qty\na,Low,grit,100 L,9,3\nb,Low,grit,100 L,10,\n",
		Beds:   "bed,count,volume\none,2,100 L\ntwo,1,100 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	plan, err := optimise.Solve(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	p := PainsOf(plan)
	assert.Equal(t, 1, p.Things)
	assert.Equal(t, 0, p.Mixed)
	assert.Equal(t, 1, p.Mixes)
}
