package received_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers/received"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// Two members order 1000 L of a stone that loses nothing in 20 packs at 10. Where the bills ask for other prices or
// something is short, what the split of the plan leaves out is said with its money; to one who pays alone, nothing is.
func TestSplitLeavesOut(t *testing.T) {
	for _, c := range []struct {
		members [2]string
		row     string
		want    string
	}{
		{[2]string{"Ada", "Ben"}, "20,,10.75", "The split among the members is of the plan: the 15.00 that the bills ask for more is not in it. Settle that among you besides."},
		{[2]string{"Ada", "Ben"}, "20,,9.90", "The split among the members is of the plan: the 2.00 that the bills ask for less is not in it. Settle that among you besides."},
		{[2]string{"Ada", "Ben"}, "18,,10", "The split among the members is of the plan: the 20.00 to finish the beds is not in it. Settle that among you besides."},
		{[2]string{"Ada", "Ben"}, "18,,10.50", "The split among the members is of the plan: the 9.00 that the bills ask for more and the 20.00 to finish the beds are not in it. Settle that among you besides."},
		{[2]string{"Ada", "Ben"}, "20,,10", ""},
		{[2]string{"Ada", "Ada"}, "18,,10.50", ""},
	} {
		j := jobtest.Files{
			Quotes: "quote,supplier,medium,pack,price\nbags,Tansy Hill,grit,50 L,10\n", Media: jobtest.PlainMedia,
			Beds: "bed,volume,member\nleft,500 L," + c.members[0] + "\nright,500 L," + c.members[1] + "\n",
		}.Job(t)
		ordered := []received.Ordered{{Order: "T-1", Quote: j.Quotes[0], Packs: units.DecimalFromInt(20), Amount: units.MoneyOf(units.DecimalFromInt(200))}}
		list, rep, err := received.ReadArrivals(strings.NewReader("quote,packs,rejected,billed\nbags,"+c.row+"\n"), "day.csv", j, ordered)
		require.NoError(t, err)
		require.NoError(t, rep.Err())
		day := received.LastDay(j, list)
		counted := received.Count(j, ordered, list, day)
		finish, err := risk.Finish(t.Context(), j, received.Stock(counted), day, optimise.Options{})
		require.NoError(t, err)
		words := strings.Join(received.Settled(j, counted, day, finish).Words(func(m units.Money) string { return m.Text(2) }), "\n")
		if c.want == "" {
			assert.NotContains(t, words, "split", c.row)
			continue
		}
		assert.Contains(t, words, c.want)
	}
}
