package search

import (
	"context"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// Ray is a direction in which costs rise: at θ column j costs Cost[j] + Slope[j]·θ.
type Ray struct {
	// Slope is 0 or more, and 0 for columns that can be below 0.
	Slope []float64
	// From is the θ to begin with.
	From float64
	// Limit is the value that an answer has to stay below.
	Limit float64
	// Risen is told each higher θ at which an answer was found to reach Limit; may
	// be nil.
	Risen func(theta float64)
}

// ray is a Ray on its way.
type ray struct {
	Ray
	theta float64
	cost  []float64 // at θ = 0
}

// Highest finds the answer that stays below the limit for the highest θ, and that
// θ, at which it just reaches the limit; at a θ higher by more than the gap makes
// no answer is below. It is one search, not one for each θ tried: bounds at one θ
// hold at every higher one, so each better answer just raises the costs under way.
// The status is Infeasible if no answer is below the limit at From. The proof is of
// the model at θ; see Prove.
//
// That is fractional programming with a single tree in place of a sequence of
// them (W. Dinkelbach, On nonlinear fractional programming, Management Science 13,
// 1967; from memory).
func (s Solver) Highest(ctx context.Context, m *mip.Model, r Ray, opt mip.Options) (ans *mip.Answer, theta float64, proof *Proof, err error) {
	own := *m
	own.Cols = slices.Clone(m.Cols)
	own.Parts = nil
	on := &ray{Ray: r, theta: r.From}
	for j := range own.Cols {
		c := &own.Cols[j]
		on.cost = append(on.cost, c.Cost)
		if r.Slope[j] < 0 || r.Slope[j] > 0 && c.Lower < 0 {
			return nil, 0, nil, fmt.Errorf("column %q can make an answer cheaper where costs rise, want a slope of 0 or more and a lower bound of 0 or more", c.Name)
		}
		c.Cost += r.Slope[j] * r.From
	}
	opt.CutOff, opt.Start = r.Limit, nil
	ans, proof, err = s.solve(ctx, &own, opt, on)
	return ans, on.theta, proof, err
}

// rise lifts θ to where x reaches the limit and keeps x if that is higher.
func (t *tree) rise(x []float64) {
	r := t.ray
	base, slope := t.m.Constant, 0.0
	for j, c := range r.cost {
		base += c * x[j]
		slope += r.Slope[j] * x[j]
	}
	theta := (r.Limit - base) / slope
	if !(theta > r.theta) || math.IsInf(theta, 0) {
		return
	}
	r.theta, t.best, t.bestValue = theta, slices.Clone(x), r.Limit
	for j, s := range r.Slope {
		if s == 0 {
			continue
		}
		cost := r.cost[j] + s*theta
		t.m.Cols[j].Cost = cost
		if at := t.colAt[j]; at != settled {
			if err := t.lp.SetCost(at, cost); err != nil {
				panic(err) // indexes and numbers are ours: a refusal is a fault of this package
			}
		}
	}
	if r.Risen != nil {
		r.Risen(theta)
	}
}

// askFirst asks for proposals before any relaxation is solved, so that even the
// first is solved where costs may stay.
func (t *tree) askFirst() error {
	t.x = make([]float64, len(t.m.Cols))
	return t.askAnew(true)
}

// askFromBest asks for something better than the best.
func (t *tree) askFromBest() error {
	copy(t.x, t.best)
	return t.askAnew(false)
}

// askAnew asks from x for as long as costs rise with what is found, each time from
// there.
func (t *tree) askAnew(thorough bool) error {
	for rising := true; rising; {
		before := t.ray.theta
		if err := t.ask(thorough); err != nil {
			return err
		}
		if rising = t.ray.theta > before; rising {
			copy(t.x, t.best)
		}
	}
	return nil
}

// maxRises bounds the passes of askWhileRising.
const maxRises = 10

// askWhileRising asks for a proposal, and where costs rise with what was found,
// again at these, so that little of the tree is searched at costs that are passed
// anyway.
func (t *tree) askWhileRising(thorough bool) error {
	if t.ray == nil {
		return t.ask(thorough)
	}
	for range maxRises {
		before := t.ray.theta
		if err := t.ask(thorough); err != nil {
			return err
		}
		if t.ray.theta <= before {
			break
		}
		if status, _, err := t.relaxLazily(); err != nil || status != lpsolve.Optimal {
			return err
		}
	}
	return nil
}
