package breakeven

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"mediabuy/optimise"
	"mediabuy/quotes"
)

// maxEntries bounds the searches of enter and leave; what is then still open is proven
// stretch by stretch.
const maxEntries = 12

// nextToNothing is the share of a price to begin with: at 0 a fee is not in the
// model at all.
const nextToNothing = 1e-6

// errOnEdge says that a search could not tell what is free and what is not, on the
// edge of a threshold, within the solver's tolerance. Nothing is lost: what it should
// have found is solved for price by price, and an error that is not of that search
// alone comes up there again.
var errOnEdge = errors.New("on the edge of a threshold")

// enter finds where a target that is not in the plan would enter it, each time by
// one search.
//
// With goods valued as at u, where everything is let off that is let off below u,
// let x be the highest price at which some buy is cheaper than today's,
// F(u, x) < f. Then f(·) ≥ F(u, ·) is no lower than today's between x and u. If
// that buy is let off at x too, the target enters there; if not, the same is asked
// with goods valued as at x, and so on downwards.
func (s *sweep) enter(ctx context.Context, now float64) error {
	cur, seg := lowest(s.pool, now)
	limit := cur.segments[seg].value(now)
	if limit <= halfCent || !s.rises() {
		return nil
	}
	for u := now; u > s.grain && s.solves < min(s.most, maxEntries); {
		x, found, err := s.lastBelow(ctx, u, u*nextToNothing, limit)
		if errors.Is(err, errOnEdge) {
			return nil
		}
		if err != nil || s.unproven != "" {
			return err
		}
		if found == nil {
			return nil
		}
		if i, ok := found.active(x); ok && math.Abs(found.segments[i].value(x)-limit) < halfCent {
			return nil
		}
		if u-x < s.grain {
			return nil
		}
		s.cut(x)
		u = x
	}
	return nil
}

// leave finds where a target of the plan would leave it, by searches of the same
// kind: past the x up to which the buys known keep below what it costs without the
// target, is there one that does for longer? Goods are valued as at that x: what
// is let off there is let off above it. done is false where it has to be found
// stretch by stretch.
func (s *sweep) leave(ctx context.Context, now, most float64) (done bool, err error) {
	if !s.rises() {
		return false, nil
	}
	var without *candidate
	limit := 0.0
	for {
		cur, seg := lowest(s.pool, most)
		without, limit = cur, cur.segments[seg].value(most)
		if s.known(most, most, limit) {
			break
		}
		if err := s.settle(ctx, check{most, most, limit, most}); err != nil || s.unproven != "" {
			return true, err
		}
	}
	if without.holds(s.t) || limit <= halfCent {
		return false, nil
	}
	for s.solves < min(s.most, maxEntries) {
		x, ok := s.leavesPool(now, most)
		if !ok {
			return false, nil
		}
		if s.known(x, x, limit) {
			s.left = &x
			return true, nil
		}
		end, found, err := s.lastBelow(ctx, x, x, limit)
		if errors.Is(err, errOnEdge) {
			return false, nil
		}
		if err != nil || s.unproven != "" {
			return true, err
		}
		if found != nil && end-x < s.grain {
			s.left = &x // changes this close are told as one
			return true, nil
		}
	}
	return false, nil
}

// leavesPool is the x above today's from which the cheapest buy known does not hold
// the target.
func (s *sweep) leavesPool(now, most float64) (float64, bool) {
	for _, p := range envelope(s.pool, now, most) {
		if !p.cand.holds(s.t) {
			return p.lo, true
		}
	}
	return 0, false
}

// rises reports whether what a purchase costs rises with x column by column. A fee
// can be waived, so that what it costs does not.
func (s *sweep) rises() bool { return s.t.Row == nil }

// lastBelow is the buy that costs less than limit for the highest x, and that x,
// with goods valued as at u; nil if there is none at from, which is noted. Where that
// could not be told the error is errOnEdge.
func (s *sweep) lastBelow(ctx context.Context, u, from, limit float64) (x float64, found *candidate, err error) {
	ray := optimise.Ray{From: from, To: 2*u + 1, Limit: limit, Proof: s.proofs.nearest(u)}
	if !s.until.IsZero() {
		if ray.TimeLimit = time.Until(s.until); ray.TimeLimit <= 0 {
			s.unproven = lateWords
			return 0, nil, nil
		}
	}
	for i, c := range s.pool[1:] {
		if i == 0 || c.holds(s.t) {
			ray.Near = append(ray.Near, c.buy)
		}
	}
	s.solves++
	ray.At = func(x float64) *quotes.Job { return s.t.at(s.w.plain, decimalAt(u), decimalAt(x)) }
	e, err := optimise.Enter(ctx, ray)
	if err != nil && late(ctx, s.until) {
		s.unproven = lateWords
		return 0, nil, nil
	}
	if err != nil && s.hinged && ctx.Err() == nil {
		return 0, nil, errOnEdge
	}
	if err != nil {
		return 0, nil, fmt.Errorf("where %s enters or leaves: %w", s.t.Name, err)
	}
	s.proofs.add(e.X, e.Proof)
	if e.Buy == nil {
		s.note(u, from, limit)
		return 0, nil, nil
	}
	if found, err = s.w.newCandidate(s.t, translate(*e.Buy, e.Job, s.w.job)); err != nil {
		return 0, nil, err
	}
	s.pool = append(s.pool, found)
	s.note(u, e.X, limit)
	return e.X, found, nil
}
