package share

import (
	"cmp"
	"math"
	"slices"

	"mediabuy/optimise/share/costgame"
)

// priced is a group and what it would pay by itself, in the currency's smallest
// unit.
type priced struct {
	group costgame.Group
	cost  int64
}

// excess is what the group pays more than by itself.
func (p priced) excess(pays []int64) int64 {
	sum := -p.cost
	for _, i := range p.group.Players() {
		sum += pays[i]
	}
	return sum
}

func worst(groups []priced, pays []int64) int64 {
	w := int64(math.MinInt64)
	for _, p := range groups {
		w = max(w, p.excess(pays))
	}
	return w
}

const (
	// noise is how far below a whole unit a share may be and still be that unit:
	// the rounding of sums and of the linear programs, far below a cent.
	noise = 1e-4
	// mostTries bounds the ways to give the odd units that are looked at: all of
	// them up to 12 members (924 at most).
	mostTries = 1000
)

// roundSplit rounds the exact shares x, in smallest units, to whole ones that
// add up to total. Each is cut down, and the odd units go to the largest
// remainders, to the earlier member where they are equal (the largest-remainder
// method, common practice, no source). If that leaves a group better off alone
// which the exact shares do not, the odd units go where the worst group is
// helped most, and of such ways to the largest remainders.
func roundSplit(x []float64, total int64, groups []priced) []int64 {
	base := make([]int64, len(x))
	rest := make([]float64, len(x))
	odd := total
	for i, v := range x {
		base[i] = int64(math.Floor(v + noise))
		rest[i] = v - float64(base[i])
		odd -= base[i]
	}
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if math.Abs(rest[a]-rest[b]) < noise {
			return 0
		}
		return cmp.Compare(rest[b], rest[a])
	})
	give := func(to []int) []int64 {
		out := slices.Clone(base)
		for _, i := range to {
			out[order[i]]++
		}
		return out
	}
	first := make([]int, odd)
	for i := range first {
		first[i] = i
	}
	best := give(first)
	least := worst(groups, best)
	if least <= 0 || exactWorst(groups, x) > noise || choose(len(x), int(odd)) > mostTries {
		return best
	}
	// In the order of combinations the largest remainders come first.
	for to := first; next(to, len(x)); {
		pays := give(to)
		if w := worst(groups, pays); w < least {
			best, least = pays, w
		}
		if least <= 0 {
			break
		}
	}
	return best
}

func exactWorst(groups []priced, x []float64) float64 {
	w := math.Inf(-1)
	for _, p := range groups {
		w = max(w, p.group.Sum(x)-float64(p.cost))
	}
	return w
}

// next moves to the next choice of len(to) of n places, and reports whether
// there is one.
func next(to []int, n int) bool {
	k := len(to)
	for i := k - 1; i >= 0; i-- {
		if to[i] < n-k+i {
			to[i]++
			for j := i + 1; j < k; j++ {
				to[j] = to[j-1] + 1
			}
			return true
		}
	}
	return false
}

// choose is the number of ways to pick k of n, or more than mostTries.
func choose(n, k int) int {
	out := 1
	for i := 1; i <= k; i++ {
		out = out * (n - k + i) / i
		if out > mostTries {
			return out
		}
	}
	return out
}
