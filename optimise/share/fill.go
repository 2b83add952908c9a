package share

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
	"mediabuy/units"
)

// fill writes members and groups into the result.
func (s *splitter) fill(res *Result) {
	litres := s.litresOf()
	for i, name := range s.names {
		m := Member{Name: name, Used: s.use.of(i), Litres: litres[i], Pays: res.Chosen.Pays[i]}
		for b, bed := range s.job.Beds {
			if own := s.owns[b][i]; own > 0 {
				m.Beds = append(m.Beds, BedPart{bed, own, s.litres[b] * units.Litres(own)})
			}
		}
		one := s.g.cost(costgame.One(i))
		m.Proven, m.Why = one.proven, one.why
		if one.possible {
			alone := s.money(one.cost)
			saves := alone.Sub(m.Pays)
			m.Alone, m.Saves = &alone, &saves
		}
		if rest := s.all() &^ costgame.One(i); rest != 0 {
			if r := s.g.cost(rest); r.possible {
				now := s.money(s.total).Sub(m.Pays)
				leaving := s.money(r.cost).Sub(now)
				m.Leaving = &leaving
			}
		}
		res.Members = append(res.Members, m)
	}
	for g, r := range s.g.known {
		res.Proven = res.Proven && r.proven
		if g == s.all() {
			continue
		}
		group := Group{Members: s.list(g), Proven: r.proven}
		for _, i := range g.Players() {
			group.Pays = group.Pays.Add(res.Chosen.Pays[i])
		}
		if r.possible {
			cost := s.money(r.cost)
			group.Cost = &cost
		}
		res.Groups = append(res.Groups, group)
	}
	slices.SortFunc(res.Groups, func(a, b Group) int {
		if d := len(a.Members) - len(b.Members); d != 0 {
			return d
		}
		return slices.CompareFunc(a.Members, b.Members, strings.Compare)
	})
}

// mostApart bounds the members for which every way to order apart is looked at:
// 3^13 pairs of a group and a part of it are over a million.
const mostApart = 13

// apart finds the cheapest way to order separately:
//
//	best(S) = min over T in S holding its first member of c(T) + best(S − T)
func (s *splitter) apart() *Apart {
	n := len(s.names)
	if n > mostApart {
		return nil
	}
	const none = int64(-1)
	cost := make([]int64, s.all()+1) // 0 for the empty group
	for g := range cost {
		cost[g] = none
	}
	for _, p := range s.known {
		cost[p.group] = p.cost
	}
	cost[0] = 0
	best := slices.Clone(cost)
	first := make([]costgame.Group, len(best)) // the order that the first member of a group is in
	for g := costgame.Group(1); g <= s.all(); g++ {
		first[g] = g
		low := g & -g
		for t := (g - 1) & g; t != 0; t = (t - 1) & g {
			if t&low == 0 || cost[t] == none || best[g&^t] == none {
				continue
			}
			if v := cost[t] + best[g&^t]; best[g] == none || v < best[g] {
				best[g], first[g] = v, t
			}
		}
	}
	if v := best[s.all()]; v == none || v >= s.total {
		return nil
	}
	out := &Apart{Total: s.money(best[s.all()])}
	for g := s.all(); g != 0; g &^= first[g] {
		out.Orders = append(out.Orders, s.list(first[g]))
	}
	return out
}

// hosts solves the job with every bed moved to each of its sites in turn.
func (s *splitter) hosts(ctx context.Context) ([]Host, error) {
	sites := quotes.Sites(s.job)
	if len(sites) < 2 {
		return nil, nil
	}
	var out []Host
	for _, site := range sites {
		h := Host{Site: site}
		var here costgame.Group
		job := *s.job
		job.Settings.Budget = nil
		job.Beds = nil
		for b, bed := range s.job.Beds {
			if bed.Site == site {
				here |= s.holds[b]
			}
			moved := *bed
			moved.Site = site
			job.Beds = append(job.Beds, &moved)
		}
		h.Members = s.list(here)
		opt := s.opt.Solve
		opt.Progress = nil
		opt.CutOff = noCutOff
		plan, err := optimise.Solve(ctx, &job, opt)
		if errors.Is(err, optimise.ErrNoPurchase) {
			out = append(out, h) // not settled
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("bringing everything to %s: %w", site, err)
		}
		h.Proven = plan.Status != optimise.TimeLimit
		if plan.Bill != nil {
			total := plan.Bill.Total
			saves := s.plan.Bill.Total.Sub(total)
			h.Total, h.Saves = &total, &saves
		}
		out = append(out, h)
	}
	slices.SortStableFunc(out, func(a, b Host) int {
		switch {
		case a.Total == nil && b.Total == nil:
			return 0
		case a.Total == nil:
			return 1
		case b.Total == nil:
			return -1
		}
		return cmp.Or(a.Total.Cmp(*b.Total), cmp.Compare(s.litresAt(b.Site), s.litresAt(a.Site)))
	})
	return out, nil
}

// litresAt is what is placed at a site: where most of it is, least has to be
// carried on.
func (s *splitter) litresAt(site string) units.Litres {
	sum := units.Litres(0)
	for b, bed := range s.job.Beds {
		if bed.Site == site {
			sum += s.litres[b]
		}
	}
	return sum
}
