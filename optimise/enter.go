package optimise

import (
	"context"
	"fmt"
	"math"
	"time"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/propose"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

// Entry is the purchase that is worth its while for longest as a price rises.
type Entry struct {
	// Buy is that purchase, checked against the job and its bill at Ray.From; nil
	// when no purchase costs less than the limit even there.
	Buy *bill.Purchase
	// Job is the job at Ray.From, whose quotes Buy holds.
	Job *quotes.Job
	// X is the price at which it costs just the limit, unrounded.
	X float64
	// Proof is that nothing does above X, to begin a like search with; may be nil.
	Proof *Proof
}

// Ray is a price that rises.
type Ray struct {
	// At is the job at price x. Jobs at two prices must differ in what is paid
	// alone, in proportion to x: not in what is free or refused.
	At func(x float64) *quotes.Job
	// From is the lowest price looked at, To any higher one.
	From, To float64
	// Limit is the total, before rounding, that a purchase has to stay below. No
	// purchase that the price does not touch may.
	Limit float64
	// TimeLimit stops the search with [ErrNoPurchase]; 0 means none.
	TimeLimit time.Duration
	// Proof is of a like job to begin with; nil for none.
	Proof *Proof
	// Near are purchases to begin looking near; the first is the cheapest of today.
	Near []bill.Purchase
}

// Enter finds the highest price at which some purchase stays below a limit: with
// today's least total as the limit, the price from which a quote would be bought.
// It is one search where solving at one price after another would be many; see
// [search.Solver.Highest].
func Enter(ctx context.Context, r Ray) (*Entry, error) {
	begun := time.Now()
	low, high := r.At(r.From), r.At(r.To)
	fit := suitability.New(low)
	prog := model.Build(model.NewInstance(low, fit, false), model.Options{Strong: true})
	above := model.Build(model.NewInstance(high, suitability.New(high), false), model.Options{Strong: true})
	if err := sameRows(prog.Model, above.Model); err != nil {
		return nil, err
	}
	if prog.Hopeless() {
		return &Entry{Job: low}, nil
	}
	pr, model, opt, err := propose.Steer(ctx, prog, begun, r.TimeLimit)
	if err != nil {
		return nil, err
	}
	defer pr.Close()
	dearer := propose.NewCompleter(above)
	pr.Near = propose.NewNear(pr.Completer, dearer, r.Near)
	ray := search.Ray{From: r.From, Limit: r.Limit, Risen: pr.Reprice(dearer, r.From, r.To)}
	atZero := *model
	atZero.Cols = append([]mip.Column(nil), model.Cols...)
	for j := range model.Cols {
		slope := (above.Cols[j].Cost - prog.Cols[j].Cost) / (r.To - r.From)
		ray.Slope = append(ray.Slope, slope)
		atZero.Cols[j].Cost -= slope * r.From
	}
	// A proof of today's holds at once for all that leaves out what moves: the other
	// half is what is searched.
	from := r.Proof.to(low)
	if j, ok := pr.Near.Only(pr.Completer); ok {
		from = from.Split(j, 0)
	}
	ans, x, proof, err := search.Solver{From: from}.Highest(ctx, &atZero, ray, opt)
	if err != nil {
		return nil, fmt.Errorf("solving the buying model: %w", err)
	}
	entry := &Entry{Job: low, X: x, Proof: newProof(low, proof)}
	switch ans.Status {
	case mip.Infeasible:
		return entry, nil
	case mip.Optimal:
	case mip.Feasible, mip.NoAnswer:
		return nil, fmt.Errorf("solving the buying model: %w that is proven to be the last: none within %v; give it more time", ErrNoPurchase, r.TimeLimit)
	default:
		return nil, fmt.Errorf("solving the buying model: the search ended with status %q, want an answer", ans.Status)
	}
	// At From it need not be the cheapest, and it may pay for an order it does not
	// use: it is checked as an answer cut short is.
	plan := &Plan{Job: low, Fit: fit, Status: TimeLimit}
	ans.Status, ans.Objective, ans.Bound = mip.Feasible, model.Value(ans.X), math.Inf(-1)
	if err := plan.fill(ctx, prog, ans); err != nil {
		return nil, fmt.Errorf("checking the answer: %w", err)
	}
	entry.Buy = &plan.Purchase
	return entry, nil
}

// sameRows checks that two models differ in costs alone.
func sameRows(a, b *mip.Model) error {
	if len(a.Cols) != len(b.Cols) || len(a.Rows) != len(b.Rows) {
		return fmt.Errorf("the models at two prices have %d × %d and %d × %d rows and columns, want the same", len(a.Rows), len(a.Cols), len(b.Rows), len(b.Cols))
	}
	for j, c := range a.Cols {
		if d := b.Cols[j]; c.Name != d.Name || c.Lower != d.Lower || c.Upper != d.Upper {
			return fmt.Errorf("the models at two prices differ in column %q, want the same but for costs", c.Name)
		}
	}
	for i, r := range a.Rows {
		s := b.Rows[i]
		same := r.Name == s.Name && r.RHS == s.RHS && len(r.Terms) == len(s.Terms)
		for k := range r.Terms {
			same = same && r.Terms[k] == s.Terms[k]
		}
		if !same {
			return fmt.Errorf("the models at two prices differ in row %q, want the same but for costs", r.Name)
		}
	}
	return nil
}
