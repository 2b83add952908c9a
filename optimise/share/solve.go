package share

import (
	"context"
	"fmt"
	"runtime"
	"slices"

	"mediabuy/optimise"
	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
)

// Options steer a split; the zero value works.
type Options struct {
	Rule Rule // "" means Nucleolus
	// Solve steers each solve. Its TimeLimit is for each group, not for all.
	Solve optimise.Options
	// Plan is the pooled plan of the same job, if solved already.
	Plan *optimise.Plan
	// Workers is how many groups are solved side by side; 0 means one for each
	// processor.
	Workers int
	// Exact is the most members for whom every group is solved; 0 means
	// [DefaultExact].
	Exact int
	// Pairs is how many pairs of orders of joining the Shapley value is estimated
	// from above Exact members; 0 means [DefaultPairs].
	Pairs int
	// Seed draws those orders; 0 is a seed like any other.
	Seed uint64
	// MoreGroups is how many groups above Exact members are solved in search of
	// objections, besides singles, pairs and all but one; 0 means
	// [DefaultMoreGroups].
	MoreGroups int
	// Progress is told after each group solved; may be nil. It is called from one
	// goroutine at a time. total can grow.
	Progress func(done, total int)
	// Known holds groups solved before; nil means none.
	Known *Store
	// Save is handed all groups solved so far now and then, at the end, and when
	// ctx is cancelled; may be nil. It is called from one goroutine at a time.
	Save func(*Store) error
}

// Defaults of Options.
const (
	DefaultExact      = 12
	DefaultPairs      = 8
	DefaultMoreGroups = 300
)

func (o Options) filled() (Options, error) {
	if o.Rule == "" {
		o.Rule = Nucleolus
	}
	if !slices.Contains(Rules, o.Rule) {
		return o, fmt.Errorf("rule %q is not known, want one of %v", o.Rule, Rules)
	}
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	for _, v := range []struct {
		at    *int
		usual int
	}{{&o.Exact, DefaultExact}, {&o.Pairs, DefaultPairs}, {&o.MoreGroups, DefaultMoreGroups}} {
		if *v.at == 0 {
			*v.at = v.usual
		}
	}
	if o.Exact < 1 || o.Exact > costgame.MaxTable || o.Pairs < 2 || o.MoreGroups < 0 {
		return o, fmt.Errorf("options: Exact %d, Pairs %d, MoreGroups %d, want 1 to %d, 2 or more, 0 or more", o.Exact, o.Pairs, o.MoreGroups, costgame.MaxTable)
	}
	return o, nil
}

// Solve solves the pooled job and the groups of its members and splits the bill.
//
// A job without members gives a [NoMembersError]. An infeasible job gives a
// Result with nothing but the Plan, which says why. When ctx is cancelled the
// groups solved so far are handed to Options.Save and the error says that it
// was.
func Solve(ctx context.Context, job *quotes.Job, opt Options) (*Result, error) {
	opt, err := opt.filled()
	if err != nil {
		return nil, err
	}
	c, err := newClub(job)
	if err != nil {
		return nil, err
	}
	g, err := newGroups(c, opt)
	if err != nil {
		return nil, err
	}
	s := &splitter{club: c, g: g, opt: opt}
	res, err := s.run(ctx)
	if kept := g.finish(); err == nil {
		err = kept
	}
	if err != nil {
		return nil, err
	}
	return res, nil
}

// splitter works out one Result.
type splitter struct {
	*club
	g   *groups
	opt Options

	plan  *optimise.Plan
	total int64
	use   *usage
	known []priced // groups with a plan of their own, but all
	// unsettled is the groups for which no plan was found in time.
	unsettled int
	game      []costgame.Priced
	sample    *costgame.Sampled
}

func (s *splitter) run(ctx context.Context) (*Result, error) {
	s.plan = s.opt.Plan
	if s.plan == nil {
		var err error
		if s.plan, err = optimise.Solve(ctx, s.job, s.opt.Solve); err != nil {
			return nil, err
		}
	}
	res := &Result{Plan: s.plan}
	if s.plan.Bill == nil {
		return res, nil
	}
	var err error
	if s.total, err = s.minor(s.plan.Bill.Total); err != nil {
		return nil, err
	}
	s.use = newUsage(s.club, s.plan)
	pooled := &solved{cost: s.total, possible: true, proven: s.plan.Status == optimise.Optimal, purchase: &s.plan.Purchase}
	s.g.total++
	if err := s.g.take(s.all(), pooled); err != nil {
		return nil, err
	}
	res.Total, res.Exact, res.Proven = s.money(s.total), len(s.names) <= s.opt.Exact, pooled.proven
	if res.Exact {
		err = s.solveAll(ctx)
	} else {
		err = s.solveSome(ctx)
	}
	if err != nil {
		return nil, err
	}
	if res.Splits, err = s.splits(ctx); err != nil {
		return nil, err
	}
	res.Chosen = res.Splits[slices.IndexFunc(res.Splits, func(sp Split) bool { return sp.Rule == s.opt.Rule })]
	s.fill(res)
	if res.Exact {
		res.Apart = s.apart()
	}
	if res.Hosts, err = s.hosts(ctx); err != nil {
		return nil, err
	}
	for _, h := range res.Hosts {
		res.Proven = res.Proven && h.Proven
	}
	return res, nil
}

// solveAll solves every group.
func (s *splitter) solveAll(ctx context.Context) error {
	var want []costgame.Group
	for g := costgame.Group(1); g < s.all(); g++ {
		want = append(want, g)
	}
	if err := s.g.solve(ctx, want); err != nil {
		return err
	}
	s.gather()
	return nil
}

// gather lists what is known of the groups, in order of their bits. The game
// prices a group without a plan by the stand-in of the package comment.
func (s *splitter) gather() {
	s.known, s.game, s.unsettled = nil, nil, 0
	var list []costgame.Group
	for g := range s.g.known {
		if g != s.all() {
			list = append(list, g)
		}
	}
	slices.Sort(list)
	for _, g := range list {
		switch r := s.g.cost(g); {
		case r.possible:
			s.known = append(s.known, priced{g, r.cost})
		case !r.proven:
			s.unsettled++
		}
	}
	for _, g := range list {
		s.game = append(s.game, costgame.Priced{Group: g, Cost: float64(s.standIn(g))})
	}
}

// standIn is what group g would pay by itself, or, if it has no plan, the least
// known bill of a group that holds it.
func (s *splitter) standIn(g costgame.Group) int64 {
	if r := s.g.cost(g); r != nil && r.possible {
		return r.cost
	}
	least := s.total
	for _, p := range s.known {
		if p.group&g == g {
			least = min(least, p.cost)
		}
	}
	return least
}
