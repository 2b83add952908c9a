package optimise

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// quotesAlone reads a job without beds; an empty text is a file that is not there.
func quotesAlone(t testing.TB, quotesCSV, deliveryCSV, settings string) *quotes.Job {
	return jobtest.Files{Quotes: quotesCSV, Delivery: deliveryCSV, Settings: settings, Media: plainMedium}.Job(t)
}

// plainMedium loses nothing, so that packs place what they hold.
const plainMedium = `medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_minutes
grit,1 kg/L,0.1,0.4,smooth,none,no,30
`

func TestCompareByHand(t *testing.T) {
	const head = "quote,supplier,medium,form,pack,step,price,breaks,break_kind,min_qty,max_qty,tax\n"
	for _, c := range []struct {
		name            string
		quote, delivery string
		settings        string
		litres          units.Litres
		packs, total    string
		per             string
		short           float64
		note            string
	}{
		{
			// 425 L in 50 L bags is 8.5, so 9. 9 × 29 = 261; 10 × 26 = 260.
			name: "ten cost less than nine", quote: "a,Yard,grit,bag,50 L,1,29,10: 26,,,,", litres: 425, packs: "10", total: "260", per: "0.6118",
		},
		{
			// 8 × 29 = 232 is below 260.
			name: "eight cost less than ten", quote: "a,Yard,grit,bag,50 L,1,29,10: 26,,,,", litres: 400, packs: "8", total: "232", per: "0.58",
		},
		{
			// 9 × 29 + 45 = 306; 10 × 29 = 290 reaches free delivery from 280.
			name: "free delivery is reached", quote: "a,Yard,grit,bag,50 L,1,29,,,,,", delivery: "supplier,order_fee,free_over\nYard,45,280\n",
			litres: 425, packs: "10", total: "290", per: "0.6824",
		},
		{
			// The smallest order is 500: 18 × 29 = 522, 17 × 29 = 493 is refused.
			name: "the smallest order is met", quote: "a,Yard,grit,bag,50 L,1,29,,,,,", delivery: "supplier,order_fee,min_order\nYard,10,500\n",
			litres: 425, packs: "18", total: "532", per: "1.2518",
		},
		{
			// Half yards: 1.5 × 120 = 180, and 2 loads of a yard each at 30.
			name: "half packs and loads", quote: "a,Yard,grit,bulk,1 yd3,0.5,120,,,,,", delivery: "supplier,load_fee,load_volume\nYard,30,1 yd3\n",
			litres: 1100, packs: "1.5", total: "240", per: "0.2182",
		},
		{
			// 4 in stock: 4 × 50 = 200 L for 116; 425 − 200 = 225 L are missing.
			name: "stock runs out", quote: "a,Yard,grit,bag,50 L,1,29,,,,4,", litres: 425, packs: "4", total: "116", per: "0.58", short: 225,
			note: "only 4 packs are in stock; priced for those alone",
		},
		{
			name: "fewest packs sold", quote: "a,Yard,grit,bag,50 L,1,29,,,12,,", litres: 425, packs: "12", total: "348", per: "0.8188",
		},
		{
			// The 9th at 29, the 10th would be at 26: 9 × 29 = 261 is the least.
			name: "incremental breaks do not reach back", quote: "a,Yard,grit,bag,50 L,1,29,10: 26,incremental,,,", litres: 425, packs: "9", total: "261", per: "0.6141",
		},
		{
			// Van 40 or truck 25 + 2 loads of 20 = 65: the van. (9 × 29) + 40 = 301.
			name: "the cheaper way", quote: "a,Yard,grit,bag,50 L,1,29,,,,,",
			delivery: "supplier,name,order_fee,load_fee,load_volume\nYard,truck,25,20,300 L\nYard,van,40,,\n", litres: 425, packs: "9", total: "301", per: "0.7082",
		},
		{
			name: "nobody brings bags", quote: "a,Yard,grit,bag,50 L,1,29,,,,,", delivery: "supplier,covers,order_fee\nYard,bulk,25\n", litres: 425,
			note: "Yard does not deliver bag goods",
		},
		{
			// Goods 261, tax 8 % = 20.88; rinsing 450 L × 30 min / 100 L = 2.25 h × 20 = 45.
			name: "tax and rinsing", quote: "a,Yard,grit,bag,50 L,1,29,,,,,8%", settings: "labour_rate = 20", litres: 425, packs: "9", total: "326.88", per: "0.7691",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := quotesAlone(t, head+c.quote+"\n", c.delivery, c.settings)
			list := Compare(job, suitability.New(job), CompareOptions{Litres: c.litres})
			require.Len(t, list, 1)
			e := list[0]
			assert.Equal(t, c.note, e.Note)
			assert.False(t, e.Barred)
			if c.total == "" {
				assert.Nil(t, e.Bill)
				return
			}
			require.NotNil(t, e.Bill)
			assert.Equal(t, c.packs, e.Packs.String())
			assert.Equal(t, c.total, e.Bill.Total.String())
			assert.Equal(t, units.D(c.per), e.PerLitre.Decimal().Round(PerLitreDigits))
			assert.InDelta(t, c.short, float64(e.Short), 1e-9)
			if c.name == "ten cost less than nine" {
				assert.Equal(t, "9", e.Enough.String())
			}
		})
	}
}

// Every count of packs up to far beyond the last break, priced one by one, has
// none cheaper than what Compare buys.
func TestCompareFindsTheCheapestCount(t *testing.T) {
	jobtest.Long(t)
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 3))
		price := 20 + r.IntN(20)
		breaks := fmt.Sprintf("%d: %d; %d: %d", 5+r.IntN(8), price-1-r.IntN(5), 20+r.IntN(15), price-8-r.IntN(6))
		kind := []string{"all-units", "incremental"}[r.IntN(2)]
		q := fmt.Sprintf("quote,supplier,medium,pack,step,price,breaks,break_kind,min_qty\na,Yard,grit,50 L,%s,%d,%s,%s,%d\n",
			[]string{"1", "0.5", "3"}[r.IntN(3)], price, breaks, kind, r.IntN(12))
		d := fmt.Sprintf("supplier,name,order_fee,load_fee,load_volume,free_over,min_order\nYard,van,%d,,,%d,%d\nYard,truck,%d,%d,400 L,,\n",
			20+r.IntN(60), 100+r.IntN(900), r.IntN(500), r.IntN(30), 10+r.IntN(20))
		job := quotesAlone(t, q, d, "")
		litres := units.Litres(1 + r.IntN(2500))
		e := Compare(job, suitability.New(job), CompareOptions{Litres: litres})[0]
		require.NotNil(t, e.Bill, "seed %d: %s", seed, e.Note)

		best := units.Money{}
		quote := job.Quotes[0]
		for steps := int64(1); steps < 250; steps++ {
			it := bill.Item{Quote: quote, Steps: steps}
			if it.Packs().Float()*float64(quote.Placed()) < float64(litres)-1e-6 {
				continue
			}
			for _, w := range job.Delivery {
				bill, err := bill.Price(job, bill.Purchase{Items: []bill.Item{it}, Carry: map[bill.Carry]*quotes.Delivery{{Supplier: "Yard", Site: "", Form: quotes.Bag}: w}})
				if err == nil && (best.IsZero() || bill.Total.Cmp(best) < 0) {
					best = bill.Total
				}
			}
		}
		assert.Equal(t, best.String(), e.Bill.Total.String(), "seed %d at %.0f L:\n%s%s", seed, float64(litres), q, d)
	}
}

// At the litres of its own beds each quote is priced for what it may fill, and
// one that fits nothing is barred with its reasons.
func TestCompareWithBeds(t *testing.T) {
	job, rep := jobtest.Files{
		Quotes: `quote,supplier,medium,pack,price,size
grit,Yard,grit,50 L,10,8-16 mm
lava,Yard,lava rock,50 L,10,8-16 mm
fines,Yard,grit,50 L,4,12 mm minus
marble,Yard,marble chips,50 L,4,8-16 mm
`,
		Beds: `bed,count,length,width,depth,top,min_size
b,2,1 m,1 m,300 mm,100 mm,5 mm
a,1,1 m,1 m,200 mm,,5 mm
`,
		Media:    plainMedium,
		Settings: "extra = \"10%\"\n",
	}.Read(t)
	fit := suitability.New(job)
	byName := map[string]Quoted{}
	for _, e := range Compare(job, fit, CompareOptions{}) {
		byName[e.Quote.Name] = e
	}
	// Grit: 2 × 300 + 200 = 800 L, and a tenth more to spare: 880 L, 18 bags (17.6).
	assert.InDelta(t, 800, float64(byName["grit"].Litres), 1e-9)
	assert.Equal(t, []string{"a", "b"}, byName["grit"].Fits)
	assert.Equal(t, 3, byName["grit"].Beds, "two alike and one")
	assert.Equal(t, "18", byName["grit"].Packs.String())
	// Lava is rough: the bases only, 2 × 200 + 200 = 600 L.
	assert.InDelta(t, 600, float64(byName["lava"].Litres), 1e-9)
	assert.True(t, byName["fines"].Barred)
	assert.Nil(t, byName["fines"].Bill)
	require.Len(t, byName["fines"].Reasons, 1)
	assert.Equal(t, suitability.RuleMinSize, byName["fines"].Reasons[0].Rule)
	require.Len(t, byName["marble"].Reasons, 1, "what bars it everywhere is reason enough")
	assert.Equal(t, suitability.RuleCarbonate, byName["marble"].Reasons[0].Rule)

	doc := asObject(t, NewCompareDocument(job, fit, Compare(job, fit, CompareOptions{}), 880, rep))
	fields(t, "comparison", doc, "currency:s litres:n quotes:l warnings:l")
	inOrder(t, doc["quotes"].([]any), "quote")
	for _, row := range doc["quotes"].([]any) {
		q := row.(map[string]any)
		if q["total"] == nil {
			assert.Contains(t, []string{"fines", "marble"}, q["quote"])
			continue
		}
		fields(t, "quote", row, "quote:s supplier:s medium:s form:s litres:n packs:n break_from:n litres_placed:n short_litres:n price_per_litre:s "+
			"per_litre:s total:m goods:m delivery:m tax:m rinsing:m fits:l refused:l note:s")
		sum := cents(t, q["goods"]).Add(cents(t, q["delivery"])).Add(cents(t, q["tax"])).Add(cents(t, q["rinsing"]))
		assert.True(t, sum.Equal(cents(t, q["total"])))
	}
}

// Several sites, handling, haul and groups: each quote still gets one honest
// price or a reason why not, and what is priced covers what is asked.
func TestCompareOfEverything(t *testing.T) {
	jobtest.Long(t)
	for seed := range uint64(10) {
		job := randjob.Job(seed, randjob.All(3, 4, 12, 6))
		for _, e := range Compare(job, suitability.New(job), CompareOptions{}) {
			if e.Bill == nil {
				assert.NotEmpty(t, e.Note, "seed %d: %s", seed, e.Quote.Name)
				continue
			}
			assert.GreaterOrEqual(t, float64(e.Placed+e.Short), float64(e.Litres)*(1-1e-6))
			if e.Placed < e.Litres-1e-6 {
				assert.NotEmpty(t, e.Note)
			}
		}
	}
}

// Each site needs its own packs: 640 L is 2 of 500 L and 1200 L is 3, but only 4
// are in stock. The last site goes without: 3 × 500 L there, 2 here, one missing:
// 1200 − 1000 = 200 L short.
func TestCompareStockOverSites(t *testing.T) {
	job := jobtest.Files{Quotes: "quote,supplier,medium,pack,price,max_qty\na,Yard,grit,500 L,10,4\n", Beds: "bed,volume,site\none,640 L,east\ntwo,1200 L,west\n", Media: "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle\ngrit,1 kg/L,0,0,smooth,none,no,0%,0%\n"}.Job(t)
	got := Compare(job, suitability.New(job), CompareOptions{})
	require.Len(t, got, 1)
	assert.Equal(t, "4", got[0].Packs.String())
	assert.InDelta(t, 200, float64(got[0].Short), 1e-9)
	assert.NotEmpty(t, got[0].Note)
}

// 4 packs at 10 fill both sites' beds, a load carries 3, and from 6 packs each
// costs 5. With a third pack for each site no load is added: 6 × 5 + 2 × 20 = 70.
// All beyond the need sent to one site would be 4 there and a second load: 90; and
// without them it is 4 × 10 + 2 × 20 = 80.
func TestCompareSpreadsWhatIsBoughtBeyondTheNeed(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,grit,100 L,10,6: 5\n", Beds: "bed,volume,site\none,200 L,east\ntwo,200 L,west\n",
		Delivery: "supplier,load_fee,load_volume\nYard,20,300 L\n", Media: "medium,dry_density,held_water,voids,feel,carbonate,breaks_down,rinse_loss,settle\ngrit,1 kg/L,0,0,smooth,none,no,0%,0%\n",
	}.Job(t)
	got := Compare(job, suitability.New(job), CompareOptions{})
	require.Len(t, got, 1)
	require.NotNil(t, got[0].Bill)
	assert.Equal(t, "70.00", got[0].Bill.Total.Text(2))
}

// What bars a quote in one bed only is said of that bed; what bars it in every bed that has
// the layer needs no bed.
func TestReasonsOfSomeBedsNameThem(t *testing.T) {
	job, _ := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,size\nlava,Yard,lava rock,50 L,10,4-8 mm\n",
		Beds:   "bed,length,width,depth,top,min_size,avoid\na,1 m,1 m,200 mm,50 mm,8 mm,lava rock\nb,1 m,1 m,200 mm,50 mm,8 mm,\nc,1 m,1 m,200 mm,,8 mm,\n",
		Media:  plainMedium,
	}.Read(t)
	list := Compare(job, suitability.New(job), CompareOptions{})
	require.True(t, list[0].Barred)
	where := map[suitability.Rule]string{}
	for _, r := range list[0].Reasons {
		where[r.Rule] = r.Where
	}
	assert.Equal(t, map[suitability.Rule]string{suitability.RuleAvoid: "bed a", suitability.RuleMinSize: "", suitability.RuleTop: ""}, where)
	assert.Equal(t, "it is lava rock, which the bed avoids (bed a)", list[0].Reasons[0].Words())
}
