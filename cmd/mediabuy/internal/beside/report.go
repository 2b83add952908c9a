package beside

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven/byvolume"
	"mediabuy/optimise/risk"
	"mediabuy/optimise/share"
	"mediabuy/papers"
	"mediabuy/papers/caution"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
)

// Report works out what a report says besides the plan itself. The job is the one
// that was read, and the plan the one that was chosen for it.
func Report(ctx context.Context, chosen *risk.Tidied, job *quotes.Job, warnings []*quotes.Problem, st papers.Style, opt optimise.Options, wait Patience) (*papers.Input, error) {
	plan, limit := chosen.Plan, opt.TimeLimit
	out := &papers.Input{Plan: plan, How: chosen, Warnings: warnings, Compared: optimise.Compare(job, plan.Fit, optimise.CompareOptions{})}
	var err error
	if out.Ways, err = waysOf(ctx, chosen, opt); err != nil {
		return nil, err
	}
	if out.OtherWeights, err = risk.AtOtherWeights(ctx, plan.Job, opt); err != nil {
		return nil, err
	}
	if out.Risk, err = risk.Assessed(ctx, &risk.Reached{Job: chosen.OpenJob(), Plan: plan}, wait.SureLimit(limit, 0)); err != nil {
		return nil, err
	}
	if out.Risk != nil || job.Settings.Sure > 0 {
		open := job
		if chosen.Way != "" {
			open = chosen.OpenJob()
		}
		if out.Sureness, err = surenessOf(ctx, plan, open, out.Risk, cmp.Or(limit, wait.Curve)); err != nil {
			return nil, err
		}
	}
	if out.Charts, err = chartsOf(job, plan, st); err != nil {
		return nil, err
	}
	// Lifting, lime and dust stand in every report, whatever is bought.
	for _, c := range caution.Of(plan, st.Units) {
		if !slices.Contains([]string{"lifting", "lime", "lime by name", "dust"}, c.About) {
			out.Cautions = append(out.Cautions, c)
		}
	}
	return out, nil
}

// Shares works out what each member pays, where a job has members, by the rule
// that share uses unless told otherwise.
func Shares(ctx context.Context, in *papers.Input, limit time.Duration, progress func(done, total int)) error {
	if len(quotes.Members(in.Plan.Job)) == 0 {
		return nil
	}
	res, err := share.Solve(ctx, in.How.Cheapest.Job, share.Options{Plan: in.Plan, Solve: optimise.Options{TimeLimit: limit}, Progress: progress})
	if err != nil {
		return fmt.Errorf("splitting the bill among the members: %w", err)
	}
	in.Split = res
	return nil
}

// waysOf are the ways that a sceptic would ask about: the plainer ones, and the
// cheapest without one of the plan's suppliers, which is the next best where no new
// supplier joins. Where a plainer way was taken, they are the cheapest, with what it
// asks more of those who carry it out, and the other plainer ways.
func waysOf(ctx context.Context, chosen *risk.Tidied, opt optimise.Options) ([]papers.Way, error) {
	plan, least := chosen.Plan, chosen.Cheapest.Plan
	plainer, err := optimise.Alternatives(ctx, least.Job, opt)
	if err != nil {
		return nil, err
	}
	var out []papers.Way
	if chosen.Way != "" {
		first := papers.WayOf("the cheapest of all", least)
		first.Pains = risk.PainsOf(least).Against(risk.PainsOf(plan))
		out = append(out, first)
	}
	for _, p := range plainer {
		if p.Name != chosen.Way {
			out = append(out, papers.WayOf(p.Name, p.Plan))
		}
	}
	if chosen.Way != "" {
		return out, nil
	}
	next, err := nextBest(ctx, plan, opt)
	if err != nil {
		return nil, err
	}
	return append(out, next), nil
}

// wayOf is the cheapest purchase for a job as a way, without its budget: ways are
// there to be compared. Where time was up before there was any, that is the answer.
func wayOf(ctx context.Context, words string, job *quotes.Job, opt optimise.Options) (papers.Way, error) {
	free := *job
	free.Settings.Budget = nil
	plan, err := optimise.Solve(ctx, &free, opt)
	switch {
	case errors.Is(err, optimise.ErrNoPurchase):
		return papers.Way{Name: words}, nil
	case err != nil:
		return papers.Way{}, err
	}
	return papers.WayOf(words, plan), nil
}

// nextBest is the cheapest way that leaves out one of the plan's suppliers.
func nextBest(ctx context.Context, plan *optimise.Plan, opt optimise.Options) (papers.Way, error) {
	var best papers.Way
	var tried []string
	proven := true
	for _, l := range plan.Bill.Lines {
		s := l.Quote.Supplier
		if slices.Contains(tried, s) {
			continue
		}
		tried = append(tried, s)
		w, err := wayOf(ctx, "the next best, without "+s, optimise.Restrict(plan.Job, func(q *quotes.Quote) bool { return q.Supplier != s }), opt)
		if err != nil {
			return papers.Way{}, err
		}
		proven = proven && w.Proven
		if best.Name == "" || w.Total != nil && (best.Total == nil || w.Total.Cmp(*best.Total) < 0) {
			best = w
		}
	}
	best.Proven = proven // it is the cheapest of them only if none can be cheaper
	return best, nil
}

// chartsOf is bags against bulk over the volume, for each medium sold both ways.
func chartsOf(job *quotes.Job, plan *optimise.Plan, st papers.Style) ([]papers.Chart, error) {
	both := byvolume.SoldBothWays(job, plan.Fit)
	if len(both) == 0 {
		return []papers.Chart{{Sentence: "No medium that some bed takes is sold both in bags and in bulk, so there is no chart of bags against bulk."}}, nil
	}
	site := ""
	if sites := quotes.Sites(job); len(sites) > 0 {
		site = sites[0]
	}
	var list []papers.Chart
	for _, b := range both {
		v, err := byvolume.OfMedium(job, b, site, 3*job.Demand())
		var notBrought *byvolume.NotBroughtError
		if errors.As(err, &notBrought) {
			list = append(list, papers.Chart{Sentence: fmt.Sprintf("There is no chart of bags of %s against its bulk: of one of them %v.", b.Medium.Name, err)})
			continue
		}
		if err != nil {
			return nil, err
		}
		out, err := drawn(chart.Volume(job, v, st.Units))
		if err != nil {
			return nil, fmt.Errorf("drawing bags against bulk: %w", err)
		}
		out.Sentence = chart.Sentence(v, st.Units)
		list = append(list, out)
	}
	return list, nil
}

// surenessOf sets cost against sureness within a limit for all of it. The job is the one
// that was read, the plan the one that was chosen for it, and the report how sure it is.
func surenessOf(ctx context.Context, plan *optimise.Plan, job *quotes.Job, report *risk.Report, limit time.Duration) (*papers.Sureness, error) {
	curve, err := risk.NewCurve(ctx, job, plan, report, optimise.Options{TimeLimit: limit})
	if err != nil {
		return nil, fmt.Errorf("setting cost against sureness: %w", err)
	}
	out := &papers.Sureness{Curve: curve}
	if len(curve.Points) > 0 {
		if out.Chart, err = drawn(chart.OfCurve(job.Settings.Currency, curve)); err != nil {
			return nil, fmt.Errorf("drawing cost against sureness: %w", err)
		}
	}
	return out, nil
}

// drawn is a panel in both forms of a paper.
func drawn(p chart.Panel) (papers.Chart, error) {
	var out papers.Chart
	for _, form := range []struct {
		name string
		to   *[]byte
	}{{"svg", &out.SVG}, {"png", &out.PNG}} {
		var b bytes.Buffer
		if err := chart.Write(&b, form.name, []chart.Panel{p}); err != nil {
			return papers.Chart{}, err
		}
		*form.to = b.Bytes()
	}
	return out, nil
}
