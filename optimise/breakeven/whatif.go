package breakeven

import (
	"context"
	"fmt"
	"slices"
	"time"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Other is the cheapest buy of the job with one thing changed.
type Other struct {
	Name string // what was changed, in words
	// Infeasible says that nothing fills the beds then.
	Infeasible bool
	// Unproven says that a time limit came before the proof; NoAnswer that it came
	// before any buy was found.
	Unproven, NoAnswer bool
	Total              units.Money
	// Difference is how much more it costs than today's plan; below 0 it saves.
	Difference units.Money
	Buy        []Bought
	Suppliers  []string // sorted
}

// WhatIf is what would change the answer of a plan.
type WhatIf struct {
	Total units.Money
	// NextBest is the cheapest buy known whose suppliers are not those of the
	// plan, nil if none is. Exact says that it is the cheapest there is: it is not
	// proven where a supplier that sells nothing today might be added.
	NextBest *Other
	Exact    bool
	// LeaveOut has each supplier of the plan left out, by name.
	LeaveOut []Other
	// Rules has each rule that the beds use taken off all of them.
	Rules []Other
	// Limits has each weight limit raised by [MoreLimit], by table or bed. Where
	// raising all of them saves nothing there is just that row.
	Limits []Other
}

// MoreLimit is the weight added to a limit to see what it is worth.
const MoreLimit units.Kilograms = 10

// change is one changed job.
type change struct {
	name string
	job  *quotes.Job
}

// LookElsewhere solves the job again without each supplier of the plan, without
// each rule, and with more weight allowed. added are the series of suppliers that
// are not in the plan, if they were worked out: the buy just below the price at
// which one enters is an upper bound for a plan with it.
func LookElsewhere(ctx context.Context, job *quotes.Job, plan *optimise.Plan, added []Series, opt Options) (*WhatIf, error) {
	if err := usable(plan); err != nil {
		return nil, err
	}
	j := *job
	j.Settings.Budget, j.Settings.TimeLimit = nil, 0
	out := &WhatIf{Total: plan.Bill.Total}
	used := suppliersOf(plan)
	var changes []change
	for _, s := range used {
		changes = append(changes, change{"without " + s, optimise.Restrict(&j, func(q *quotes.Quote) bool { return q.Supplier != s })})
	}
	rules := rulesOff(&j)
	changes = append(changes, rules...)
	limits := moreLimits(&j)
	if len(limits) > 0 {
		changes = append(changes, limits[0])
	}
	solved, err := solveAll(ctx, changes, plan, opt, job)
	if err != nil {
		return nil, err
	}
	out.LeaveOut = solved[:len(used)]
	out.Rules = solved[len(used) : len(used)+len(rules)]
	out.Limits = solved[len(used)+len(rules):]
	if len(limits) > 1 && out.Limits[0].Difference.Sign() < 0 {
		one, err := solveAll(ctx, limits[1:], plan, opt, job)
		if err != nil {
			return nil, err
		}
		out.Limits = append(out.Limits, one...)
	}

	out.Exact = len(quotes.Suppliers(&j)) == len(used)
	for i, o := range out.LeaveOut {
		if o.Unproven {
			out.Exact = false
		}
		if !o.Infeasible && !o.NoAnswer && (out.NextBest == nil || o.Total.Cmp(out.NextBest.Total) < 0) {
			out.NextBest = &out.LeaveOut[i]
		}
	}
	for _, s := range added {
		o, err := withAdded(&j, s, plan)
		if err != nil {
			return nil, err
		}
		if o != nil && (out.NextBest == nil || o.Total.Cmp(out.NextBest.Total) < 0) {
			out.NextBest = o
		}
	}
	return out, nil
}

// withAdded prices, at today's prices, the buy just below where a supplier enters.
func withAdded(job *quotes.Job, s Series, plan *optimise.Plan) (*Other, error) {
	if s.InPlan || s.Enters == nil || s.Target.Kind != SupplierPrices {
		return nil, nil
	}
	for _, p := range s.Pieces {
		if !p.holds || !p.To.Equal(*s.Enters) {
			continue
		}
		if _, ok := p.cand.active(s.Target.Now.Float()); !ok {
			return nil, nil // its order is too small at today's prices
		}
		bill, err := bill.Price(job, p.cand.buy)
		if err != nil {
			return nil, fmt.Errorf("pricing a buy with %s: %w", s.Target.Name, err)
		}
		return &Other{
			Name: "with " + s.Target.Name, Total: bill.Total, Difference: bill.Total.Sub(plan.Bill.Total),
			Buy: p.Buy, Suppliers: suppliersIn(p.Buy), Unproven: true,
		}, nil
	}
	return nil, nil
}

// OtherSuppliers are the targets of the suppliers that a plan buys nothing from, for
// [LookElsewhere].
func OtherSuppliers(job *quotes.Job, plan *optimise.Plan) []Target {
	var out []Target
	for _, s := range quotes.Suppliers(job) {
		if !slices.Contains(suppliersOf(plan), s) {
			out = append(out, OfSupplier(s))
		}
	}
	return out
}

func suppliersIn(buy []Bought) []string {
	var out []string
	for _, b := range buy {
		out = append(out, b.Quote.Supplier)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func suppliersOf(plan *optimise.Plan) []string { return suppliersIn(BoughtOf(plan.Purchase)) }

// withBeds is the job with every bed changed.
func withBeds(job *quotes.Job, edit func(*quotes.Bed)) *quotes.Job {
	out := *job
	out.Beds = nil
	for _, b := range job.Beds {
		c := *b
		edit(&c)
		out.Beds = append(out.Beds, &c)
	}
	return &out
}

// rulesOff lists the job without each rule that some bed uses.
func rulesOff(job *quotes.Job) []change {
	uses := func(f func(*quotes.Bed) bool) bool { return slices.ContainsFunc(job.Beds, f) }
	var out []change
	if uses(func(b *quotes.Bed) bool { return b.LayerLitres(quotes.Top) > 0 }) {
		var media []*quotes.Medium
		for _, q := range job.Quotes {
			if !slices.Contains(media, q.Medium) {
				media = append(media, q.Medium)
			}
		}
		out = append(out, change{"any medium in the top layer", withBeds(job, func(b *quotes.Bed) { b.TopMedia = media })})
	}
	if uses(func(b *quotes.Bed) bool { return b.Limit != nil }) {
		out = append(out, change{"no weight limit", withBeds(job, func(b *quotes.Bed) { b.Limit = nil })})
	}
	if uses(func(b *quotes.Bed) bool { return b.MinSize != nil }) {
		out = append(out, change{"no smallest grain", withBeds(job, func(b *quotes.Bed) { b.MinSize = nil })})
	}
	if uses(func(b *quotes.Bed) bool { return len(b.MaxShare) > 0 }) {
		out = append(out, change{"no most share of a medium", withBeds(job, func(b *quotes.Bed) { b.MaxShare = nil })})
	}
	return out
}

// moreLimits lists the job with every weight limit raised, then with each.
func moreLimits(job *quotes.Job) []change {
	raise := func(frame string) *quotes.Job {
		return withBeds(job, func(b *quotes.Bed) {
			if b.Limit != nil && (frame == "" || frameOf(b) == frame) {
				v := *b.Limit + MoreLimit
				b.Limit = &v
			}
		})
	}
	var frames []string
	for _, b := range job.Beds {
		if f := frameOf(b); b.Limit != nil && !slices.Contains(frames, f) {
			frames = append(frames, f)
		}
	}
	if len(frames) == 0 {
		return nil
	}
	slices.Sort(frames)
	out := []change{{fmt.Sprintf("%g kg more on every limit", float64(MoreLimit)), raise("")}}
	for _, f := range frames {
		out = append(out, change{fmt.Sprintf("%g kg more on %s", float64(MoreLimit), f), raise(f)})
	}
	return out
}

// frameOf names what carries a bed, in words.
func frameOf(b *quotes.Bed) string {
	if b.Table != "" {
		return "table " + b.Table
	}
	return quotes.BedNamed(b.Name)
}

// solveAll solves changed jobs side by side, in order.
func solveAll(ctx context.Context, list []change, plan *optimise.Plan, opt Options, job *quotes.Job) ([]Other, error) {
	out := make([]Other, len(list))
	err := sideBySide(ctx, len(list), opt, func(ctx context.Context, i int, until time.Time) error {
		o := Other{Name: list[i].name}
		sopt := optimise.Options{}
		if !until.IsZero() {
			sopt.TimeLimit = max(time.Until(until), time.Millisecond)
		}
		p, err := optimise.Solve(ctx, list[i].job, sopt)
		if err != nil && late(ctx, until) {
			o.Unproven, o.NoAnswer = true, true
			out[i] = o
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", list[i].name, err)
		}
		o.Infeasible = p.Status == optimise.Infeasible
		o.Unproven = p.Status == optimise.TimeLimit
		if !o.Infeasible {
			o.Total = p.Bill.Total
			o.Buy = BoughtOf(p.Purchase)
			o.Suppliers = suppliersIn(o.Buy)
			o.Difference = o.Total.Sub(plan.Bill.Total)
		}
		out[i] = o
		return nil
	}, job)
	return out, err
}

// late reports whether a failed solve is put down to the time limit: a solve that
// has found nothing when its time is up has no answer to give and fails.
func late(ctx context.Context, until time.Time) bool {
	return !until.IsZero() && ctx.Err() == nil && !time.Now().Before(until)
}

// Proven reports whether all of it is.
func (w *WhatIf) Proven() bool {
	return !slices.ContainsFunc(slices.Concat(w.LeaveOut, w.Rules, w.Limits), func(o Other) bool { return o.Unproven })
}
