package optimise

import (
	"context"
	"errors"
	"slices"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
)

// Alternative is another way to buy that a sceptic would ask about.
type Alternative struct {
	Name string
	Plan *Plan // may be infeasible, or without a bill where the time limit came before any purchase was found
}

// Restrict is the job with only the quotes that keep accepts; beds, terms and
// settings are shared with the job and must not be changed.
func Restrict(job *quotes.Job, keep func(*quotes.Quote) bool) *quotes.Job {
	out := *job
	out.Quotes = nil
	for _, q := range job.Quotes {
		if keep(q) {
			out.Quotes = append(out.Quotes, q)
		}
	}
	return &out
}

// Names of the plainer ways to buy.
const (
	AllBags     = "all bags"
	AllBulk     = "all bulk"
	OneSupplier = "one supplier"
	OneStone    = "one stone in each layer"
)

// Alternatives solves the job again with only bags, with nothing in bags, from a
// single supplier, and with one stone in each layer. The budget is left out of
// them: they are there to be compared.
func Alternatives(ctx context.Context, job *quotes.Job, opt Options) ([]Alternative, error) {
	one, stone := *job, *job
	one.Settings.MaxSuppliers = 1
	stone.Settings.LayerMix = quotes.OneMix
	cases := []struct {
		name string
		job  *quotes.Job
	}{
		{AllBags, Restrict(job, func(q *quotes.Quote) bool { return q.Form == quotes.Bag })},
		{AllBulk, Restrict(job, func(q *quotes.Quote) bool { return q.Form != quotes.Bag })},
		{OneSupplier, &one},
	}
	if job.Settings.LayerMix != quotes.OneMix {
		cases = append(cases, struct {
			name string
			job  *quotes.Job
		}{OneStone, &stone})
	}
	var out []Alternative
	for _, c := range cases {
		p, err := compared(ctx, c.job, opt)
		if err != nil {
			return nil, err
		}
		out = append(out, Alternative{c.name, p})
	}
	return out, nil
}

// compared solves a job that is there to be compared: without its budget, and with
// no answer where time was up before any purchase was found.
func compared(ctx context.Context, job *quotes.Job, opt Options) (*Plan, error) {
	j := *job
	j.Settings.Budget = nil
	p, err := Solve(ctx, &j, opt)
	if errors.Is(err, ErrNoPurchase) {
		return &Plan{Job: &j, Status: TimeLimit}, nil
	}
	return p, err
}

// AtUsualWeights is the job planned with frames held to usual weights: what holding
// them to heavy stone costs is the difference. nil where the job has no limit, or
// holds them to usual weights already.
func AtUsualWeights(ctx context.Context, job *quotes.Job, opt Options) (*Plan, error) {
	limited := slices.ContainsFunc(job.Beds, func(b *quotes.Bed) bool { return b.Limit != nil })
	if !limited || job.Settings.Weights == quotes.UsualWeights {
		return nil, nil
	}
	usual := *job
	usual.Settings.Weights = quotes.UsualWeights
	return compared(ctx, &usual, opt)
}

// ExportModel is the job's model as data. Plain, every quote, layer and rule
// stands by itself as in the files; merged, what is alike is one, as it is
// solved. A budget is one more row here, of what the model costs before rounding;
// Solve does without, so that it can name the least budget that would do.
func ExportModel(job *quotes.Job, merged bool) *mip.Model {
	m := model.Build(model.NewInstance(job, suitability.New(job), !merged), model.Options{Strong: merged}).Model
	if b := job.Settings.Budget; b != nil {
		row := mip.Row{Name: "budget", Rel: mip.AtMost, RHS: b.Float() - m.Constant}
		for j, c := range m.Cols {
			row.Terms = append(row.Terms, mip.Term{Col: j, Coef: c.Cost})
		}
		m.AddRow(row)
	}
	return m
}
