package risk

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
	"mediabuy/units"
)

// tidyJob is a bed of 300 L. Three yards have one pack of 100 L each, at 9, 9.50 and 10:
// 28.50 in all. A fourth has packs of 150 L at 14.40: two cost 28.80, which is 0.30 or
// 1.05 % more for one supplier, one quote and one stone. Nobody states a delivery.
func tidyJob(t *testing.T) *quotes.Job {
	return jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,max_qty\na,Low,grit,100 L,9,1\nb,Mid,grit,100 L,9.50,1\nc,High,grit,100 L,10,1\nd,Barn,grit,150 L,14.40,\n",
		Beds:   "bed,volume\none,300 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
}

func TestTidyByHand(t *testing.T) {
	job := tidyJob(t)
	got, err := Tidy(context.Background(), job, 0.02, 0, optimise.Options{})
	require.NoError(t, err)
	assert.Equal(t, "28.5", got.Cheapest.Plan.Bill.Total.String())
	assert.Equal(t, "28.8", got.Plan.Bill.Total.String())
	assert.Equal(t, optimise.OneSupplier, got.Way)
	assert.Equal(t, "0.3", got.Above().String())

	// Of ways worked out already the same is taken, unless the budget is in the way.
	ways, err := optimise.Alternatives(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	out := Tidiest(got.Cheapest, ways, 0.02)
	assert.Equal(t, got.Words(units.Money.String), out.Words(units.Money.String))
	assert.Equal(t, got.Above(), out.Above())
	assert.Empty(t, Tidiest(got.Cheapest, ways, 0.01).Way)
	short, budget := *got.Cheapest, *job
	limit := units.MoneyOf(units.DecimalOf(28.6))
	budget.Settings.Budget, short.Job = &limit, &budget
	assert.Empty(t, Tidiest(&short, ways, 0.02).Way)

	// Within 1 % there is none, and the cheapest stands.
	got, err = Tidy(context.Background(), job, 0.01, 0, optimise.Options{})
	require.NoError(t, err)
	assert.Empty(t, got.Way)
	assert.Same(t, got.Cheapest, got.Reached)
}

// What is plainer outright goes before what is dearer by less and adds pains for those that it spares, and that before
// what is no plainer at all.
func TestTidyPrefersWhatIsLessPlainInNothing(t *testing.T) {
	base := Pains{Suppliers: 2, Things: 3, Loads: 2, Mixed: 2, Mixes: 3}
	outright, traded, same := base, base, base
	outright.Things, traded.Suppliers, traded.Loads = 2, 1, 3
	assert.Equal(t, 0, outright.plainness(base))
	assert.Equal(t, 1, traded.plainness(base))
	assert.Equal(t, 2, same.plainness(base))
	assert.Equal(t, 2, base.plainness(outright), "worse")

	// Two stones from two yards cost least, 27.00: no more than two things, and two loads. One yard has both for 0.30
	// more and spares a supplier and a load: it is taken, although two things cost nothing more.
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,max_qty\na,Low,grit,150 L,13.50,1\nb,Mid,grit,150 L,13.50,1\nc,Barn,grit,300 L,27.30,\n",
		Beds:   "bed,volume\none,300 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	got, err := Tidy(context.Background(), job, 0.02, 0, optimise.Options{})
	require.NoError(t, err)
	assert.Equal(t, "27", got.Cheapest.Plan.Bill.Total.String())
	assert.Equal(t, optimise.OneSupplier, got.Way)
	assert.Equal(t, "27.3", got.Plan.Bill.Total.String())
	ways, err := optimise.Alternatives(context.Background(), job, optimise.Options{})
	require.NoError(t, err)
	assert.Equal(t, optimise.OneSupplier, Tidiest(got.Cheapest, ways, 0.02).Way)
}

// A tidy plan never beats the cheapest and never costs more than the share above it.
func TestTidyNeverBeatsTheCheapest(t *testing.T) {
	jobtest.Long(t)
	seeds := jobtest.Seeds(16, 40)
	var tidier uint64
	for seed := range seeds {
		job := randjob.Job(seed, randjob.All(1, 3, 5, 3))
		for _, within := range []float64{0, 0.05} {
			got, err := Tidy(context.Background(), job, within, 0, optimise.Options{})
			require.NoError(t, err)
			if got.Cheapest.Plan.Bill == nil {
				continue
			}
			least := got.Cheapest.Plan.Bill.Total
			require.GreaterOrEqual(t, got.Plan.Bill.Total.Cmp(least), 0, "seed %d", seed)
			require.LessOrEqual(t, got.Plan.Bill.Total.Float(), least.Float()*(1+within)+1e-9, "seed %d", seed)
			require.NoError(t, optimise.Verify(got.Plan), "seed %d", seed)
			if got.Way != "" {
				tidier++
			}
		}
	}
	assert.Greater(t, tidier, seeds/4)
}

// What a plainer purchase lacks is finished with whatever is on offer. By hand: two
// packs of d fill 270 to 300 of the 300 L, and a top-up is one small bag or two for 2
// each; held to one supplier it would be a whole pack of d for 14.40.
func TestPlainerPurchaseIsFinishedWithAnything(t *testing.T) {
	job := jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,max_qty,fill\na,Low,grit,100 L,9,1,\nb,Mid,grit,100 L,9.50,1,\nc,High,grit,100 L,10,1,\nd,Barn,grit,150 L,14.40,,90-95-100%\ne,Corner,grit,20 L,2,,\n",
		Beds:   "bed,volume\none,300 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
	got, err := Tidy(context.Background(), job, 0.02, 0, optimise.Options{})
	require.NoError(t, err)
	require.Equal(t, optimise.OneSupplier, got.Way)
	assert.Equal(t, 1, got.Job.Settings.MaxSuppliers)
	open := got.OpenJob()
	assert.Equal(t, 0, open.Settings.MaxSuppliers)
	assert.Equal(t, got.Cheapest.Job.Settings, open.Settings)
	a, err := NewAssessor(open)
	require.NoError(t, err)
	defer a.Close()
	r, err := a.Assess(context.Background(), got.Plan.Purchase, optimise.Options{})
	require.NoError(t, err)
	assert.Less(t, float64(r.ShortP95), 40.0)
	assert.LessOrEqual(t, r.TopUpP95.Float(), 4.0)
	assert.Positive(t, r.TopUpP95.Sign())
}
