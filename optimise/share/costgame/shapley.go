package costgame

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// Shapley is the Shapley value: what each player adds to the cost of those who
// came before, averaged over all orders of coming (L. S. Shapley, in
// Contributions to the Theory of Games II (1953) 307–317, memory):
//
//	x[i] = Σ_{S without i} |S|!·(n−|S|−1)!/n! · (c(S+i) − c(S))
func (g *Game) Shapley() []float64 {
	// w[s] = s!·(n−s−1)!/n! = 1 / (n·C(n−1, s))
	w := make([]float64, g.n)
	choose := 1.0
	for s := range w {
		w[s] = 1 / (float64(g.n) * choose)
		choose = choose * float64(g.n-1-s) / float64(s+1)
	}
	x := make([]float64, g.n)
	for s := range All(g.n) {
		for i := range x {
			if !s.Has(i) {
				x[i] += w[s.Size()] * (g.cost[s|One(i)] - g.cost[s])
			}
		}
	}
	return x
}

// Sampled is an estimate of the Shapley value from some orders of coming.
type Sampled struct {
	Value []float64 // by player; adds up to the total cost
	// Error is the standard error of each value, in the unit of the costs. The
	// orders are drawn in pairs, one the other backwards, and the error is that
	// of the mean over pairs.
	Error []float64
	Pairs int
}

// Sample estimates the Shapley value of a game of n players from pairs of
// orders, at least 2, drawn by seed: the same seed gives the same orders. cost
// is asked only for groups that stand at the head of an order, and is asked
// again for a group met again.
func Sample(n, pairs int, seed uint64, cost func(Group) (float64, error)) (*Sampled, error) {
	if n < 1 || n > MaxPlayers {
		return nil, fmt.Errorf("a game of %d players, want 1 to %d", n, MaxPlayers)
	}
	if pairs < 2 {
		return nil, fmt.Errorf("%d pairs of orders, want 2 or more to know the error", pairs)
	}
	r := rand.New(rand.NewPCG(seed, 0))
	sum, squares := make([]float64, n), make([]float64, n)
	for range pairs {
		order := r.Perm(n)
		pair := make([]float64, n)
		for range 2 {
			var s Group
			before := 0.0
			for _, i := range order {
				s |= One(i)
				c, err := cost(s)
				if err != nil {
					return nil, err
				}
				pair[i] += (c - before) / 2
				before = c
			}
			for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
				order[i], order[j] = order[j], order[i]
			}
		}
		for i, v := range pair {
			sum[i] += v
			squares[i] += v * v
		}
	}
	out := &Sampled{Value: sum, Error: make([]float64, n), Pairs: pairs}
	k := float64(pairs)
	for i := range sum {
		mean := sum[i] / k
		variance := max(0, squares[i]/k-mean*mean) * k / (k - 1)
		out.Value[i], out.Error[i] = mean, math.Sqrt(variance/k)
	}
	return out, nil
}

// Orders lists, for the same n, pairs and seed, every group that [Sample] will
// ask for, each once, so that their costs can be worked out side by side first.
func Orders(n, pairs int, seed uint64) ([]Group, error) {
	var out []Group
	seen := map[Group]bool{}
	_, err := Sample(n, pairs, seed, func(s Group) (float64, error) {
		if !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
		return 0, nil
	})
	return out, err
}
