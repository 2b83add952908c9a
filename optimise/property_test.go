package optimise

import (
	"bytes"
	"context"
	"encoding/json"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// drawJob is a random small job of any shape.
func drawJob(t *rapid.T) (job *quotes.Job, name string) {
	shape := rapid.SampledFrom(shapeNames()).Draw(t, "shape")
	seed := rapid.Uint64Range(0, 1<<20).Draw(t, "seed")
	return randjob.Job(seed, shapes()[shape]), seedName(shape, seed)
}

// Merging what is alike changes no cost: the merged model and the plain one, with
// every bed, quote and rule by itself, come to the same.
func TestMergedCostsAsPlain(t *testing.T) {
	seeds := jobtest.Seeds(4, 8)
	for _, shape := range shapeNames() {
		t.Run(shape, func(t *testing.T) {
			t.Parallel()
			for seed := range seeds {
				job := randjob.Job(seed, shapes()[shape])
				merged, plan := exactly(t, job, Options{})
				plain, plainPlan := exactly(t, job, Options{Plain: true})
				require.Equal(t, plainPlan.Status, plan.Status, seedName(shape, seed))
				if plan.Bill != nil {
					require.InDelta(t, plain, merged, halfCent, "%s: plain %s, merged %s", seedName(shape, seed), bought(plainPlan), bought(plan))
				}
			}
		})
	}
}

// Beds written as a count, as rows of their own or as a row with their litres
// together are the same need, where nothing ties them to one another.
func TestWaysToWriteTheSameBeds(t *testing.T) {
	jobtest.FewerChecks(t, 20)
	rapid.Check(t, func(t *rapid.T) {
		q, _, d, set := randjob.Files(rapid.Uint64Range(0, 1<<20).Draw(t, "seed"), randjob.Shape{Sites: 1, Suppliers: 3, Quotes: 7, Beds: 1, Breaks: true, Loads: true, FreeOver: true, Stock: true})
		litres := rapid.IntRange(100, 900).Draw(t, "litres")
		const head = "bed,count,volume,top_volume,min_size\n"
		row := func(name, count string, n int) string {
			return strings.Join([]string{name, count, strconv.Itoa(n*litres) + " L", strconv.Itoa(n*(litres/3)) + " L", "8 mm"}, ",") + "\n"
		}
		var plans []*Plan
		for _, beds := range []string{row("all", "3", 1), row("a", "1", 1) + row("b", "1", 1) + row("c", "1", 1), row("one", "1", 3), row("a", "2", 1) + row("b", "1", 1)} {
			plans = append(plans, solved(t, jobtest.Files{Quotes: q, Beds: head + beds, Delivery: d, Media: "", Settings: set}.Job(t), Options{}))
		}
		for _, p := range plans[1:] {
			sameCost(t, plans[0], p, "written another way")
		}
	})
}

// One quote more never raises the cost, and never makes a job infeasible.
func TestAnAddedQuoteNeverRaisesTheCost(t *testing.T) {
	jobtest.FewerChecks(t, 40)
	rapid.Check(t, func(t *rapid.T) {
		job, name := drawJob(t)
		out := rapid.IntRange(0, len(job.Quotes)-1).Draw(t, "left out")
		full, fullPlan := exactly(t, job, Options{})
		less, plan := exactly(t, Restrict(job, func(q *quotes.Quote) bool { return q != job.Quotes[out] }), Options{})
		require.LessOrEqual(t, full, less+halfCent, "%s without %s", name, job.Quotes[out].Name)
		if plan.Status == Optimal {
			require.Equal(t, Optimal, fullPlan.Status)
		}
	})
}

// Neither does a looser rule: more spare room, stock, weight or money.
func TestALooserRuleNeverRaisesTheCost(t *testing.T) {
	jobtest.Long(t)
	jobtest.FewerChecks(t, 40)
	rapid.Check(t, func(t *rapid.T) {
		job, name := drawJob(t)
		tight, _ := exactly(t, job, Options{})
		loose := *job
		loose.Beds, loose.Quotes, loose.Delivery = nil, nil, nil
		for _, b := range job.Beds {
			c := *b
			switch rapid.IntRange(0, 3).Draw(t, "bed") {
			case 0:
				c.Limit = nil
				if c.Table != "" {
					c.Table = "" // off the shared table: no limit at all
				}
			case 1:
				c.MaxShare = nil
			case 2:
				c.MinSize, c.MaxSize = nil, nil
			}
			loose.Beds = append(loose.Beds, &c)
		}
		for _, q := range job.Quotes {
			c := *q
			if rapid.Bool().Draw(t, "stock") {
				c.MaxQty = nil
			}
			loose.Quotes = append(loose.Quotes, &c)
		}
		for _, d := range job.Delivery {
			c := *d
			if rapid.Bool().Draw(t, "smallest order") {
				c.MinOrder = nil
			}
			loose.Delivery = append(loose.Delivery, &c)
		}
		less, _ := exactly(t, &loose, Options{})
		require.LessOrEqual(t, less, tight+halfCent, name)
	})
}

// A rule or a stone that asks for more never lowers the cost: heavier stone, frames held
// to heavy weights, loads that carry one stone, one stone in each layer, least shares,
// the same mix in every bed.
func TestATighterRuleNeverLowersTheCost(t *testing.T) {
	jobtest.Long(t)
	jobtest.FewerChecks(t, 60)
	const wetter = "medium,held_water\nexpanded clay,0.40-0.45-0.50\nriver gravel,0.15-0.20-0.30\nlava rock,0.35-0.40-0.45\n" +
		"expanded shale,0.40-0.45-0.50\ncrushed granite,0.15-0.20-0.30\npumice,0.50-0.60-0.70\n"
	rapid.Check(t, func(t *rapid.T) {
		shape := rapid.SampledFrom([]string{"weights", "weights and shares", "trucks", "trucks, several sites", "all", "simple"}).Draw(t, "shape")
		seed := rapid.Uint64Range(0, 1<<20).Draw(t, "seed")
		q, b, d, set := randjob.Files(seed, shapes()[shape])
		files := jobtest.Files{Quotes: q, Beds: b, Delivery: d, Settings: set}
		loose := *files.Job(t)
		tight := loose
		rule := rapid.SampledFrom([]string{"wetter stone", "heavy weights", "one stone a load", "one stone a layer", "least share", "same mix"}).Draw(t, "rule")
		switch rule {
		case "wetter stone":
			files.Media = wetter
			tight = *files.Job(t)
		case "heavy weights":
			loose.Settings.Weights, tight.Settings.Weights = quotes.UsualWeights, quotes.HeavyWeights
		case "one stone a load":
			loose.Delivery, tight.Delivery = nil, nil
			for _, row := range files.Job(t).Delivery {
				anyStone, one := *row, *row
				anyStone.LoadHolds, one.LoadHolds = quotes.HoldsAny, quotes.HoldsOne
				loose.Delivery, tight.Delivery = append(loose.Delivery, &anyStone), append(tight.Delivery, &one)
			}
		case "one stone a layer":
			tight.Settings.LayerMix = quotes.OneMix
		case "least share":
			tight.Settings.LeastShare = 0.3
		case "same mix":
			tight.Settings.SameMix = true
		}
		less, _ := exactly(t, &loose, Options{})
		more, _ := exactly(t, &tight, Options{})
		require.LessOrEqual(t, less, more+halfCent, "%s: %s", seedName(shape, seed), rule)
	})
}

// shuffled is a CSV with its rows, but not its heading, in another order.
func shuffled(r *rand.Rand, text string) string {
	lines := strings.SplitAfter(strings.TrimSuffix(text, "\n")+"\n", "\n")
	rows := lines[1 : len(lines)-1]
	r.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
	return strings.Join(lines, "")
}

// The order of the rows of the files changes nothing of the total.
func TestOrderOfRowsChangesNothing(t *testing.T) {
	jobtest.Long(t)
	jobtest.FewerChecks(t, 40)
	rapid.Check(t, func(t *rapid.T) {
		shape := rapid.SampledFrom(shapeNames()).Draw(t, "shape")
		seed := rapid.Uint64Range(0, 1<<20).Draw(t, "seed")
		q, b, d, set := randjob.Files(seed, shapes()[shape])
		r := rand.New(rand.NewPCG(seed, rapid.Uint64().Draw(t, "order")))
		one := jobtest.Files{Quotes: q, Beds: b, Delivery: d, Media: "", Settings: set}.Job(t)
		other := jobtest.Files{Quotes: shuffled(r, q), Beds: shuffled(r, b), Delivery: shuffled(r, d), Media: "", Settings: set}.Job(t)
		require.Len(t, other.Quotes, len(one.Quotes))
		want, wantPlan := exactly(t, one, Options{})
		got, gotPlan := exactly(t, other, Options{})
		require.Equal(t, wantPlan.Status, gotPlan.Status, seedName(shape, seed))
		if wantPlan.Bill != nil {
			require.InDelta(t, want, got, halfCent, seedName(shape, seed))
		}
	})
}

// The same job gives the same bytes, whatever else runs beside it.
func TestSameJobSameBytes(t *testing.T) {
	for _, shape := range []string{"simple", "all, 2 sites", "weights and shares"} {
		t.Run(shape, func(t *testing.T) {
			var first []byte
			for range 3 {
				job := randjob.Job(4, shapes()[shape])
				plan := solved(t, job, Options{})
				text, err := json.Marshal(NewDocument(plan, nil))
				require.NoError(t, err)
				if first == nil {
					first = text
				}
				require.True(t, bytes.Equal(first, text))
			}
		})
	}
}

// A cut-off that is not reachable has nothing below it, and one above the least
// cost changes nothing.
func TestCutOff(t *testing.T) {
	for seed := range uint64(6) {
		job := randjob.Job(seed, shapes()["all"])
		full, plan := exactly(t, job, Options{})
		if plan.Bill == nil {
			continue
		}
		same, again := exactly(t, job, Options{CutOff: full + 0.02})
		require.Equal(t, Optimal, again.Status)
		require.InDelta(t, full, same, halfCent)
		_, none := exactly(t, job, Options{CutOff: full - 0.02})
		require.Equal(t, Infeasible, none.Status)
		require.Empty(t, none.Why)
	}
}

// A cancelled context is an error and no plan.
func TestCancelledSolve(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	plan, err := Solve(ctx, randjob.Job(0, shapes()["all"]), Options{})
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, plan)
}

// A search cut short says so, with a bound below the optimum and a purchase at or
// above it that keeps every rule.
func TestTimeLimitIsHonest(t *testing.T) {
	job := randjob.Job(6, randjob.All(1, 5, 16, 10))
	best, full := exactly(t, job, Options{})
	require.Equal(t, Optimal, full.Status)
	limited := 0
	for _, limit := range []time.Duration{time.Microsecond, time.Millisecond, 4 * time.Millisecond, 8 * time.Millisecond, 16 * time.Millisecond, 32 * time.Millisecond} {
		fine := *job
		fine.Settings.CurrencyDigits = exactDigits
		plan, err := Solve(context.Background(), &fine, Options{TimeLimit: limit})
		if err != nil {
			require.ErrorIs(t, err, ErrNoPurchase)
			continue
		}
		require.NoError(t, Verify(plan))
		require.LessOrEqual(t, plan.Bound, best+halfCent, "%v", limit)
		require.GreaterOrEqual(t, plan.Bill.Total.Float(), best-halfCent, "%v", limit)
		if plan.Status == TimeLimit {
			limited++
			require.LessOrEqual(t, plan.LowerBound().Float(), best+halfCent)
			require.InDelta(t, plan.Bill.Total.Float()-plan.LowerBound().Float(), plan.Gap().Float(), 1e-6)
		}
	}
	t.Logf("%d of the searches were cut short with an answer", limited)
}

// A search cut short shows no purchase above the budget: one that is not within
// it is no answer, however cheap it is among those found.
func TestTimeLimitKeepsTheBudget(t *testing.T) {
	job := randjob.Job(6, randjob.All(1, 5, 16, 10))
	full := solved(t, job, Options{})
	tight := *job
	tight.Settings.Budget = &full.Bill.Total
	for ms := range time.Duration(12) {
		plan, err := Solve(context.Background(), &tight, Options{TimeLimit: (ms + 1) * time.Millisecond})
		if err != nil {
			require.ErrorIs(t, err, ErrNoPurchase)
			continue
		}
		require.NotNil(t, plan.Bill, "the budget can be met: %+v", plan.Why)
		require.LessOrEqual(t, plan.Bill.Total.Float(), full.Bill.Total.Float(), "%s after %d ms", plan.Status, ms+1)
	}
}

// Progress is told of a search, with a bound that is never above the best answer.
func TestProgressIsInOrder(t *testing.T) {
	told := 0
	plan := solved(t, randjob.Job(6, randjob.All(1, 5, 16, 10)), Options{Progress: func(p mip.Progress) {
		told++
		require.LessOrEqual(t, p.Bound, p.Best+1e-9)
		require.Positive(t, p.Nodes)
	}})
	require.Positive(t, plan.Nodes)
	require.Positive(t, told)
}
