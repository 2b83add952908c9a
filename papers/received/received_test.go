package received_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/files/jobtest"
)

func job(t *testing.T) *quotes.Job {
	t.Helper()
	return jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,size\nbags,Tansy Hill,perlite,50 L,10,5-10 mm\n", Beds: "bed,volume\nbox,1000 L\n",
		Settings: "currency = \"USD\"\ndate = 2026-04-06\n",
	}.Job(t)
}

// Of 20 bags for 200.00 come 12, and on another day 300 L, which are 6; 2 of the first are
// torn. 16 are good and 4 are short.
func TestCountByHand(t *testing.T) {
	j := job(t)
	order := strings.Join(received.OrderHeads, ",") + "\nT-1,Tansy Hill,,,goods,bags,,perlite,,20,50 L,10.00,,200.00,USD\nT-1,Tansy Hill,,,delivery,,delivered,,,1,,,,15.00,USD\n"
	ordered, rep, err := received.ReadOrder(strings.NewReader(order), "order.csv", j)
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	require.Len(t, ordered, 1, "delivery is no goods")
	assert.Equal(t, "200.00", ordered[0].Amount.Text(2))

	var arrived []received.Arrival
	for _, text := range []string{"quote,packs,rejected,date\nbags,12,2,2026-04-07\n", "quote,volume,date\nbags,300 L,2026-04-09\n"} {
		list, rep, err := received.ReadArrivals(strings.NewReader(text), "day.csv", j, ordered)
		require.NoError(t, err)
		require.NoError(t, rep.Err())
		arrived = append(arrived, list...)
	}
	assert.Equal(t, "2026-04-09", received.LastDay(j, arrived).String())
	counted := received.Count(j, ordered, arrived, received.LastDay(j, arrived))
	require.Len(t, counted, 1)
	c := counted[0]
	assert.Equal(t, "20 18 2 16 4 0", strings.Join([]string{c.Ordered.String(), c.Arrived.String(), c.Rejected.String(), c.Accepted().String(), c.Short().String(), c.Over().String()}, " "))
	stock := received.Stock(counted)
	require.Len(t, stock, 1)
	assert.Equal(t, "16", stock[0].Packs.String())
}

// An order that is named twice would count double.
func TestAnOrderIsReadOnce(t *testing.T) {
	order := strings.Join(received.OrderHeads, ",") + "\nT-1,Tansy Hill,,,goods,bags,,perlite,,20,50 L,10.00,,200.00,USD\n"
	src := func(name string) files.Source { return files.Source{Name: name, R: strings.NewReader(order)} }
	_, rep, err := received.ReadOrders([]files.Source{src("a.csv"), src("b.csv")}, job(t))
	require.NoError(t, err)
	assert.False(t, rep.OK())
}
