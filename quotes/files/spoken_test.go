package files

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/quotes"
	"mediabuy/units"
)

// spokenRow is one quote of a sheet, cell by cell.
type spokenRow struct{ pack, step, price, breaks, until string }

func (r spokenRow) read(settings string) (*quotes.Job, *quotes.Report, error) {
	sheet := [][]string{{"supplier", "medium", "pack", "step", "price", "breaks", "valid_until", "delivery"},
		{"Low Ford", "pumice", r.pack, r.step, r.price, r.breaks, r.until, "40"}}
	return Read(Sources{Quotes: text(written(sheet, ',', true)), Settings: text(settings)}, Options{Today: testDay, QuotesOnly: true})
}

// notes are the warnings about spoken cells; the weight of a ton is said as ever.
func notes(rep *quotes.Report) (out []string) {
	for _, w := range rep.Warnings {
		if strings.Contains(w.Found, "is read as") {
			out = append(out, w.Heading+": "+w.Found)
		}
	}
	return out
}

// Cells as people type them: what they come to, and what is said of it.
func TestReadSpokenCells(t *testing.T) {
	for _, c := range []struct {
		row  spokenRow
		want string // pack litres or kilograms, form, step, price
		note string
	}{
		{spokenRow{pack: "50 L", price: "$34.99/bag"}, "50 L bag 1 34.99", `price: "$34.99/bag" is read as 34.99 for one pack of 50 L`},
		{spokenRow{pack: "50 L", price: "18.50 ea"}, "50 L bag 1 18.50", `price: "18.50 ea" is read as 18.50 for one pack of 50 L`},
		{spokenRow{pack: "50 L", price: "USD 18.50 each"}, "50 L bag 1 18.50", `price: "USD 18.50 each" is read as 18.50 for one pack of 50 L`},
		{spokenRow{pack: "1 yd3", price: "129/yd"}, "765 L bulk 1 129.00", `price: "129/yd" is read as 129.00 for one pack of 1 yd3`},
		{spokenRow{pack: "27 cu ft", price: "129 per cubic yard"}, "765 L bag 1 129.00", `price: "129 per cubic yard" is read as 129.00 for one pack of 27 cu ft`},
		{spokenRow{pack: "ton", price: "52"}, "907 kg bulk 1 52.00", `pack: "ton" is read as 1 ton`},
		{spokenRow{pack: "yard", price: "52"}, "765 L bulk 1 52.00", `pack: "yard" is read as 1 yard`},
		{spokenRow{pack: "a yard", price: "52"}, "765 L bulk 1 52.00", `pack: "a yard" is read as 1 yard`},
		{spokenRow{pack: "half yard", price: "52"}, "382 L bulk 1 52.00", `pack: "half yard" is read as 1/2 yard`},
		{spokenRow{pack: "½ yd", price: "52"}, "382 L bulk 1 52.00", ""},
		{spokenRow{pack: "cy", price: "52"}, "765 L bulk 1 52.00", `pack: "cy" is read as 1 cy`},
		{spokenRow{pack: "2cf", price: "12"}, "56.6 L bag 1 12.00", ""},
		{spokenRow{pack: "50 lt", price: "12"}, "50 L bag 1 12.00", ""},
		{spokenRow{pack: "1 yd3 bag", price: "120"}, "765 L sack 1 120.00", `pack: "1 yd3 bag" is read as a bulk bag of 1 yd3`},
		{spokenRow{pack: "40 lb sack", price: "12"}, "18.1 kg bag 1 12.00", `pack: "40 lb sack" is read as a bag of 40 lb`},
		{spokenRow{pack: "1 yd3", step: "half", price: "52"}, "765 L bulk 0.5 52.00", `step: "half" is read as 0.5 packs`},
		{spokenRow{pack: "1 yd3", step: "½", price: "52"}, "765 L bulk 0.5 52.00", `step: "½" is read as 0.5 packs`},
		{spokenRow{pack: "1 yd3", step: "quarter yard", price: "52"}, "765 L bulk 0.25 52.00", `step: "quarter yard" is read as 0.25 packs`},
		{spokenRow{pack: "50 L", price: "12", breaks: "10+: 11 ea; 40 bags: 10"}, "50 L bag 1 12.00", `breaks: "10+" is read as 10 packs`},
		{spokenRow{pack: "50 L", price: "12", breaks: "10 and up: 11; 40 bags or more: 10"}, "50 L bag 1 12.00", `breaks: "40 bags or more" is read as 40 packs`},
		{spokenRow{pack: "two cu ft", price: "12"}, "56.6 L bag 1 12.00", `pack: "two cu ft" is read as 2 cu ft`},
		{spokenRow{pack: "50 L", price: "12", breaks: "ten bags: 11"}, "50 L bag 1 12.00", `breaks: "ten bags" is read as 10 packs`},
	} {
		t.Run(c.row.pack+" "+c.row.step+" "+c.row.price, func(t *testing.T) {
			job, rep, err := c.row.read("")
			require.NoError(t, err)
			require.True(t, rep.OK(), rep.Err())
			q := job.Quotes[0]
			held := units.FormatVolume(q.PackLitres, units.Metric)
			if q.Pack.IsMass {
				held = units.FormatMass(q.PackMass, units.Metric)
			}
			assert.Equal(t, c.want, fmt.Sprintf("%s %s %s %s", held, q.Form, q.Step, q.Price.Text(2)))
			if c.note == "" {
				assert.Empty(t, notes(rep))
			} else {
				assert.Contains(t, notes(rep), c.note)
			}
			assert.Equal(t, slices.Compact(notes(rep)), notes(rep), "each is said once")
			requireWhole(t, rep)
		})
	}
}

// What contradicts the rest of its row, or has two readings, is a problem that says
// what to copy.
func TestReadSpokenAsks(t *testing.T) {
	for _, c := range []struct {
		row            spokenRow
		problem, hints string
	}{
		{spokenRow{pack: "2 cu ft", price: "$9/cu ft"}, `price: "$9/cu ft" is a price by 1 cu ft, but the pack is 2 cu ft`, "write 18.00 for a pack at that rate, 9.00 if that is the price of the pack, or 1 cu ft under pack"},
		{spokenRow{pack: "1 yd3", price: "54/ton"}, `price: "54/ton" is a price by 1 ton, but the pack is 1 yd3`, "write 54.00 if that is the price of the pack, or 1 ton under pack"},
		{spokenRow{pack: "1 yd3", price: "9/bag"}, `price: "9/bag" is a price by the bag, but the pack of 1 yd3 is sold as bulk`, "write bag under form if a bag holds 1 yd3; else write what one bag holds under pack"},
		{spokenRow{pack: "tonne bag", price: "72"}, `pack: "tonne bag" is not a weight with a number`, "ask the yard, and write 1 tonne if it is that, else such as 850 kg or 0.7 m3"},
		{spokenRow{pack: "half ton bag", price: "72"}, `pack: "half ton bag" is not a weight with a number`, "ask the yard, and write 1/2 ton if it is that, else such as 850 kg or 0.7 m3"},
		{spokenRow{pack: "bag", price: "9"}, `pack: "bag" is not a volume or a weight`, "write what one bag holds, such as 2 cu ft"},
		{spokenRow{pack: "50 L", price: "1,234"}, `price: "1,234" can be read as 1234 or 1.234`, `write 1234 or 1.2340, whichever is meant; decimal = "." or "," in job.toml settles the whole job`},
		{spokenRow{pack: "1,234 L", price: "12"}, `pack: "1,234 L" can be read as 1234 or 1.234`, `write 1234 L or 1.2340 L, whichever is meant; decimal = "." or "," in job.toml settles the whole job`},
		{spokenRow{pack: "4,500 lb", price: "27,50"}, `pack: "4,500 lb" would be grouped by its comma in a job in USD, but "27,50" on line 2 has a decimal comma`, "write 4500 lb or 4.5000 lb, whichever is meant"},
		{spokenRow{pack: "50 L", price: "12", until: "05/06/2026"}, `valid_until: "05/06/2026" can be read as 2026-05-06 or 2026-06-05`, "write 2026-05-06 or 2026-06-05, whichever is meant"},
		{spokenRow{pack: "1 yd3", step: "a third", price: "12"}, `step: "a third" is not a number`, ""},
		{spokenRow{pack: "1 yd3", step: "half ton", price: "12"}, `step: "half ton" is no number of packs of 1 yd3`, "write how many packs, such as 0.5 or 2"},
	} {
		_, rep, err := c.row.read("")
		require.NoError(t, err)
		require.Len(t, rep.Problems, 1, c.problem)
		assert.Equal(t, c.problem, rep.Problems[0].Heading+": "+rep.Problems[0].Found)
		if c.hints != "" {
			assert.Equal(t, c.hints, rep.Problems[0].Hint)
		}
	}
}

// The job's currency settles a comma beside its sign or beside pounds, once said; a
// currency that no country groups by comma settles nothing.
func TestReadCurrencySettlesGroups(t *testing.T) {
	job, rep := mustRead(t, Sources{Quotes: text("supplier,medium,pack,price,breaks,delivery\n" +
		"Low Ford,pumice,\"4,500 lb\",\"$1,000\",\"10: $1,000; 20: $950\",\"$1,000\"\n")}, Options{QuotesOnly: true})
	q := job.Quotes[0]
	assert.Equal(t, "1000.00", q.Price.Text(2))
	assert.InDelta(t, 2041.16, float64(q.PackMass), 0.01) // 4500 × 0.45359237
	said := 0
	for _, w := range rep.Warnings {
		if strings.Contains(w.Found, "grouping thousands") {
			said++
		}
	}
	assert.Equal(t, 1, said)

	_, rep, err := Read(Sources{Quotes: text("supplier,medium,pack,price,delivery\nLow Ford,pumice,50 L,\"€1,000\",40\n"), Settings: text(`currency = "EUR"`)},
		Options{Today: testDay, QuotesOnly: true})
	require.NoError(t, err)
	require.Len(t, rep.Problems, 1)
}

// Money in the settings is grouped as in a table: where the sign of the job's own currency stands beside it, its country
// groups by comma and no other setting has a decimal comma.
func TestReadCurrencySettlesGroupsOfSettings(t *testing.T) {
	for settings, want := range map[string]string{
		"currency = \"GBP\"\nbudget = \"£2,500\"":                      "2500.00",
		"currency = \"AUD\"\nbudget = \"$2,500\"":                      "2500.00",
		"currency = \"GBP\"\nbudget = \"2,500\"":                       "",
		"currency = \"EUR\"\nbudget = \"€2,500\"":                      "",
		"currency = \"CAD\"\nbudget = \"$2,500\"":                      "",
		"currency = \"GBP\"\nbudget = \"£2,500\"\nextra = \"2,5%\"":    "",
		"currency = \"GBP\"\nbudget = \"£2,500\"\ndecimal = \",\"":     "2.50",
		"currency = \"GBP\"\nbudget = \"£12,500\"\nlabour_rate = 12.5": "12500.00",
	} {
		set, rep, err := ReadSettings(text(settings), Options{Today: testDay})
		require.NoError(t, err)
		if want == "" {
			require.False(t, rep.OK(), settings)
			assert.Equal(t, "budget", rep.Problems[0].Heading, settings)
			continue
		}
		require.True(t, rep.OK(), settings)
		assert.Equal(t, want, set.Budget.Text(2), settings)
	}
}

// How many beds are alike is said as people say it, and what else stands behind a number is none of it.
func TestReadSpokenCounts(t *testing.T) {
	for said, want := range map[string]int{"two": 2, "4 no.": 4, "Twelve beds": 12, "3 off": 3, "4 tables": 0, "half": 0, "2 to 3": 0} {
		job, rep, err := Read(Sources{Quotes: text("supplier,medium,pack,price,delivery\nLow Ford,expanded clay,50 L,12,40\n"), Beds: text("bed,count,volume\nlong," + said + ",900 L\n")}, Options{Today: testDay})
		require.NoError(t, err)
		if want == 0 {
			require.False(t, rep.OK(), said)
			assert.Equal(t, "count", rep.Problems[0].Heading)
			continue
		}
		require.True(t, rep.OK(), rep.Err())
		assert.Equal(t, want, job.Beds[0].Count, said)
		assert.Len(t, notes(rep), 1, said)
	}
}

// Sides of a bed in one cell are those in three.
func TestReadSidesInOneCell(t *testing.T) {
	for cell, want := range map[string][3]units.Millimetres{
		`4x4 ft,,12 in`:         {1219.2, 1219.2, 304.8},
		`4 ft x 8 ft,,12 in`:    {1219.2, 2438.4, 304.8},
		`4' × 8',,12 in`:        {1219.2, 2438.4, 304.8},
		`1200 by 600 mm,,0.3 m`: {1200, 600, 300},
		`2 x 1 x 0.3 m,,`:       {2000, 1000, 300},
	} {
		job, rep := mustRead(t, Sources{Quotes: text("supplier,medium,pack,price,delivery\nLow Ford,pumice,50 L,12,40\n"), Beds: text("bed,length,width,depth\nb," + cell + "\n")}, Options{})
		b := job.Beds[0]
		for i, got := range []units.Millimetres{b.Length, b.Width, b.Depth} {
			assert.InDelta(t, float64(want[i]), float64(got), 1e-9, cell)
		}
		assert.Len(t, notes(rep), 1, cell)
	}
	for _, cell := range []string{`4x4 ft,4 ft,12 in`, `4x4,,12 in`, `4 ft x,,12 in`, `1x1x1x1 m,,`} {
		_, rep, err := Read(Sources{Quotes: text("supplier,medium,pack,price,delivery\nLow Ford,pumice,50 L,12,40\n"), Beds: text("bed,length,width,depth\nb," + cell + "\n")}, Options{Today: testDay})
		require.NoError(t, err)
		assert.False(t, rep.OK(), cell)
	}
}

// rowStyles are ways to write a row: each changes how cells are written and not
// what they say.
var rowStyles = []struct {
	name  string
	write func(r spokenRow, q *quotes.Quote) spokenRow
}{
	{"plain", func(r spokenRow, _ *quotes.Quote) spokenRow { return r }},
	{"sign", func(r spokenRow, _ *quotes.Quote) spokenRow { r.price = "$" + r.price; return r }},
	{"code behind", func(r spokenRow, _ *quotes.Quote) spokenRow { r.price += " USD"; return r }},
	{"ea", func(r spokenRow, _ *quotes.Quote) spokenRow { r.price += " ea"; return r }},
	{"each", func(r spokenRow, _ *quotes.Quote) spokenRow { r.price = "$" + r.price + " each"; return r }},
	{"by form", func(r spokenRow, q *quotes.Quote) spokenRow {
		if q.Form == quotes.Bag {
			r.price += "/bag"
		}
		return r
	}},
	{"by pack", func(r spokenRow, _ *quotes.Quote) spokenRow { r.price += " / " + r.pack; return r }},
	{"per unit", func(r spokenRow, _ *quotes.Quote) spokenRow {
		if unit, one := strings.CutPrefix(r.pack, "1 "); one {
			r.price += " per " + unit
		}
		return r
	}},
	{"bare unit", func(r spokenRow, _ *quotes.Quote) spokenRow { r.pack = strings.TrimPrefix(r.pack, "1 "); return r }},
	{"a unit", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.pack = regexp.MustCompile(`^1 `).ReplaceAllString(r.pack, "a ")
		return r
	}},
	{"no space", func(r spokenRow, _ *quotes.Quote) spokenRow { r.pack = strings.Replace(r.pack, " ", "", 1); return r }},
	{"trade's letters", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.pack = strings.NewReplacer("cu ft", "cf", "yd3", "cy", "L", "lt").Replace(r.pack)
		return r
	}},
	{"capitals", func(r spokenRow, _ *quotes.Quote) spokenRow { r.pack = strings.ToUpper(r.pack); return r }},
	{"bag behind", func(r spokenRow, q *quotes.Quote) spokenRow {
		if q.Form == quotes.Bag {
			r.pack += " bag"
		}
		return r
	}},
	{"half", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.step = strings.Replace(r.step, "0.5", "half", 1)
		return r
	}},
	{"half sign", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.step = strings.Replace(r.step, "0.5", "½", 1)
		return r
	}},
	{"grouped", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.price = regexp.MustCompile(`^(\d)(\d{3})\b`).ReplaceAllString(r.price, "$1,$2")
		return r
	}},
	{"grouped whole with sign", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.price = "$" + regexp.MustCompile(`^(\d)(\d{3})(\.00)?$`).ReplaceAllString(r.price, "$1,$2")
		return r
	}},
	{"grouped whole", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.price = regexp.MustCompile(`^(\d)(\d{3})(\.00)?$`).ReplaceAllString(r.price, "$1,$2")
		return r
	}},
	{"decimal comma", func(r spokenRow, _ *quotes.Quote) spokenRow {
		r.price = strings.Replace(r.price, ".", ",", 1)
		return r
	}},
	{"month first", func(r spokenRow, q *quotes.Quote) spokenRow { r.until = q.ValidUntil.Format("1/2/2006"); return r }},
	{"day first", func(r spokenRow, q *quotes.Quote) spokenRow { r.until = q.ValidUntil.Format("02.01.2006"); return r }},
	{"month's name", func(r spokenRow, q *quotes.Quote) spokenRow { r.until = q.ValidUntil.Format("Jan 2 2006"); return r }},
	{"no year", func(r spokenRow, q *quotes.Quote) spokenRow { r.until = q.ValidUntil.Format("2 January"); return r }},
}

// A row written in any style reads back as it was, or is asked about, and then one of
// the answers put in the cell gives it back.
func TestEveryStyleComesBack(t *testing.T) {
	require.GreaterOrEqual(t, len(rowStyles), 20)
	answers := regexp.MustCompile(`^write (.+?), whichever is meant`)
	rapid.Check(t, func(t *rapid.T) {
		pick := func(label string, of ...string) string { return rapid.SampledFrom(of).Draw(t, label) }
		plain := spokenRow{
			pack: pick("pack", "50 L", "2 cu ft", "1 yd3", "1 short ton", "40 lb", "1 cu ft"), step: pick("step", "", "0.5"),
			price: fmt.Sprintf("%d.%02d", rapid.IntRange(1, 4000).Draw(t, "whole"), rapid.SampledFrom([]int{0, 50, 99}).Draw(t, "cents")),
			until: testDay.AddDate(0, 0, rapid.IntRange(0, 300).Draw(t, "days")).Format("2006-01-02"),
		}
		was, rep, err := plain.read("")
		require.NoError(t, err)
		require.True(t, rep.OK(), rep.Err())
		style := rapid.SampledFrom(rowStyles).Draw(t, "style")
		row := style.write(plain, was.Quotes[0])
		now, rep, err := row.read("")
		require.NoError(t, err)
		if !rep.OK() {
			require.Len(t, rep.Problems, 1, style.name)
			m := answers.FindStringSubmatch(rep.Problems[0].Hint)
			require.NotNil(t, m, "%s: %s", style.name, rep.Err())
			var back []string
			for _, a := range strings.Split(m[1], " or ") {
				one := row
				*map[string]*string{"pack": &one.pack, "price": &one.price, "valid_until": &one.until}[rep.Problems[0].Heading] = a
				j, r, err := one.read("")
				require.NoError(t, err)
				require.True(t, r.OK(), "an answer reads one way: %v", r.Err())
				back = append(back, said(j.Quotes[0]))
			}
			require.Contains(t, back, said(was.Quotes[0]), style.name)
			return
		}
		require.Equal(t, said(was.Quotes[0]), said(now.Quotes[0]), "%s: %+v", style.name, row)
	})
}

// A job as people type it is the job in plain form, with a warning for each cell that is read so.
func TestTypedJobIsThePlainOne(t *testing.T) {
	const settings = "currency = \"USD\"\ndate = 2026-05-04\n"
	read := func(quotesText, beds, delivery string) (*quotes.Job, *quotes.Report) {
		job, rep, err := Read(Sources{Quotes: text(quotesText), Beds: text(beds), Delivery: text(delivery), Settings: text(settings)}, Options{Today: testDay})
		require.NoError(t, err)
		require.Empty(t, rep.Problems)
		return job, rep
	}
	typed, rep := read(
		"quote,supplier,medium,size,pack,price,breaks,step,min_qty,max_qty,valid_until,tax\n"+
			"a,Low Ford,washed pea gravel,3/8 in,1 yd3,68,\"10+ $61, 20+ $58\",half,min 2 yards,40 left,until the end of May,7.5% sales tax\n"+
			"b,Low Ford,8-16 mm clay pebbles,,bag (50L),$29.95 each,40-79 $23 / 80+ $21.50,pallet of 40,,,good thru 6/30/26,no tax\n",
		"bed,count,length,width,depth,top,min_size,limit,own_weight,max_share,top_media\none,x2,8 ft,4 ft,12 in,none,1/4 in or bigger,max 2500#,80# empty,gravel 50%,clay pebbles or pea gravel\n",
		"supplier,name,covers,order_fee,load_fee,load_volume,free_over,min_order,load_holds\nLow Ford,van,bags only,45 flat,,,orders over 500,,\nLow Ford,tip truck,loose,none,$85 per load,10 yds per load,,min $100,mixed\n")
	plain, quiet := read(
		"quote,supplier,item,medium,size,pack,form,price,breaks,step,min_qty,max_qty,valid_until,tax\n"+
			"a,Low Ford,washed pea gravel,river gravel,3/8 in,1 yd3,,68,10: 61; 20: 58,0.5,2,40,2026-05-31,7.5%\n"+
			"b,Low Ford,8-16 mm clay pebbles,expanded clay,8-16 mm,50L,bag,29.95,40: 23; 80: 21.50,40,,,2026-06-30,0%\n",
		"bed,count,length,width,depth,top,min_size,limit,own_weight,max_share,top_media\none,2,8 ft,4 ft,12 in,0,1/4 in,2500#,80#,gravel: 50%,clay pebbles; pea gravel\n",
		"supplier,name,covers,order_fee,load_fee,load_volume,free_over,min_order,load_holds\nLow Ford,van,bag,45,,,500,,\nLow Ford,tip truck,bulk,0,85,10 yds,,100,any\n")
	for _, j := range []*quotes.Job{typed, plain} { // what is only of the text
		for _, q := range j.Quotes {
			q.Pos, q.Pack, q.Size.Raw = quotes.Pos{}, units.Amount{}, ""
		}
		for _, b := range j.Beds {
			b.Pos = quotes.Pos{}
		}
		for _, d := range j.Delivery {
			d.Pos = quotes.Pos{}
		}
	}
	assert.Equal(t, plain.Quotes, typed.Quotes)
	assert.Equal(t, plain.Beds, typed.Beds)
	assert.Equal(t, plain.Delivery, typed.Delivery)
	assert.Len(t, notes(rep), len(notes(quiet))+30)
}

// A medium of the job's own may be called by a word that stands between others elsewhere.
func TestOwnMediumCalledByAnAnd(t *testing.T) {
	for only, want := range map[string][]string{"lava and pumice": {"lava and pumice"}, "lava / pumice": {"lava rock", "pumice"}} {
		job, rep, err := Read(Sources{
			Quotes: text("supplier,medium,pack,price\nLow Ford,lava and pumice,50 L,12\n"), Beds: text("bed,volume,only\none,100 L," + only + "\n"),
			Media: text("medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle\nlava and pumice,0.7 kg/L,0.2,0.4,rough,none,no,2%,5%\n"),
		}, Options{Today: testDay})
		require.NoError(t, err)
		require.Empty(t, rep.Problems)
		var got []string
		for _, m := range job.Beds[0].Only {
			got = append(got, m.Name)
		}
		assert.Equal(t, want, got)
	}
}

// Of breaks a heading cannot say whether its unit is that of the packs.
func TestBreaksHaveNoUnitInTheirHeading(t *testing.T) {
	_, rep, err := Read(Sources{Quotes: text("supplier,medium,pack,price,breaks (m3)\nLow Ford,pumice,50 L,12,10: 11\n")}, Options{Today: testDay, QuotesOnly: true})
	require.NoError(t, err)
	require.Len(t, rep.Problems, 1)
	assert.Equal(t, "the heading gives its breaks the unit m3", rep.Problems[0].Found)
}

// A unit behind a heading is that of the numbers below it that bring none.
func TestUnitsInHeadings(t *testing.T) {
	job, rep, err := Read(Sources{
		Quotes:   text("supplier,medium,pack (cu ft),price ($),size (in)\nLow Ford,pumice,2,12.50,3/8-3/4\nLow Ford,lava rock,50 L,14,1/2 in\n"),
		Beds:     text("bed,length (ft),width (ft),depth (in),limit (lb)\none,8,4,12,2500\n"),
		Settings: text("currency = \"USD\"\nunits = { length = \"mm\" }\n"), // of which the headings know better
	}, Options{Today: testDay})
	require.NoError(t, err)
	require.Empty(t, rep.Problems)
	assert.Equal(t, []units.Litres{2 * units.CubicFoot, 50}, []units.Litres{job.Quotes[0].PackLitres, job.Quotes[1].PackLitres})
	assert.Equal(t, "12.50", job.Quotes[0].Price.Text(2))
	assert.InDelta(t, 9.5, float64(job.Quotes[0].Size.Min), 0.1)
	assert.InDelta(t, 8*12*25.4, float64(job.Beds[0].Length), 1e-9)
	assert.InDelta(t, 12*25.4, float64(job.Beds[0].Depth), 1e-9)
	var said []string
	for _, w := range rep.Warnings {
		if strings.Contains(w.Found, "as the heading says") {
			said = append(said, w.Heading)
		}
	}
	assert.Equal(t, []string{"pack", "price", "size", "length", "width", "depth", "limit"}, said)
}

// said is what a row says, without how it was written.
func said(q *quotes.Quote) string {
	return fmt.Sprintf("%.9g L %.9g kg %s %s %s %s", float64(q.PackLitres), float64(q.PackMass), q.Form, q.Step, q.Price.Text(4), q.ValidUntil)
}
