package byvolume

import (
	"testing"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/suitability"
)

// BenchmarkVolume is bags against bulk of the same job up to 20 m³.
func BenchmarkVolume(b *testing.B) {
	job := randjob.Job(2, randjob.Simple(3, 15, 12))
	bags, bulk, err := BagsAndBulk(job, suitability.New(job))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Between(job, bags, bulk, job.Beds[0].Site, 20_000); err != nil {
			b.Fatal(err)
		}
	}
}
