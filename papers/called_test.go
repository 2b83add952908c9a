package papers

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/quotes/files/jobtest"
)

// Two packs of what a supplier calls one thing are told apart wherever they stand by themselves.
func TestPacksOfOneNameAreToldApart(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,item,medium,form,pack,price,size\nbig,Aldermoor,Clay pebbles,expanded clay,bag,50 L,22.50,8-16 mm\nsmall,Aldermoor,Clay pebbles,expanded clay,bag,10 L,6.99,8-16 mm\n",
		Beds:   "bed,volume\none,50 L\n",
	}.Job(t)
	plan := bought(t, job, bill.Item{Quote: named(t, job, "big"), Steps: 1}, bill.Item{Quote: named(t, job, "small"), Steps: 2})
	orders, err := Orders(plan, Style{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, orders[0].Page(Style{}).Markdown(&b))
	assert.Contains(t, b.String(), "Clay pebbles (50 L bag) and Clay pebbles (10 L bag): packed and closed")
	ordered, err := PlanOrder(plan)
	require.NoError(t, err)
	b.Reset()
	require.NoError(t, Gates(job, ordered)[0].Page(Style{}).Markdown(&b))
	assert.Contains(t, b.String(), "Clay pebbles (50 L bag): count 1 bag;")
	assert.Contains(t, b.String(), "| Clay pebbles (10 L bag) |  | 8-16 mm |", "the rows to tick")
}
