package talk

import (
	"context"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Talk is what may be told to one supplier.
type Talk struct {
	Supplier string
	Job      *quotes.Job
	Lines    []Line          // what some bed takes, in file order
	Refused  []*quotes.Quote // what no bed takes, in file order
	All      []Off           // all prices lower together; none where only one thing is taken
	Extras   []Extra
	// Open names what was not settled in time, in words.
	Open []string
}

// Line is one quote: what is bought of it today, and at lower prices.
type Line struct {
	Quote *quotes.Quote
	Now   units.Decimal // packs bought at today's price
	Steps []Step        // prices falling, packs rising
}

// Step is a price to tell and what is bought at it.
type Step struct {
	Price  units.Money    // of one pack, before breaks
	Breaks []quotes.Break // the lower prices, each in the same proportion, rounded down
	Taken
}

// Taken is what one plan buys of the supplier.
type Taken struct {
	Buy []breakeven.Bought // quotes of the job at hand, by file order
	All bool               // nothing is bought of anyone else
}

// Off is a share off every price, and what is bought then.
type Off struct {
	Share units.Decimal // 0.05 is 5 % off
	Taken
}

// Kind is what an [Extra] changes.
type Kind int

// Kinds of extra. The zero Kind is invalid.
const (
	FreeDelivery Kind = iota + 1
	HalfStep
)

// Extra is what another term would bring, at today's prices.
type Extra struct {
	Kind  Kind
	Quote *quotes.Quote // whose step is halved, else nil
	Step  units.Decimal // the step then, in packs
	// Worth is how much less everything then costs the buyer.
	Worth units.Money
	Taken
	// More says that more is bought than without it.
	More bool
	// At are, for what is bought neither today nor then, the prices at which it would
	// be with the term. Each is one step.
	At []Line
}

// Options steer the search; the zero value works.
type Options struct {
	Solve     optimise.Options
	Breakeven breakeven.Options
}

// mostSteps is how many prices of one quote are told: the first, the lowest and the
// one between that brings most.
const mostSteps = 3

// manyQuotes is from how many quotes on only the first price is looked for at which
// one is taken at all: every change of so many would take long.
const manyQuotes = 40

// tries is how many prices, each a cent lower, are planned before one is given up.
const tries = 4

type talker struct {
	ctx  context.Context
	job  *quotes.Job
	plan *optimise.Plan
	fit  *suitability.Fit
	opt  Options
}

// Of works out what may be told to each supplier named. plan is today's, with its
// proof; see [breakeven.Today].
func Of(ctx context.Context, job *quotes.Job, plan *optimise.Plan, suppliers []string, opt Options) ([]*Talk, error) {
	j := *job
	j.Settings.Budget = nil
	t := &talker{ctx, &j, plan, suitability.New(&j), opt}
	asked := 0
	for i, q := range j.Quotes {
		if slices.Contains(suppliers, q.Supplier) && t.fit.Usable(i) {
			asked++
		}
	}
	if opt.Breakeven.Depth == breakeven.Auto && asked > manyQuotes {
		t.opt.Breakeven.Depth = breakeven.Nearest
	}
	var out []*Talk
	for _, s := range suppliers {
		one, err := t.with(s)
		if err != nil {
			return nil, fmt.Errorf("what to tell %s: %w", s, err)
		}
		out = append(out, one)
	}
	return out, nil
}

func (t *talker) with(supplier string) (*Talk, error) {
	out := &Talk{Supplier: supplier, Job: t.job}
	// Of what is bought today the nearest change is where it would no longer be, and that
	// is never told.
	first := t.opt.Breakeven.Depth == breakeven.Nearest
	var targets []breakeven.Target
	var of []int // places in out.Lines
	for i, q := range t.job.Quotes {
		switch {
		case q.Supplier != supplier:
		case !t.fit.Usable(i):
			out.Refused = append(out.Refused, q)
		default:
			out.Lines = append(out.Lines, Line{Quote: q, Now: packsOf(t.plan, q.Name)})
			if now := out.Lines[len(out.Lines)-1].Now; !first || now.IsZero() {
				targets, of = append(targets, breakeven.OfQuote(t.job, q)), append(of, len(out.Lines)-1)
			}
		}
	}
	if len(out.Lines) > 1 && (!first || len(taken(t.plan, supplier).Buy) == 0) {
		targets = append(targets, breakeven.OfSupplier(supplier))
	}
	series, err := breakeven.ByPrice(t.ctx, t.job, t.plan, targets, t.opt.Breakeven)
	if err != nil {
		return nil, err
	}
	today := taken(t.plan, supplier)
	for i, s := range series {
		if s.Unproven != "" {
			out.Open = append(out.Open, s.Target.Name)
		}
		switch {
		case s.Target.Factor():
			if !today.All {
				out.All, err = t.offs(s, supplier)
			}
		case !today.All || len(today.Buy) > 1 || today.Buy[0].Quote != s.Target.Quote:
			out.Lines[of[i]].Steps, err = t.steps(t.job, s)
		}
		if err != nil {
			return nil, err
		}
	}
	return out, t.extras(out)
}

// cent is the smallest step of a price.
func (t *talker) cent() units.Decimal {
	return units.DecimalOf(math.Pow(10, -float64(t.job.Settings.CurrencyDigits)))
}

// places are the prices below today's at which more is bought of what measure
// measures, falling; those below half of today's are no talk, but for the first of what
// is not bought at all.
func places(s breakeven.Series, measure func([]breakeven.Bought) units.Decimal) []units.Decimal {
	type place struct{ at, more units.Decimal }
	var all []place
	half := s.Target.Now.Quo(units.DecimalFromInt(2))
	for i := len(s.Changes) - 1; i >= 0; i-- {
		c := s.Changes[i]
		more := measure(c.Below).Sub(measure(c.Above))
		if c.At.Cmp(s.Target.Now) > 0 || more.Sign() <= 0 || (s.InPlan || len(all) > 0) && c.At.Cmp(half) < 0 {
			continue
		}
		all = append(all, place{c.At, more})
	}
	if n := len(all); n > mostSteps {
		most := 1
		for i := 2; i < n-1; i++ {
			if all[i].more.Cmp(all[most].more) > 0 {
				most = i
			}
		}
		all = []place{all[0], all[most], all[n-1]}
	}
	var out []units.Decimal
	for _, p := range all {
		out = append(out, p.at)
	}
	return out
}

// steps are the prices of one quote to tell: each rounded down, planned again, and
// told with what that plan buys.
func (t *talker) steps(job *quotes.Job, s breakeven.Series) ([]Step, error) {
	q := s.Target.Quote
	if s.Target.Now.Sign() <= 0 {
		return nil, nil // nothing is lower than nothing
	}
	last := packsOf(t.plan, q.Name)
	digits := job.Settings.CurrencyDigits
	var out []Step
	for _, at := range places(s, func(b []breakeven.Bought) units.Decimal { return bought(b, q.Name) }) {
		price := below(at, t.cent())
		for range tries {
			for price.Sign() > 0 && (t.asked(price, q.Supplier) || price.Cmp(s.Target.Now) >= 0) {
				price = price.Sub(t.cent())
			}
			if price.Sign() <= 0 {
				break
			}
			step := Step{Price: units.MoneyOf(price)}
			low := step.Price
			for _, b := range q.Breaks {
				p := units.MoneyOf(down(b.Price.Decimal().Mul(price).Quo(s.Target.Now).Round(digits+6), t.cent()))
				if p.Cmp(low) < 0 {
					step.Breaks, low = append(step.Breaks, quotes.Break{From: b.From, Price: p}), p
				}
			}
			plan, err := t.solve(Lowered(job, q, step))
			if err != nil {
				return nil, err
			}
			if plan != nil && packsOf(plan, q.Name).Cmp(last) > 0 {
				step.Taken = taken(plan, q.Supplier)
				out, last = append(out, step), packsOf(plan, q.Name)
				break
			}
			price = price.Sub(t.cent())
		}
		if n := len(out); n > 0 && out[n-1].All {
			break
		}
	}
	return out, nil
}

// offs are the shares off all prices of a supplier to tell: the first that brings
// more and the one that brings most.
func (t *talker) offs(s breakeven.Series, supplier string) ([]Off, error) {
	thousandth := units.DecimalOf(0.001)
	litres := func(list []breakeven.Bought) units.Decimal { return placed(list, supplier) }
	last := litres(taken(t.plan, supplier).Buy)
	var out []Off
	for _, at := range places(s, litres) {
		f := below(at, thousandth)
		for range tries {
			if f.Cmp(units.DecimalFromInt(1)) >= 0 {
				f = f.Sub(thousandth)
			}
			plan, err := t.solve(Cheaper(t.job, supplier, f))
			if err != nil {
				return nil, err
			}
			if plan != nil && litres(taken(plan, supplier).Buy).Cmp(last) > 0 {
				off := Off{units.DecimalFromInt(1).Sub(f), taken(plan, supplier)}
				out, last = append(out, off), litres(off.Buy)
				break
			}
			f = f.Sub(thousandth)
		}
		if n := len(out); n > 0 && out[n-1].All {
			break
		}
	}
	return out, nil
}

// solve is the cheapest purchase of a job of the same quotes, or nil where time was up.
func (t *talker) solve(job *quotes.Job) (*optimise.Plan, error) {
	plan, err := breakeven.Today(t.ctx, job, t.opt.Solve)
	if err != nil {
		return nil, err
	}
	if plan.Status != optimise.Optimal {
		return nil, nil
	}
	return plan, nil
}

// asked reports whether another supplier asks just this price for anything.
func (t *talker) asked(price units.Decimal, supplier string) bool {
	return slices.ContainsFunc(t.job.Quotes, func(q *quotes.Quote) bool {
		return q.Supplier != supplier && slices.ContainsFunc(q.Levels(), func(b quotes.Break) bool { return b.Price.Decimal().Equal(price) })
	})
}

func down(x, unit units.Decimal) units.Decimal {
	n, err := x.Quo(unit).Round(9).Floor()
	if err != nil {
		return units.Decimal{} // past any sensible price, and so not told
	}
	return unit.Mul(units.DecimalFromInt(n))
}

// below is the highest multiple of unit below x: at x itself nothing is gained.
func below(x, unit units.Decimal) units.Decimal {
	d := down(x, unit)
	if d.Equal(x) {
		d = d.Sub(unit)
	}
	return d
}

func bought(list []breakeven.Bought, name string) units.Decimal {
	for _, b := range list {
		if b.Quote.Name == name {
			return b.Packs
		}
	}
	return units.Decimal{}
}

// placed is how many litres what is bought of a supplier places.
func placed(list []breakeven.Bought, supplier string) units.Decimal {
	var v float64
	for _, b := range list {
		if b.Quote.Supplier == supplier {
			v += b.Packs.Float() * float64(b.Quote.Placed())
		}
	}
	return units.DecimalOf(v).Round(3)
}

// packsOf is how many packs of a quote a plan buys, over all sites.
func packsOf(plan *optimise.Plan, name string) units.Decimal {
	var n units.Decimal
	for _, l := range plan.Bill.Lines {
		if l.Quote.Name == name {
			n = n.Add(l.Packs)
		}
	}
	return n
}

// taken is what a plan buys of a supplier.
func taken(plan *optimise.Plan, supplier string) Taken {
	out := Taken{All: true}
	for _, q := range plan.Job.Quotes {
		n := packsOf(plan, q.Name)
		switch {
		case n.Sign() == 0:
		case q.Supplier == supplier:
			out.Buy = append(out.Buy, breakeven.Bought{Quote: q, Packs: n})
		default:
			out.All = false
		}
	}
	out.All = out.All && len(out.Buy) > 0
	return out
}
