package optimise

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// mend is a kind of lack of quotes that a word of the yard may mend: while it stands, no table need bear more.
type mend struct {
	lacks func(q *quotes.Quote, refused []suitability.Reason, j *quotes.Job) bool
	given func(q *quotes.Quote) // what it would be with the lack gone
	words func(q *quotes.Quote, j *quotes.Job) string
}

// mends are the kinds, the easiest asked for first.
var mends = []mend{
	{func(_ *quotes.Quote, refused []suitability.Reason, _ *quotes.Job) bool {
		return refusedBy(refused, suitability.RuleDate)
	},
		func(q *quotes.Quote) { q.ValidUntil, q.ReadyBy = quotes.Date{}, quotes.Date{} },
		func(q *quotes.Quote, j *quotes.Job) string {
			if !q.ValidUntil.IsZero() && q.ValidUntil.Before(j.Settings.Date.Time) {
				return fmt.Sprintf("its price ended on %s: ask for a new last day and write it under valid_until", q.ValidUntil)
			}
			return fmt.Sprintf("it is ready on %s and needed by %s: ask for it sooner, or wait for it", q.ReadyBy, j.Settings.NeedBy)
		}},
	{func(q *quotes.Quote, _ []suitability.Reason, _ *quotes.Job) bool { return q.MaxQty != nil },
		func(q *quotes.Quote) { q.MaxQty = nil },
		func(q *quotes.Quote, _ *quotes.Job) string {
			return fmt.Sprintf("there are only %s of it: ask whether there will be more", q.PacksWords(*q.MaxQty))
		}},
	{func(q *quotes.Quote, _ []suitability.Reason, j *quotes.Job) bool {
		return !q.Size.Known && !j.Settings.AllowUnknownSize
	},
		nil, // of the whole job
		func(*quotes.Quote, *quotes.Job) string {
			return "its grain size is not stated: ask the yard for its sieves and write them under size"
		}},
	{func(q *quotes.Quote, refused []suitability.Reason, _ *quotes.Job) bool {
		return q.Carbonate == quotes.Untested && q.Medium.Carbonate == quotes.CarbonateSuspect && refusedBy(refused, suitability.RuleCarbonate)
	},
		func(q *quotes.Quote) { q.Carbonate = quotes.NoFizz },
		func(*quotes.Quote, *quotes.Job) string {
			return "it may carry lime: put an acid drop on several stones, and where none fizzes write none under carbonate"
		}},
}

func refusedBy(reasons []suitability.Reason, rule suitability.Rule) bool {
	return slices.ContainsFunc(reasons, func(r suitability.Reason) bool { return r.Rule == rule })
}

// moreOfIt is the kind of what there is too little of.
const moreOfIt = 1

// named says whether obstacles name the quote that comes nearest and what it lacks.
func named(why []Obstacle) bool {
	return !slices.ContainsFunc(why, func(o Obstacle) bool {
		return slices.Contains([]string{RuleLimit, RuleShare, RuleStock, RuleSuppliers, RuleDeliveries, RuleMinOrder, RuleMinQty}, o.Rule)
	})
}

const (
	// mendsShown is the most quotes that are named.
	mendsShown = 3
	// mendLook bounds the look for them, and mendTry each try: what is not found in the time is not said.
	mendLook, mendTry = 3 * time.Second, time.Second
)

// mended names the quotes with which the job would have a purchase if what they lack were mended, each alone enough, or else all of a
// kind together; "" where there are none, or they were not found in the time.
func mended(ctx context.Context, job *quotes.Job, fit *suitability.Fit, why []Obstacle, opt Options) (string, error) {
	look := mendLook
	if opt.TimeLimit > 0 {
		look = min(look, opt.TimeLimit)
	}
	if ends, ok := ctx.Deadline(); ok { // what stands in the way is known, and must not be lost for want of time
		look = min(look, time.Until(ends)/2)
	}
	within, cancel := context.WithTimeout(ctx, look)
	defer cancel()
	short := !slices.ContainsFunc(why, func(o Obstacle) bool { return o.Rule != RuleStock })
	for i, m := range mends {
		if i == moreOfIt && short {
			continue // that more must be for sale is said already
		}
		var lacking []int
		for i, q := range job.Quotes {
			if m.lacks(q, fit.General[i], job) {
				lacking = append(lacking, i)
			}
		}
		if len(lacking) == 0 {
			continue
		}
		all, err := buyable(within, m.lift(job, lacking), opt)
		if ctx.Err() != nil {
			return "", context.Cause(ctx)
		}
		if err != nil || within.Err() != nil {
			return "", err
		}
		if !all {
			continue
		}
		var enough []string
		for _, i := range lacking {
			if m.given == nil || len(enough) == mendsShown || len(lacking) > 4*mendsShown {
				break
			}
			one, err := buyable(within, m.lift(job, []int{i}), opt)
			if ctx.Err() != nil {
				return "", context.Cause(ctx)
			}
			if err != nil {
				return "", err
			}
			if one {
				enough = append(enough, fmt.Sprintf("with %q the beds can be filled, but %s", job.Quotes[i].Name, m.words(job.Quotes[i], job)))
			}
		}
		if len(enough) > 0 {
			return strings.Join(enough, "; or "), nil
		}
		var names []string
		for _, i := range lacking[:min(len(lacking), 2*mendsShown)] {
			names = append(names, fmt.Sprintf("%q", job.Quotes[i].Name))
		}
		with := "with %s together the beds can be filled, but of each "
		if len(names) == 1 {
			with = "with %s the beds can be filled, but "
		} else if m.given == nil {
			with = "with one or more of %s the beds can be filled, but of each "
		}
		return fmt.Sprintf(with, units.Listed(names)) + m.words(job.Quotes[lacking[0]], job), nil
	}
	return "", nil
}

// lift is the job with what some quotes lack given; the quotes of the job stay as they are.
func (m mend) lift(job *quotes.Job, lacking []int) *quotes.Job {
	out := *job
	out.Settings.Budget = nil
	if m.given == nil {
		out.Settings.AllowUnknownSize = true
		return &out
	}
	out.Quotes = slices.Clone(job.Quotes)
	for _, i := range lacking {
		q := *job.Quotes[i]
		m.given(&q)
		out.Quotes[i] = &q
	}
	return &out
}

// buyable says whether a job has any purchase, as far as is seen in a short time.
func buyable(ctx context.Context, job *quotes.Job, opt Options) (bool, error) {
	in := model.NewInstance(job, suitability.New(job), opt.Plain)
	if model.Build(in, model.Options{Strong: !opt.Plain}).Unsupplied() != nil {
		return false, nil
	}
	plan, err := Solve(ctx, job, Options{TimeLimit: mendTry, CutOff: anyTotal, Plain: opt.Plain})
	switch {
	case errors.Is(err, ErrNoPurchase):
		return false, nil
	case err != nil && ctx.Err() != nil:
		return false, nil
	case err != nil:
		return false, err
	}
	return plan.Bill != nil, nil
}
