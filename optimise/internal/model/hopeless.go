package model

import (
	"math"
	"slices"
)

// Unsupplied lists the suits that nothing sold may fill.
func (p *Program) Unsupplied() []int {
	var out []int
	for u, su := range p.In.Suits {
		if !slices.ContainsFunc(su.Classes, func(k int) bool { _, ok := p.V[[2]int{k, u}]; return ok }) {
			out = append(out, u)
		}
	}
	return out
}

// Hopeless reports whether some layer has nothing that may fill it, a frame
// cannot carry the lightest that may fill what stands on it, or all that is in
// stock is too little, so that no solve is needed to know.
func (p *Program) Hopeless() bool {
	return len(p.Unsupplied()) > 0 || len(p.Overloaded()) > 0 || len(p.Scarce()) > 0
}

// Overload is a unit (by index) that is too heavy by so many kilograms even with the
// lightest of all that may fill it.
type Overload struct {
	Unit int
	Over float64
}

// Overloaded lists the overloads.
func (p *Program) Overloaded() []Overload {
	var out []Overload
	for i, u := range p.In.Units {
		if over := p.In.leastWeight(u) - u.Headroom; u.Weighed && over > feather*max(1, u.Headroom) {
			out = append(out, Overload{i, over})
		}
	}
	return out
}

// feather is what a frame is let off, as a share of what it carries, and a layer as a
// share of what it takes: the sums of litres are rounded.
const feather = 1e-6

// leastWeight is Σ_t D[t]·min over g of flooded[m(g),t] of a unit, in kilograms: shares and stocks may ask for more.
func (in *Instance) leastWeight(u Unit) float64 {
	sum := 0.0
	for _, t := range u.Slots {
		sl, least := in.Slots[t], math.Inf(1)
		for _, g := range in.Suits[sl.Suit].Grades {
			least = min(least, in.Weight(g, sl.Below))
		}
		if !math.IsInf(least, 1) {
			sum += sl.Litres * least
		}
	}
	return sum
}
