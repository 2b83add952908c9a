package files

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/units"
)

// text is a file that holds s; an empty one is not there.
func text(s string) Source {
	if s == "" {
		return Source{}
	}
	return Source{R: strings.NewReader(s)}
}

// mustRead reads a job that has no problem.
func mustRead(t require.TestingT, f Sources, opt Options) (*quotes.Job, *quotes.Report) {
	opt.Today = testDay
	job, rep, err := Read(f, opt)
	require.NoError(t, err)
	require.NoError(t, rep.Err())
	require.NotNil(t, job)
	requireWhole(t, rep)
	return job, rep
}

const wholeQuotes = `quote,supplier,item,medium,form,pack,step,price,breaks,break_kind,break_group,min_qty,max_qty,size,density,carbonate,rinse_loss,tax,valid_until,ready_by,notes
peb,Tansy  Hill,round pebbles,Clay-Pebbles,,50 L,,29.00,10: 27.50; 40: 24.00,,any bag,5,200,8-16 mm,,,,,2026-05-01,2026-04-10,ring first
,tansy hill,,scoria,,2 cu ft,,18.00,10: 16.00,all units,Any Bag,,,3/8-3/4 in,45 lb/ft3,none,10%,0%,,,
,Low Ford,,pea gravel,,1 ton,0.5,48.00,,,,,,#8,1.2 ton/yd3,untested,,,,,
,Low Ford,,pea gravel,sack,1 yd3,1,64.00,5: 60,incremental,,,,,,,,,,,
`

const wholeBeds = `bed,count,length,width,depth,volume,top,top_volume,top_media,only,avoid,max_share,min_size,max_size,table,limit,own_weight,water_line,displaced,site,member
long,2,8 ft,4 ft,12 in,,2 in,,,,limestone,lava rock: 0.67; gravel: 50%,3/8 in,1 in,frame A,1500 kg,40 kg,,12 L,North  yard,north plot: 2; school: 1
short,,4 ft,4 ft,12 in,,,,clay pebbles; perlite,lava; gravel,,,,,Frame A,,,2 in,,north yard,school
tub,,,,,300 L,,50 L,,,,,,,,400 lb,,none,,shed,school
`

const wholeDelivery = `supplier,site,name,handling,covers,order_fee,load_fee,load_volume,load_weight,haul,free_over,min_order,tax
Tansy Hill,,van,15,bag,20,,,,0.02 / L,500,100,0%
low  ford,north yard,tip truck,0,bulk; sack,,85,8 yd3,10 ton,,,,
Low Ford,shed,,0,all,60,,,,12/yd3,,,
`

const wholeSettings = `currency = "usd"
tax = "8.25%"
labour_rate = "12.50"
extra = 5
max_suppliers = 2
budget = 1500
time_limit = "1m30s"
need_by = 2026-05-15
allow_untested = true
`

func wholeJob() Sources {
	return Sources{Quotes: text(wholeQuotes), Beds: text(wholeBeds), Delivery: text(wholeDelivery), Settings: text(wholeSettings)}
}

func TestReadSettings(t *testing.T) {
	job, _ := mustRead(t, wholeJob(), Options{})
	budget := units.M("1500")
	assert.Equal(t, quotes.Settings{
		Currency: "USD", CurrencyDigits: 2, Date: quotes.DateOf(testDay), NeedBy: quotes.Date{Time: time.Date(2026, 5, 15, 0, 0, 0, 0, time.UTC)},
		Tax: job.Settings.Tax, AllowUntested: true, LabourRate: job.Settings.LabourRate, Extra: job.Settings.Extra,
		Weights: quotes.HeavyWeights, LayerMix: quotes.AnyMix, MaxSuppliers: 2, Budget: job.Settings.Budget, TimeLimit: 90 * time.Second,
	}, job.Settings)
	assert.Equal(t, "0.0825", job.Settings.Tax.String())
	assert.Equal(t, "12.5", job.Settings.LabourRate.String())
	assert.Equal(t, "0.05", job.Settings.Extra.String())
	assert.True(t, budget.Equal(*job.Settings.Budget))
	assert.Equal(t, "2026-04-01", job.Settings.Date.String())

	job, _ = mustRead(t, Sources{Quotes: text(wholeQuotes), Settings: text("date = \"2025-12-24\"\ncurrency = \"JPY\"\ntime_limit = 1.5\nunits = {volume = \"L\"}\n")}, Options{QuotesOnly: true, Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	assert.Equal(t, "2025-12-24", job.Settings.Date.String())
	assert.Equal(t, 0, job.Settings.CurrencyDigits)
	assert.Equal(t, 1500*time.Millisecond, job.Settings.TimeLimit)
}

func TestReadQuotes(t *testing.T) {
	job, _ := mustRead(t, wholeJob(), Options{})
	require.Len(t, job.Quotes, 4)
	peb, lava, ton, sack := job.Quotes[0], job.Quotes[1], job.Quotes[2], job.Quotes[3]

	assert.Equal(t, []string{"peb", "Tansy Hill/lava rock", "Low Ford/river gravel", "Low Ford/river gravel#2"},
		[]string{peb.Name, lava.Name, ton.Name, sack.Name})
	assert.Equal(t, []string{"Tansy Hill", "Tansy Hill", "Low Ford", "Low Ford"}, []string{peb.Supplier, lava.Supplier, ton.Supplier, sack.Supplier})
	assert.Equal(t, []quotes.Form{quotes.Bag, quotes.Bag, quotes.Bulk, quotes.Sack}, []quotes.Form{peb.Form, lava.Form, ton.Form, sack.Form})

	assert.Equal(t, units.Litres(50), peb.PackLitres)
	assert.InDelta(t, 50*0.35, float64(peb.PackMass), 1e-9) // the table's 0.35 kg/L
	// 50 L × (1 − 2 % rinse) × (1 − 5 % settle) = 46.55
	assert.InDelta(t, 46.55, float64(peb.Placed()), 1e-9)
	assert.Equal(t, []string{"29", "27.5", "24"}, prices(peb))
	assert.Equal(t, quotes.AllUnits, peb.BreakKind)
	assert.Equal(t, "5", peb.MinQty.String())
	assert.Equal(t, "200", peb.MaxQty.String())
	assert.Equal(t, "2026-05-01", peb.ValidUntil.String())
	assert.Equal(t, "2026-04-10", peb.ReadyBy.String())
	assert.Equal(t, "ring first", peb.Notes)
	assert.Equal(t, "0.0825", peb.Tax.String(), "the job's tax")
	assert.Equal(t, quotes.Untested, peb.Carbonate)

	assert.Equal(t, "any bag", lava.BreakGroup, "the first spelling wins")
	assert.True(t, lava.Tax.IsZero(), "a tax of 0 is not the job's")
	// 2 ft³ = 56.633693 L, of 45 lb/ft³: 90 lb = 40.82331 kg
	assert.InDelta(t, 56.633693184, float64(lava.PackLitres), 1e-9)
	assert.InDelta(t, 40.8233133, float64(lava.PackMass), 1e-6)
	assert.InDelta(t, 0.1, lava.RinseLoss.Usual, 1e-12)
	assert.Equal(t, quotes.NoFizz, lava.Carbonate)
	assert.Equal(t, units.Millimetres(9.5), lava.Size.Min)

	// 1 short ton of 1.2 short ton/yd³ is 1/1.2 yd³ = 637.129 L
	assert.InDelta(t, 764.554857984/1.2, float64(ton.PackLitres), 1e-6)
	assert.InDelta(t, 907.18474, float64(ton.PackMass), 1e-9)
	assert.Equal(t, "0.5", ton.Step.String())
	assert.Nil(t, ton.MaxQty)
	assert.Equal(t, quotes.Incremental, sack.BreakKind)
	assert.False(t, sack.Size.Known)
	assert.Equal(t, 5, sack.Line)
}

func prices(q *quotes.Quote) []string {
	var out []string
	for _, l := range q.Levels() {
		out = append(out, l.Price.String())
	}
	return out
}

func TestReadBeds(t *testing.T) {
	job, _ := mustRead(t, wholeJob(), Options{})
	require.Len(t, job.Beds, 3)
	long, short, tub := job.Beds[0], job.Beds[1], job.Beds[2]

	assert.Equal(t, 2, long.Count)
	// 8 ft × 4 ft = 32 ft²; the top 2 in are 32/6 ft³ = 151.0232 L, the rest 320/12 ft³ = 755.1159 L, less 12 L
	assert.InDelta(t, 2.97289728, long.Area(), 1e-9)
	assert.InDelta(t, 151.023178, float64(long.TopLitres()), 1e-5)
	assert.InDelta(t, 755.115909-12, float64(long.BaseLitres()), 1e-5)
	assert.Equal(t, []string{"coconut coir", "expanded clay", "perlite", "river gravel"}, mediaNames(long.TopMedia), "the smooth ones")
	assert.Equal(t, []string{"limestone"}, mediaNames(long.Avoid))
	assert.Empty(t, long.Only)
	require.Len(t, long.MaxShare, 2)
	assert.Equal(t, []float64{0.67, 0.5}, []float64{long.MaxShare[0].Most, long.MaxShare[1].Most})
	assert.Equal(t, []string{"lava rock", "river gravel"}, []string{long.MaxShare[0].Medium.Name, long.MaxShare[1].Medium.Name})
	assert.Equal(t, units.Millimetres(9.5), *long.MinSize)
	assert.Equal(t, "3/8 in", long.MinRaw)
	assert.Equal(t, units.Millimetres(25), *long.MaxSize)
	assert.Equal(t, units.Millimetres(25.4), long.WaterLine, "one inch unless said")
	assert.Equal(t, units.Kilograms(40), long.OwnWeight)
	require.Len(t, long.Member, 2)
	assert.Equal(t, "2", long.Member[0].Parts.String())

	assert.Equal(t, "frame A", short.Table, "the first spelling wins")
	assert.Equal(t, "North yard", short.Site)
	assert.Equal(t, units.Kilograms(1500), *short.Limit, "taken from the other bed of the frame")
	assert.NotSame(t, long.Limit, short.Limit)
	assert.Equal(t, []string{"expanded clay", "perlite"}, mediaNames(short.TopMedia))
	assert.Equal(t, []string{"lava rock", "river gravel"}, mediaNames(short.Only))
	assert.Equal(t, units.Millimetres(50.8), short.WaterLine)
	assert.Zero(t, short.TopLitres())

	assert.True(t, tub.NeverFloods)
	assert.True(t, tub.ByVolume())
	assert.Equal(t, []units.Litres{50, 250}, []units.Litres{tub.TopLitres(), tub.BaseLitres()})
	assert.InDelta(t, 181.436948, float64(*tub.Limit), 1e-6) // 400 lb
	assert.Nil(t, tub.MinSize)
	assert.Equal(t, "1", tub.Member[0].Parts.String())

	assert.Equal(t, []string{"Low Ford", "Tansy Hill"}, quotes.Suppliers(job))
	assert.Equal(t, []string{"North yard", "shed"}, quotes.Sites(job))
	assert.Equal(t, []string{"north plot", "school"}, quotes.Members(job))
}

func mediaNames(ms []*quotes.Medium) []string {
	var out []string
	for _, m := range ms {
		out = append(out, m.Name)
	}
	return out
}

func TestReadDelivery(t *testing.T) {
	job, _ := mustRead(t, wholeJob(), Options{})
	require.Len(t, job.Delivery, 3)
	van, truck, shed := job.Delivery[0], job.Delivery[1], job.Delivery[2]
	assert.Equal(t, []string{"Tansy Hill", "Low Ford", "Low Ford"}, []string{van.Supplier, truck.Supplier, shed.Supplier})
	assert.Equal(t, []string{"", "North yard", "shed"}, []string{van.Site, truck.Site, shed.Site})
	assert.Equal(t, []string{"van", "tip truck", "delivered"}, []string{van.Name, truck.Name, shed.Name})
	assert.Equal(t, []quotes.Form{quotes.Bag}, van.Covers)
	assert.Equal(t, []quotes.Form{quotes.Bulk, quotes.Sack}, truck.Covers)
	assert.Equal(t, quotes.Forms, shed.Covers)
	assert.True(t, van.HandlingSet)
	assert.Equal(t, "15", van.Handling.String())
	assert.Equal(t, "1", van.Haul.For(50).String()) // 50 L at 0.02
	assert.Equal(t, "500", van.FreeOver.String())
	assert.Equal(t, "100", van.MinOrder.String())
	assert.True(t, van.Tax.IsZero())
	assert.Equal(t, "0.0825", truck.Tax.String())
	assert.InDelta(t, 8*764.554857984, float64(*truck.Trucks[0].Volume), 1e-6)
	assert.InDelta(t, 9071.8474, float64(*truck.Trucks[0].Weight), 1e-6)
	assert.Nil(t, van.Trucks[0].Volume)
	assert.Nil(t, truck.FreeOver)
}

func TestReadAllowRoughTop(t *testing.T) {
	job, _ := mustRead(t, Sources{
		Quotes: text("supplier,medium,pack,price\nLow Ford,pumice,50 L,12\n"), Beds: text("bed,volume\ntub,100 L\n"), Settings: text("allow_rough_top = true\n"),
	}, Options{})
	assert.Equal(t, job.Media.All(), job.Beds[0].TopMedia)
}

func TestReadQuotesOnly(t *testing.T) {
	f := Sources{Quotes: text("supplier,medium,pack,price\nLow Ford,pumice,50 L,12\n"), Delivery: text("supplier,site,order_fee\nLow Ford,anywhere,20\n")}
	job, _ := mustRead(t, f, Options{QuotesOnly: true, Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	assert.Empty(t, job.Beds)
	assert.Equal(t, "anywhere", job.Delivery[0].Site)
	assert.Empty(t, quotes.Sites(job))
}

func TestReadDecimalComma(t *testing.T) {
	job, _ := mustRead(t, Sources{
		Quotes:   text("supplier;medium;pack;price;breaks;size\nLow Ford;pumice;1,5 m3;1.027,50;10: 999,5;8,5-16 mm\n"),
		Beds:     text("bed\tlength\twidth\tdepth\nlong\t2,4 m\t1,2 m\t30,5 cm\n"),
		Settings: text("currency = \"EUR\"\n"),
	}, Options{})
	q := job.Quotes[0]
	assert.Equal(t, []string{"1027.5", "999.5"}, prices(q))
	assert.Equal(t, units.Litres(1500), q.PackLitres)
	assert.Equal(t, units.Millimetres(8.5), q.Size.Min)
	assert.Equal(t, units.Millimetres(305), job.Beds[0].Depth)
}

// Each number that reads one way is read so, whatever the others of its column, or
// of its own cell, are written like.
func TestReadMixedDecimals(t *testing.T) {
	job, rep := mustRead(t, Sources{
		Quotes: text("supplier,medium,pack,price,breaks\nLow Ford,pumice,50 L,1.50,\nLow Ford,pumice,50 L,\"2,75\",\"10: 2.25; 20: 1,5\"\nLow Ford,pumice,50 L,18,\n"),
	}, Options{QuotesOnly: true, Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	require.Len(t, job.Quotes, 3)
	assert.Equal(t, []string{"1.5"}, prices(job.Quotes[0]))
	assert.Equal(t, []string{"2.75", "2.25", "1.5"}, prices(job.Quotes[1]))
	assert.Equal(t, []string{"18"}, prices(job.Quotes[2]))
	var said []string
	for _, p := range rep.Warnings {
		if p.Heading == "price" || p.Heading == "breaks" {
			said = append(said, p.Error())
		}
	}
	assert.Equal(t, []string{
		`quotes.csv:3:22: price: "2,75" has a decimal comma, but "1.50" on line 2 has a decimal point; each is read by its own`,
		`quotes.csv:3:29: breaks: "20: 1,5" has a decimal comma, but "10: 2.25" on line 3 has a decimal point; each is read by its own`,
	}, said)
}

func TestReadFails(t *testing.T) {
	broken := errors.New("the cable came out")
	for _, name := range FileNames {
		f := wholeJob()
		src := Source{Name: name, R: iotest.ErrReader(broken)}
		switch name {
		case QuotesFile:
			f.Quotes = src
		case BedsFile:
			f.Beds = src
		case DeliveryFile:
			f.Delivery = src
		case MediaFile:
			f.Media = src
		case SettingsFile:
			f.Settings = src
		}
		job, rep, err := Read(f, Options{Today: testDay})
		require.ErrorIs(t, err, broken, name)
		assert.ErrorContains(t, err, name)
		assert.Nil(t, job)
		assert.Nil(t, rep)
	}
	_, _, err := Read(wholeJob(), Options{})
	require.ErrorContains(t, err, "no clock")
}

func TestReadFileTooLarge(t *testing.T) {
	endless := io.MultiReader(strings.NewReader("bed,volume\n"), endlessRows{})
	job, rep, err := Read(Sources{Quotes: text(wholeQuotes), Beds: Source{R: endless}}, Options{Today: testDay})
	require.NoError(t, err)
	assert.Nil(t, job)
	require.Len(t, rep.Problems, 1)
	assert.Equal(t, "beds.csv:1:1: the file is larger than 16 MiB, want one job's sheet", rep.Problems[0].Error())
}

func TestReadTooManyRows(t *testing.T) {
	_, rep, err := Read(Sources{Quotes: text("supplier,medium,pack,price\n" + strings.Repeat("A,pumice,50 L,12\n", MaxRows+1)), Beds: text(wholeBeds)}, Options{Today: testDay})
	require.NoError(t, err)
	require.Len(t, rep.Problems, 1)
	assert.Equal(t, "quotes.csv:10002:1: there are more than 10000 rows, want one job's sheet", rep.Problems[0].Error())
}

// Rows without a name get one that does not clash with those written, by row.
func TestReadNames(t *testing.T) {
	job, _ := mustRead(t, Sources{Quotes: text("quote,supplier,item,medium,pack,price\n,A,x,pumice,1 L,1\n,a,X,pumice,1 L,1\nA/x#3,A,y,pumice,1 L,1\n,A,x,pumice,1 L,1\n,A,,pumice,1 L,1\n")},
		Options{QuotesOnly: true, Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
	var got []string
	for _, q := range job.Quotes {
		got = append(got, q.Name)
	}
	assert.Equal(t, []string{"A/x", "A/X#2", "A/x#3", "A/x#4", "A/pumice"}, got)
}

// endlessRows is a file that never ends.
type endlessRows struct{}

func (endlessRows) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}

func TestTemplates(t *testing.T) {
	all := Templates()
	require.Len(t, all, len(FileNames))
	for name, cols := range map[string][]column{
		QuotesFile: columnsOf[rawQuote](), BedsFile: columnsOf[rawBed](), DeliveryFile: columnsOf[rawDelivery](), MediaFile: columnsOf[rawMedium](),
	} {
		lines := strings.Split(strings.TrimSpace(string(all[name])), "\n")
		require.Greater(t, len(lines), 3)
		at := slices.Index(lines, strings.Join(headingsOf(cols), ","))
		require.Positive(t, at, name)
		for i, l := range lines {
			assert.True(t, i == at || strings.HasPrefix(l, "# "), l)
		}
		for _, h := range headingsOf(cols) {
			if h != "medium" { // in media.csv explained with other_names
				assert.Regexp(t, `(?m)^#.*\b`+h+`\b`, string(all[name]), name)
			}
		}
		// The examples are rows once their marks are taken off.
		for i, l := range lines[at+1:] {
			example := strings.TrimPrefix(l, "# ")
			assert.Len(t, csvfile.SplitRow(example, ','), len(cols), name)
			lines[at+1+i] = example
		}
		all[name] = []byte(strings.Join(lines, "\n"))
	}
	for _, s := range settingNames {
		assert.Regexp(t, `(?m)^(# |\[)?`+s+`( =|\])`, string(all[SettingsFile]))
	}
	src := func(name string) Source { return text(string(all[name])) }
	job, rep := mustRead(t, Sources{src(QuotesFile), src(BedsFile), src(DeliveryFile), src(MediaFile), src(SettingsFile)}, Options{})
	assert.Len(t, job.Quotes, 2)
	assert.Empty(t, rep.Warnings)
}

// Taken as they are, the templates only want rows.
func TestTemplatesEmpty(t *testing.T) {
	all := Templates()
	src := func(name string) Source { return text(string(all[name])) }
	job, rep, err := Read(Sources{src(QuotesFile), src(BedsFile), src(DeliveryFile), src(MediaFile), src(SettingsFile)}, Options{Today: testDay})
	require.NoError(t, err)
	assert.Nil(t, job)
	assert.Empty(t, rep.Warnings)
	require.Len(t, rep.Problems, 2)
	for _, p := range rep.Problems {
		assert.Equal(t, "there is no row under the headings", p.Found)
	}
}

// A tax that a row states beside tax_included is not added, and the buyer is told.
func TestTaxStatedAndNotAdded(t *testing.T) {
	const rows = "supplier,medium,pack,price,tax\nYard,pumice,1 m3,50,%s\n"
	for tax, told := range map[string]bool{"19%": true, "0%": false, "": false} {
		for settings, included := range map[string]bool{"tax_included = true\n": true, "": false} {
			_, rep, err := Read(Sources{Quotes: Source{R: strings.NewReader(fmt.Sprintf(rows, tax))}, Settings: Source{R: strings.NewReader("currency = \"EUR\"\n" + settings)}}, Options{QuotesOnly: true, Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
			require.NoError(t, err)
			require.True(t, rep.OK(), rep.Problems)
			assert.Equal(t, told && included, slices.ContainsFunc(rep.Warnings, func(w *quotes.Problem) bool { return strings.Contains(w.Found, "is not added") }), "%s %s", tax, settings)
		}
	}
}

// A supplier's words for the dust of a stone are told beside the name of the stone.
func TestFinePartsAreTold(t *testing.T) {
	for item, told := range map[string]bool{"granite dust": true, "decomposed granite": true, "granite 10 mm, no dust": false, "": false} {
		_, rep, err := Read(Sources{Quotes: Source{R: strings.NewReader("supplier,item,medium,pack,price\nYard,\"" + item + "\",crushed granite,1 m3,50\n")}}, Options{QuotesOnly: true, Today: time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)})
		require.NoError(t, err)
		require.True(t, rep.OK(), rep.Problems)
		assert.Equal(t, told, slices.ContainsFunc(rep.Warnings, func(w *quotes.Problem) bool {
			return w.Heading == "item" && strings.Contains(w.Found, "clogs drains")
		}), item)
	}
}
