package breakeven

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// halfCent is how much cheaper, in money, a buy must be to count: the gap that
// package optimise leaves, and a hair for the noise of the bounds.
const halfCent = 0.005

// xDigits is how many decimals of x are solved at, beyond the four that are told.
const xDigits = 10

// fact is something proven: F(u, x) ≥ value, within half a cent. For a target that is
// not hinged u does not matter and is +Inf.
type fact struct{ u, x, value float64 }

// sweep finds the least cost of one target over all x.
type sweep struct {
	w      *world
	t      Target
	hinged bool
	grain  float64 // changes of x closer together than this are told as one
	pool   []*candidate
	facts  []fact
	cuts   []float64
	stuck  []check // points that cannot be settled; see settle
	solves int
	most   int // solves allowed
	until  time.Time
	proofs proofs
	// left is where the target leaves the plan, once it was looked for by itself.
	left *float64
	// unproven says why the sweep ended early; "" if it did not.
	unproven string
}

// grainOf is one cent of price, or a ten-thousandth of a factor.
func grainOf(w *world, t Target) float64 {
	if t.Factor() {
		return 1e-4
	}
	return math.Pow(10, -float64(w.job.Settings.CurrencyDigits))
}

// seed begins with a buy that is cheapest at x today.
func (s *sweep) seed(plan *optimise.Plan) error {
	c, err := s.w.newCandidate(s.t, plan.Purchase)
	if err != nil {
		return err
	}
	s.pool = []*candidate{nothing(), c}
	s.proofs.add(s.t.Now.Float(), plan.Proof)
	now := s.t.Now.Float()
	if i, ok := c.active(now); ok {
		s.note(now, now, c.segments[i].value(now))
	}
	return nil
}

func (s *sweep) note(u, x, value float64) {
	if !s.hinged {
		u = math.Inf(1)
	}
	s.facts = append(s.facts, fact{u, x, value})
}

// known reports whether F(u, x) ≥ need follows from what is proven: from a fact
// at x, or, F(u, ·) being concave, from one on either side.
func (s *sweep) known(u, x, need float64) bool {
	if s.givenUp(u, x) {
		return true // there is no more to be found out
	}
	need -= halfCent
	for _, f := range s.facts {
		if !s.covers(f, u) {
			continue
		}
		if near(f.x, x) && f.value >= need {
			return true
		}
		if f.x > x {
			continue
		}
		for _, g := range s.facts {
			if g.x > x && s.covers(g, u) && f.value+(g.value-f.value)*(x-f.x)/(g.x-f.x) >= need {
				return true
			}
		}
	}
	return false
}

// givenUp reports whether a point could not be settled.
func (s *sweep) givenUp(u, x float64) bool {
	return slices.ContainsFunc(s.stuck, func(c check) bool { return near(c.u, u) && near(c.x, x) })
}

// isStuck reports whether a point of p could not be settled.
func (s *sweep) isStuck(p piece) bool {
	return slices.ContainsFunc(s.stuck, func(c check) bool { return c.x >= p.lo-onEdge && c.x <= p.hi+onEdge })
}

// stuckWords say why something is not proven.
const stuckWords = "at some price goods come within a hair of free delivery or of a smallest order, which was not settled"

// covers reports whether a fact says something of F(u, ·): it does if it was
// proven with goods valued no lower.
func (s *sweep) covers(f fact, u float64) bool { return !s.hinged || f.u >= u-onEdge*max(1, u) }

func near(a, b float64) bool { return math.Abs(a-b) <= onEdge*max(1, math.Abs(a)) }

// check is a point at which a stretch still has to be proven.
type check struct{ u, x, need, from float64 }

// run adds buys until every stretch wanted is proven. wanted picks, of the
// stretches from low x to high, those that matter.
func (s *sweep) run(ctx context.Context, most float64, wanted func([]piece) []piece) error {
	for {
		c, ok := s.next(wanted(s.pieces(most)))
		if !ok {
			return nil
		}
		if s.solves >= s.most {
			s.unproven = fmt.Sprintf("%d solves did not settle it", s.solves)
			return nil
		}
		if err := s.settle(ctx, c); err != nil {
			return err
		}
		if s.unproven != "" {
			return nil
		}
	}
}

// pieces is the envelope cut where a stretch has to be proven in parts.
func (s *sweep) pieces(most float64) []piece {
	var out []piece
	for _, p := range envelope(s.pool, 0, most) {
		out = append(out, s.split(p)...)
	}
	return out
}

// split is a piece in the parts that it is proven in.
func (s *sweep) split(p piece) []piece {
	var out []piece
	for _, cut := range s.cuts { // rising
		if cut > p.lo+onEdge && cut < p.hi-onEdge {
			left := p
			left.hi, left.jump = cut, true
			out = append(out, left)
			p.lo = cut
		}
	}
	return append(out, p)
}

// next is the first point that the pieces still need proven. Where delivery hangs
// on the price, the buys at each end are found before any stretch is proven: with
// them known, few stretches have to be cut.
func (s *sweep) next(list []piece) (check, bool) {
	if s.hinged {
		for _, p := range list {
			top := s.top(p)
			if top <= p.lo {
				continue
			}
			// At its low end a stretch may begin because an order just comes free
			// there, so goods are valued a grain above, if it is as long as that.
			ends := []check{{p.lo + s.grain, p.lo, p.value(p.lo), p.lo}, {top, top, p.value(top), p.lo}}
			if top < p.lo+s.grain {
				ends = ends[1:]
			}
			for _, c := range ends {
				if !s.known(c.u, c.x, c.need) {
					return c, true
				}
			}
		}
	}
	for _, p := range list {
		u := s.top(p)
		if s.hinged && (u <= 0 || u-p.lo < s.grain) {
			continue // closer together than changes are told apart
		}
		for _, x := range []float64{p.lo, u} {
			if need := p.value(x); !s.known(u, x, need) {
				return check{u, x, need, p.lo}, true
			}
		}
	}
	if s.hinged {
		for _, p := range list {
			for _, x := range s.askable(p) {
				if need := p.value(x); !s.known(x, x, need) {
					return check{x, x, need, p.lo}, true
				}
			}
		}
	}
	return check{}, false
}

// askable are the prices in whole grains, as a yard could ask them, on the part of
// a stretch that is not proven as a whole: the last grain before a jump, or all of
// it where little is left without that.
func (s *sweep) askable(p piece) (out []float64) {
	from := p.lo
	if u := s.top(p); u > 0 && u-p.lo >= s.grain {
		from = u
	}
	for k := math.Ceil(from/s.grain - onEdge); k*s.grain < p.hi-onEdge*max(1, p.hi); k++ {
		out = append(out, k*s.grain)
	}
	return out
}

// top is the highest x at which what holds on the stretch can be solved for.
func (s *sweep) top(p piece) float64 {
	if s.hinged && p.jump {
		return p.hi - s.grain
	}
	return p.hi
}

// settle solves at a point and adds what is cheaper there, or notes that nothing
// is. Where goods come so close to a threshold that the solver's own tolerance
// decides, neither may come of it; such a point is given up, and what is told of its
// stretch is not proven.
func (s *sweep) settle(ctx context.Context, c check) error {
	asked, pool, cuts := c, len(s.pool), len(s.cuts)
	found, value, u, err := s.solve(ctx, c.u, c.x, c.need)
	c.u = u
	if err != nil || s.unproven != "" {
		return err
	}
	if found == nil {
		s.note(c.u, c.x, c.need)
		return nil
	}
	defer func() {
		if len(s.pool) == pool && len(s.cuts) == cuts {
			s.stuck = append(s.stuck, asked)
		}
	}()
	s.note(c.u, c.x, value)
	if !slices.ContainsFunc(s.pool, func(o *candidate) bool { return o.key == found.key }) {
		s.pool = append(s.pool, found)
	}
	if i, ok := found.active(c.u); ok && s.hinged && c.u > c.x {
		// Let off at the value u but not yet at x: the stretch falls into parts.
		// The cut half way keeps a crowd of such buys, each let off a little
		// sooner than the last, from being met one by one.
		if from := found.segments[i].fromF; from > c.from+onEdge {
			s.cut(from)
			if from > c.from+s.grain {
				s.cut((c.from + from) / 2)
			}
		}
	}
	return nil
}

// cut has stretches proven in parts below and above x.
func (s *sweep) cut(x float64) {
	if !slices.ContainsFunc(s.cuts, func(v float64) bool { return near(v, x) }) {
		s.cuts = append(s.cuts, x)
		slices.Sort(s.cuts)
	}
}

// solve looks for a buy that costs less than need at price x with goods valued
// at u. A nil candidate says that there is none. The u used is given back: it may
// be a little higher.
func (s *sweep) solve(ctx context.Context, u, x, need float64) (found *candidate, value, used float64, err error) {
	if !s.hinged {
		u = x
	}
	opt := optimise.Options{CutOff: max(need, math.SmallestNonzeroFloat64)}
	if need <= halfCent {
		return nil, 0, u, nil // no purchase costs less than nothing
	}
	if !s.until.IsZero() {
		left := time.Until(s.until)
		if left <= 0 {
			s.unproven = lateWords
			return nil, 0, u, nil
		}
		opt.TimeLimit = left
	}
	s.solves++
	plan, job, err := s.solveAt(ctx, opt, u, x)
	if err != nil && s.hinged && ctx.Err() == nil {
		// A purchase whose goods come to a threshold within the solver's own
		// tolerance is free to the solver and not to the bill. A third of a grain
		// away it is clear of it.
		u += s.grain / 3
		plan, job, err = s.solveAt(ctx, opt, u, x)
	}
	if err != nil && late(ctx, s.until) {
		s.unproven = lateWords
		return nil, 0, u, nil
	}
	if err != nil {
		return nil, 0, u, fmt.Errorf("%s at %.4f: %w", s.t.Name, x, err)
	}
	switch plan.Status {
	case optimise.Infeasible:
		return nil, 0, u, nil
	case optimise.TimeLimit:
		s.unproven = lateWords
		return nil, 0, u, nil
	case optimise.Optimal:
	default:
		return nil, 0, u, fmt.Errorf("%s at %.4f: the search ended with status %q, want an answer", s.t.Name, x, plan.Status)
	}
	found, err = s.w.newCandidate(s.t, translate(plan.Purchase, job, s.w.job))
	if err != nil {
		return nil, 0, u, err
	}
	i, ok := found.active(u)
	if !ok {
		i = 0 // on the edge of its smallest order, within the solver's tolerance
	}
	value = found.segments[i].value(x)
	if value >= need-tie {
		return nil, 0, u, nil
	}
	return found, value, u, nil
}

func (s *sweep) solveAt(ctx context.Context, opt optimise.Options, u, x float64) (*optimise.Plan, *quotes.Job, error) {
	du, dx := decimalAt(u), decimalAt(x)
	base := s.w.job
	if !du.Equal(dx) {
		base = s.w.plain
	}
	job := s.t.at(base, du, dx)
	opt.From, opt.Keep = s.proofs.nearest(x), true
	plan, err := optimise.Solve(ctx, job, opt)
	if plan != nil {
		s.proofs.add(x, plan.Proof)
	}
	return plan, job, err
}

// lateWords say why something is not proven.
const lateWords = "the time limit came first"

func decimalAt(x float64) units.Decimal { return units.DecimalOf(x).Round(xDigits) }
