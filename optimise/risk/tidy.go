package risk

import (
	"context"
	"errors"
	"time"

	"mediabuy/optimise"
	"mediabuy/quotes"
)

// Tidied is a plainer way to buy where one costs little more than the cheapest.
type Tidied struct {
	*Reached
	// Way is what is plainer about it; "" where no plainer way is within the share,
	// and what was reached is then the cheapest.
	Way      string
	Cheapest *Reached
	// Within is the share above the cheapest that was looked in; 0 where no plainer way was asked for.
	Within float64
	// Beyond is the cheapest plainer purchase where it costs more than that, and what is plainer about it; nil where there
	// is none or it is not known.
	Beyond    *Reached
	BeyondWay string
}

// OpenJob is the job of the plan without what makes it plainer: what a plainer purchase
// lacks in the end is finished with whatever is on offer, and what is surer than it is
// looked for among all purchases.
func (t *Tidied) OpenJob() *quotes.Job {
	if t.Way == "" {
		return t.Job
	}
	open, set := *t.Job, t.Cheapest.Job.Settings
	open.Settings.MaxSuppliers, open.Settings.MaxQuotes = set.MaxSuppliers, set.MaxQuotes
	open.Settings.LayerMix, open.Settings.SameMix = set.LayerMix, set.SameMix
	return &open
}

// TidyWithin is the share above the cheapest that a plainer purchase may cost where nobody says another.
const TidyWithin = 0.02

// Tidiest is what [Tidy] takes, out of ways that are worked out already (see [optimise.Alternatives]); the cheapest
// where none is within the share, and where the job asks for a sureness, to which those ways were not held.
func Tidiest(cheapest *Reached, ways []optimise.Alternative, within float64) *Tidied {
	t := &Tidied{Reached: cheapest, Cheapest: cheapest}
	if cheapest.Plan.Bill == nil || cheapest.Job.Settings.Sure > 0 {
		return t
	}
	most := cheapest.Plan.Bill.Total.Float() * (1 + within)
	for _, w := range ways {
		if !w.Plain || w.Plan.Bill == nil || w.Plan.Bill.Total.Float() > most {
			continue
		}
		if optimise.OverBudget(cheapest.Job, w.Plan.Bill.Total) {
			continue
		}
		if t.prefers(w.Plan) {
			t.Way, t.Reached = w.Name, &Reached{Job: w.Plan.Job, Plan: w.Plan, Least: cheapest.Least}
		}
	}
	return t
}

// prefers reports whether a plainer plan within the share is to be taken in place of what
// is: one that spares pains and adds none first, then one that adds some for those that it
// spares, last what is no plainer than the cheapest; the cheapest of a kind.
func (t *Tidied) prefers(p *optimise.Plan) bool {
	if t.Way == "" {
		return true
	}
	cheapest := PainsOf(t.Cheapest.Plan)
	here, there := PainsOf(p).plainness(cheapest), PainsOf(t.Plan).plainness(cheapest)
	return here < there || here == there && p.Bill.Total.Cmp(t.Plan.Bill.Total) < 0
}

// Tidy takes the cheapest of the plainer ways to buy (see [optimise.Ways]) that costs
// no more than the share within above the cheapest plan, of those first that are less plain
// in nothing. Each way is searched for at
// most for each; 0 leaves it to opt. Ways are held to the job's budget and to the
// sureness it asks for.
func Tidy(ctx context.Context, job *quotes.Job, within float64, each time.Duration, opt optimise.Options) (*Tidied, error) {
	cheapest, err := Plan(ctx, job, opt)
	if err != nil {
		return nil, err
	}
	t := &Tidied{Reached: cheapest, Cheapest: cheapest, Within: within}
	if cheapest.Plan.Bill == nil {
		return t, nil
	}
	if each > 0 {
		opt.TimeLimit = each
	}
	most := cheapest.Plan.Bill.Total.Float() * (1 + within)
	for _, w := range optimise.Ways(job) {
		if !w.Plain {
			continue
		}
		w.Job.Settings.Budget = job.Settings.Budget
		r, err := Plan(ctx, w.Job, opt)
		if errors.Is(err, optimise.ErrNoPurchase) {
			continue
		}
		if err != nil {
			return nil, err
		}
		if r.Plan.Bill == nil || job.Settings.Sure > 0 && !r.Met {
			continue
		}
		if r.Plan.Bill.Total.Float() > most {
			if t.Beyond == nil || r.Plan.Bill.Total.Cmp(t.Beyond.Plan.Bill.Total) < 0 {
				t.Beyond, t.BeyondWay = r, w.Name
			}
			continue
		}
		if t.prefers(r.Plan) {
			// What may be saved is counted against everything on offer, not against this
			// way alone.
			r.Least = cheapest.Least
			t.Reached, t.Way = r, w.Name
		}
	}
	return t, nil
}
