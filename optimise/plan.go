package optimise

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/propose"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/internal/ways"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Status says what a plan is. The zero Status is not success.
type Status string

// Cheaper is what no purchase is where a plan is proven, in words that hold in every currency.
const Cheaper = "cheaper by even the smallest coin"

// Statuses of a plan.
const (
	Optimal    Status = "optimal"    // nothing is cheaper by more than half a cent; see Cheaper
	TimeLimit  Status = "time_limit" // the best found before time was up
	Infeasible Status = "infeasible" // nothing fills the beds within the rules
)

// ErrNoPurchase is the error of Solve when its time was up before any purchase
// was found, so that not even an unproven answer can be given.
var ErrNoPurchase = errors.New("no purchase was found")

// Options steer a solve; the zero value works.
type Options struct {
	// Solver does the solving; nil means the built-in search over lp_solve. Rows of its
	// models may be lazy ones, so it has to heed [mip.Options.Lazy].
	Solver mip.Solver
	// TimeLimit stops the search; 0 means the job's own, or none.
	TimeLimit time.Duration
	// Progress is told of the search now and then; may be nil.
	Progress func(mip.Progress)
	// Plain solves the job row by row, without merging what is alike.
	Plain bool
	// CutOff is a total known to be reachable; plans at or above it are of no
	// interest, and Solve then answers with an Infeasible plan without reasons.
	// Zero means none.
	CutOff float64
	// From is the proof of a like job, at other prices, to begin with; nil for none.
	From *Proof
	// Keep asks for the proof of this one.
	Keep bool

	// mostColumns is how large a model may be that is only there to be compared; 0 for
	// any: to write down millions of columns takes longer than the answer is worth.
	mostColumns int
}

// solver is the one to be asked: the built-in search begins with a proof and tells of its
// own, where there are such.
func (o Options) solver(from *search.Proof, kept func(*search.Proof)) mip.Solver {
	if o.Solver != nil {
		return o.Solver
	}
	return search.Solver{From: from, Kept: kept}
}

// Plan is the answer to a job: what to buy, how it comes, where it goes.
type Plan struct {
	Job      *quotes.Job
	Fit      *suitability.Fit
	Status   Status
	Purchase bill.Purchase
	Bill     *bill.Bill // nil when infeasible
	Fills    []BedFill
	Tables   []TableLoad
	Leftover []Leftover
	// Bound is what no purchase can cost less than, before rounding.
	Bound float64
	// Why names what stands in the way of an infeasible job.
	Why []Obstacle
	// Nodes is the linear programs it took.
	Nodes int
	// Proof is that of the status, where [Options.Keep] asked for it and the search
	// kept one; nil else.
	Proof *Proof
}

// Solve finds the cheapest safe purchase for the job. Infeasible jobs and time
// limits are answers, not errors; an error means that something failed or that
// ctx was cancelled, and then nothing of the plan may be used.
func Solve(ctx context.Context, job *quotes.Job, opt Options) (*Plan, error) {
	fit := suitability.New(job)
	return solve(ctx, job, fit, opt)
}

func solve(ctx context.Context, job *quotes.Job, fit *suitability.Fit, opt Options) (*Plan, error) {
	begun := time.Now()
	in := model.NewInstance(job, fit, opt.Plain)
	if opt.mostColumns > 0 && in.Columns() > opt.mostColumns {
		return nil, fmt.Errorf("solving the buying model: %w: it would have %d columns, and at most %d are looked at here", ErrNoPurchase, in.Columns(), opt.mostColumns)
	}
	prog := model.Build(in, model.Options{Strong: !opt.Plain})
	limit := opt.TimeLimit
	if limit == 0 {
		limit = job.Settings.TimeLimit
	}
	hopeless := prog.Hopeless()
	model, mopt := prog.Model, mip.Options{}
	bound := math.Inf(-1) // known before the search
	if in.Mixing && !opt.Plain && !hopeless {
		rows, err := ways.New(ctx, prog)
		if err != nil {
			return nil, err
		}
		defer rows.Close()
		mixer := propose.NewMixer(ctx, prog)
		mopt = mip.Options{Propose: mixer.Propose, Lazy: rows.Broken, Tighten: true, Early: true}
		if opt.CutOff == 0 && opt.From == nil && !opt.Keep && propose.CanLookAhead(prog) {
			most := limit / 2
			if len(prog.Cols) > slowToPlace { // of so many layers a search comes to nothing in any time
				most = limit * 3 / 4
			}
			ahead, err := mixer.LookAhead(ctx, opt.solver(nil, nil), until(begun, most))
			if err != nil {
				return nil, fmt.Errorf("looking ahead: %w", err)
			}
			mopt.Start = ahead.X
			if !math.IsInf(ahead.Bound, 1) { // that nothing fills the beds is for the whole search to say
				bound = ahead.Bound
			}
		}
	} else if !opt.Plain && !hopeless {
		var pr *propose.Proposer
		var err error
		if pr, model, mopt, err = propose.Steer(ctx, prog, begun, limit); err != nil {
			return nil, err
		}
		defer pr.Close()
	}
	if mopt.TimeLimit = timeLeft(limit, begun); len(prog.Cols) > slowToPlace {
		mopt.TimeLimit -= mopt.TimeLimit / 3
		mopt.Early = true
	}
	mopt.Progress, mopt.CutOff = opt.Progress, opt.CutOff
	plan := &Plan{Job: job, Fit: fit}
	var kept func(*search.Proof)
	if opt.Keep {
		kept = func(p *search.Proof) { plan.Proof = newProof(job, p) }
	}
	ans := &mip.Answer{Status: mip.Infeasible}
	switch {
	case hopeless:
	case mopt.Start != nil && prog.Value(mopt.Start)-bound <= mip.DefaultGap:
		v := prog.Value(mopt.Start)
		ans = &mip.Answer{Status: mip.Optimal, X: mopt.Start, Objective: v, Bound: min(bound, v)}
	default:
		var err error
		ans, err = opt.solver(opt.From.to(job), kept).Solve(ctx, model, mopt)
		if err != nil {
			return nil, fmt.Errorf("solving the buying model: %w", err)
		}
		if ans.Status == mip.Feasible {
			// No price or fee is below 0, which is what is known where the first relaxation was cut short.
			ans.Bound = max(ans.Bound, min(max(bound, 0), ans.Objective))
			if ans.Objective-bound <= mip.DefaultGap {
				ans.Status = mip.Optimal
			}
		}
	}
	plan.Nodes = ans.Nodes
	switch ans.Status {
	case mip.Optimal:
		plan.Status = Optimal
	case mip.Feasible:
		plan.Status = TimeLimit
	case mip.NoAnswer:
		return nil, fmt.Errorf("solving the buying model: %w: none within %v; give it more time", ErrNoPurchase, limit)
	case mip.Infeasible:
		plan.Status = Infeasible
		if opt.CutOff == 0 {
			reasons, err := explain(ctx, job, fit, opt.solver(nil, nil), Options{TimeLimit: limit, Progress: why(opt.Progress), Plain: opt.Plain, mostColumns: opt.mostColumns})
			if err != nil {
				return nil, fmt.Errorf("finding what stands in the way: %w", err)
			}
			plan.Why = reasons
			if len(reasons) == 0 {
				return again(ctx, job, fit, opt)
			}
			if opt.mostColumns == 0 && !named(reasons) { // a way that is there to be compared is not mended
				words, err := mended(ctx, job, fit, reasons, Options{TimeLimit: limit, Plain: opt.Plain})
				if err != nil {
					return nil, fmt.Errorf("finding what would fill the beds: %w", err)
				}
				if words != "" {
					reasons[0].Remedy = words + ". Failing that, " + reasons[0].Remedy
				}
			}
		}
		return plan, nil
	default:
		return nil, fmt.Errorf("solving the buying model: solver stopped with status %q", ans.Status)
	}
	if err := plan.fill(ctx, prog, ans); err != nil {
		return nil, fmt.Errorf("checking the answer: %w", err)
	}
	if OverBudget(job, plan.Bill.Total) {
		if plan.Status != Optimal {
			return nil, fmt.Errorf("solving the buying model: %w within the budget: the best within %v costs %s; give it more time, or raise the budget of %s",
				ErrNoPurchase, limit, units.FormatMoney(plan.Bill.Total, job.Settings.Currency), units.FormatMoney(*job.Settings.Budget, job.Settings.Currency))
		}
		return &Plan{Job: job, Fit: fit, Status: Infeasible, Nodes: ans.Nodes, Why: []Obstacle{overBudget(job, plan.Bill.Total)}}, nil
	}
	return plan, nil
}

// why tells progress, once at the outset, that what goes on looks for what stands in the way.
func why(progress func(mip.Progress)) func(mip.Progress) {
	if progress == nil {
		return nil
	}
	tell := func(p mip.Progress) {
		p.Why = true
		progress(p)
	}
	tell(mip.Progress{Best: math.Inf(1), Bound: math.Inf(-1)})
	return tell
}

// until is the time at which what may take so long from begun on has to end; none where it is 0.
func until(begun time.Time, limit time.Duration) (t time.Time) {
	if limit > 0 {
		t = begun.Add(limit)
	}
	return t
}

// timeLeft is what of a limit is left to the search after what came before it, the
// model written down above all; 0 where there is no limit.
func timeLeft(limit time.Duration, begun time.Time) time.Duration {
	if limit <= 0 {
		return limit
	}
	return max(limit/leastOfLimit, limit-time.Since(begun))
}

// slowToPlace is the number of columns from which laying out what is bought takes
// seconds, in the search and once after it: the search asks for a purchase early, and
// a third of the limit is kept for the last time, which with thousands of limits takes
// as long as finding a first purchase.
const slowToPlace = 10_000

// leastOfLimit is the part of a limit that is left to a search whatever came before.
const leastOfLimit = 10

// again looks once more, row by row as the files have it, at a job that was called
// impossible though nothing could be named that stands in the way: numbers far apart
// can mislead a solver. What then still cannot be named is not settled, and no answer.
func again(ctx context.Context, job *quotes.Job, fit *suitability.Fit, opt Options) (*Plan, error) {
	if !opt.Plain {
		opt.Plain, opt.From, opt.Keep = true, nil, false
		return solve(ctx, job, fit, opt)
	}
	return nil, fmt.Errorf("solving the buying model: %w, and nothing could be named that stands in the way, so it is not settled: %s",
		ErrNoPurchase, "give it more time, or look for a bed, a pack or a limit that is thousands of times larger or smaller than the others")
}

// fill turns a solver's answer into the plan and checks it.
func (p *Plan) fill(ctx context.Context, prog *model.Program, ans *mip.Answer) error {
	var err error
	if p.Purchase, err = purchaseOf(prog, ans.X); err != nil {
		return err
	}
	if p.Bill, err = bill.Price(p.Job, p.Purchase); err != nil {
		return err
	}
	if p.Fills, err = fillsOf(prog, placed(ctx, prog, ans.X, p.Purchase), p.Purchase); err != nil {
		return err
	}
	p.Tables = tableLoads(p.Fills)
	p.Leftover = leftovers(p.Bill, p.Fills)
	p.Bound = ans.Bound
	allow := p.roundingAllowance() + 1e-7*math.Abs(ans.Objective)
	d := p.Bill.Total.Float() - ans.Objective
	// An answer cut short may pay for an order it does not use; the bill does not.
	if d > allow || d < -allow && ans.Status == mip.Optimal {
		return fmt.Errorf("the bill comes to %s and the model says %.4f: they should agree within %.4f", p.Bill.Total, ans.Objective, allow)
	}
	return Verify(p)
}

// placed is an answer with its stones laid in the tidiest way. Where layers are not
// filled freely, how they lie is part of the answer; so it is where beds of several
// sites are filled alike, as each site is laid by itself.
func placed(ctx context.Context, prog *model.Program, x []float64, buy bill.Purchase) []float64 {
	if prog.In.Mixing || prog.In.Same && len(prog.In.Sites) > 1 {
		return x
	}
	return propose.Settle(ctx, prog, prog.Full(x), buy)
}

// roundingAllowance is how far the bill may be from what a model says: the bill
// rounds each line, each drop, each supplier's tax and the rinsing by up to half
// a unit, and the solver may be off by the gap it may leave.
func (p *Plan) roundingAllowance() float64 {
	unit := math.Pow(10, -float64(p.Job.Settings.CurrencyDigits))
	parts := float64(len(p.Bill.Lines)+len(p.Bill.Drops)+len(p.Bill.TaxOf)) + 1
	return unit*parts/2 + 2*mip.DefaultGap
}

// LowerBound is the bound as money: the total itself when proven.
func (p *Plan) LowerBound() units.Money {
	if p.Status == Optimal {
		return p.Bill.Total
	}
	digits := p.Job.Settings.CurrencyDigits
	scale := math.Pow(10, float64(digits))
	return units.MoneyOf(units.DecimalOf(math.Floor(max(0, p.Bound)*scale) / scale)).Round(digits)
}

// Gap is the money by which a cheaper purchase might still exist: 0 when proven.
func (p *Plan) Gap() units.Money {
	gap := p.Bill.Total.Sub(p.LowerBound())
	if gap.Sign() < 0 {
		return units.Money{}
	}
	return gap
}
