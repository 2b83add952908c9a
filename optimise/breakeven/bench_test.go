package breakeven

import (
	"context"
	"testing"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
)

// BenchmarkAllQuotes is the search over every quote of a job of 15 quotes and 12
// beds, as the command does it without a choice.
func BenchmarkAllQuotes(b *testing.B) {
	job := randjob.Job(2, randjob.Simple(3, 15, 12))
	plan, err := Today(context.Background(), job, optimise.Options{})
	if err != nil {
		b.Fatal(err)
	}
	solves := 0
	for b.Loop() {
		list, err := ByPrice(context.Background(), job, plan, Quotes(job), Options{})
		if err != nil {
			b.Fatal(err)
		}
		solves = 0
		for _, s := range list {
			solves += s.Solves
		}
	}
	b.ReportMetric(float64(solves), "solves")
}

// BenchmarkVolume is bags against bulk of the same job up to 20 m³.
func BenchmarkVolume(b *testing.B) {
	job := randjob.Job(2, randjob.Simple(3, 15, 12))
	bags, bulk, err := BagsAndBulk(job, optimise.NewFit(job))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := ByVolume(job, bags, bulk, job.Beds[0].Site, 20_000); err != nil {
			b.Fatal(err)
		}
	}
}
