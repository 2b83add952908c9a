package breakeven

import (
	"context"
	"fmt"
	"slices"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// SmallShare is the part of a plan's total from which what a small change saves is worth
// telling with the plan.
const SmallShare = 0.02

// mostSmall is how many changes of one kind are looked at one by one.
const mostSmall = 12

// How much thinner top layers are made to see what that is worth, by the reader's units.
const (
	thinnerUS     = units.Inch
	thinnerMetric = 25 * units.Millimetre
)

// SmallChanges finds the small changes of a limit, a top layer or a stock that save at
// least [SmallShare] of what the plan costs: each weight limit raised by [MoreLimit],
// each top layer an inch or 25 mm thinner, one step more of each quote whose stock the
// plan buys up. All of a kind are changed at once first, as no single one can save more.
// The answers are in order of what they save, most first, and each is a whole plan's
// cost; one that was not proven in time is left out unless it saves so much anyway.
func SmallChanges(ctx context.Context, job *quotes.Job, plan *optimise.Plan, opt Options) ([]Other, error) {
	if err := usable(plan); err != nil {
		return nil, err
	}
	j := *job
	j.Settings.Budget, j.Settings.TimeLimit = nil, 0
	var kinds [][]change
	var together []change
	for _, of := range [][]change{moreLimits(&j), thinnerTops(&j), moreStock(&j, plan)} {
		if len(of) == 2 {
			of = of[1:] // there is one alone
		}
		if len(of) > 0 {
			kinds, together = append(kinds, of[1:]), append(together, of[0])
		}
	}
	all, err := solveAll(ctx, together, plan, opt, job)
	if err != nil {
		return nil, err
	}
	least := plan.Bill.Total.Float() * SmallShare
	worth := func(o Other) bool { return !o.Infeasible && !o.NoAnswer && -o.Difference.Float() >= least }
	var single []change
	for i, o := range all {
		if worth(o) && len(kinds[i]) <= mostSmall {
			single = append(single, kinds[i]...)
		}
	}
	one, err := solveAll(ctx, single, plan, opt, job)
	if err != nil {
		return nil, err
	}
	out := slices.DeleteFunc(slices.Concat(all, one), func(o Other) bool { return !worth(o) })
	slices.SortStableFunc(out, func(a, b Other) int { return a.Difference.Cmp(b.Difference) })
	return out, nil
}

// thinnerTops lists the job with every top layer that is thick enough a little thinner,
// then with each. The bed stays as deep: more of it is base.
func thinnerTops(job *quotes.Job) []change {
	by := thinnerMetric
	words := "25 mm"
	if job.Settings.System() == units.US {
		by, words = thinnerUS, "1 in"
	}
	var beds []string
	for _, b := range job.Beds {
		if canThin(b, by) {
			beds = append(beds, b.Name)
		}
	}
	if len(beds) == 0 {
		return nil
	}
	thin := func(name string) *quotes.Job {
		return withBeds(job, func(b *quotes.Bed) {
			if (name == "" || b.Name == name) && canThin(b, by) {
				b.Top -= by
			}
		})
	}
	out := []change{{fmt.Sprintf("every top layer %s thinner", words), thin("")}}
	for _, name := range beds {
		out = append(out, change{fmt.Sprintf("the top layer of %s %s thinner", name, words), thin(name)})
	}
	return out
}

// canThin reports whether a bed has a top layer given by its depth that is thicker than
// by.
func canThin(b *quotes.Bed, by units.Millimetres) bool { return b.Top > by }

// moreStock lists the job with a step more of every quote of which the plan buys all
// there is, then with each.
func moreStock(job *quotes.Job, plan *optimise.Plan) []change {
	bought := map[string]units.Decimal{}
	for _, it := range plan.Purchase.Items {
		bought[it.Quote.Name] = bought[it.Quote.Name].Add(it.Packs())
	}
	soldOut := func(q *quotes.Quote) bool {
		return q.MaxQty != nil && bought[q.Name].Add(q.Step).Cmp(*q.MaxQty) > 0
	}
	more := func(name string) *quotes.Job {
		out := *job
		out.Quotes = nil
		for _, q := range job.Quotes {
			c := *q
			if (name == "" || q.Name == name) && soldOut(q) {
				most := q.MaxQty.Add(q.Step)
				c.MaxQty = &most
			}
			out.Quotes = append(out.Quotes, &c)
		}
		return &out
	}
	var out []change
	for _, q := range job.Quotes {
		if soldOut(q) {
			out = append(out, change{fmt.Sprintf("%s × %s more of %s than is in stock", q.Step, q.Pack.Raw, q.Name), more(q.Name)})
		}
	}
	if len(out) > 0 {
		out = slices.Insert(out, 0, change{"a little more of everything of which all that is in stock is bought", more("")})
	}
	return out
}
