package units

import (
	"fmt"
	"math"
	"math/big"
	"slices"
)

// Split shares out minor units (cents, pence) in proportion to weights, one part per weight, so that the parts add up to
// minor exactly. Every part is first rounded towards zero; the units left over go one each to the parts with the largest
// remainders, and to the earlier part where remainders are equal (the largest-remainder method, common practice, no
// source). Weights that are all zero give equal parts. A negative minor is split as its positive and negated. The sums
// are exact fractions, so a part's remainder is never a matter of float64 rounding.
//
// Split panics when a weight is negative, infinite or not a number, and when there are no weights but something to share:
// callers check their shares first, and money must not vanish.
func Split(minor int64, weights []float64) []int64 {
	if len(weights) == 0 {
		if minor != 0 {
			panic(fmt.Sprintf("units.Split: %d to share among nobody", minor))
		}
		return nil
	}
	shares, total := ratios(weights)

	// part[i] = ⌊|minor|·w[i]/Σw⌋, left[i] = the fraction cut off.
	size := new(big.Int).Abs(big.NewInt(minor))
	parts := make([]*big.Int, len(shares))
	left := make([]*big.Rat, len(shares))
	spare := new(big.Int).Set(size)
	for i, w := range shares {
		exactly := new(big.Rat).SetInt(size)
		exactly.Mul(exactly, w).Quo(exactly, total)
		parts[i] = new(big.Int).Quo(exactly.Num(), exactly.Denom())
		left[i] = exactly.Sub(exactly, new(big.Rat).SetInt(parts[i]))
		spare.Sub(spare, parts[i])
	}

	order := make([]int, len(shares))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return left[b].Cmp(left[a]) })
	// The fractions add up to spare and each is below 1, so spare is less than the number of parts.
	for _, i := range order[:spare.Int64()] {
		parts[i].Add(parts[i], big.NewInt(1))
	}

	out := make([]int64, len(parts))
	for i, p := range parts {
		if minor < 0 {
			p.Neg(p)
		}
		out[i] = p.Int64() // no part is larger than minor
	}
	return out
}

// ratios gives the weights and their sum as exact fractions; all-zero weights become all ones.
func ratios(weights []float64) (shares []*big.Rat, total *big.Rat) {
	shares, total = make([]*big.Rat, len(weights)), new(big.Rat)
	for i, w := range weights {
		if w < 0 || math.IsNaN(w) || math.IsInf(w, 0) {
			panic(fmt.Sprintf("units.Split: weight %d is %v, want 0 or more", i, w))
		}
		shares[i] = new(big.Rat).SetFloat64(w)
		total.Add(total, shares[i])
	}
	if total.Sign() == 0 {
		for _, s := range shares {
			s.SetInt64(1)
		}
		total.SetInt64(int64(len(shares)))
	}
	return shares, total
}
