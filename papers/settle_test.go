package papers

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise"
	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// plot is one bed of 1000 L, placed without losses by media of its own, and two
// ways to fill it.
// settle counts and finds the cheapest way to finish.
func settle(job *quotes.Job, counted []received.Counted, on quotes.Date) (*received.Settlement, error) {
	finish, err := optimise.FinishWith(context.Background(), job, received.Stock(counted), on, optimise.Options{})
	if err != nil {
		return nil, err
	}
	return received.Settled(job, counted, on, finish), nil
}

var plot = filesText{
	quotes: `quote,supplier,medium,form,pack,price,breaks,carbonate,valid_until,rinse_loss
bags,Tansy Hill Supply,pebble,bag,50 L,10.00,20: 8.00,none,2026-06-30,
heap,Low Ford Quarry,pebble,bulk,500 L,95.00,,none,2026-04-30,
`,
	beds:     "bed,length,width,depth\nbox,2 m,1 m,50 cm\n",
	delivery: "supplier,order_fee\nTansy Hill Supply,15\nLow Ford Quarry,30\n",
}

func (f filesText) withMedia(t require.TestingT) *quotes.Job {
	return jobtest.Files{
		Quotes: f.quotes, Beds: f.beds, Delivery: f.delivery, Settings: f.settings + "\ncurrency = \"USD\"\n",
		Media: "medium,dry_density,held_water,voids,feel,carbonate,breaks_down\npebble,1 kg/L,0.1,0.4,smooth,none,no\n", Today: today,
	}.Job(t)
}

func arrive(t require.TestingT, job *quotes.Job, ordered []received.Ordered, texts ...string) []received.Arrival {
	var out []received.Arrival
	for i, text := range texts {
		a, rep, err := received.ReadArrivals(strings.NewReader(text), fmt.Sprintf("day%d.csv", i+1), job, ordered)
		require.NoError(t, err)
		require.NoError(t, rep.Err())
		out = append(out, a...)
	}
	return out
}

// 1000 L is 20 bags: 20 × 8 + 15 = 175, against 2 × 95 + 30 = 220 by the heap.
// Of the 20 bags 12 come on the first day and 5 on the second, 2 of them torn: 15
// are good, 750 L, and 5 are short, worth 5 × 8 = 40. To finish: 250 L, 5 bags at
// the list price are 50 + 15 = 65, half a heap does not exist, a heap is 125.
func TestSettleByHand(t *testing.T) {
	job := plot.withMedia(t)
	plan := solve(t, job)
	require.Equal(t, "175.00", plan.Bill.Total.Text(2))
	ordered, err := PlanOrder(plan)
	require.NoError(t, err)
	got := received.Count(job, ordered, arrive(t, job, ordered,
		"quote,packs,note\nbags,12,van full\n", "Quote;Packs;Rejected;Date\nbags;5;2;2026-04-20\n"), job.Settings.Date)
	require.Len(t, got, 1)
	c := got[0]
	assert.Equal(t, "20 17 2 15 5 0 40.00", fmt.Sprint(c.Ordered, " ", c.Arrived, " ", c.Rejected, " ", c.Accepted(), " ", c.Short(), " ", c.Over(), " ", c.Worth.Text(2)))

	s, err := settle(job, got, job.Settings.Date)
	require.NoError(t, err)
	require.Equal(t, optimise.Optimal, s.Plan.Status)
	require.Len(t, s.Buy, 1)
	assert.Equal(t, "bags", s.Buy[0].Quote.Name)
	assert.Equal(t, "5", s.Buy[0].Packs.String())
	assert.Equal(t, "65.00", s.ToPay.Text(2))
	assert.InDelta(t, 750, float64(s.Used[0]), 1e-3)
	assert.Len(t, job.Quotes, 2, "the job is not changed")
	assert.Len(t, job.Delivery, 2)
}

// Once the bags' quote has run out, only the heap is left: 95 + 30 = 125; and once
// both have, nothing finishes the bed.
func TestSettleWithQuotesThatStillHold(t *testing.T) {
	f := plot
	f.quotes = strings.Replace(f.quotes, "2026-06-30", "2026-04-10", 1)
	job := f.withMedia(t)
	ordered, err := PlanOrder(solve(t, job))
	require.NoError(t, err)
	counted := received.Count(job, ordered, arrive(t, job, ordered, "quote,packs\nbags,15\n"), job.Settings.Date)
	day := func(after int) quotes.Date { return quotes.DateOf(today.AddDate(0, 0, after)) }
	s, err := settle(job, counted, day(10))
	require.NoError(t, err)
	assert.Equal(t, "125.00", s.ToPay.Text(2))
	s, err = settle(job, counted, day(40))
	require.NoError(t, err)
	assert.Equal(t, optimise.Infeasible, s.Plan.Status)
	assert.Nil(t, s.Plan.Bill)
}

// A measured volume is packs too: 480 L of a 500 L heap are 0.96.
func TestMeasuredVolume(t *testing.T) {
	job := plot.withMedia(t)
	ordered := []received.Ordered{{Order: "1", Quote: named(t, job, "heap"), Packs: units.D("2"), Amount: units.M("190")}}
	got := received.Count(job, ordered, arrive(t, job, ordered, "quote,volume,rejected\nheap,480 L,\nHEAP,\"0,5 m3\",20 L\n"), job.Settings.Date)
	assert.Equal(t, "0.96", got[0].Arrived.Sub(units.D("1")).String())
	assert.Equal(t, "0.04", got[0].Rejected.String())
	assert.Equal(t, "0.08", got[0].Short().String())
	assert.Equal(t, "7.60", got[0].Worth.Text(2), "190 × 0.08 / 2")
}

func TestArrivalsProblems(t *testing.T) {
	job, _ := gardens.job(t)
	ordered := []received.Ordered{{Order: "1", Quote: named(t, job, "lava"), Site: "north", Packs: units.D("2")}, {Order: "2", Quote: named(t, job, "lava"), Site: "south", Packs: units.D("2")},
		{Order: "3", Quote: named(t, job, "pebbles"), Site: "north", Packs: units.D("2")}}
	for _, c := range []struct{ text, want string }{
		{"", "a.csv: the file has no heading line, want a first row with the headings quote"},
		{"quote\nlava\n", "a.csv: there is no heading packs and none volume, want one of the two, to say how much came"},
		{"packs\n3\n", `a.csv:1: quote: the heading is missing, want the headings quote`},
		{"quote,packs,packs\n", `a.csv:1:13: packs: the heading stands there twice, want each heading once`},
		{"quote,packs\nsand,3\n", `a.csv:2:1: quote: the quote "sand" is not in the job, want a quote of the order`},
		{"quote,packs\npebbles\n", `a.csv:2: the row has 1 cells and the headings are 2, want one cell for each heading`},
		{"quote,packs\npebbles,\n", `a.csv:2:9: packs: neither packs nor a volume is given, want how much came; 0 if nothing comes any more`},
		{"quote,packs\npebbles,-1\n", `a.csv:2:9: packs: "-1" is below 0, want 0 or more`},
		{"quote,packs\npebbles,many\n", `a.csv:2:9: packs: "many" is not a number, want digits such as 12.50`},
		{"quote,packs\npebbles,\"1,234\"\n", `a.csv:2:9: packs: "1,234" can be read as 1234 or 1.234`},
		{"quote,packs,volume\npebbles,1,50 L\n", `a.csv:2:11: volume: packs and a volume are both given, want one of the two`},
		{"quote,volume\npebbles,50\n", `a.csv:2:9: volume: "50"`},
		{"quote,packs,rejected\npebbles,1,2\n", `a.csv:2:11: rejected: 2 of 1 packs are rejected, want no more than came`},
		{"quote,packs,site\nlava,1,east\n", `a.csv:2:8: site: the site "east" is not in the job, want one of north, south`},
		{"quote,packs\nlava,1\n", `a.csv:2: site: "lava" may have come to north or south and the row does not say, want the site it came to`},
		{"quote,packs,date\npebbles,1,some day\n", `a.csv:2:11: date: "some day" is not a day, want a day such as 2026-05-03`},
		{"quote,packs\n\"pebbles,1\n", `a.csv:2:12: extraneous or missing " in quoted-field`},
		{"quote,packs\n\xff,1\n", "a.csv: the text is not UTF-8, want a file saved as CSV UTF-8"},
	} {
		out, rep, err := received.ReadArrivals(strings.NewReader(c.text), "a.csv", job, ordered)
		require.NoError(t, err)
		require.NotEmpty(t, rep.Problems, "%q", c.text)
		assert.Contains(t, rep.Problems[0].Error(), c.want, "%q", c.text)
		assert.Nil(t, out)
	}
}

func TestArrivalsAreReadAsPeopleWriteThem(t *testing.T) {
	job, _ := gardens.job(t)
	ordered := []received.Ordered{{Order: "3", Quote: named(t, job, "pebbles"), Site: "north", Packs: units.D("2")}}
	got, rep, err := received.ReadArrivals(strings.NewReader("\ufeff# from the van\n\n Packs \tQUOTE\tColour\n2\tPebbles\tred\n\t\t\n"), "a.csv", job, ordered)
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	require.Len(t, got, 1)
	assert.Equal(t, "north", got[0].Site, "the only site it was ordered to")
	require.Len(t, rep.Warnings, 1)
	assert.Contains(t, rep.Warnings[0].Error(), `"Colour" is no heading here`)
}

func TestNotes(t *testing.T) {
	job := plot.withMedia(t)
	bags, heap := named(t, job, "bags"), named(t, job, "heap")
	ordered := []received.Ordered{{Order: "2026-04-06/1", Quote: bags, Packs: units.D("20"), Amount: units.M("160")}}
	counted := received.Count(job, ordered, []received.Arrival{
		{Quote: bags, Packs: units.D("17"), Rejected: units.D("2"), Note: "torn"}, {Quote: heap, Packs: units.D("1")}}, job.Settings.Date)
	got := Notes(job, counted, Style{})
	require.Len(t, got, 2)
	assert.Equal(t, `To Low Ford Quarry

What came differs from what was ordered:
- pebble: 1 × 500 L came and none was ordered. Please say whether you want back what was not ordered, or leave it at no charge.
`, got[0].Text)
	assert.Equal(t, `To Tansy Hill Supply, about order 2026-04-06/1

What came differs from what was ordered:
- pebble: 20 × 50 L bag ordered, 17 came. Refused: 2 (torn). Short by 5, about 250 L.

At the order's prices what is missing comes to $40.00. Please say by return whether you
bring it at no further charge or take it off the bill.
`, got[1].Text)
	assert.Empty(t, Notes(job, received.Count(job, ordered, []received.Arrival{{Quote: bags, Packs: units.D("20")}}, job.Settings.Date), Style{}), "all as ordered: nothing to write")
}

// However the goods are split over days and files, the count is the same; short
// and over are never both; accepted = ordered − under way −
// short + over.
func TestCountAddsUp(t *testing.T) {
	job := plot.withMedia(t)
	bags := named(t, job, "bags")
	rapid.Check(t, func(t *rapid.T) {
		ordered := []received.Ordered{{Order: "1", Quote: bags, Packs: units.DecimalFromInt(rapid.Int64Range(0, 40).Draw(t, "ordered")), Amount: units.M("100")},
			{Order: "2", Day: after(2), Due: after(rapid.IntRange(-9, 9).Draw(t, "due")), Quote: bags, Packs: units.DecimalFromInt(rapid.Int64Range(0, 40).Draw(t, "ordered again")), Amount: units.M("80")}}
		var rows []received.Arrival
		came, rejected := int64(0), int64(0)
		for i := range rapid.IntRange(0, 5).Draw(t, "days") {
			n := rapid.Int64Range(0, 20).Draw(t, fmt.Sprint("packs ", i))
			bad := rapid.Int64Range(0, n).Draw(t, fmt.Sprint("rejected ", i))
			rows = append(rows, received.Arrival{Quote: bags, Packs: units.DecimalFromInt(n), Rejected: units.DecimalFromInt(bad), Day: after(rapid.IntRange(0, 5).Draw(t, fmt.Sprint("day ", i)))})
			came += n
			rejected += bad
		}
		c := received.Count(job, ordered, rows, job.Settings.Date)[0]
		if !c.Arrived.Equal(units.DecimalFromInt(came)) || !c.Rejected.Equal(units.DecimalFromInt(rejected)) {
			t.Fatalf("%s came and %s rejected, want %d and %d", c.Arrived, c.Rejected, came, rejected)
		}
		if c.Short().Sign() > 0 && c.Over().Sign() > 0 {
			t.Fatalf("short by %s and over by %s", c.Short(), c.Over())
		}
		if !c.Accepted().Equal(c.Ordered.Sub(c.UnderWay()).Sub(c.Short()).Add(c.Over())) {
			t.Fatalf("%s accepted, %s ordered, %s under way, %s short, %s over", c.Accepted(), c.Ordered, c.UnderWay(), c.Short(), c.Over())
		}
		if c.UnderWay().Sign() > 0 && c.Over().Sign() > 0 {
			t.Fatalf("over by %s while %s are under way", c.Over(), c.UnderWay())
		}
		if c.Worth.Cmp(units.M("180")) > 0 {
			t.Fatalf("what is missing is worth %s of 180", c.Worth)
		}
	})
}

func FuzzReadArrivals(f *testing.F) {
	for _, s := range []string{"quote,packs\nbags,12\n", "Quote;Packs;Rejected\nbags;5;2\n", "quote,volume,date,note\nheap,1 yd3,2026-04-20,\"a, b\"\n", "\ufeffquote\tpacks\n", "#\n\n", "quote,packs\nbags,\"1,234\"\n"} {
		f.Add(s)
	}
	job := plot.withMedia(f)
	f.Fuzz(func(t *testing.T, text string) {
		got, rep, err := received.ReadArrivals(strings.NewReader(text), "a.csv", job, nil)
		require.NoError(t, err, "a text in memory can always be read")
		if !rep.OK() {
			require.Nil(t, got)
			for _, p := range rep.Problems {
				require.Equal(t, "a.csv", p.File)
				require.NotEmpty(t, p.Found)
			}
			return
		}
		for _, a := range got {
			require.NotNil(t, a.Quote)
			require.GreaterOrEqual(t, a.Packs.Sign(), 0)
			require.LessOrEqual(t, a.Rejected.Cmp(a.Packs), 0)
		}
	})
}
