package received_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
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

// Packs may be said with the word for them or with what each holds; another pack than the quote's is never counted as one.
func TestPacksAsTheyAreSaid(t *testing.T) {
	j := job(t)
	for said, want := range map[string]string{"55": "55", "55 bags": "55", "55 packs": "55", "55 x 50 L": "55", "55 × 50 L bags": "55", "55 bags of 50 L": "55", "ten bags": "10", "55 bags came": "55", "none": "0",
		"55 broken": "", "2 short": "", "55 x 40 L": "", "55 bulk bags": "", "55 L": "", "bags": "", "5 pallets": "", "1,234 bags": "", "-5 bags": "", "55 bags of sand": ""} {
		list, rep, err := received.ReadArrivals(strings.NewReader("quote,packs,rejected\nbags,\""+said+"\",\n"), "day.csv", j, nil)
		require.NoError(t, err)
		if want == "" {
			assert.False(t, rep.OK(), said)
			continue
		}
		require.True(t, rep.OK(), "%s: %v", said, rep.Err())
		assert.Equal(t, want, list[0].Packs.String(), said)
	}
	both, rep, err := received.ReadArrivals(strings.NewReader("item,quote,qty,packs\nperlite,bags,9,12\n"), "day.csv", j, nil)
	require.NoError(t, err)
	require.NoError(t, rep.Err(), "a column of its own name counts, and others are told of")
	assert.Equal(t, "12", both[0].Packs.String())
	assert.Len(t, rep.Warnings, 2)
	list, rep, err := received.ReadArrivals(strings.NewReader("quote,packs,rejected\nbags,12 bags,2 bags\nbags,12,100 L\n"), "day.csv", j, nil)
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	assert.Equal(t, "2", list[0].Rejected.String())
	assert.Equal(t, "2", list[1].Rejected.String())
}

// The sum of a bill's line is no price of one pack: which of the two an amount is, is asked where it is about what all cost.
//
//	10 bags for 90.00 as ordered; with 20 % of tax 108.00
func TestASumIsNoPriceOfOne(t *testing.T) {
	j := job(t)
	q := j.Quotes[slices.IndexFunc(j.Quotes, func(q *quotes.Quote) bool { return q.Name == "bags" })]
	ordered := []received.Ordered{{Order: "1", Quote: q, Packs: units.D("10"), Amount: units.M("90.00")}}
	for billed, want := range map[string]string{
		"9.00": "9.00", "9.50": "9.50", "20": "20.00", "90.00": "", "108.00": "", "108 each": "108.00", "108.00/bag": "108.00", "108 a ton": "",
	} {
		list, rep, err := received.ReadArrivals(strings.NewReader("item,qty received,price\nbags,10 bags,"+billed+"\n"), "day.csv", j, ordered)
		require.NoError(t, err)
		if want == "" {
			assert.False(t, rep.OK(), billed)
			continue
		}
		if assert.True(t, rep.OK(), "%s: %v", billed, rep.Err()) {
			assert.Equal(t, want, list[0].Billed.Text(2), billed)
		}
	}
}

// An order that is named twice would count double.
func TestAnOrderIsReadOnce(t *testing.T) {
	order := strings.Join(received.OrderHeads, ",") + "\nT-1,Tansy Hill,,,goods,bags,,perlite,,20,50 L,10.00,,200.00,USD\n"
	src := func(name string) files.Source { return files.Source{Name: name, R: strings.NewReader(order)} }
	_, rep, err := received.ReadOrders([]files.Source{src("a.csv"), src("b.csv")}, job(t))
	require.NoError(t, err)
	assert.False(t, rep.OK())
}

// A bill of 10.75 for one is held against the 10.00 of the order: 16 kept of 18 that came are 12.00 too much, and 10 by
// another bill at 9.90 are 1.00 less. What was never ordered is held against its quote.
func TestBillsByHand(t *testing.T) {
	j := job(t)
	ordered := []received.Ordered{{Order: "T-1", Quote: j.Quotes[0], Packs: units.DecimalFromInt(20), Amount: units.MoneyOf(units.DecimalFromInt(200))}}
	for _, c := range []struct {
		ordered []received.Ordered
		rows    string
		more    []string
		words   string
	}{
		{ordered, "18,2,$10.75\n", []string{"12.00"}, "The bills ask for 12.00 more than was agreed for what was kept. Ask for a bill at the order's prices before you pay."},
		{ordered, "18,2,10.75\nbags,10,,9.90\n", []string{"12.00", "-1.00"}, "The bills ask for 11.00 more than was agreed for what was kept. Ask for a bill at the order's prices before you pay."},
		{ordered, "10,,9.90\n", []string{"-1.00"}, "The bills ask for 1.00 less than was agreed for what was kept."},
		{ordered, "10,,10\n", []string{"0.00"}, "The bills ask for what was agreed, for what was kept."},
		{nil, "4,,10.50\n", []string{"2.00"}, "The bills ask for 2.00 more than was agreed for what was kept. Ask for a bill at the order's prices before you pay."},
	} {
		list, rep, err := received.ReadArrivals(strings.NewReader("quote,packs,rejected,billed\nbags,"+c.rows), "day.csv", j, c.ordered)
		require.NoError(t, err)
		require.NoError(t, rep.Err())
		counted := received.Count(j, c.ordered, list, received.LastDay(j, list))
		require.Len(t, counted, 1)
		var more []string
		for _, b := range counted[0].Bills {
			more = append(more, b.More.Text(2))
		}
		assert.Equal(t, c.more, more, c.rows)
		say := func(m units.Money) string { return m.Text(2) }
		assert.Equal(t, c.words, received.BilledWords(j, counted, say), "no tax is added to it")
		taxed := *counted[0].Quote
		taxed.Tax = units.DecimalFromInt(1)
		counted[0].Quote = &taxed
		assert.Equal(t, "Before tax t"+c.words[1:], received.BilledWords(j, counted, say))
		j.Settings.TaxIncluded = true
		assert.Equal(t, c.words, received.BilledWords(j, counted, say), "prices carry it")
		j.Settings.TaxIncluded = false
	}
	for _, bad := range []string{"about 10", "-3", "1,234", "£10", "10 EUR"} {
		_, rep, err := received.ReadArrivals(strings.NewReader("quote,packs,billed\nbags,18,\""+bad+"\"\n"), "day.csv", j, ordered)
		require.NoError(t, err)
		require.Len(t, rep.Problems, 1, bad)
		assert.Equal(t, "billed", rep.Problems[0].Heading)
	}
}
