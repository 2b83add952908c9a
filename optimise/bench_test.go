package optimise

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
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
