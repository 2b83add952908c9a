package breakeven

import (
	"context"
	"testing"

	"mediabuy/optimise"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
)

// BenchmarkAllQuotes is the search over every quote, as the command does it without
// a choice: of a job of 15 quotes and 12 beds, and of 60 quotes and 100 beds with
// all bulk together, which should end within 10 s on two processors.
func BenchmarkAllQuotes(b *testing.B) {
	for _, c := range []struct {
		name string
		job  *quotes.Job
	}{
		{"15 quotes, 12 beds", randjob.Job(2, randjob.Simple(3, 15, 12))},
		{"60 quotes, 100 beds", randjob.Job(0, randjob.Simple(8, 60, 100))},
	} {
		job := c.job
		b.Run(c.name, func(b *testing.B) {
			plan, err := Today(context.Background(), job, optimise.Options{})
			if err != nil {
				b.Fatal(err)
			}
			bulk, err := Bulk(job)
			if err != nil {
				b.Fatal(err)
			}
			targets := append(Quotes(job), bulk)
			solves := 0
			for b.Loop() {
				list, err := ByPrice(context.Background(), job, plan, targets, Options{})
				if err != nil {
					b.Fatal(err)
				}
				solves = 0
				for _, s := range list {
					solves += s.Solves
				}
			}
			b.ReportMetric(float64(solves), "solves")
		})
	}
}
