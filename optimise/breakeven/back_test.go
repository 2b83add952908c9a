package breakeven

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A bed of 100 L and one bag of each. Bags of a cost x and 20 to bring, nothing from 100
// on; b costs 112. Up to 92 a is cheaper, from 100 on it comes free and is cheaper again
// for x, up to 112.
func TestComesBackByHand(t *testing.T) {
	const sheet = "quote,supplier,medium,pack,price,size\na,Aldermoor,expanded clay,100 L,85,8-16 mm\nb,Brackwell,expanded clay,100 L,112,8-16 mm\n"
	job := fromFiles(t, sheet, "bed,volume\none,100 L\n", "supplier,name,order_fee,free_over\nAldermoor,van,20,100\nBrackwell,truck,0,\n", "currency = \"EUR\"\n")
	target := named("a")(job)
	s := series(t, job, []Target{target}, Options{Depth: Every})[0]
	require.Empty(t, s.Unproven)
	require.NotNil(t, s.Leaves)
	assert.Equal(t, "92", s.Leaves.String())
	require.NotNil(t, s.ComesBack())
	assert.Equal(t, "100", s.ComesBack().String())
	assert.Equal(t, "100.0000", deref(seriesDocument(s, target.Digits(job)).ComesBack))

	// Where nothing hangs on the price it does not.
	job = fromFiles(t, sheet, "bed,volume\none,100 L\n", "supplier,name,order_fee,free_over\nAldermoor,van,20,\nBrackwell,truck,0,\n", "currency = \"EUR\"\n")
	s = series(t, job, []Target{named("a")(job)}, Options{Depth: Every})[0]
	require.NotNil(t, s.Leaves)
	assert.Nil(t, s.ComesBack())
}
