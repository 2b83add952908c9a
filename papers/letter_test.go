package papers

import (
	"bytes"
	"context"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/talk"
	"mediabuy/papers/page"
	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/units"
)

func markdown(t *testing.T, p *page.Page) string {
	var b bytes.Buffer
	require.NoError(t, p.Markdown(&b))
	return b.String()
}

// after is the day so many days after today.
func after(n int) quotes.Date { return quotes.DateOf(today.AddDate(0, 0, n)) }

// Of 20 bags at 160 in all, 17 came and 2 of these were torn: 5 short, at 8 each 40,
// and 10 % tax on it. Who brought
// more than was ordered gets no letter.
func TestLettersByHand(t *testing.T) {
	job := plot.withMedia(t)
	bags, heap := named(t, job, "bags"), named(t, job, "heap")
	bags.Tax = units.D("0.1")
	job.Settings.NeedBy = after(30)
	job.Settings.Buyer = quotes.Buyer{Name: "=The Growers", Phone: "555-0100"}
	ordered := []received.Ordered{{Order: "2026-04-06/1", Quote: bags, Packs: units.D("20"), Amount: units.M("160")}, {Order: "2026-04-06/2", Quote: heap, Packs: units.D("1"), Amount: units.M("95")}}
	counted := received.Count(job, ordered, []received.Arrival{
		{Quote: bags, Packs: units.D("10"), Day: after(9)}, {Quote: bags, Packs: units.D("7"), Rejected: units.D("2"), Day: after(7), Note: "torn <b>"}, {Quote: heap, Packs: units.D("5")}}, after(10))
	got := Letters(job, counted, after(10))
	require.Len(t, got, 1)
	goods, tax := got[0].Owed()
	assert.Equal(t, "40.00 4.00", goods.Text(2)+" "+tax.Text(2))
	text := markdown(t, got[0].Page(Style{Units: units.Metric}))
	for _, words := range []string{"Dear Tansy Hill Supply, thank you for the delivery of " + after(7).String() + " and " + after(9).String(),
		"**Missing**", "$44.00", "you bring what is missing by " + after(30).String(), "We refused 2 × 50 L bag of pebble", "250 L", "555-0100"} {
		assert.Contains(t, text, words)
	}
	assert.NotContains(t, text, "<b>", "a note stays text")
	assert.NotContains(t, text, "Low Ford Quarry")
	for _, form := range []func(*bytes.Buffer) error{
		func(b *bytes.Buffer) error { return got[0].Page(Style{}).PDF(b) },
		func(b *bytes.Buffer) error { return got[0].Page(Style{}).HTML(b) },
		func(b *bytes.Buffer) error { return got[0].Page(Style{}).XLSX(b) },
	} {
		require.NoError(t, form(&bytes.Buffer{}))
	}
	wellLaid(t, got[0].Page(Style{Letter: true}))
	// With tax in the prices nothing is added.
	job.Settings.TaxIncluded = true
	goods, tax = got[0].Owed()
	assert.Equal(t, "40.00 0.00", goods.Text(2)+" "+tax.Text(2))
	// All came, and a part was refused.
	refused := Letters(job, received.Count(job, ordered[:1], []received.Arrival{{Quote: bags, Packs: units.D("20"), Rejected: units.D("1")}}, after(10)), after(10))
	text = markdown(t, refused[0].Page(Style{}))
	assert.Contains(t, text, "All of it came, but a part was not as ordered")
	assert.NotContains(t, text, "less than we ordered")
	// Nothing came at all: no letter as long as it may come, one on the day after.
	ordered[0].Due = after(10)
	assert.Empty(t, Letters(job, received.Count(job, ordered[:1], nil, after(10)), after(10)))
	late := Letters(job, received.Count(job, ordered[:1], nil, after(11)), after(11))
	require.Len(t, late, 1)
	assert.Contains(t, markdown(t, late[0].Page(Style{})), "none of them has come yet")
	assert.Empty(t, Letters(job, received.Count(job, ordered[1:], []received.Arrival{{Quote: heap, Packs: units.D("2")}}, after(10)), after(10)))
}

// The sheet for the gate comes back as a count once it is typed in, and not before.
func TestGateSheetReadsBack(t *testing.T) {
	job, _ := gardens.job(t)
	pebbles, lava := named(t, job, "pebbles"), named(t, job, "lava")
	ordered := []received.Ordered{{Order: "1", Quote: lava, Site: "north", Packs: units.D("2")}, {Order: "2", Quote: lava, Site: "south", Packs: units.D("1.5")}, {Order: "3", Quote: pebbles, Site: "north", Packs: units.D("9")}}
	gates := Gates(job, ordered)
	require.Len(t, gates, 3, "one for each supplier and site")
	var arrived []received.Arrival
	for _, g := range gates {
		var b bytes.Buffer
		require.NoError(t, g.CSV(&b))
		_, rep, err := received.ReadArrivals(strings.NewReader(b.String()), "gate.csv", job, ordered)
		require.NoError(t, err)
		require.Len(t, rep.Problems, 1, "a row left open")
		assert.Contains(t, rep.Problems[0].Error(), "packs: neither packs nor a volume is given")
		filled := strings.Replace(b.String(), g.Site+",,,,,", g.Site+",1,,,,", 1)
		list, rep, err := received.ReadArrivals(strings.NewReader(filled), "gate.csv", job, ordered)
		require.NoError(t, err)
		require.NoError(t, rep.Err())
		arrived = append(arrived, list...)
		text := markdown(t, g.Page(Style{}))
		assert.Contains(t, text, "Came")
		assert.Equal(t, g.Supplier == "Tansy Hill Supply", strings.Contains(text, "count 9 bags"), "bags are counted")
		wellLaid(t, g.Page(Style{Letter: true}))
	}
	var short []string
	for _, c := range received.Count(job, ordered, arrived, job.Settings.Date) {
		short = append(short, c.Quote.Name+" "+c.Site+" "+c.Short().String())
	}
	assert.Equal(t, []string{"lava north 1", "lava south 0.5", "pebbles north 8"}, short)
}

// A sheet for a talk is well laid for every supplier, one of whom has a name that a
// spreadsheet would run.
func TestTalkSheetsAreWellLaid(t *testing.T) {
	job, _ := gardens.job(t)
	plan, err := breakeven.Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	talks, err := talk.Of(context.Background(), job, plan, quotes.Suppliers(job), talk.Options{})
	require.NoError(t, err)
	require.Len(t, talks, 3)
	for _, one := range talks {
		p := TalkPage(one, Style{Units: units.Metric})
		wellLaid(t, p)
		require.NoError(t, p.XLSX(&bytes.Buffer{}))
		require.NoError(t, p.HTML(&bytes.Buffer{}))
		var b bytes.Buffer
		require.NoError(t, TalkCSV(one, &b))
		rows, err := csv.NewReader(&b).ReadAll()
		require.NoError(t, err)
		for _, row := range rows {
			for _, cell := range row {
				assert.NotRegexp(t, `^[=+@]`, cell)
			}
		}
	}
	assert.Contains(t, markdown(t, TalkPage(talks[0], Style{})), "it breaks down in water")
	for i, one := range talks { // of whom no bed takes a thing is asked no price
		assert.Equal(t, i > 0, strings.Contains(markdown(t, TalkPage(one, Style{})), "one of these prices or terms"), one.Supplier)
	}
	// A size that is asked for stands in the reader's habit.
	least := units.Millimetres(12.5)
	fine := &quotes.Quote{Medium: &quotes.Medium{}, Size: quotes.Grain{Known: true, Raw: "8-16 mm", Min: 8, Max: 16}}
	beds := []*quotes.Bed{{MinSize: &least}}
	assert.Contains(t, talkRefused(fine, quotes.Settings{}, beds, units.US), "finer than the 1/2 in that")
	assert.Contains(t, talkRefused(fine, quotes.Settings{}, beds, units.Metric), "finer than the 12.5 mm that")
}
