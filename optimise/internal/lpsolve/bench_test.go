package lpsolve

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// One bound of one column changes and the problem is solved again, as a branch
// and bound outside the library does.
func BenchmarkResolve(b *testing.B) {
	p := cover(b, 200, 300, 8, 1)
	rng := rand.New(rand.NewPCG(7, 7))
	var r Result
	require.NoError(b, p.SolveInto(context.Background(), Options{}, &r))
	b.ReportAllocs()
	var iters int64
	for b.Loop() {
		j := rng.IntN(300)
		lo, hi := 0.0, 10.0
		if rng.IntN(2) == 0 {
			hi = 2
		}
		if err := p.SetBounds(j, lo, hi); err != nil {
			b.Fatal(err)
		}
		if err := p.SolveInto(context.Background(), Options{}, &r); err != nil {
			b.Fatal(err)
		}
		if r.Status != Optimal {
			b.Fatal(r.Status)
		}
		iters += r.Iterations
	}
	b.ReportMetric(float64(iters)/float64(b.N), "iterations/op")
}

// The same problem again, unchanged: what a solve costs before any pivot.
func BenchmarkResolveUnchanged(b *testing.B) {
	p := cover(b, 200, 300, 8, 1)
	var r Result
	require.NoError(b, p.SolveInto(context.Background(), Options{}, &r))
	for b.Loop() {
		if err := p.SolveInto(context.Background(), Options{}, &r); err != nil || r.Iterations != 0 {
			b.Fatal(err, r.Iterations)
		}
	}
}

// From the slack basis each time.
func BenchmarkSolveCold(b *testing.B) {
	p := cover(b, 200, 300, 8, 1)
	var r Result
	var iters int64
	for b.Loop() {
		if err := p.ResetBasis(); err != nil {
			b.Fatal(err)
		}
		if err := p.SolveInto(context.Background(), Options{}, &r); err != nil || r.Status != Optimal {
			b.Fatal(err, r.Status)
		}
		iters += r.Iterations
	}
	b.ReportMetric(float64(iters)/float64(b.N), "iterations/op")
}

// 20 000 columns, 20 000 rows and 200 000 entries, up to but not with the solve.
func BenchmarkBuild(b *testing.B) {
	const n, perRow = 20_000, 10
	rng := rand.New(rand.NewPCG(1, 1))
	at, coef := make([]int, perRow), make([]float64, perRow)
	for b.Loop() {
		p, err := New()
		require.NoError(b, err)
		for range n {
			if _, err := p.AddColumn("x", 1, 0, 10, nil, nil); err != nil {
				b.Fatal(err)
			}
		}
		for range n {
			from := rng.IntN(n - 50*perRow)
			for k := range at {
				at[k], coef[k] = from+50*k, 1
			}
			if _, err := p.AddRow("r", AtLeast, 1, at, coef); err != nil {
				b.Fatal(err)
			}
		}
		require.NoError(b, p.load())
		p.Close()
	}
}
