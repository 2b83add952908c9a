package risk

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Reached is the cheapest purchase found that is as sure as was asked for.
type Reached struct {
	// Job is the job with what each quote is counted on for: Plan is its cheapest
	// plan, and break-evens and shares of it are those of the surer purchase.
	Job  *quotes.Job
	Plan *optimise.Plan
	Sure float64
	// Met is false where nothing on offer is as sure; Plan is then the surest found,
	// or the plan without reserve that is not there.
	Met bool
	// Cut is true where the time limit ended the search for reserves: something
	// cheaper, or surer, may be there.
	Cut bool
	// Least is what no purchase that is as sure can cost less than.
	Least units.Money
}

// Above is by how much the cost may be above the least.
func (r *Reached) Above() units.Money {
	if r.Plan.Bill == nil {
		return units.Money{}
	}
	d := r.Plan.Bill.Total.Sub(r.Least)
	if d.Sign() < 0 {
		return units.Money{}
	}
	return d
}

// Tries of one search for the reserve: each halves what is not known of it.
const halvings = 7

// Reach finds the cheapest purchase that fills every bed with at least the chance
// target, 0 to 1. A reserve is held back of every quote, so that less than it
// usually places is counted on: what one draw in so many of it stays below, the same
// share for all. The share is searched, and the cheapest purchase found that is sure
// enough is taken. Nothing is proven but that no purchase that reaches the target can
// be cheaper than the plan without reserve; see Above.
//
// Reserves by what each quote adds to the luck of the whole (the quantile of a sum of
// independent parts, taken as normal, moves with s[q] litres of standard deviation σ[q]
// by μ[q] − z·σ[q]²·s[q]/√(Σ σ²s²)) took as long again: of 100 random jobs asked for
// 90 % they found a cheaper purchase in 2, the same share for all in 26.
//
// A time limit is for all of it.
func Reach(ctx context.Context, job *quotes.Job, target float64, opt optimise.Options) (*Reached, error) {
	return reach(ctx, job, target, opt, func(*Assessor) {})
}

// reach is [Reach] with an assessor that is told what it cannot know.
func reach(ctx context.Context, job *quotes.Job, target float64, opt optimise.Options, tell func(*Assessor)) (*Reached, error) {
	begun := time.Now()
	plan, err := optimise.Solve(ctx, job, opt)
	if err != nil {
		return nil, err
	}
	r := &Reached{Job: job, Plan: plan}
	if plan.Bill == nil {
		return r, nil
	}
	r.Least = plan.LowerBound()
	a, err := NewAssessor(job)
	if err != nil {
		return nil, err
	}
	defer a.Close()
	tell(a)
	if r.Sure, err = a.Sure(ctx, plan.Purchase); err != nil {
		return nil, err
	}
	if r.Met = r.Sure >= target; r.Met {
		return r, nil
	}
	s := &reserve{ctx: ctx, a: a, job: job, target: target, opt: opt, best: r}
	if limit := cmp.Or(opt.TimeLimit, job.Settings.TimeLimit); limit > 0 {
		s.until = begun.Add(limit)
	}
	if err := s.search(); err != nil {
		return nil, err
	}
	return r, nil
}

// errTimeUp ends the search for reserves; what was found until then stands.
var errTimeUp = errors.New("the time for finding a surer purchase is up")

// RuleSure is the rule that stands in the way where nothing on offer is as sure as
// the job asks.
const RuleSure = "sure"

// Plan finds the cheapest plan for a job, as sure as its settings ask for. Every
// answer about a job begins with it, so that all are about the same purchase.
func Plan(ctx context.Context, job *quotes.Job, opt optimise.Options) (*Reached, error) {
	target := job.Settings.Sure
	if target <= 0 {
		plan, err := optimise.Solve(ctx, job, opt)
		if err != nil {
			return nil, err
		}
		r := &Reached{Job: job, Plan: plan}
		if plan.Bill != nil {
			r.Least = plan.LowerBound()
		}
		return r, nil
	}
	begun := time.Now()
	r, err := Reach(ctx, job, target, opt)
	if err != nil {
		return nil, err
	}
	var free *Reached
	if job.Settings.Budget != nil && !r.Met && !r.Cut && (r.Plan.Bill != nil || len(r.Plan.Why) == 1 && r.Plan.Why[0].Rule == optimise.RuleBudget) {
		if free, err = withoutBudget(ctx, job, target, opt, begun); err != nil {
			return nil, err
		}
	}
	conclude(r, free, job, target)
	return r, nil
}

// withoutBudget is [Reach] for a job whose budget may be what keeps it from being as sure as asked, in what is left of the time; nil
// where none is left, or where nothing is as sure whatever it costs.
func withoutBudget(ctx context.Context, job *quotes.Job, target float64, opt optimise.Options, begun time.Time) (*Reached, error) {
	if limit := cmp.Or(opt.TimeLimit, job.Settings.TimeLimit); limit > 0 {
		if opt.TimeLimit = limit - time.Since(begun); opt.TimeLimit <= 0 {
			return nil, nil
		}
	}
	j := *job
	j.Settings.Budget = nil
	r, err := Reach(ctx, &j, target, opt)
	if errors.Is(err, optimise.ErrNoPurchase) {
		return nil, nil
	}
	if err != nil || !r.Met {
		return nil, err
	}
	return r, nil
}

// AtOtherWeights is [optimise.AtOtherWeights] for a job whose quotes may be counted on for less than they usually place:
// where the job asks for a sureness, the other plan is found for it anew, as what makes one purchase surer than another
// hangs on what is in it.
func AtOtherWeights(ctx context.Context, job *quotes.Job, opt optimise.Options) (*optimise.Plan, error) {
	other := optimise.OtherWeights(job)
	if other == nil || job.Settings.Sure <= 0 {
		return optimise.AtOtherWeights(ctx, job, opt)
	}
	other.Settings.Budget = nil
	r, err := Plan(ctx, bare(other), opt)
	if errors.Is(err, optimise.ErrNoPurchase) {
		return &optimise.Plan{Job: other, Status: optimise.TimeLimit}, nil
	}
	if err != nil {
		return nil, err
	}
	return r.Plan, nil
}

// conclude says of a purchase that is not as sure as asked whether that is all there
// is, all that the budget pays for, or all that there was time for. free is one that is as sure, over the budget, or nil.
func conclude(r, free *Reached, job *quotes.Job, target float64) {
	none := func(o optimise.Obstacle) *optimise.Plan {
		return &optimise.Plan{Job: job, Fit: r.Plan.Fit, Status: optimise.Infeasible, Nodes: r.Plan.Nodes, Why: []optimise.Obstacle{o}}
	}
	switch {
	case r.Plan.Bill == nil && free == nil || r.Met:
	case r.Cut:
		plan := *r.Plan
		plan.Status = optimise.TimeLimit
		r.Plan = &plan
	case free != nil:
		say := func(m units.Money) string { return units.FormatMoney(m, job.Settings.Currency) }
		total, budget := free.Plan.Bill.Total, *job.Settings.Budget
		remedy := fmt.Sprintf("the budget is %s and the cheapest purchase found that is %.3g %% sure to fill every bed costs %s: raise the budget by %s",
			say(budget), 100*target, say(total), say(total.Sub(budget)))
		if r.Plan.Bill != nil {
			remedy += fmt.Sprintf(", or ask for less under sure, as the surest found within the budget fills every bed in %s of 100 cases", Cases(r.Sure))
		} else {
			remedy += fmt.Sprintf("; however sure, the cheapest costs at least %s", say(free.Least))
		}
		r.Plan = none(optimise.Obstacle{Rule: optimise.RuleBudget, Remedy: remedy})
	default:
		r.Plan = none(optimise.Obstacle{Rule: RuleSure, Remedy: fmt.Sprintf(
			"the surest purchase found fills every bed in %s of 100 cases and the job asks for %.3g: ask for less under sure, for more stock, or for packs whose volume is known better",
			Cases(r.Sure), 100*target)})
	}
}

// Document is the risk part of a plan for machines.
type Document struct {
	Sure          float64 `json:"sure"`
	StandardError float64 `json:"standard_error"`
	ShortP95      float64 `json:"short_litres_p95"`
	TopUpP95      string  `json:"top_up_p95"`
	ExpectedTopUp string  `json:"expected_top_up"`
	// Finished is false where in some draws nothing on offer finishes the beds: the
	// two sums above leave these out.
	Finished bool `json:"finished"`
}

// NewDocument sets out a report; nil for none.
func NewDocument(r *Report, digits int) *Document {
	if r == nil {
		return nil
	}
	return &Document{r.Sure, math.Round(r.StandardError*1e6) / 1e6, units.Tidy(float64(r.ShortP95)), r.TopUpP95.Text(digits), r.ExpectedTopUp.Text(digits), r.Finished}
}

// reserve is a search for what to count on.
type reserve struct {
	ctx    context.Context
	a      *Assessor
	job    *quotes.Job
	target float64
	opt    optimise.Options
	until  time.Time // zero for no limit
	best   *Reached
	order  map[string][]float64                 // draws of each quote, sorted
	each   func(p *optimise.Plan, sure float64) // told of every purchase found; may be nil
}

// search finds the share to hold back; Cut says whether the time was too short for it.
func (s *reserve) search() error {
	err := s.alike()
	if errors.Is(err, errTimeUp) {
		s.best.Cut = true
		return nil
	}
	return err
}

// try solves the job with each quote counted on for so much, and keeps the plan if
// it is the best yet: sure enough and cheapest, or else surest.
func (s *reserve) try(countOn func(q *quotes.Quote) float64) (sure bool, err error) {
	job := s.counted(countOn)
	opt := s.opt
	if !s.until.IsZero() {
		if opt.TimeLimit = time.Until(s.until); opt.TimeLimit <= 0 {
			return false, errTimeUp
		}
	}
	if s.best.Met && s.each == nil {
		// What costs as much as the best is of no interest, however sure: a larger reserve
		// never costs less, so a smaller one is tried next as if it were sure enough.
		opt.CutOff = s.best.Plan.Bill.Total.Float()
	}
	plan, err := optimise.Solve(s.ctx, job, opt)
	if errors.Is(err, optimise.ErrNoPurchase) && !s.until.IsZero() {
		return false, errTimeUp
	}
	if err != nil {
		return false, err
	}
	if plan.Bill == nil {
		return true, nil // more is asked for than there is, or it costs too much: a smaller reserve is tried
	}
	chance, err := s.a.Sure(s.ctx, plan.Purchase)
	if err != nil {
		return false, err
	}
	if s.each != nil {
		s.each(plan, chance)
	}
	b := s.best
	met := chance >= s.target
	if met && (!b.Met || plan.Bill.Total.Cmp(b.Plan.Bill.Total) < 0) || !met && !b.Met && chance > b.Sure {
		b.Job, b.Plan, b.Sure, b.Met = job, plan, chance, met
	}
	return met, nil
}

// counted is the job with each quote counted on for so much of what it usually places.
func (s *reserve) counted(countOn func(q *quotes.Quote) float64) *quotes.Job {
	job := *s.job
	job.Quotes = make([]*quotes.Quote, len(s.job.Quotes))
	for i, q := range s.job.Quotes {
		c := *q
		c.CountOn = min(1, max(1e-3, countOn(q)))
		job.Quotes[i] = &c
	}
	return &job
}

// above counts on what a share 1−p of the draws of each quote stays above.
func (s *reserve) above(p float64) func(q *quotes.Quote) float64 {
	return func(q *quotes.Quote) float64 { return s.sorted(q)[int(p*(Draws-1))] }
}

// sorted are the draws of a quote in order.
func (s *reserve) sorted(q *quotes.Quote) []float64 {
	if s.order == nil {
		s.order = map[string][]float64{}
	}
	f, ok := s.order[q.Name]
	if !ok {
		f = factors(q, "")
		slices.Sort(f)
		s.order[q.Name] = f
	}
	return f
}

// alike searches the one share of draws that each quote is counted on to stay
// above.
func (s *reserve) alike() error {
	at := func(p float64) (bool, error) { return s.try(s.above(p)) }
	high, low := 0.5, 0.5
	for p := 1 - s.target; ; p /= 4 {
		met, err := at(p)
		if err != nil {
			return err
		}
		low = p
		if met || p < 1e-4 {
			break
		}
		high = p
	}
	for range halvings {
		p := (low + high) / 2
		met, err := at(p)
		if err != nil {
			return err
		}
		if met {
			low = p
		} else {
			high = p
		}
	}
	return nil
}
