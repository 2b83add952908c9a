package received_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/files/jobtest"
)

// crates is a job with two things to buy, and crate orders of them.
func crates(t *testing.T) *quotes.Job {
	t.Helper()
	return jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price\nbags,Tansy Hill,perlite,50 L,10\nheap,Low Ford,perlite,500 L,95\n", Beds: "bed,volume\nbox,1000 L\n",
		Settings: "currency = \"USD\"\ndate = 2026-04-06\n",
	}.Job(t)
}

// order is the CSV of an order, each line "QUOTE,PACKS,AMOUNT".
func order(name, number, due string, lines ...string) files.Source {
	text := strings.Join(received.OrderHeads, ",") + "\n"
	for _, l := range lines {
		c := strings.Split(l, ",")
		text += number + ",,," + due + ",goods," + c[0] + ",,,," + c[1] + ",,,," + c[2] + ",USD\n"
	}
	return files.Source{Name: name, R: strings.NewReader(text)}
}

// Ordered are 20 bags for 160 and a heap for 95 by 20 April, and on 5 April, to finish, 4 bags
// more for 40 by the 30th.
func TestWhatIsUnderWay(t *testing.T) {
	const all = "heap,1,2026-04-04"
	for _, c := range []struct{ name, on, arrived, want string }{
		{"nothing told on the last day", "2026-04-20", "", "bags 24 under way 24 short 0 worth 0.00; heap 1 under way 1 short 0 worth 0.00"},
		{"nothing told on the day after", "2026-04-21", "", "bags 24 under way 4 short 20 worth 160.00; heap 1 under way 0 short 1 worth 95.00"},
		{"nothing is coming", "2026-04-06", "heap,0,", "bags 24 under way 24 short 0 worth 0.00; heap 1 under way 0 short 1 worth 95.00"},
		{"the rest of a line is short", "2026-04-06", "bags,12,2026-04-03\n" + all, "bags 24 under way 4 short 8 worth 64.00; heap 1 under way 0 short 0 worth 0.00"},
		{"two days of one order", "2026-04-06", "bags,12,2026-04-03\nbags,8,2026-04-04\n" + all, "bags 24 under way 4 short 0 worth 0.00; heap 1 under way 0 short 0 worth 0.00"},
		{"what was bought to finish came", "2026-04-06", "bags,16,2026-04-03\nbags,4,2026-04-06\n" + all, "bags 24 under way 0 short 4 worth 33.33; heap 1 under way 0 short 0 worth 0.00"},
		{"no days: the older order first", "2026-04-06", "bags,20,\n" + all, "bags 24 under way 4 short 0 worth 0.00; heap 1 under way 0 short 0 worth 0.00"},
		{"more than the older order", "2026-04-06", "bags,22,\n" + all, "bags 24 under way 0 short 2 worth 16.67; heap 1 under way 0 short 0 worth 0.00"},
		{"the row says which order", "2026-04-06", "bags,4,2026-04-03,T-2026\n" + all, "bags 24 under way 4 short 16 worth 128.00; heap 1 under way 0 short 0 worth 0.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := crates(t)
			ordered, rep, err := received.ReadOrders([]files.Source{order("a", "T-2026", "2026-04-20", "bags,20,160", "heap,1,95"), order("b", "2026-04-05/1", "2026-04-30", "bags,4,40")}, job)
			require.NoError(t, err)
			require.NoError(t, rep.Err())
			rows := "quote,packs,date,order\n"
			for l := range strings.SplitSeq(c.arrived, "\n") {
				if l != "" {
					rows += l + strings.Repeat(",", 3-strings.Count(l, ",")) + "\n"
				}
			}
			arrived, rep, err := received.ReadArrivals(strings.NewReader(rows), "a.csv", job, ordered)
			require.NoError(t, err)
			require.NoError(t, rep.Err())
			day, err := time.Parse(time.DateOnly, c.on)
			require.NoError(t, err)
			on := quotes.DateOf(day)
			var got []string
			for _, k := range received.Count(job, ordered, arrived, on) {
				got = append(got, k.Quote.Name+" "+k.Ordered.String()+" under way "+k.UnderWay().String()+" short "+k.Short().String()+" worth "+k.Worth.Text(2))
			}
			assert.ElementsMatch(t, strings.Split(c.want, "; "), got)
		})
	}
}

// An arrival that no order bears out is taken with a warning.
func TestArrivalsThatNoOrderBearsOut(t *testing.T) {
	job := crates(t)
	ordered, _, err := received.ReadOrders([]files.Source{order("a", "2026-04-05/1", "", "bags,20,160")}, job)
	require.NoError(t, err)
	for text, want := range map[string]string{
		"bags,3,2026-04-04": `a.csv:2:8: warning: date: "bags" came on 2026-04-04, before it was ordered on 2026-04-05`,
		"heap,3,2026-04-06": `a.csv:2:1: warning: quote: "heap" is on none of the orders, so it counts as sent unasked`,
		"bags,3,2026-04-05": "",
		"heap,0,":           "",
	} {
		_, rep, err := received.ReadArrivals(strings.NewReader("quote,packs,date\n"+text+"\n"), "a.csv", job, ordered)
		require.NoError(t, err)
		require.NoError(t, rep.Err())
		if want == "" {
			assert.Empty(t, rep.Warnings, text)
			continue
		}
		require.Len(t, rep.Warnings, 1, text)
		assert.Contains(t, rep.Warnings[0].Error(), strings.Replace(want, "warning: ", "", 1), text)
	}
}

// Orders that lie beside those that were named count as well, once each; a file of another
// kind is passed over, and what cannot be read is told.
func TestOrdersThatLieThere(t *testing.T) {
	job := crates(t)
	named, _, err := received.ReadOrders([]files.Source{order("named.csv", "2026-04-06/1", "", "bags,20,160")}, job)
	require.NoError(t, err)
	there := func() []files.Source {
		return []files.Source{
			order("orders/a.csv", "2026-04-06/1", "", "bags,20,160"), order("orders/b.csv", "2026-04-06/2", "", "heap,1,95"),
			order("orders/c.csv", "2026-04-06/2", "", "heap,2,190"), order("orders/d.csv", "2026-04-06/3", "", "gone,2,190"),
			{Name: "orders/gate.csv", R: strings.NewReader("# to tick\nquote,packs\nbags,\n")},
		}
	}
	list, warned, err := received.Lying(there(), named, job)
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, "2026-04-06/2 1", list[0].Order+" "+list[0].Packs.String())
	var told []string
	for _, w := range warned {
		told = append(told, w.Pos.String()+" "+w.Found)
	}
	assert.Equal(t, []string{"orders/b.csv order 2026-04-06/2 to Low Ford lies there and was not named; it is counted as well",
		"orders/c.csv another order of the number 2026-04-06/2 lies there too and is not counted",
		`orders/d.csv the order that lies there cannot be read, so it is not counted: the quote "gone" is not in the job, want a quote of quotes.csv`}, told)
	// With none named they stand for the order; what was changed since is told.
	list, warned, err = received.Lying(there()[:2], nil, job)
	require.NoError(t, err)
	assert.Len(t, list, 2)
	assert.Empty(t, warned)
	list, warned, err = received.Lying([]files.Source{order("orders/a.csv", "2026-04-06/1", "", "bags,30,240")}, named, job)
	require.NoError(t, err)
	assert.Empty(t, list)
	require.Len(t, warned, 1)
	assert.Contains(t, warned[0].Found, "another order of the number 2026-04-06/1 lies there and is not counted")
}
