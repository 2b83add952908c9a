package breakeven

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Depth is how many of the changes are looked for.
type Depth int

// Depths.
const (
	// Auto looks for every change where the least cost is concave. Where free
	// delivery or a smallest order hang on the price there can be hundreds, so
	// there it looks for the nearest; so it does for more than manyTargets, and for more
	// than fewTargets where the plan of today took long to find.
	Auto Depth = iota
	// Nearest looks only for where a target enters or leaves the plan of today.
	Nearest
	// Every looks for every change, up to Options.MostSolves.
	Every
)

// manyTargets is from how many targets on Auto is content with the nearest change
// of each: a quote looked at by itself still shows them all.
const manyTargets = 40

// Where the plan of today took more than longPlan linear programs, about a second, each
// price takes a dozen such searches or more to show all its changes; Auto does that for
// fewTargets at most.
const (
	fewTargets = 4
	longPlan   = 1500
)

// longWords say why not every change was looked for.
const longWords = "today's plan took long to find, so of many prices at once only where each enters or leaves the plan was looked for; asked about by itself, one shows all its changes"

// Options steer the search; the zero value works.
type Options struct {
	// Depth is how much is looked for.
	Depth Depth
	// Workers is how many targets are looked at side by side; 0 means one for
	// each processor.
	Workers int
	// MostSolves bounds the solves for one target; 0 means 200, or 1000 where every
	// change is asked for. A target that is not hinged hardly ever needs fifty.
	MostSolves int
	// TimeLimit bounds all of it; 0 means the job's own, or none.
	TimeLimit time.Duration
	// Progress is told after each target, and may be called from several
	// goroutines; may be nil.
	Progress func(done, total int)

	short bool // Nearest was chosen because the plan took long to find
}

func (o Options) mostSolves() int {
	switch {
	case o.MostSolves > 0:
		return o.MostSolves
	case o.Depth == Every:
		return 1000
	}
	return 200
}

func (o Options) until(job *quotes.Job) time.Time {
	limit := o.TimeLimit
	if limit == 0 {
		limit = job.Settings.TimeLimit
	}
	if limit == 0 {
		return time.Time{}
	}
	return time.Now().Add(limit)
}

// Series is the least cost over one target's x, from 0 to its highest sensible
// value.
type Series struct {
	Target Target
	// InPlan says that the plan of today buys it, or pays the fee.
	InPlan bool
	// Enters is the highest x below today's at which a cheapest buy takes it;
	// nil if there is none or it is in the plan. Leaves is the x above today's from
	// which no cheapest buy takes it; nil if there is none below Target.Most or it
	// is not in the plan. Neither is rounded.
	Enters, Leaves *units.Decimal
	// Changes are where the cheapest buy changes, rising; of those at prices of next to
	// nothing only the ones that a buyer would think of.
	Changes []Change
	// Pieces are the stretches between the changes of buy or of cost, rising and
	// without gaps. Those that are not Proven only say what is known.
	Pieces []Piece
	// Hinged says that free delivery or a smallest order hang on this price, so
	// that the least cost may jump and need not be concave.
	Hinged bool
	// Refused says that no bed takes the quote at any price.
	Refused bool
	// Unproven says why Enters and Leaves are not proven; "" if they are.
	Unproven string
	// Partial says why Changes need not be all there are below Leaves, or below
	// today's x for a quote that is not in the plan; "" if they are.
	Partial string
	// Short says that Partial is because today's plan took long to find.
	Short  bool
	Solves int
}

// Piece is a stretch of x with one cheapest buy, whose unrounded cost is
// A + B·x.
type Piece struct {
	From, To, A, B units.Decimal
	Buy            []Bought
	None           bool // no buy is possible here
	Proven         bool
	holds, jump    bool
	cand           *candidate
}

// ComesBack is the price above its leaving from which it is bought again, as where
// a dearer order comes free; nil where it is not, or where that was not looked for.
func (s Series) ComesBack() *units.Decimal {
	if s.Leaves == nil {
		return nil
	}
	for i, p := range s.Pieces {
		if p.holds && p.Proven && p.From.Cmp(*s.Leaves) > 0 {
			return &s.Pieces[i].From
		}
	}
	return nil
}

// Cost is the unrounded cost at x.
func (p Piece) Cost(x units.Decimal) units.Decimal { return p.A.Add(p.B.Mul(x)) }

// Change is one x at which the cheapest buy changes. Exactly there both buys cost
// the same, unless Jump says that free delivery or a smallest order comes in.
type Change struct {
	At           units.Decimal // not rounded
	Below, Above []Bought
	Jump         bool
	Confirmed    bool // solved again a cent below and a cent above
}

// ByPrice works out the series of each target, in the order given. plan is the
// cheapest buy of today, best with its proof; see [Today]. It is an error if it is
// not proven.
func ByPrice(ctx context.Context, job *quotes.Job, plan *optimise.Plan, targets []Target, opt Options) ([]Series, error) {
	if err := usable(plan); err != nil {
		return nil, err
	}
	if opt.Depth == Auto && len(targets) > fewTargets && plan.Nodes > longPlan {
		opt.Depth, opt.short = Nearest, true
	}
	if opt.Depth == Auto && len(targets) > manyTargets {
		opt.Depth = Nearest
	}
	w := newWorld(job)
	out := make([]Series, len(targets))
	order := longestFirst(targets, job)
	err := sideBySide(ctx, len(targets), opt, func(ctx context.Context, at int, until time.Time) error {
		i := order[at]
		var err error
		out[i], err = w.series(ctx, plan, targets[i], opt, until)
		return err
	}, job)
	if err != nil {
		return nil, err
	}
	return out, nil
}

// longestFirst are the places of the targets in the order to work on them: what
// takes longest, several quotes at once and where delivery hangs on the price, must
// not be left to one goroutine at the end.
func longestFirst(targets []Target, job *quotes.Job) []int {
	rank := func(t Target) int {
		switch {
		case t.Factor():
			return 0
		case t.hinged(job):
			return 1
		}
		return 2
	}
	order := make([]int, len(targets))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rank(targets[a]), rank(targets[b])) })
	return order
}

// Today is the cheapest buy at today's prices, whatever the budget, with its proof.
func Today(ctx context.Context, job *quotes.Job, opt optimise.Options) (*optimise.Plan, error) {
	j := *job
	j.Settings.Budget = nil
	opt.Keep = true
	return optimise.Solve(ctx, &j, opt)
}

func usable(plan *optimise.Plan) error {
	switch plan.Status {
	case optimise.Optimal:
		return nil
	case optimise.Infeasible:
		return ErrInfeasible
	}
	return fmt.Errorf("today's plan is not proven (%s), so no break-even can be proven from it; give it more time", plan.Status)
}

// sideBySide does n pieces of work on a few goroutines and stops at the first
// error.
func sideBySide(ctx context.Context, n int, opt Options, work func(ctx context.Context, i int, until time.Time) error, job *quotes.Job) error {
	until := opt.until(job)
	workers := opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	pool, within := errgroup.WithContext(ctx)
	pool.SetLimit(min(workers, max(1, n)))
	var mu sync.Mutex
	done := 0
	for i := range n {
		if within.Err() != nil {
			break
		}
		pool.Go(func() error {
			if err := within.Err(); err != nil {
				return err
			}
			if err := work(within, i, until); err != nil {
				return err
			}
			mu.Lock()
			done++
			now := done
			mu.Unlock()
			if opt.Progress != nil {
				opt.Progress(now, n)
			}
			return nil
		})
	}
	if err := pool.Wait(); err != nil {
		return err
	}
	return ctx.Err()
}

func (w *world) series(ctx context.Context, plan *optimise.Plan, t Target, opt Options, until time.Time) (Series, error) {
	out := Series{Target: t}
	now := t.Now.Float()
	s := &sweep{w: w, t: t, hinged: t.hinged(w.job), grain: grainOf(w, t), most: opt.mostSolves(), until: until}
	if err := s.seed(plan); err != nil {
		return out, err
	}
	out.Hinged = s.hinged
	out.InPlan = s.pool[1].holds(t)
	most := max(now, t.Most.Float())
	if most <= 0 {
		out.Partial = "nothing on offer has a price to set beside it"
		return out, nil
	}
	if t.Kind == QuotePrice && !w.fit.Usable(slices.Index(w.job.Quotes, t.Quote)) {
		out.Refused = true
		cost := s.pool[1].segments[0].value(0)
		s.note(most, 0, cost)
		s.note(most, most, cost)
		s.collect(&out, most, false)
		return out, nil
	}
	only := opt.Depth == Nearest || opt.Depth == Auto && s.hinged
	if !out.InPlan {
		if err := s.enter(ctx, now); err != nil {
			return out, err
		}
	}
	found := false
	if opt.Depth == Nearest && out.InPlan {
		var err error
		if found, err = s.leaves(ctx, &out, now, most); err != nil {
			return out, err
		}
	}
	if !found {
		if err := s.prove(ctx, &out, most, true); err != nil {
			return out, err
		}
	}
	switch {
	case s.unproven != "":
		out.Unproven, out.Partial = s.unproven, s.unproven
	case found:
		out.Partial = "only where it leaves the plan was looked for"
	case only:
		out.Partial = "only the change next to today's was looked for"
	default:
		if err := s.prove(ctx, &out, most, false); err != nil {
			return out, err
		}
		out.Partial = s.unproven
	}
	if opt.short && s.unproven == "" {
		out.Partial, out.Short = longWords, true
	}
	s.collect(&out, most, only)
	if s.hinged && out.Partial == "" && slices.ContainsFunc(out.Changes, func(c Change) bool { return !c.Confirmed }) {
		out.Partial = "free delivery or a smallest order come in at so many prices that not every change was confirmed"
	}
	out.leaveOutSenseless(s.w.job)
	out.Solves = s.solves
	return out, nil
}

// leaves finds where a target of the plan leaves it and confirms that; found is
// false where it has to be found stretch by stretch.
func (s *sweep) leaves(ctx context.Context, out *Series, now, most float64) (found bool, err error) {
	for again := true; again; {
		if found, err = s.leave(ctx, now, most); !found || err != nil {
			return found, err
		}
		s.collect(out, most, true)
		if again, err = s.confirm(ctx, out, most); err != nil {
			return true, err
		}
	}
	return true, nil
}

// prove runs and confirms until nothing cheaper turns up.
func (s *sweep) prove(ctx context.Context, out *Series, most float64, nearest bool) error {
	wanted := func(list []piece) []piece {
		return stretches(list, s.t, s.t.Now.Float(), out.InPlan, nearest, s.hinged && !nearest)
	}
	for again := true; again; {
		err := s.run(ctx, most, wanted)
		if err != nil {
			return err
		}
		if s.unproven == "" && slices.ContainsFunc(wanted(s.pieces(most)), s.isStuck) {
			s.unproven = stuckWords
		}
		s.collect(out, most, nearest)
		if again, err = s.confirm(ctx, out, most); err != nil {
			return err
		}
	}
	return nil
}

// confirm solves again a grain below and above each change, the plain way, with
// everything at that price. It reports whether something cheaper turned up. With
// many changes only those where the target enters or leaves the plan are
// confirmed; the others rest on the proof.
func (s *sweep) confirm(ctx context.Context, out *Series, most float64) (again bool, err error) {
	for i := range out.Changes {
		c := &out.Changes[i]
		edge := out.Enters != nil && c.At.Equal(*out.Enters) || out.Leaves != nil && c.At.Equal(*out.Leaves)
		if c.Confirmed || len(out.Changes) > confirmAll && !edge {
			continue
		}
		for _, x := range []float64{c.At.Float() - s.grain, c.At.Float() + s.grain} {
			if x < 0 || x > most || s.unproven != "" {
				continue
			}
			cur, seg := lowest(s.pool, x)
			found, _, _, err := s.solve(ctx, x, x, cur.segments[seg].value(x))
			if err != nil {
				return false, err
			}
			if found != nil {
				s.pool = append(s.pool, found)
				return true, nil
			}
		}
		c.Confirmed = s.unproven == ""
	}
	return false, nil
}

// confirmAll is the most changes of one target that are all confirmed.
const confirmAll = 4
