package optimise

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/units"
)

// A job at other prices is solved from the proof of today's to the same total as by
// itself, with ties, tables, free delivery and several sites; and from the proof of
// that on.
func TestSolveFromProof(t *testing.T) {
	ctx := context.Background()
	compared, spared := 0, 0
	for name, shape := range map[string]randjob.Shape{"simple": randjob.Simple(3, 8, 5), "all": randjob.All(1, 3, 6, 4), "all, 2 sites": randjob.All(2, 2, 5, 3)} {
		for seed := range uint64(8) {
			job := randjob.Job(seed, shape)
			plan, err := Solve(ctx, job, Options{Keep: true})
			require.NoError(t, err)
			if plan.Proof == nil {
				continue
			}
			proof := plan.Proof
			for k, times := range []float64{1, 0.93, 1.08} {
				other := *job
				other.Quotes = slices.Clone(job.Quotes)
				for i := range other.Quotes {
					if (i+k)%3 == 0 {
						other.Quotes[i] = dearerBy(other.Quotes[i], times)
					}
				}
				want, err := Solve(ctx, &other, Options{})
				require.NoError(t, err)
				got, err := Solve(ctx, &other, Options{From: proof, Keep: true})
				require.NoError(t, err)
				require.Equal(t, want.Status, got.Status, "%s, seed %d", name, seed)
				if want.Status != Optimal {
					continue
				}
				compared++
				require.InDelta(t, want.Bill.Total.Float(), got.Bill.Total.Float(), want.roundingAllowance(), "%s, seed %d, times %v", name, seed, times)
				cut := Options{From: got.Proof, CutOff: want.Bill.Total.Float() - 0.02 - want.roundingAllowance()}
				again, err := Solve(ctx, &other, cut)
				require.NoError(t, err)
				require.Equal(t, Infeasible, again.Status)
				if again.Nodes == 0 {
					spared++
				}
				if got.Proof != nil {
					proof = got.Proof
				}
			}
		}
	}
	require.Greater(t, compared, 40)
	require.Greater(t, spared, compared/2, "that nothing is cheaper should follow from the proof alone")
}

// dearerBy is a quote with all its prices in proportion.
func dearerBy(q *quotes.Quote, times float64) *quotes.Quote {
	d := units.DecimalOf(times)
	c := *q
	c.Price = q.Price.Times(d)
	c.Breaks = nil
	for _, b := range q.Breaks {
		c.Breaks = append(c.Breaks, quotes.Break{From: b.From, Price: b.Price.Times(d)})
	}
	return &c
}

// The proof of a job with other beds or other packs is not used: the rows it took
// from how the beds can be filled need not hold there.
func TestProofOfOtherGoodsIsNotUsed(t *testing.T) {
	job := randjob.Job(17, randjob.Simple(3, 8, 6))
	plan, err := Solve(context.Background(), job, Options{Keep: true})
	require.NoError(t, err)
	require.NotNil(t, plan.Proof)
	require.NotNil(t, plan.Proof.to(job))
	dearer, taxed, more, bigger := *job, *job, *job, *job
	dearer.Quotes = append([]*quotes.Quote{dearerBy(job.Quotes[0], 2)}, job.Quotes[1:]...)
	require.NotNil(t, plan.Proof.to(&dearer))
	q := *job.Quotes[0]
	q.Tax = units.DecimalOf(0.5)
	taxed.Quotes = append([]*quotes.Quote{&q}, job.Quotes[1:]...)
	require.NotNil(t, plan.Proof.to(&taxed))
	b := *job.Beds[0]
	b.Count++
	more.Beds = append([]*quotes.Bed{&b}, job.Beds[1:]...)
	require.Nil(t, plan.Proof.to(&more))
	p := *job.Quotes[0]
	p.PackLitres *= 2
	bigger.Quotes = append([]*quotes.Quote{&p}, job.Quotes[1:]...)
	require.Nil(t, plan.Proof.to(&bigger))
	require.Nil(t, (*Proof)(nil).to(job))
}
