package breakeven

import (
	"context"
	"fmt"
	"math"
	"time"

	"mediabuy/optimise"
	"mediabuy/quotes"
)

// maxEntries bounds the searches of enter; what is then still open is proven
// stretch by stretch.
const maxEntries = 12

// nextToNothing is the share of a price to begin with: at 0 a fee is not in the
// model at all.
const nextToNothing = 1e-6

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
	// A fee can be waived, so that what it costs does not rise column by column.
	if limit <= halfCent || s.t.Row != nil {
		return nil
	}
	for u := now; u > s.grain && s.solves < min(s.most, maxEntries); {
		ray := optimise.Ray{From: u * nextToNothing, To: u / 2, Limit: limit}
		if !s.until.IsZero() {
			if ray.TimeLimit = time.Until(s.until); ray.TimeLimit <= 0 {
				s.unproven = lateWords
				return nil
			}
		}
		s.solves++
		ray.At = func(x float64) *quotes.Job { return s.t.at(s.w.plain, decimalAt(u), decimalAt(x)) }
		e, err := optimise.Enter(ctx, ray)
		if err != nil && late(ctx, s.until) {
			s.unproven = lateWords
			return nil
		}
		if err != nil && s.hinged && ctx.Err() == nil {
			// On the edge of a threshold, within the solver's tolerance, as in solve.
			// Nothing is lost: what is still open is solved for price by price, and
			// an error that is not of this search alone comes up there again.
			return nil
		}
		if err != nil {
			return fmt.Errorf("where %s enters: %w", s.t.Name, err)
		}
		if e.Buy == nil {
			s.note(u, u*nextToNothing, limit)
			return nil
		}
		found, err := s.w.newCandidate(s.t, translate(*e.Buy, e.Job, s.w.job))
		if err != nil {
			return err
		}
		s.pool = append(s.pool, found)
		s.note(u, e.X, limit)
		if i, ok := found.active(e.X); ok && math.Abs(found.segments[i].value(e.X)-limit) < halfCent {
			return nil
		}
		if u-e.X < s.grain {
			return nil
		}
		s.cut(e.X)
		u = e.X
	}
	return nil
}
