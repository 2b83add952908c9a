package share

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/share/costgame"
	"mediabuy/units"
)

// solved is what is known of one group going alone.
type solved struct {
	cost     int64 // in the currency's smallest unit
	possible bool  // false: it has no plan of its own, or, unless proven, none was found in time
	proven   bool  // false: time was up, and a cheaper plan may exist
	why      []optimise.Obstacle
	purchase *bill.Purchase // nil when read from a store
}

// groups finds and keeps the costs of groups.
type groups struct {
	c    *club
	like *likeness
	opt  Options

	mu    sync.Mutex
	known map[costgame.Group]*solved
	kin   map[string]*solved // by likeness; solved here, not read
	store *Store
	done  int // groups wanted so far and known
	total int
	saved time.Time
}

func newGroups(c *club, opt Options) (*groups, error) {
	g := &groups{c: c, opt: opt, known: map[costgame.Group]*solved{}, kin: map[string]*solved{}, saved: time.Now()}
	var err error
	if g.like, err = newLikeness(c); err != nil {
		return nil, err
	}
	h, err := contentHash(c.job)
	if err != nil {
		return nil, err
	}
	g.store = &Store{job: h, costs: map[string]*int64{}}
	if opt.Known != nil {
		if opt.Known.job != h {
			return nil, errors.New("the groups solved before are those of another job, or of these files before they were changed")
		}
		g.store = opt.Known.clone()
	}
	return g, nil
}

// cost is the cost of a group that has been solved.
func (g *groups) cost(s costgame.Group) *solved {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.known[s]
}

// saveEvery is how often solved groups are handed over for keeping.
const saveEvery = 2 * time.Second

// take notes a solved group.
func (g *groups) take(s costgame.Group, r *solved) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.known[s] = r
	g.done++
	if g.opt.Progress != nil {
		g.opt.Progress(g.done, g.total)
	}
	if r.proven {
		if r.possible {
			g.store.put(g.c, s, &r.cost)
		} else {
			g.store.put(g.c, s, nil)
		}
	}
	if g.opt.Save == nil || time.Since(g.saved) < saveEvery {
		return nil
	}
	return g.save()
}

// save hands the store over; g.mu is held.
func (g *groups) save() error {
	g.saved = time.Now()
	if g.opt.Save == nil {
		return nil
	}
	if err := g.opt.Save(g.store.clone()); err != nil {
		return fmt.Errorf("keeping the solved groups: %w", err)
	}
	return nil
}

// finish hands over what is known, also after a stop.
func (g *groups) finish() error {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.save()
}

// solve finds the costs of the groups wanted, smaller groups first and those of
// one size side by side: a group begins from the orders of its parts. The answer
// does not depend on how many work at once.
func (g *groups) solve(ctx context.Context, want []costgame.Group) error {
	bySize := make([][]costgame.Group, len(g.c.names)+1)
	g.mu.Lock()
	queued := map[costgame.Group]bool{}
	for _, s := range want {
		if g.known[s] == nil && !queued[s] {
			queued[s] = true
			bySize[s.Size()] = append(bySize[s.Size()], s)
			g.total++
		}
	}
	g.mu.Unlock()
	for _, level := range bySize {
		if err := g.solveLevel(ctx, level); err != nil {
			return err
		}
	}
	return nil
}

// kindred is groups of one size whose jobs are alike.
type kindred struct {
	word   string
	groups []costgame.Group
}

func (g *groups) solveLevel(ctx context.Context, level []costgame.Group) error {
	var list []*kindred
	at := map[string]*kindred{}
	for _, s := range level {
		if cost, ok := g.store.get(g.c, s); ok {
			r := &solved{proven: true}
			if cost != nil {
				r.cost, r.possible = *cost, true
			}
			if err := g.take(s, r); err != nil {
				return err
			}
			continue
		}
		w := g.like.word(s)
		if at[w] == nil {
			at[w] = &kindred{word: w}
			list = append(list, at[w])
		}
		at[w].groups = append(at[w].groups, s)
	}
	if len(list) == 0 {
		return nil
	}
	pool, within := errgroup.WithContext(ctx)
	pool.SetLimit(min(max(1, g.opt.Workers), len(list)))
	for _, k := range list {
		if within.Err() != nil {
			break
		}
		pool.Go(func() error {
			if err := within.Err(); err != nil {
				return err
			}
			return g.solveAlike(within, k)
		})
	}
	if err := pool.Wait(); err != nil {
		return err
	}
	return ctx.Err()
}

func (g *groups) solveAlike(ctx context.Context, k *kindred) error {
	g.mu.Lock()
	r := g.kin[k.word]
	g.mu.Unlock()
	if r == nil {
		var err error
		if r, err = g.solveOne(ctx, k.groups[0]); err != nil {
			return fmt.Errorf("the order of %s alone: %w", strings.Join(g.c.list(k.groups[0]), ", "), err)
		}
		g.mu.Lock()
		g.kin[k.word] = r
		g.mu.Unlock()
	}
	for _, s := range k.groups {
		if err := g.take(s, r); err != nil {
			return err
		}
	}
	return nil
}

// noCutOff is above any bill; it asks for a plan, or none, without the reasons
// for none, which only single members are asked for.
const noCutOff = 1e12

// solveOne solves the job of group s. Where the orders of its parts can be put
// together into one, that order is a plan of s, and only cheaper ones are looked
// for.
func (g *groups) solveOne(ctx context.Context, s costgame.Group) (*solved, error) {
	job := g.c.groupJob(s)
	opt := g.opt.Solve
	opt.Progress = nil
	limit := opt.TimeLimit
	if limit == 0 {
		limit = job.Settings.TimeLimit
	}
	opt.TimeLimit, opt.CutOff = limit, 0
	job.Settings.TimeLimit = 0
	joined := g.join(s)
	within := ctx
	switch {
	case joined != nil:
		opt.CutOff = g.c.money(joined.cost).Float()
		// Time running out with nothing cheaper found leaves the joined order: so
		// the limit is set from outside, where it can be told from a failure.
		opt.TimeLimit = 0
		if limit > 0 {
			var stop context.CancelFunc
			within, stop = context.WithTimeout(ctx, limit)
			defer stop()
		}
	case s.Size() > 1:
		opt.CutOff = noCutOff
	}
	plan, err := optimise.Solve(within, job, opt)
	switch {
	case err != nil && joined != nil && ctx.Err() == nil && errors.Is(err, context.DeadlineExceeded):
		joined.proven = false
		return joined, nil
	case errors.Is(err, optimise.ErrNoPurchase):
		return &solved{}, nil // not settled
	case err != nil:
		return nil, err
	case plan.Status == optimise.Infeasible && joined != nil:
		joined.proven = true
		return joined, nil
	case plan.Status == optimise.Infeasible:
		return &solved{proven: true, why: plan.Why}, nil
	}
	cost, err := g.c.minor(plan.Bill.Total)
	if err != nil {
		return nil, err
	}
	r := &solved{cost: cost, possible: true, proven: plan.Status == optimise.Optimal, purchase: &plan.Purchase}
	if joined != nil && joined.cost < r.cost {
		// The plan beat the joined order before rounding and not after it.
		joined.proven = r.proven
		return joined, nil
	}
	return r, nil
}

// minor is money in the currency's smallest unit.
func (c *club) minor(m units.Money) (int64, error) {
	unit := units.DecimalFromInt(1)
	for range c.job.Settings.CurrencyDigits {
		unit = unit.Mul(units.DecimalFromInt(10))
	}
	v, err := m.Decimal().Mul(unit).Round(0).Floor()
	if err != nil {
		return 0, fmt.Errorf("a bill of %s: %w", m, err)
	}
	return v, nil
}

// money is an amount of the currency's smallest unit as money.
func (c *club) money(minor int64) units.Money {
	unit := units.DecimalFromInt(1)
	for range c.job.Settings.CurrencyDigits {
		unit = unit.Quo(units.DecimalFromInt(10))
	}
	return units.MoneyOf(units.DecimalFromInt(minor)).Times(unit)
}
