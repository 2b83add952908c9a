package risk

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
)

// Which of the two ways to find reserves finds the cheaper purchase, of 100 random jobs
// of which the cheapest plan is not sure enough: in how many the same reserve for all is
// cheaper, in how many that by luck, and in how many one after the other is cheaper than
// either.
func BenchmarkWaysToReserve(b *testing.B) {
	for b.Loop() {
		waysToReserve(b)
	}
}

func waysToReserve(t *testing.B) {
	ctx := context.Background()
	jobs, alike, luck, after := 0, 0, 0, 0
	for seed := uint64(0); jobs < 100; seed++ {
		shape := randjob.Simple(3, 8, 5)
		if seed%2 == 1 {
			shape = randjob.All(1, 3, 7, 4)
		}
		job := randjob.Job(seed, shape)
		plan, err := optimise.Solve(ctx, job, optimise.Options{})
		require.NoError(t, err)
		if plan.Bill == nil {
			continue
		}
		a, err := NewAssessor(job)
		require.NoError(t, err)
		sure, err := a.Sure(ctx, plan.Purchase)
		require.NoError(t, err)
		if sure >= 0.9 {
			a.Close()
			continue
		}
		by := func(ways ...func(*reserve) error) *Reached {
			r := &Reached{Job: job, Plan: plan, Sure: sure}
			s := &reserve{ctx: ctx, a: a, job: job, target: 0.9, best: r}
			for _, way := range ways {
				require.NoError(t, way(s))
			}
			return r
		}
		x, y, z := by((*reserve).alike), by((*reserve).byLuck), by((*reserve).alike, (*reserve).byLuck)
		a.Close()
		jobs++
		cheaper := func(x, y *Reached) bool {
			return x.Met && (!y.Met || x.Plan.Bill.Total.Cmp(y.Plan.Bill.Total) < 0)
		}
		if cheaper(x, y) {
			alike++
		}
		if cheaper(y, x) {
			luck++
		}
		if cheaper(z, x) && cheaper(z, y) {
			after++
		}
	}
	t.ReportMetric(float64(alike), "alike-cheaper")
	t.ReportMetric(float64(luck), "luck-cheaper")
	t.ReportMetric(float64(after), "both-cheaper")
}
