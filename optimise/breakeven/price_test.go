package breakeven

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// words are a series' changes as a person would note them.
func words(s Series) []string {
	buy := func(list []Bought) string {
		out := ""
		for i, b := range list {
			if i > 0 {
				out += " + "
			}
			out += b.Packs.String() + " " + b.Quote.Name
		}
		return out
	}
	var out []string
	for _, c := range s.Changes {
		jump := ""
		if c.Jump {
			jump = " (jump)"
		}
		out = append(out, buy(c.Below)+" | "+c.At.Text(toldDigits)+jump+" | "+buy(c.Above))
	}
	return out
}

const twoQuotes = `quote,supplier,medium,form,pack,price,breaks,size
bag,Aldermoor,expanded clay,bag,50 L,10.00,%s,8-16 mm
heap,Brackwell,expanded clay,bulk,200 L,30.00,,8-16 mm
`

const oneBed = "bed,volume\none,400 L\n"

// One bed of 400 L: 8 bags, or 2 heaps and an order fee of 30.
func TestTwoQuotesByHand(t *testing.T) {
	const fee = "supplier,name,order_fee,free_over\nBrackwell,truck,30,\n"
	for name, c := range map[string]struct {
		breaks, delivery, toml string
		target                 func(*quotes.Job) Target
		inPlan                 bool
		enters, leaves, off    string
		changes                []string
	}{
		// 8 bags cost 80. 2 heaps at x cost 2x + 30, a heap and 4 bags x + 70, which
		// is below 80 only where 2x + 30 is lower still. 2x + 30 = 80 at x = 25, a
		// sixth off the price of 30.
		"heap enters": {delivery: fee, target: named("heap"), enters: "25.00", off: "16.7",
			changes: []string{"2 heap | 25.0000 | 8 bag"}},
		// 2 heaps cost 2·30 + 30 = 90 = 8x at x = 11.25.
		"bag leaves": {delivery: fee, target: named("bag"), inPlan: true, leaves: "11.25",
			changes: []string{"8 bag | 11.2500 | 2 heap"}},
		// From 8 bags on they cost nine tenths: 8·0.9·x = 90 at x = 12.5.
		"a break moves along": {breaks: "8: 9.00", delivery: fee, target: named("bag"), inPlan: true, leaves: "12.50",
			changes: []string{"8 bag | 12.5000 | 2 heap"}},
		// Tax on goods and fees alike moves nothing: 1.1·(2x + 30) = 1.1·80.
		"tax moves nothing": {delivery: fee, toml: "tax = 10\n", target: named("heap"), enters: "25.00", off: "16.7",
			changes: []string{"2 heap | 25.0000 | 8 bag"}},
		"tax in the price": {delivery: fee, toml: "tax = 10\ntax_included = true\n", target: named("heap"), enters: "25.00", off: "16.7",
			changes: []string{"2 heap | 25.0000 | 8 bag"}},
		// 2·30 + F = 80 at F = 20, a third off the fee of 30.
		"fee": {delivery: fee, target: func(j *quotes.Job) Target { return FeesOf(j, "Brackwell")[0] }, enters: "20.00", off: "33.4",
			changes: []string{"2 heap | 20.0000 | 8 bag"}},
		// 60f + 30 = 80 at f = 5/6, told with four decimals.
		"supplier": {delivery: fee, target: func(*quotes.Job) Target { return OfSupplier("Brackwell") }, enters: "0.8333", off: "16.7",
			changes: []string{"2 heap | 0.8333 | 8 bag"}},
		"bulk": {delivery: fee, target: func(j *quotes.Job) Target { b, _ := Bulk(j); return b }, enters: "0.8333", off: "16.7",
			changes: []string{"2 heap | 0.8333 | 8 bag"}},
		// Bags come for 20, free from 80 on, so the price decides what is free:
		//	up to 8:      8 bags and the fee, 8x + 20; 11 bags free would cost 11x, more from 6.67 on
		//	from 8:       10 bags are worth 80 and come free: 10x < 8x + 20
		//	from 80/9:    9 bags are
		//	from 10:      8 bags are
		//	from 11.25:   2 heaps for 90
		"free delivery": {delivery: fee + "Aldermoor,van,20,80\n", target: named("bag"), inPlan: true, leaves: "11.25",
			changes: []string{
				"8 bag | 8.0000 (jump) | 10 bag", "10 bag | 8.8889 (jump) | 9 bag",
				"9 bag | 10.0000 (jump) | 8 bag", "8 bag | 11.2500 | 2 heap",
			}},
	} {
		t.Run(name, func(t *testing.T) {
			job := fromFiles(t, fmt.Sprintf(twoQuotes, c.breaks), oneBed, c.delivery, "currency = \"EUR\"\n"+c.toml)
			target := c.target(job)
			s := series(t, job, []Target{target}, Options{Depth: Every})[0]
			assert.Equal(t, c.inPlan, s.InPlan)
			assert.Empty(t, s.Unproven)
			assert.Empty(t, s.Partial)
			assert.Equal(t, c.changes, words(s))
			d := seriesDocument(s, target.Digits(job))
			assert.Equal(t, c.enters, deref(d.EntersAt))
			assert.Equal(t, c.leaves, deref(d.LeavesAt))
			assert.Equal(t, c.off, deref(d.PercentOff))
			for _, change := range s.Changes {
				assert.True(t, change.Confirmed)
			}

			// Looked for by itself, the same threshold comes with the buys on its two
			// sides and no other change.
			s = series(t, job, []Target{target}, Options{Depth: Nearest})[0]
			d = seriesDocument(s, target.Digits(job))
			assert.Equal(t, c.enters, deref(d.EntersAt))
			assert.Equal(t, c.leaves, deref(d.LeavesAt))
			assert.NotEmpty(t, s.Partial)
			assert.Equal(t, c.changes[len(c.changes)-1:], words(s))
			assert.True(t, s.Changes[0].Confirmed)
		})
	}
}

func named(name string) func(*quotes.Job) Target {
	return func(job *quotes.Job) Target {
		q, err := FindQuote(job, name)
		if err != nil {
			panic(err)
		}
		return OfQuote(job, q)
	}
}

func deref(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}

// The price at which a plan changes is found again by solving a cent on either
// side: the test holds both sides, as whole bills.
func TestBothSidesOfAThreshold(t *testing.T) {
	job := fromFiles(t, fmt.Sprintf(twoQuotes, ""), oneBed, "supplier,name,order_fee\nBrackwell,truck,30\n", "")
	for price, want := range map[string]string{"11.24": "bag", "11.26": "heap"} {
		target := named("bag")(job)
		x := dec(price)
		plan, err := optimise.Solve(context.Background(), target.at(job, x, x), optimise.Options{})
		require.NoError(t, err)
		require.Len(t, plan.Bill.Lines, 1)
		assert.Equal(t, want, plan.Bill.Lines[0].Quote.Name, "at %s a bag", price)
	}
}

func TestNever(t *testing.T) {
	// Limestone is refused everywhere; the only smooth stone never leaves.
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,size
lime,Aldermoor,limestone,bag,50 L,1.00,8-16 mm
clay,Brackwell,expanded clay,bag,50 L,10.00,8-16 mm
`, oneBed, "", "")
	for _, s := range series(t, job, Quotes(job), Options{}) {
		d := seriesDocument(s, 2)
		assert.Nil(t, d.EntersAt, s.Target.Name)
		assert.Nil(t, d.LeavesAt, s.Target.Name)
		assert.Empty(t, d.Changes, s.Target.Name)
		assert.Equal(t, s.Target.Name == "lime", s.Refused)
		assert.Equal(t, s.Target.Name == "clay", s.InPlan)
	}
}

// Past ten times the dearest price a threshold is no price but a curiosity: a bag
// at 1.00 against heaps that cost 8·150 is "never".
func TestPastAnySensiblePriceIsNever(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,size
bag,Aldermoor,expanded clay,bag,50 L,1.00,8-16 mm
heap,Brackwell,expanded clay,bulk,200 L,4.00,8-16 mm
`, oneBed, "supplier,order_fee\nBrackwell,1192\n", "")
	s := series(t, job, []Target{named("bag")(job)}, Options{})[0] // leaves at (8 + 1192) ÷ 8 = 150
	assert.True(t, s.InPlan)
	assert.Nil(t, s.Leaves)
	assert.Equal(t, "10", s.Target.Most.String())
}

// A free quote has no price to move in proportion: its price is set flat.
func TestPriceOfZero(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,size
gift,Aldermoor,expanded clay,bag,50 L,0,8-16 mm
heap,Brackwell,expanded clay,bulk,200 L,30.00,8-16 mm
`, oneBed, "", "")
	s := series(t, job, []Target{named("gift")(job)}, Options{})[0]
	// 8x = 2·30 at x = 7.5; with one heap 4x + 30, the same there.
	require.NotNil(t, s.Leaves)
	assert.Equal(t, "7.5", s.Leaves.String())
}

func TestInfeasibleAndUnprovenPlansAreRefused(t *testing.T) {
	job := fromFiles(t, "supplier,medium,pack,price,size\nAldermoor,limestone,50 L,1,8-16 mm\n", oneBed, "", "")
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	_, err = ByPrice(context.Background(), job, plan, Quotes(job), Options{})
	require.ErrorIs(t, err, ErrInfeasible)
	_, err = ByPrice(context.Background(), job, &optimise.Plan{Status: optimise.TimeLimit}, Quotes(job), Options{})
	require.ErrorContains(t, err, "not proven")
}

func TestCancelledWorkIsAnError(t *testing.T) {
	job := fromFiles(t, fmt.Sprintf(twoQuotes, ""), oneBed, "", "")
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = ByPrice(ctx, job, plan, Quotes(job), Options{})
	require.ErrorIs(t, err, context.Canceled)
}

// Where nothing hangs on the price, the least cost is concave and never falls as
// the price rises, in jobs with tables, shares, stocks and several sites too; and
// solving anywhere finds what the pieces say.
func TestConcaveAndRising(t *testing.T) {
	jobtest.FewerChecks(t, 12)
	rapid.Check(t, func(t *rapid.T) {
		shape := randjob.All(rapid.IntRange(1, 2).Draw(t, "sites"), 2, 4, 2)
		shape.FreeOver, shape.MinOrder = false, false
		job := randjob.Job(rapid.Uint64Range(0, 1000).Draw(t, "seed"), shape)
		plan, err := Today(context.Background(), job, optimise.Options{})
		require.NoError(t, err)
		if plan.Status == optimise.Infeasible {
			return
		}
		target := rapid.SampledFrom(targetsOf(job)).Draw(t, "target")
		list, err := ByPrice(context.Background(), job, plan, []Target{target}, Options{})
		require.NoError(t, err)
		s := list[0]
		require.False(t, s.Hinged)
		for i, p := range s.Pieces {
			require.GreaterOrEqual(t, p.B.Sign(), 0, "the cost falls as %s rises", target.Name)
			if i > 0 {
				before := s.Pieces[i-1]
				require.Positive(t, before.B.Cmp(p.B), "the cost bends upwards at %s", p.From)
				require.InDelta(t, before.Cost(p.From).Float(), p.Cost(p.From).Float(), 1e-6)
			}
		}
		x := dec(fmt.Sprintf("%.4f", target.Most.Float()*rapid.Float64Range(0, 1).Draw(t, "x")))
		for _, p := range s.Pieces {
			if !p.Proven || x.Cmp(p.From) < 0 || x.Cmp(p.To) > 0 {
				continue
			}
			at := target.at(job, x, x)
			at.Settings.CurrencyDigits = bill.ExactDigits
			bought, err := bill.Price(at, translate(p.cand.buy, job, at))
			require.NoError(t, err)
			require.InDelta(t, bought.Total.Float(), p.Cost(x).Float(), 1e-6)
			again, err := optimise.Solve(context.Background(), target.at(job, x, x), optimise.Options{})
			require.NoError(t, err)
			exact, err := bill.Price(at, translate(again.Purchase, again.Job, at))
			require.NoError(t, err)
			require.InDelta(t, exact.Total.Float(), p.Cost(x).Float(), 2*halfCent, "%s at %s", target.Name, x)
		}
	})
}

// The answer does not hang on how many goroutines work on it.
func TestSameAnswerFromOneWorkerAsFromTwo(t *testing.T) {
	job := fromFiles(t, fmt.Sprintf(twoQuotes, "6: 9.20"), oneBed, "supplier,name,order_fee,free_over\nBrackwell,truck,30,\nAldermoor,van,20,80\n", "tax = 7\n")
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	var docs [2]*Document
	for i := range docs {
		list, err := ByPrice(context.Background(), job, plan, targetsOf(job), Options{Workers: i + 1, Depth: Every})
		require.NoError(t, err)
		docs[i] = NewDocument(&Answer{Job: job, ByPrice: list})
	}
	assert.Equal(t, docs[0], docs[1])
	assert.Len(t, docs[0].ByPrice, 2)
	assert.Len(t, docs[0].ByFactor, 3)
	assert.Len(t, docs[0].ByFee, 2)
}

// The search for the nearest change finds the same threshold as the whole one,
// also where free delivery and smallest orders hang on it, and for fees, suppliers
// and all bulk. Thresholds closer together than a grain are told as one.
func TestNearestAgreesWithEvery(t *testing.T) {
	jobtest.Long(t)
	plain := randjob.Simple(2, 6, 3)
	plain.FreeOver = false
	compared := 0
	for name, shape := range map[string]randjob.Shape{"plain": plain, "free delivery": randjob.Simple(2, 5, 3), "all terms": randjob.All(1, 2, 4, 3)} {
		for seed := range uint64(5) {
			if name == "free delivery" && seed == 2 && !jobtest.Nightly() {
				continue // this job alone takes twice as long as all the others
			}
			job := randjob.Job(seed, shape)
			plan, err := Today(context.Background(), job, optimise.Options{})
			require.NoError(t, err)
			if plan.Status == optimise.Infeasible {
				continue
			}
			targets := targetsOf(job)
			whole := series(t, job, targets, Options{Depth: Every})
			grain := func(target Target) float64 { return 1.01 * grainOf(newWorld(job), target) }
			for i, s := range series(t, job, targets, Options{Depth: Nearest}) {
				w := whole[i]
				if w.Unproven != "" || w.Partial != "" || s.Unproven != "" {
					continue
				}
				compared++
				for _, pair := range [][2]*units.Decimal{{w.Enters, s.Enters}, {w.Leaves, s.Leaves}} {
					require.Equal(t, pair[0] == nil, pair[1] == nil, "%s, seed %d, %s: %v and %v", name, seed, s.Target.Name, pair[0], pair[1])
					if pair[0] != nil {
						require.InDelta(t, pair[0].Float(), pair[1].Float(), grain(s.Target), "%s, seed %d, %s", name, seed, s.Target.Name)
					}
				}
			}
		}
	}
	require.Greater(t, compared, 60)
}

func TestProgressAndSolvesAreBounded(t *testing.T) {
	job := fromFiles(t, fmt.Sprintf(twoQuotes, ""), oneBed, "supplier,name,order_fee,free_over\nBrackwell,truck,30,\nAldermoor,van,20,80\n", "")
	var seen []int
	list := series(t, job, []Target{named("bag")(job), named("heap")(job)}, Options{Workers: 1, Progress: func(done, total int) {
		assert.Equal(t, 2, total)
		seen = append(seen, done)
	}})
	assert.Equal(t, []int{1, 2}, seen)
	assert.NotEmpty(t, list[0].Partial, "free delivery hangs on the price, so only the nearest is looked for")
	few := series(t, job, []Target{named("bag")(job)}, Options{Depth: Every, MostSolves: 1})[0]
	assert.Contains(t, few.Unproven, "1 solves")
	assert.Nil(t, few.Leaves, "what is not proven is not told")
}

// A limit that has passed: nothing is told that is not proven, and the rest says
// that it has no answer.
func TestTimeLimit(t *testing.T) {
	job := fromFiles(t, fmt.Sprintf(twoQuotes, ""), oneBed, "supplier,name,order_fee\nBrackwell,truck,30\n", "")
	plan, err := Today(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	opt := Options{TimeLimit: 1}
	list, err := ByPrice(context.Background(), job, plan, Quotes(job), opt)
	require.NoError(t, err)
	for _, s := range list {
		assert.Equal(t, lateWords, s.Unproven)
		assert.Nil(t, s.Enters)
		assert.Nil(t, s.Leaves)
		assert.Empty(t, s.Changes)
	}
	// A limit that is long enough changes nothing.
	list, err = ByPrice(context.Background(), job, plan, Quotes(job), Options{TimeLimit: 1e12})
	require.NoError(t, err)
	assert.Equal(t, []string{"8 bag | 11.2500 | 2 heap"}, words(list[0]))
}

// A small fee may rise to many times itself before anything else is cheaper: two heaps at
// 20 and the fee against eight bags at 10 is 40 + x = 80, at forty times today's fee of 1.
func TestSmallFees(t *testing.T) {
	job := fromFiles(t, `quote,supplier,medium,form,pack,price,size
bag,Aldermoor,expanded clay,bag,50 L,10.00,8-16 mm
heap,Brackwell,expanded clay,bulk,200 L,20.00,8-16 mm
`, oneBed, "supplier,order_fee\nBrackwell,1\n", "")
	s := series(t, job, FeesOf(job, "Brackwell"), Options{})[0]
	assert.True(t, s.InPlan)
	require.NotNil(t, s.Leaves)
	assert.Equal(t, "40", s.Leaves.String())
	assert.Equal(t, "80", s.Target.Most.String(), "what the dearest asks for 400 L")
}
