package byvolume

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// fromFiles makes a job of one bed of 400 L and the texts of its other files.
func fromFiles(t require.TestingT, quotesCSV, deliveryCSV, jobTOML string) *quotes.Job {
	return jobtest.Files{Quotes: quotesCSV, Beds: "bed,volume\none,400 L\n", Delivery: deliveryCSV, Settings: jobTOML, Media: jobtest.NoLoss}.Job(t)
}

func stretchWords(v *Volume) []string {
	var out []string
	for _, s := range v.Stretches {
		out = append(out, fmt.Sprintf("%.0f to %.0f %s", float64(s.From), float64(s.To), s.Cheaper))
	}
	return out
}

// Bags of 50 L at 10 against heaps of 200 L at 25 and a truck for 20:
//
//	litres      bags           heaps
//	to 200      10 20 30 40    45     bags
//	to 250      50             70     bags
//	to 350      60 70          70     bags, then the same
//	to 400      80             70     heaps
//	to 500      90 100         95     bags, then heaps
//	to 600      110 120        95     heaps
//	to 650      130            120    heaps from here on
//
// In the long run 10/50 = 0.2 a litre against 25/200 = 0.125.
func TestVolumeByHand(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,size
bag,Aldermoor,expanded clay,bag,50 L,10.00,8-16 mm
heap,Brackwell,expanded clay,bulk,200 L,25.00,8-16 mm
`, "supplier,order_fee\nBrackwell,20\n", "")
	bags, bulk, err := BagsAndBulk(job, suitability.New(job))
	require.NoError(t, err)
	v, err := Between(job, bags, bulk, "", 800)
	require.NoError(t, err)
	assert.Equal(t, []string{"0 to 300 left", "300 to 350 equal", "350 to 400 right", "400 to 450 left", "450 to 800 right"}, stretchWords(v)[:5])
	assert.InDelta(t, 350, float64(*v.First), 1e-6)
	assert.InDelta(t, 450, float64(*v.Always), 1e-6)
	assert.True(t, v.Settled)
	d := NewDocument(v)
	assert.Equal(t, DocumentStretch{400, 450, "bags"}, d.Stretches[3])
	assert.Equal(t, "equal", d.Stretches[1].Cheaper)
}

// xpress documentation, a price schedule by increments (data seen, sums by hand):
// 50 at 0.80, 70 at 0.50, the rest at 0.30, so 150 cost 40 + 35 + 9 = 84.
func TestStaircaseOfAPriceSchedule(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,breaks,break_kind,size
litre,Aldermoor,expanded clay,bag,1 L,0.80,51: 0.50; 121: 0.30,incremental,8-16 mm
`, "", "")
	s, err := staircase(job, job.Quotes[0], "", 200)
	require.NoError(t, err)
	for litres, want := range map[float64]string{50: "40.00", 120: "75.00", 150: "84.00", 150.5: "84.30"} {
		step, ok := s.at(litres)
		require.True(t, ok)
		assert.Equal(t, want, step.total.Text(2), "%v L", litres)
	}
}

// A quote sold from 4 packs, with 6 in stock and a break at 5: 4·10 = 40 and
// 5·8 = 40 cost the same, so 5 packs place a little volume as well.
func TestStaircaseMinimumBreakAndStock(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,breaks,min_qty,max_qty,size
bag,Aldermoor,expanded clay,bag,50 L,10.00,5: 7.90,4,6,8-16 mm
`, "", "")
	s, err := staircase(job, job.Quotes[0], "", 1000)
	require.NoError(t, err)
	for litres, want := range map[float64]string{1: "39.50", 250: "39.50", 251: "47.40", 300: "47.40"} {
		step, ok := s.at(litres)
		require.True(t, ok)
		assert.Equal(t, want, step.total.Text(2), "%v L", litres)
	}
	_, ok := s.at(300.1)
	assert.False(t, ok, "6 packs are all there are")
}

// More packs than are looked at can be cheaper still: free delivery from 100 on is
// reached by 10 packs, break 20 far beyond the volume.
func TestStaircaseLooksBeyondItsVolume(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,breaks,size
bag,Aldermoor,expanded clay,bag,50 L,10.00,20: 2.00,8-16 mm
`, "supplier,order_fee,free_over\nAldermoor,70,100\n", "")
	s, err := staircase(job, job.Quotes[0], "", 300)
	require.NoError(t, err)
	// 6 packs: 60 + 70 = 130; 10 packs free: 100; 20 packs at 2.00: 40 + 70 = 110;
	// 50 at 2.00 free: 100.
	step, ok := s.at(300)
	require.True(t, ok)
	assert.Equal(t, "100.00", step.total.Text(2))
	step, _ = s.at(50) // 1 pack: 80
	assert.Equal(t, "80.00", step.total.Text(2))
}

// The staircases hold litre by litre against the comparison of quotes, which
// prices each volume by itself in another way.
func TestStaircasesLitreByLitre(t *testing.T) {
	jobtest.Long(t)
	jobtest.FewerChecks(t, 40)
	rapid.Check(t, func(t *rapid.T) {
		job, _ := randjob.Tiny(t, true)
		most := 700.0
		fit := suitability.New(job)
		var all []stairs
		for _, q := range job.Quotes {
			s, err := staircase(job, q, "", most)
			require.NoError(t, err)
			all = append(all, s)
		}
		for litres := rapid.IntRange(1, 11).Draw(t, "first"); litres < int(most); litres += 11 {
			for i, e := range optimise.Compare(job, fit, optimise.CompareOptions{Litres: units.Litres(litres)}) {
				got, ok := all[i].at(float64(litres))
				if e.Bill == nil || e.Short > 0 {
					require.False(t, ok, "%s places %d L for %v and the comparison has no price", e.Quote.Name, litres, got)
					continue
				}
				require.True(t, ok, "%s has no price for %d L", e.Quote.Name, litres)
				require.Equal(t, e.Bill.Total.Text(2), got.total.Text(2), "%s for %d L", e.Quote.Name, litres)
			}
		}
		// And the cheapest of several is the lowest of them.
		low := cheapest(all)
		for v := 5.5; v < most; v += 37 {
			best, found := "", false
			for _, s := range all {
				if step, ok := s.at(v); ok && (!found || step.total.Cmp(units.M(best)) < 0) {
					best, found = step.total.String(), true
				}
			}
			got, ok := low.at(v)
			require.Equal(t, found, ok)
			if ok {
				require.Equal(t, best, got.total.String())
			}
		}
	})
}

// What is said to be settled stays so: looking three times as far finds the same
// winner.
func TestSettledStaysSettled(t *testing.T) {
	jobtest.FewerChecks(t, 40)
	rapid.Check(t, func(t *rapid.T) {
		job, _ := randjob.Tiny(t, true)
		for _, q := range job.Quotes {
			if rapid.Bool().Draw(t, "endless") {
				q.MaxQty = nil
			}
		}
		left, right := One(job.Quotes[0]), One(job.Quotes[1])
		v, err := Between(job, left, right, "", 300)
		if err != nil {
			require.ErrorContains(t, err, "no quote of")
			return
		}
		if !v.Settled {
			return
		}
		last := v.Stretches[len(v.Stretches)-1].Cheaper
		far, err := Between(job, left, right, "", 3*v.Looked)
		require.NoError(t, err)
		for _, s := range far.Stretches {
			if s.To > v.Looked+thimble {
				require.Equal(t, last, s.Cheaper, "above %v L", s.From)
			}
		}
	})
}

func TestOneSidedJobsSaySo(t *testing.T) {
	const head = "quote,supplier,medium,form,pack,price,size\n"
	bag, heap := "bag,Aldermoor,expanded clay,bag,50 L,10,8-16 mm\n", "heap,Brackwell,expanded clay,bulk,1 m3,90,8-16 mm\n"
	lime := "lime,Brackwell,limestone,bulk,1 m3,9,8-16 mm\n"
	for text, want := range map[string]string{
		head + bag:        "no quote comes in bulk",
		head + heap:       "no quote comes in bags",
		head + bag + lime: "no bed takes any quote that comes in bulk",
		head + heap + strings.Replace(lime, "bulk", "bag", 1): "no bed takes any quote that comes in bags",
	} {
		job := fromFiles(t, text, "", "")
		_, _, err := BagsAndBulk(job, suitability.New(job))
		require.ErrorContains(t, err, want)
	}
	_, _, err := BagsAndBulk(fromFiles(t, head+bag, "", ""), suitability.New(fromFiles(t, head+bag, "", "")))
	require.ErrorIs(t, err, ErrNoBulk)
}

func TestVolumeRefusals(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,form,pack,price,size\nbag,Aldermoor,expanded clay,bag,50 L,10,8-16 mm\nheap,Brackwell,expanded clay,bulk,1 m3,90,8-16 mm\n",
		Beds:   "bed,volume,site\none,400 L,north\n", Delivery: "supplier,covers,order_fee\nBrackwell,bag,10\n", Media: jobtest.NoLoss,
	}.Job(t)
	_, err := Between(job, One(job.Quotes[0]), One(job.Quotes[1]), "north", 100)
	require.ErrorContains(t, err, `"heap"`)
	_, err = Between(job, One(job.Quotes[0]), One(job.Quotes[0]), "north", 0)
	require.ErrorContains(t, err, "more than 0")
	v, err := Between(job, Side{"both", job.Quotes}, One(job.Quotes[0]), "north", 100)
	require.NoError(t, err)
	require.Len(t, v.Notes, 1)
	assert.Contains(t, v.Notes[0], "does not deliver")
	_, err = staircase(job, job.Quotes[0], "north", 1e9)
	require.ErrorContains(t, err, "ask for less volume")
}

// Bag by bag and half yard by half yard: where the bulk of a medium first and for
// good beats its bags, against pricing every volume by hand.
func TestBothWaysAgainstCounting(t *testing.T) {
	job := jobtest.Files{Quotes: `quote,supplier,medium,form,pack,step,price,breaks,size
bag,Shop,grit,bag,50 L,,9.00,12: 8.00,8-16 mm
sack,Shop,grit,bag,25 L,,5.00,,8-16 mm
heap,Yard,grit,bulk,400 L,0.5,40.00,,8-16 mm
other,Yard,rock,bulk,1 m3,,20.00,,8-16 mm
`, Beds: "bed,volume\none,1500 L\n", Delivery: "supplier,order_fee,load_fee,load_volume\nShop,0,,\nYard,20,25,1 m3\n",
		Media: "medium,dry_density,held_water,voids,feel,carbonate,breaks_down\ngrit,1 kg/L,0,0,smooth,none,no\nrock,2 kg/L,0,0,rough,none,no\n"}.Job(t)
	both := SoldBothWays(job, suitability.New(job))
	require.Len(t, both, 1, "rock comes in bulk only")
	v, err := OfMedium(job, both[0], "", 1500)
	require.NoError(t, err)
	bags := func(litres float64) float64 {
		n, m := math.Ceil(litres/50-1e-9), math.Ceil(litres/25-1e-9)
		best := min(n*9, m*5)
		if n <= 12 {
			best = min(best, 12*8)
		} else {
			best = min(best, n*8)
		}
		return best
	}
	heap := func(litres float64) float64 {
		halves := math.Ceil(litres/200 - 1e-9)
		return halves*20 + 20 + 25*math.Ceil(halves*200/1000-1e-9)
	}
	first, always := -1.0, -1.0
	for litres := 25.0; litres <= 1500; litres += 25 { // every price holds over whole steps of 25 L
		if heap(litres) < bags(litres)-1e-9 {
			if first < 0 {
				first = litres - 25
			}
			if always < 0 {
				always = litres - 25
			}
		} else {
			always = -1
		}
	}
	require.NotNil(t, v.First)
	require.InDelta(t, first, float64(*v.First), 1e-6)
	require.NotNil(t, v.Always)
	require.InDelta(t, always, float64(*v.Always), 1e-6)
	require.Equal(t, "heap", v.Right.Name)
	at := v.BagsAt(v.First)
	require.NotNil(t, at)
	require.InDelta(t, bags(first+25), at.Total.Float(), 1e-9)
}
