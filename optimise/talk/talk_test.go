package talk_test

import (
	"context"
	"encoding/csv"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/talk"
	"mediabuy/papers"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

func talks(t *testing.T, job *quotes.Job, suppliers ...string) []*talk.Talk {
	plan, err := breakeven.Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	out, err := talk.Of(context.Background(), job, plan, suppliers, talk.Options{})
	require.NoError(t, err)
	return out
}

func takenText(list []breakeven.Bought) string {
	var out []string
	for _, b := range list {
		out = append(out, b.Packs.String()+" "+b.Quote.Name)
	}
	return strings.Join(out, ", ")
}

func steps(l talk.Line) []string {
	var out []string
	for _, s := range l.Steps {
		words := s.Price.Text(2) + ": " + takenText(s.Buy)
		if s.All {
			words += ", all"
		}
		out = append(out, words)
	}
	return out
}

// 200 L of top, where only grit may go, above 400 L. Aldermoor's four bags of grit
// above eight of rock cost 4·10 + 8·7 = 96. Brackwell brings grit for 6 an order. At x
// a bag
//
//	the top is 4x + 6 + 56 < 96   below 8.50; 8.49 is Aldermoor's for other rock, so 8.48
//	all of it  12x + 6 < 4x + 62  below 7.00, which is Aldermoor's price, so 6.99
//
// Delivered free the top is 4x + 56 < 96 below 10.00, which Aldermoor asks: 9.99.
func TestLowerPricesByHand(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,item,medium,form,pack,price,size\ngrit,Aldermoor,a grit,grit,bag,50 L,10,8-16 mm\nrock,Aldermoor,,rock,bag,50 L,7,8-16 mm\nother,Aldermoor,,rock,bag,50 L,8.49,8-16 mm\nbgrit,Brackwell,,grit,bag,50 L,12,8-16 mm\n",
		Beds:   "bed,volume,top_volume\none,600 L,200 L\n", Delivery: "supplier,order_fee\nBrackwell,6\nAldermoor,0\n", Media: jobtest.PlainMedia,
	}.Job(t)
	talk := talks(t, job, "Brackwell")[0]
	require.Len(t, talk.Lines, 1)
	assert.True(t, talk.Lines[0].Now.IsZero())
	assert.Equal(t, []string{"8.48: 4 bgrit", "6.99: 12 bgrit, all"}, steps(talk.Lines[0]))
	require.Len(t, talk.Extras, 1)
	free := talk.Extras[0]
	assert.True(t, free.Worth.IsZero())
	assert.Empty(t, free.Buy)
	require.Len(t, free.At, 1)
	assert.Equal(t, []string{"9.99: 4 bgrit"}, steps(free.At[0]))
}

// 200 L of top in four bags of Brackwell's grit at 10, above 400 L in eight bags of rock: at less than the rock costs, grit fills
// all twelve. A price below half of today's is asked of nobody who sells already.
func TestNoPriceBelowHalfOfWhatIsBought(t *testing.T) {
	for rock, want := range map[string][]string{"6": {"5.99: 12 bgrit, all"}, "4": nil} {
		job := jobtest.Files{
			Quotes: "quote,supplier,medium,form,pack,price\nrock,Aldermoor,rock,bag,50 L," + rock + "\nbgrit,Brackwell,grit,bag,50 L,10\n",
			Beds:   "bed,volume,top_volume\none,600 L,200 L\n", Media: jobtest.PlainMedia,
		}.Job(t)
		talk := talks(t, job, "Brackwell")[0]
		require.Len(t, talk.Lines, 1)
		assert.Equal(t, "4", talk.Lines[0].Now.String())
		assert.Equal(t, want, steps(talk.Lines[0]), rock)
	}
}

// 500 L: ten bags of Aldermoor at 10 are 100. Brackwell sells by the whole cubic metre
// at 150, of which half would do: in half steps it is 75, worth 25. By the whole one
// it must cost less than 100.
func TestHalfAStepByHand(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,form,pack,price,size\ngrit,Aldermoor,grit,bag,50 L,10,8-16 mm\nheap,Brackwell,grit,bulk,1 m3,150,8-16 mm\n",
		Beds:   "bed,volume\none,500 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	got := talks(t, job, "Brackwell", "Aldermoor")
	assert.Equal(t, []string{"99.99: 1 heap, all"}, steps(got[0].Lines[0]))
	require.Len(t, got[0].Extras, 1, "nothing is charged for delivery")
	half := got[0].Extras[0]
	assert.Equal(t, "0.5", half.Step.String())
	assert.Equal(t, "25.00", half.Worth.Text(2))
	assert.Equal(t, "0.5 heap", takenText(half.Buy))
	assert.True(t, half.All)
	assert.Empty(t, got[1].Lines[0].Steps, "who sells all of it has nothing to gain")
	assert.Empty(t, got[1].Extras)
}

// Where only the nearest change is looked for, what is not bought today still has its
// first price, and what is bought today none.
func TestNearestOnly(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,form,pack,price,size\nrock,Aldermoor,rock,bag,50 L,7,8-16 mm\nagrit,Aldermoor,grit,bag,50 L,12,8-16 mm\ngrit,Brackwell,grit,bag,50 L,10,8-16 mm\n",
		Beds:   "bed,volume,top_volume\none,600 L,200 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	plan, err := breakeven.Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	got, err := talk.Of(context.Background(), job, plan, []string{"Aldermoor"}, talk.Options{Breakeven: breakeven.Options{Depth: breakeven.Nearest}})
	require.NoError(t, err)
	require.Len(t, got[0].Lines, 2)
	assert.Equal(t, "8", got[0].Lines[0].Now.String())
	assert.Empty(t, got[0].Lines[0].Steps)
	assert.Equal(t, []string{"9.99: 8 rock, 4 agrit, all"}, steps(got[0].Lines[1]))
	assert.Empty(t, got[0].All)
}

// Free delivery is told at what it spares on the order of today, though with it
// smaller orders would pay: 40 for the van and 7 % of it.
func TestFreeDeliveryOfWhoSellsAll(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,form,pack,price,size\ngrit,Aldermoor,grit,bag,50 L,10,8-16 mm\n",
		Beds:   "bed,volume\none,500 L\n", Delivery: "supplier,order_fee\nAldermoor,40\n", Media: jobtest.PlainMedia, Settings: "tax = \"7%\"\n",
	}.Job(t)
	free := talks(t, job, "Aldermoor")[0].Extras[0]
	assert.Equal(t, "42.80", free.Worth.Text(2))
	assert.False(t, free.More)
}

// Who sells two things is told what is off both: the 100 L of top and 100 L below it
// cost 20 of clay-like grit and 10 of rock at Aldermoor; Brackwell asks 25 and 11.
// At a factor f both come from Brackwell below 30/36, the rock alone below 10/11.
func TestOffAllPrices(t *testing.T) {
	job := jobtest.Files{
		Quotes: `quote,supplier,medium,form,pack,price,size
grit,Aldermoor,grit,bag,100 L,20,8-16 mm
rock,Aldermoor,rock,bag,100 L,10,8-16 mm
bgrit,Brackwell,grit,bag,100 L,25,8-16 mm
brock,Brackwell,rock,bag,100 L,11,8-16 mm
`,
		Beds: "bed,volume,top_volume\none,200 L,100 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	one := talks(t, job, "Brackwell")[0]
	var got []string
	for _, o := range one.All {
		got = append(got, o.Share.String()+": "+takenText(o.Buy))
	}
	// 10/11 is 0.909, so 9.1 % off; grit changes at 20/25, 20 % off, and is told below it.
	assert.Equal(t, []string{"0.091: 1 brock", "0.201: 1 bgrit, 1 brock"}, got)
}

// Over random jobs the prices told, planned again by themselves, give the purchase
// told, and no other supplier's name, item or price stands in a sheet.
func TestTalksOfRandomJobs(t *testing.T) {
	jobtest.Long(t)
	seeds := int(jobtest.Seeds(2, 6))
	told, extras, seen := 0, 0, 0
	for seed := range uint64(seeds) {
		shape := randjob.Simple(3, 7, 3)
		if seed%2 == 1 {
			shape = randjob.All(2, 3, 6, 3)
		}
		job := randjob.Job(seed, shape)
		for i, q := range job.Quotes {
			q.Item = fmt.Sprintf("%s zz%dzz", q.Item, i)
		}
		plan, err := breakeven.Today(context.Background(), job, optimise.Options{})
		require.NoError(t, err)
		if plan.Status != optimise.Optimal {
			continue
		}
		all, err := talk.Of(context.Background(), job, plan, quotes.Suppliers(job), talk.Options{})
		require.NoError(t, err)
		for _, one := range all {
			for _, l := range one.Lines {
				for _, s := range l.Steps {
					told++
					assert.Negative(t, s.Price.Cmp(l.Quote.Price))
					assert.Equal(t, takenText(s.Buy), replanned(t, job, one.Supplier, l.Quote.Name, s), "seed %d, %s at %s", seed, l.Quote.Name, s.Price)
				}
			}
			extras += len(one.Extras)
			seen += apart(t, job, one)
		}
	}
	assert.Greater(t, told, 10*seeds/6)
	assert.Greater(t, extras, 5*seeds/6)
	assert.Greater(t, seen, 50*seeds/6)
}

// replanned is what a plan at the prices of a step buys of the supplier.
func replanned(t *testing.T, job *quotes.Job, supplier, name string, s talk.Step) string {
	j := *job
	j.Quotes, j.Settings.Budget = nil, nil
	for _, q := range job.Quotes {
		c := *q
		if c.Name == name {
			c.Price, c.Breaks = s.Price, s.Breaks
		}
		j.Quotes = append(j.Quotes, &c)
	}
	plan, err := optimise.Solve(context.Background(), &j, optimise.Options{})
	require.NoError(t, err)
	var out []breakeven.Bought
	for _, q := range j.Quotes {
		var n units.Decimal
		for _, l := range plan.Bill.Lines {
			if l.Quote == q && q.Supplier == supplier {
				n = n.Add(l.Packs)
			}
		}
		if n.Sign() > 0 {
			out = append(out, breakeven.Bought{Quote: q, Packs: n})
		}
	}
	return takenText(out)
}

var amount = regexp.MustCompile(`\$[0-9][0-9,]*(?:\.[0-9]+)?|\b[A-Z]{3} [0-9][0-9,]*(?:\.[0-9]+)?`)

// apart holds both forms of a sheet against what others offer, and counts the amounts
// of money it looked at.
func apart(t *testing.T, job *quotes.Job, one *talk.Talk) int {
	var text, rows strings.Builder
	require.NoError(t, papers.TalkPage(one, papers.Style{Units: units.US}).Markdown(&text))
	require.NoError(t, papers.TalkCSV(one, &rows))
	cells, err := csv.NewReader(strings.NewReader(rows.String())).ReadAll()
	require.NoError(t, err)
	var found []string
	found = append(found, amount.FindAllString(text.String(), -1)...)
	for _, r := range cells[1:] {
		found = append(found, r[4], r[9])
		for _, b := range strings.Split(r[5], "; ") {
			found = append(found, b[strings.LastIndex(b, " ")+1:])
		}
	}
	prices := func(own bool) (out []string) {
		for _, q := range job.Quotes {
			if (q.Supplier == one.Supplier) != own {
				continue
			}
			for _, b := range q.Levels() {
				out = append(out, b.Price.Text(2), units.FormatMoney(b.Price, job.Settings.Currency))
			}
		}
		return out
	}
	own := prices(true)
	for _, p := range prices(false) {
		if !slices.Contains(own, p) {
			assert.NotContains(t, found, p, "to %s", one.Supplier)
		}
	}
	for i, q := range job.Quotes {
		if q.Supplier != one.Supplier {
			for _, words := range []string{q.Supplier, q.Name, fmt.Sprintf("zz%dzz", i)} {
				assert.NotContains(t, text.String()+rows.String(), words, "to %s", one.Supplier)
			}
		}
	}
	return len(found)
}
