package optimise

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
	"mediabuy/units"
)

// One bed of 400 L in bags of 50 L from two yards. Near a purchase of eight bags of
// one, with those of the other moving, lie one to six, then seven and eight of the
// other (a quarter more than six is seven), each with as many fewer of the first;
// all of it holds the moving one.
func TestNearStarts(t *testing.T) {
	job := func(x float64) *quotes.Job {
		return csvs{
			quotes: fmt.Sprintf("quote,supplier,medium,pack,price,size\nours,Aldermoor,grit,50 L,10.00,8-16 mm\ntheirs,Brackwell,grit,50 L,%.2f,8-16 mm\n", x),
			beds:   "bed,volume\none,400 L\n",
			media:  plainMedia,
		}.job(t)
	}
	low, high := job(12), job(24)
	prog := newProgram(newInstance(low, NewFit(low), false), buildOptions{strong: true})
	pr, err := newProposer(context.Background(), prog)
	require.NoError(t, err)
	defer pr.close()
	require.True(t, pr.holdsMoving([]int{8, 0}), "nothing has to be held")
	require.Nil(t, pr.nearStarts(true))

	dearer := newCompleter(newProgram(newInstance(high, NewFit(high), false), buildOptions{strong: true}))
	today := Purchase{Items: []Item{{Quote: low.Quotes[0], Steps: 8}}}
	pr.near = newNear(pr.completer, dearer, []Purchase{today})
	require.Equal(t, []int{1}, pr.near.moving)
	require.Equal(t, [][]int{{8, 0}}, pr.near.buys)
	col, ok := pr.near.only(pr.completer)
	require.True(t, ok)
	require.Equal(t, "steps/theirs", prog.Cols[col].Name)
	require.False(t, pr.holdsMoving([]int{8, 0}))
	require.True(t, pr.holdsMoving([]int{7, 1}))
	pr.budget = thoroughWork
	require.Equal(t, [][]int{{7, 1}, {6, 2}, {5, 3}, {4, 4}, {3, 5}, {2, 6}, {1, 7}, {0, 8}}, pr.nearStarts(true))
	require.Nil(t, pr.nearStarts(false))
}

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
