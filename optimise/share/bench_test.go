package share

import (
	"context"
	"testing"

	"mediabuy/optimise/internal/randjob"
)

// Eight members, 24 beds, 30 quotes: 255 groups.
func BenchmarkEightMembers(b *testing.B) {
	s := randjob.Simple(5, 30, 24)
	s.Members = 8
	job := randjob.Job(1, s)
	for b.Loop() {
		if _, err := Solve(context.Background(), job, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// Twelve members, 24 beds, 30 quotes: 4095 groups.
func BenchmarkTwelveMembers(b *testing.B) {
	s := randjob.Simple(5, 30, 24)
	s.Members = 12
	job := randjob.Job(1, s)
	for b.Loop() {
		if _, err := Solve(context.Background(), job, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
