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
	Name  string
	Plain bool  // it is plainer than the cheapest: see [Way]
	Plan  *Plan // may be infeasible, or without a bill where the time limit came before any purchase was found
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

// Names of the other ways to buy. The last four are plainer than the cheapest: less
// to order, to carry out or to remember.
const (
	AllBags     = "all bags"
	AllBulk     = "all bulk"
	OneSupplier = "one supplier"
	TwoThings   = "no more than two things bought"
	OneStone    = "one stone in each layer (bought one way)"
	SameMix     = "the same mix in every bed"
)

// Ways are the jobs whose cheapest plan is the cheapest way to buy of its kind, by
// name: only bags, nothing in bags, a single supplier, at most two quotes, one stone
// in each layer, the same mix in every bed. What the job asks for anyway is left out.
// The budget is left out of them: they are there to be compared.
func Ways(job *quotes.Job) []Way {
	var out []Way
	add := func(name string, plain bool, change func(j *quotes.Job)) {
		j := *job
		j.Settings.Budget = nil
		change(&j)
		out = append(out, Way{name, plain, &j})
	}
	only := func(keep func(f quotes.Form) bool) func(*quotes.Job) {
		return func(j *quotes.Job) {
			*j = *Restrict(j, func(q *quotes.Quote) bool { return keep(q.Form) })
		}
	}
	add(AllBags, false, only(func(f quotes.Form) bool { return f == quotes.Bag }))
	add(AllBulk, false, only(func(f quotes.Form) bool { return f != quotes.Bag }))
	add(OneSupplier, true, func(j *quotes.Job) { j.Settings.MaxSuppliers = 1 })
	if most := job.Settings.MaxQuotes; most <= 0 || most > 2 {
		add(TwoThings, true, func(j *quotes.Job) { j.Settings.MaxQuotes = 2 })
	}
	if job.Settings.LayerMix != quotes.OneMix {
		add(OneStone, true, func(j *quotes.Job) { j.Settings.LayerMix = quotes.OneMix })
	}
	if !job.Settings.SameMix && len(job.Beds) > 1 {
		add(SameMix, true, func(j *quotes.Job) { j.Settings.SameMix = true })
	}
	return out
}

// Way is another way to buy.
type Way struct {
	Name string
	// Plain says that it is plainer than the cheapest, and may be worth a little
	// more.
	Plain bool
	Job   *quotes.Job
}

// Alternatives solves the job again in each of [Ways].
func Alternatives(ctx context.Context, job *quotes.Job, opt Options) ([]Alternative, error) {
	var out []Alternative
	for _, w := range Ways(job) {
		p, err := compared(ctx, w.Job, opt)
		if err != nil {
			return nil, err
		}
		out = append(out, Alternative{w.Name, w.Plain, p})
	}
	return out, nil
}

// mostCompared is the largest model that is solved for a comparison alone. One of a
// hundred beds and two hundred quotes that do not merge has a tenth of it.
const mostCompared = 200_000

// compared solves a job that is there to be compared: without its budget, and with
// no answer where time was up before any purchase was found.
func compared(ctx context.Context, job *quotes.Job, opt Options) (*Plan, error) {
	j := *job
	j.Settings.Budget = nil
	opt.mostColumns = mostCompared
	p, err := Solve(ctx, &j, opt)
	if errors.Is(err, ErrNoPurchase) {
		return &Plan{Job: &j, Status: TimeLimit}, nil
	}
	return p, err
}

// AtOtherWeights is the job planned with frames held to usual weights, or to heavy stone
// where it holds them to usual weights: what holding them to heavy stone costs is the
// difference. nil where the job has no limit. How sure a job asks to be is not looked at,
// see risk.AtOtherWeights.
func AtOtherWeights(ctx context.Context, job *quotes.Job, opt Options) (*Plan, error) {
	other := OtherWeights(job)
	if other == nil {
		return nil, nil
	}
	return compared(ctx, other, opt)
}

// OtherWeights is the job that [AtOtherWeights] plans; nil where the job has no limit.
func OtherWeights(job *quotes.Job) *quotes.Job {
	if !slices.ContainsFunc(job.Beds, func(b *quotes.Bed) bool { return b.Limit != nil }) {
		return nil
	}
	other := *job
	if other.Settings.Weights = quotes.UsualWeights; job.Settings.Weights == quotes.UsualWeights {
		other.Settings.Weights = quotes.HeavyWeights
	}
	return &other
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
