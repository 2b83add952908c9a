package papers

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// today is the clock of every test.
var today = time.Date(2026, 4, 6, 9, 30, 0, 0, time.UTC)

// filesText is a job as the texts of its files.
type filesText struct{ quotes, beds, delivery, settings string }

func (f filesText) job(t require.TestingT) (*quotes.Job, *quotes.Report) {
	return jobtest.Files{Quotes: f.quotes, Beds: f.beds, Delivery: f.delivery, Settings: f.settings, Today: today}.Read(t)
}

// gardens has two sites, three suppliers and one of everything that papers treat
// apart: incremental breaks, handling, waived fees, tax at two rates.
var gardens = filesText{
	quotes: `quote,supplier,item,medium,form,pack,step,price,breaks,break_kind,size,carbonate,tax
pebbles,Tansy Hill Supply,round pebbles,expanded clay,bag,50 L,,30.00,10: 27.50; 20: 25.00,incremental,8-16 mm,none,
lava,Low Ford / Quarry,red lava,lava rock,bulk,1 m3,0.5,90.00,4: 80.00,,20-40 mm,none,5%
gravel,Low Ford / Quarry,,river gravel,bulk,1 tonne,0.5,48.335,,,10-20 mm,none,
coir,=Sum Yard,coir,coconut coir,bag,50 L,,9.00,,,,,
`,
	beds: `bed,count,length,width,depth,top,min_size,site,member,table,limit,only
long,2,2 m,1 m,30 cm,10 cm,8 mm,north,Ada,n,2000 kg,
short,,1 m,1 m,30 cm,,8 mm,north,Ada: 1; Bo: 2,,800 kg,
deep,,2 m,1 m,40 cm,10 cm,8 mm,south,Bo,,,lava rock; expanded clay
`,
	delivery: `supplier,site,name,handling,order_fee,load_fee,load_volume,load_holds,haul,free_over
Tansy Hill Supply,,van,,25,,,,,250
Low Ford / Quarry,,truck,12,20,40,4 m3,any,5 / m3,
`,
	settings: "currency = \"USD\"\ntax = \"7.25%\"\nlabour_rate = 11\nneed_by = 2026-05-15\nweights = \"usual\"\n",
}

func TestRequestReadsBackOnceFilledIn(t *testing.T) {
	job, _ := gardens.job(t)
	reqs, err := Requests(job, []string{"Tansy Hill Supply", "New/Yard", "new/yard"}, Style{})
	require.NoError(t, err)
	require.Len(t, reqs, 2, "one sheet a supplier")
	for _, r := range reqs {
		var b bytes.Buffer
		require.NoError(t, r.CSV(&b))
		// Fill in every row as a supplier would, in the order of the columns.
		comments, table, found := strings.Cut(b.String(), "quote,supplier,")
		require.True(t, found)
		for _, line := range strings.Split(strings.TrimSpace(comments), "\n") {
			require.True(t, strings.HasPrefix(line, "# "), line)
			require.NotContains(t, line, ",", "a spreadsheet keeps the line in one cell")
		}
		rows, err := csv.NewReader(strings.NewReader("quote,supplier," + table)).ReadAll()
		require.NoError(t, err)
		require.Equal(t, requestHeads, rows[0])
		col := func(name string) int {
			for i, h := range rows[0] {
				if h == name {
					return i
				}
			}
			t.Fatalf("no column %q", name)
			return -1
		}
		for _, row := range rows[1:] {
			row[col("price")], row[col("breaks")], row[col("delivery")], row[col("free_over")] = "21.50", "10: 20.00; 40: 19", "35", "500"
			row[col("density")], row[col("carbonate")], row[col("valid_until")] = "0.5 kg/L", "none", "2026-05-01"
			if row[col("pack")] == "" {
				row[col("pack")], row[col("size")] = "1 yd3", "1/2-3/4 in"
			}
		}
		var filled bytes.Buffer
		filled.WriteString(comments)
		require.NoError(t, csv.NewWriter(&filled).WriteAll(rows))
		back, rep, err := files.Read(files.Sources{Quotes: files.Source{Name: "answer.csv", R: &filled}}, files.Options{Today: today, QuotesOnly: true})
		require.NoError(t, err)
		require.NoError(t, rep.Err())
		require.Len(t, back.Quotes, len(r.Rows))
		for i, q := range back.Quotes {
			assert.Equal(t, r.Supplier, q.Supplier)
			assert.Equal(t, r.Rows[i].Medium.Name, q.Medium.Name)
			assert.Equal(t, "21.5", q.Price.String())
			if before := r.Rows[i].Before; before != nil {
				assert.Equal(t, before.Name, q.Name)
				assert.Equal(t, before.PackLitres, q.PackLitres)
				assert.Equal(t, before.Size, q.Size)
				assert.Equal(t, before.BreakKind, q.BreakKind)
			}
		}
	}
}

// A supplier that fills in what it quoted before sends back the very quotes of the
// job: nothing of them is lost on the way, such as breaks that several items reach
// together, or a tax or a loss of its own.
func TestRequestBringsQuotesBackUnchanged(t *testing.T) {
	f := gardens
	f.quotes = `quote,supplier,item,medium,form,pack,step,price,breaks,break_kind,break_group,min_qty,size,density,carbonate,rinse_loss,fill,tax,valid_until
a,Tansy Hill Supply,"round, washed",expanded clay,bag,50 L,,30.00,10: 27.50; 20: 25.00,incremental,any bag,,8-16 mm,,none,,,,2026-05-31
b,Tansy Hill Supply,red lava,lava rock,bag,50 L,,9.125,10: 8.50; 20: 8,incremental,any bag,,20-40 mm,0.8 kg/L,none,2-4-9%,90-98-101%,5%,2026-05-31
c,Tansy Hill Supply,,river gravel,bulk,1 tonne,0.5,48.335,,,,2,10-20 mm,1.5 kg/L,untested,3%,100%,,2026-05-31
`
	job, _ := f.job(t)
	reqs, err := Requests(job, []string{"Tansy Hill Supply"}, Style{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, reqs[0].CSV(&b))
	comments, table, found := strings.Cut(b.String(), "quote,supplier,")
	require.True(t, found)
	rows, err := csv.NewReader(strings.NewReader("quote,supplier," + table)).ReadAll()
	require.NoError(t, err)
	kept := [][]string{rows[0]}
	for i, row := range rows[1:] {
		q := reqs[0].Rows[i].Before
		if q == nil {
			continue // the supplier deletes what it does not sell
		}
		set := func(head, text string) { row[slices.Index(rows[0], head)] = text }
		var breaks []string
		for _, br := range q.Breaks {
			breaks = append(breaks, br.From.String()+": "+optimise.PriceText(br.Price, 2))
		}
		set("price", optimise.PriceText(q.Price, 2))
		set("breaks", strings.Join(breaks, "; "))
		set("min_qty", map[bool]string{true: "", false: q.MinQty.String()}[q.MinQty.IsZero()])
		set("density", map[bool]string{true: "", false: fmt.Sprintf("%g kg/L", float64(q.Density))}[q.Density == 0])
		set("carbonate", string(q.Carbonate))
		set("valid_until", q.ValidUntil.String())
		kept = append(kept, row)
	}
	require.Len(t, kept, 4)
	var filled bytes.Buffer
	filled.WriteString(comments)
	require.NoError(t, csv.NewWriter(&filled).WriteAll(kept))
	f.quotes = filled.String()
	back, _ := f.job(t)
	require.Len(t, back.Quotes, 3)
	for i, q := range back.Quotes {
		was := *job.Quotes[i]
		was.Pos = q.Pos
		now := *q
		require.Equal(t, was.Medium.Name, now.Medium.Name)
		now.Medium = was.Medium
		assert.Equal(t, was, now)
	}
}

func TestRequestLeftOpenIsAProblemWithItsPlace(t *testing.T) {
	job, _ := gardens.job(t)
	reqs, err := Requests(job, []string{"Tansy Hill Supply"}, Style{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, reqs[0].CSV(&b))
	_, rep, err := files.Read(files.Sources{Quotes: files.Source{Name: "answer.csv", R: &b}}, files.Options{Today: today, QuotesOnly: true})
	require.NoError(t, err)
	assert.False(t, rep.OK())
	assert.GreaterOrEqual(t, len(rep.Problems), len(reqs[0].Rows))
}

// Examples of what to fill in stand in the reader's habit alone, and so does a size without a unit.
func TestRequestsSpeakTheReadersHabit(t *testing.T) {
	f := gardens
	f.beds = "bed,length,width,depth,min_size\nlong,2 m,1 m,30 cm,8\n"
	f.settings = "currency = \"GBP\"\n[units]\nlength = \"mm\"\n"
	job, rep := f.job(t)
	require.NoError(t, rep.Err())
	for _, c := range []struct {
		sys     units.System
		size    string
		foreign string
	}{
		{units.Metric, "grain size at least 8 mm;", `cu ft|yd3|lb|half yard|\bton\b|#57|\d in\b`},
		{units.US, "grain size at least 5/16 in;", `\d (L|m3|mm|tonne)\b|kg/m3|cubic metre`},
	} {
		reqs, err := Requests(job, []string{"Tansy Hill Supply"}, Style{Units: c.sys})
		require.NoError(t, err)
		reqs[0].Rows = nil // the supplier's own words stay as they are
		var b bytes.Buffer
		require.NoError(t, reqs[0].CSV(&b))
		assert.Contains(t, b.String(), c.size)
		require.NoError(t, reqs[0].DeliveryCSV(&b))
		b.WriteString(markdown(t, reqs[0].Page(Style{Units: c.sys})))
		assert.NotRegexp(t, c.foreign, b.String())
	}
}

// Litres by hand: north top 2 beds × 2 m × 1 m × 0.1 m = 400 L, north base
// 2 × 2 × 1 × 0.2 = 800 L and 1 × 1 × 0.3 = 300 L of the same demands, together
// 1100 L; south top 200 L and base 2 × 1 × 0.3 = 600 L of two media only.
func TestNeeds(t *testing.T) {
	job, _ := gardens.job(t)
	got := needsOf(job, units.Metric)
	require.Len(t, got, 4)
	for i, want := range []struct {
		site   string
		layer  quotes.Layer
		litres float64
		beds   int
	}{{"north", quotes.Top, 400, 2}, {"north", quotes.Base, 1100, 3}, {"south", quotes.Top, 200, 1}, {"south", quotes.Base, 600, 1}} {
		assert.Equal(t, want.site, got[i].Site)
		assert.Equal(t, want.layer, got[i].Layer)
		assert.InDelta(t, want.litres, float64(got[i].Litres), 1e-6)
		assert.Equal(t, want.beds, got[i].beds)
	}
	assert.Equal(t, []string{"expanded clay"}, got[2].Media, "smooth, and of the two media asked for")
	assert.Equal(t, []string{"expanded clay", "lava rock"}, got[3].Media)
	for _, n := range got {
		assert.NotContains(t, n.Media, "limestone")
		assert.NotContains(t, n.Media, "coconut coir")
	}
}
