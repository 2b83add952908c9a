package papers

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

// Two yards are ordered from, A and B. An order that lies there and says the same keeps
// its number; one that says something else keeps its own, and ours goes on.
func TestNumbersAreGivenOnce(t *testing.T) {
	job := &quotes.Job{}
	pair := func(goods string) []*Order {
		return []*Order{{Supplier: "A", Day: after(0), Goods: units.M(goods), Total: units.M(goods), job: job}, {Supplier: "B", Day: after(0), job: job}}
	}
	text := func(o *Order, number string) string {
		c := *o
		c.Number = number
		var b strings.Builder
		require.NoError(t, c.CSV(&b))
		return b.String()
	}
	day := after(0).String()
	a, b := pair("10")[0], pair("10")[1]
	for _, c := range []struct {
		name  string
		lying []string
		want  string
	}{
		{"nothing lies there", nil, "/1 /2"},
		{"the same lie there", []string{text(a, day+"/1"), text(b, day+"/2")}, "/1 /2"},
		{"the same, saved by a spreadsheet", []string{"\ufeff" + strings.ReplaceAll(strings.ReplaceAll(text(a, day+"/1"), ",", ";"), "\n", "\r\n")}, "/1 /2"},
		{"A's says something else", []string{text(pair("9")[0], day+"/1"), text(b, day+"/2")}, "/3 /2"},
		{"only B's is there, as the first", []string{text(b, day+"/1")}, "/2 /1"},
		{"another day", []string{text(pair("9")[0], "2026-01-01/1")}, "/1 /2"},
		{"one number twice", []string{text(pair("9")[0], day+"/1"), text(a, day+"/1")}, "/1 /2"},
		{"a file of another kind", []string{"quote,packs\nbags,1\n"}, "/1 /2"},
	} {
		var lying []files.Source
		for _, l := range c.lying {
			lying = append(lying, files.Source{Name: "x.csv", R: strings.NewReader(l)})
		}
		numbers, err := received.NumbersOf(lying)
		require.NoError(t, err)
		list := pair("10")
		require.NoError(t, NumberOn(list, numbers, nil))
		var got []string
		for _, o := range list {
			got = append(got, strings.TrimPrefix(o.Number, day))
		}
		assert.Equal(t, c.want, strings.Join(got, " "), c.name)
	}
}

// Of 1000 L 15 good bags are there: 5 bags at 10.00 and 15.00 for the van are bought, 65.00.
// The bags that are there are on no order, and a day that is over is not asked for.
func TestFinishOrdersByHand(t *testing.T) {
	job := plot.withMedia(t)
	job.Settings.NeedBy = after(3)
	stock := []optimise.Stock{{Quote: named(t, job, "bags"), Packs: units.D("15")}}
	for on, want := range map[int]string{2: after(3).String(), 4: ""} {
		f, err := optimise.FinishWith(t.Context(), job, stock, after(on), optimise.Options{})
		require.NoError(t, err)
		list, err := FinishOrders(f, Style{})
		require.NoError(t, err)
		require.Len(t, list, 1)
		o := list[0]
		assert.Equal(t, "Tansy Hill Supply 5 65.00 "+want, o.Supplier+" "+o.Lines[0].Packs.String()+" "+o.Total.Text(2)+" "+o.NeedBy.String())
		require.Len(t, o.Lines, 1)
		require.Len(t, o.Drops, 1)
		wellLaid(t, o.Page(Style{}))
	}
	stock[0].Packs = units.D("20")
	f, err := optimise.FinishWith(t.Context(), job, stock, after(2), optimise.Options{})
	require.NoError(t, err)
	list, err := FinishOrders(f, Style{})
	require.NoError(t, err)
	assert.Empty(t, list)
}
