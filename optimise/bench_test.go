package optimise

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// benchSize is a size of job with the seeds it is measured on.
type benchSize struct {
	name  string
	shape randjob.Shape
	seeds int
}

// benchSizes are a grower's job, a co-op's and those of many sites.
func benchSizes() []benchSize {
	sizes := []benchSize{
		{"1 site, 5 suppliers, 25 quotes, 25 beds", randjob.Simple(5, 25, 25), 11},
		{"1 site, 5 suppliers, 25 quotes, 25 beds, every term", randjob.All(1, 5, 25, 25), 11},
		{"1 site, 20 suppliers, 200 quotes, 1000 beds", randjob.Simple(20, 200, 1000), 3},
		{"1 site, 20 suppliers, 200 quotes, 10000 beds", randjob.Simple(20, 200, 10000), 3},
	}
	for _, sites := range []int{3, 10, 30} {
		s := randjob.Simple(8, 60, 300)
		s.Sites, s.Handling, s.Haul = sites, true, true
		sizes = append(sizes, benchSize{fmt.Sprintf("%d sites, 8 suppliers, 60 quotes, 300 beds", sites), s, 3})
	}
	return sizes
}

// benchLimit ends a search that does not prove its answer; how many did not is
// told as "unproven".
const benchLimit = 20 * time.Second

// BenchmarkSizes tells the median and the slowest of the seeds of each size, from
// a job in memory to a proven and checked plan.
func BenchmarkSizes(b *testing.B) {
	for _, size := range benchSizes() {
		b.Run(size.name, func(b *testing.B) {
			timeJobs(b, size.seeds, func(seed uint64) *quotes.Job { return randjob.Job(seed, size.shape) })
		})
	}
}

// BenchmarkOneMix tells the same of jobs in which one quote fills each layer.
func BenchmarkOneMix(b *testing.B) {
	for _, beds := range []int{25, 100} {
		for _, size := range []benchSize{{"", randjob.Simple(5, 25, beds), 11}, {", every term", randjob.All(1, 5, 25, beds), 11}} {
			b.Run(fmt.Sprintf("25 quotes, %d beds%s", beds, size.name), func(b *testing.B) {
				timeJobs(b, size.seeds, func(seed uint64) *quotes.Job {
					job := randjob.Job(seed, size.shape)
					job.Settings.LayerMix = quotes.OneMix
					return job
				})
			})
		}
	}
}

// timeJobs solves the jobs of so many seeds, and reports the median and the slowest, and how many gave no proof.
func timeJobs(b *testing.B, seeds int, job func(seed uint64) *quotes.Job) {
	var took []time.Duration
	unproven := 0
	for b.Loop() {
		for seed := range uint64(seeds) {
			b.StopTimer()
			job := job(seed)
			b.StartTimer()
			start := time.Now()
			plan, err := Solve(context.Background(), job, Options{TimeLimit: benchLimit})
			took = append(took, time.Since(start))
			if err != nil {
				require.ErrorIs(b, err, ErrNoPurchase)
			}
			if err != nil || plan.Status == TimeLimit {
				unproven++
			}
		}
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1e3, "median-ms")
	b.ReportMetric(float64(took[len(took)-1].Microseconds())/1e3, "slowest-ms")
	b.ReportMetric(float64(unproven), "unproven")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkEveryKind tells the tail over jobs of every shape.
func BenchmarkEveryKind(b *testing.B) {
	type case1 struct {
		shape string
		seed  uint64
		took  time.Duration
	}
	var all []case1
	for b.Loop() {
		all = all[:0]
		for _, shape := range shapeNames() {
			for seed := range uint64(14) {
				s := shapes()[shape]
				s.Suppliers, s.Quotes, s.Beds = 2*s.Suppliers, 3*s.Quotes, 4*s.Beds
				job := randjob.Job(seed, s)
				start := time.Now()
				_, err := Solve(context.Background(), job, Options{TimeLimit: benchLimit})
				if err != nil {
					require.ErrorIs(b, err, ErrNoPurchase)
				}
				all = append(all, case1{shape, seed, time.Since(start)})
			}
		}
	}
	slices.SortFunc(all, func(x, y case1) int { return int(x.took - y.took) })
	worst := all[len(all)-1]
	b.Logf("slowest: %s took %v", seedName(worst.shape, worst.seed), worst.took)
	b.ReportMetric(float64(all[len(all)/2].took.Microseconds())/1e3, "median-ms")
	b.ReportMetric(float64(worst.took.Microseconds())/1e3, "slowest-ms")
	b.ReportMetric(0, "ns/op")
}

// trapJob is a job of four suppliers and twenty quotes.
func trapJob(seed uint64) *mip.Model {
	return ExportModel(randjob.Job(seed, randjob.Simple(4, 20, 12)), false)
}

// bagsFirst is the model with the whole packs before every other column, the
// order in which a search that takes columns as they come settles bags before
// the orders that bring them.
func bagsFirst(m *mip.Model) *mip.Model {
	order := make([]int, 0, len(m.Cols))
	for _, bags := range []bool{true, false} {
		for j, c := range m.Cols {
			if strings.HasPrefix(c.Name, "steps/") == bags {
				order = append(order, j)
			}
		}
	}
	at := make([]int, len(order))
	out := &mip.Model{Name: m.Name, Constant: m.Constant}
	for to, from := range order {
		at[from] = to
		out.AddColumn(m.Cols[from])
	}
	for _, r := range m.Rows {
		terms := slices.Clone(r.Terms)
		for i := range terms {
			terms[i].Col = at[terms[i].Col]
		}
		r.Terms = terms
		out.AddRow(r)
	}
	return out
}

// BenchmarkKnownTrap holds lp_solve's own search, which takes whole columns in
// order and so branches on bags first, against ours on the same model. Proven is
// 1 where the search ended by itself within a few seconds.
func BenchmarkKnownTrap(b *testing.B) {
	const limit = 5 * time.Second
	for seed := range uint64(3) {
		b.Run(fmt.Sprintf("bags first, seed %d", seed), func(b *testing.B) {
			m := bagsFirst(trapJob(seed))
			proven := 0.0
			for b.Loop() {
				lp := loadModel(b, m)
				res, err := lp.Solve(context.Background(), lpsolve.Options{TimeLimit: limit})
				require.NoError(b, err)
				lp.Close()
				proven = b2f(res.Status == lpsolve.Optimal || res.Status == lpsolve.Infeasible)
			}
			b.ReportMetric(proven, "proven")
		})
		b.Run(fmt.Sprintf("our search, seed %d", seed), func(b *testing.B) {
			m := bagsFirst(trapJob(seed))
			proven := 0.0
			for b.Loop() {
				ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{TimeLimit: limit})
				require.NoError(b, err)
				proven = b2f(ans.Status == mip.Optimal || ans.Status == mip.Infeasible)
			}
			b.ReportMetric(proven, "proven")
		})
	}
}

// loadModel gives a model to lp_solve, whole columns and all.
func loadModel(t require.TestingT, m *mip.Model) *lpsolve.Problem {
	lp, err := lpsolve.New()
	require.NoError(t, err)
	for _, c := range m.Cols {
		_, err := lp.AddColumn(c.Name, c.Cost, c.Lower, c.Upper, c.Integer, nil, nil)
		require.NoError(t, err)
	}
	rel := map[mip.Rel]lpsolve.Relation{mip.AtMost: lpsolve.AtMost, mip.AtLeast: lpsolve.AtLeast, mip.Equal: lpsolve.Equal}
	for _, r := range m.Rows {
		var cols []int
		var coef []float64
		for _, term := range r.Terms {
			cols, coef = append(cols, term.Col), append(coef, term.Coef)
		}
		_, err := lp.AddRow(r.Name, rel[r.Rel], r.RHS, cols, coef)
		require.NoError(t, err)
	}
	return lp
}

// Bags first or last, the model is the same.
func TestBagsFirstIsTheSameModel(t *testing.T) {
	m := ExportModel(randjob.Job(1, shapes()["simple"]), true)
	other := bagsFirst(m)
	require.True(t, strings.HasPrefix(other.Cols[0].Name, "steps/"))
	require.Len(t, other.Cols, len(m.Cols))
	want, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
	require.NoError(t, err)
	got, err := search.Solver{}.Solve(context.Background(), other, mip.Options{})
	require.NoError(t, err)
	require.Equal(t, want.Status, got.Status)
	require.InDelta(t, want.Objective, got.Objective, halfCent)
}
