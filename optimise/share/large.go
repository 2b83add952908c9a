package share

import (
	"cmp"
	"context"
	"slices"

	"mediabuy/optimise/share/costgame"
)

// Above Options.Exact members not every group can be solved. Solved are:
//
//  1. every single member, every pair, and all members but one;
//  2. for the Shapley value, the groups that stand at the head of the orders of
//     joining drawn by the seed;
//  3. found violations: the split is worked out from the groups known (for the
//     nucleolus by row generation), then neighbours of the groups with the
//     greatest excess, one member more or fewer, are solved, and again, until a
//     round finds no group that objects or Options.MoreGroups are spent. Groups of
//     every size take turns: by price breaks and full loads, three may object
//     where no two and no four do.

// Sizes of one round of step 3.
const (
	perRound = 24 // groups solved
	perGroup = 3  // neighbours of one group
)

func (s *splitter) solveSome(ctx context.Context) error {
	n := len(s.names)
	var want []costgame.Group
	for i := range n {
		want = append(want, costgame.One(i), s.all()&^costgame.One(i))
		for j := range i {
			want = append(want, costgame.One(i)|costgame.One(j))
		}
	}
	if s.opt.Rule == Shapley {
		heads, err := costgame.Orders(n, s.opt.Pairs, s.opt.Seed)
		if err != nil {
			return err
		}
		want = append(want, heads...)
	}
	if err := s.g.solve(ctx, want); err != nil {
		return err
	}
	s.gather()
	if s.opt.Rule == Shapley {
		var err error
		s.sample, err = costgame.Sample(n, s.opt.Pairs, s.opt.Seed, func(g costgame.Group) (float64, error) {
			return float64(s.standIn(g)), nil
		})
		if err != nil {
			return err
		}
	}
	return s.lookForObjections(ctx)
}

func (s *splitter) lookForObjections(ctx context.Context) error {
	for spent := 0; spent < s.opt.MoreGroups; {
		x, _, err := s.exact(ctx, s.opt.Rule)
		if err != nil {
			return err
		}
		fresh := s.neighbours(x, min(perRound, s.opt.MoreGroups-spent))
		if len(fresh) == 0 {
			return nil
		}
		if err := s.g.solve(ctx, fresh); err != nil {
			return err
		}
		spent += len(fresh)
		s.gather()
		objects := func(g costgame.Group) bool {
			r := s.g.cost(g)
			return r.possible && g.Sum(x)-float64(r.cost) > noise
		}
		if !slices.ContainsFunc(fresh, objects) {
			return nil
		}
	}
	return nil
}

// neighbours lists up to most groups not solved yet that differ by one member
// from a group with a great excess for its size. Members likely to add to the
// excess come first: those who pay most above what they add to a bill, taken as
// the mean of adding to none and to all others.
func (s *splitter) neighbours(x []float64, most int) []costgame.Group {
	n := len(s.names)
	bySize := make([][]costgame.Priced, n+1)
	cost := map[costgame.Group]float64{}
	for _, p := range s.game {
		bySize[p.Group.Size()] = append(bySize[p.Group.Size()], p)
		cost[p.Group] = p.Cost
	}
	deepest := 0
	for _, list := range bySize {
		slices.SortStableFunc(list, func(a, b costgame.Priced) int { return cmp.Compare(b.Excess(x), a.Excess(x)) })
		deepest = max(deepest, len(list))
	}
	above := make([]float64, n)
	for i := range above {
		one := costgame.One(i)
		above[i] = x[i] - (cost[one]+float64(s.total)-cost[s.all()&^one])/2
	}
	var out []costgame.Group
	seen := map[costgame.Group]bool{}
	for rank := range deepest {
		for _, list := range bySize {
			if rank >= len(list) {
				continue
			}
			g := list[rank].Group
			gain := func(i int) float64 { // of excess, by i joining or leaving
				if g.Has(i) {
					return -above[i]
				}
				return above[i]
			}
			order := s.all().Players()
			slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(gain(b), gain(a)) })
			taken := 0
			for _, i := range order {
				h := g ^ costgame.One(i)
				if h == 0 || h == s.all() || seen[h] || s.g.cost(h) != nil || taken == perGroup {
					continue
				}
				seen[h] = true
				taken++
				if out = append(out, h); len(out) == most {
					return out
				}
			}
		}
	}
	return out
}
