package breakeven

import "mediabuy/units"

// stretches picks those to prove: for a target of the plan from 0 to where it
// leaves, for another from 0 to today's x. Of the stretch beyond the last change
// only the end that faces it is proven. With nearest they begin at today's x, or
// end going down where the target enters. With beyond they go on above where a target
// of the plan leaves it, as a dearer order of it may come free there.
func stretches(list []piece, t Target, now float64, inPlan, nearest, beyond bool) []piece {
	var out []piece
	for _, p := range list {
		switch {
		case inPlan && nearest && p.hi <= now, !inPlan && p.lo >= now:
			continue
		case inPlan && nearest:
			p.lo = max(p.lo, now)
		case !inPlan && p.hi > now:
			p.hi, p.jump = now, false
		}
		if inPlan && !beyond && p.lo >= now && !p.cand.holds(t) {
			break
		}
		out = append(out, p)
	}
	if !inPlan && nearest {
		for i := len(out) - 1; i >= 0; i-- {
			if out[i].cand.holds(t) {
				return out[i+1:]
			}
		}
	}
	return out
}

// collect tells the pieces, changes and thresholds of the buys found. Changes
// are told outwards from today's x as far as the stretches are proven.
func (s *sweep) collect(out *Series, most float64, nearest bool) {
	confirmed := map[string]bool{}
	for _, c := range out.Changes {
		if c.Confirmed {
			confirmed[c.At.String()] = true
		}
	}
	out.Pieces, out.Changes, out.Enters, out.Leaves = nil, nil, nil, nil
	list := envelope(s.pool, 0, most)
	now := out.Target.Now
	var from units.Decimal
	for i, p := range list {
		seg := p.cand.segments[p.seg]
		to := decimalAt(p.hi)
		if i+1 < len(list) {
			to = exactEnd(p, list[i+1])
		} else if t := out.Target.Most; t.Cmp(now) > 0 {
			to = t
		}
		out.Pieces = append(out.Pieces, Piece{
			From: from, To: to, A: seg.a, B: seg.b, Buy: p.cand.bought, None: seg.none, jump: p.jump, cand: p.cand, holds: p.cand.holds(s.t),
			Proven: s.proven(p),
		})
		from = to
	}
	first, last := s.told(out, list, nearest)
	for i := first; i < last; i++ {
		a, b := out.Pieces[i], out.Pieces[i+1]
		if !sameBuy(a.Buy, b.Buy) {
			out.Changes = append(out.Changes, Change{At: a.To, Below: a.Buy, Above: b.Buy, Jump: a.jump, Confirmed: confirmed[a.To.String()]})
		}
		switch {
		case out.InPlan && a.holds && !b.holds && a.To.Cmp(now) >= 0 && out.Leaves == nil:
			out.Leaves = &a.To
		case !out.InPlan && a.holds && !b.holds && a.To.Cmp(now) <= 0:
			out.Enters = &a.To
		}
	}
}

// told is the first and the last piece whose changes between are proven: from
// the piece of today outwards, as far as stretches are. A search for the nearest
// change looks one way only, and of a target that is not in the plan nothing is
// asked above today's x. Where it leaves the plan may be all that was looked for.
func (s *sweep) told(out *Series, list []piece, nearest bool) (first, last int) {
	now := s.t.Now.Float()
	if s.left != nil {
		for i, p := range out.Pieces[:len(out.Pieces)-1] {
			if list[i].hi > now && p.holds && !out.Pieces[i+1].holds {
				return i, i + 1
			}
		}
	}
	today := 0
	for i, p := range out.Pieces {
		// Where two buys cost the same today the plan is the one below; where an
		// order comes free just today, the one above.
		c := p.From.Cmp(s.t.Now)
		if c < 0 || c == 0 && (!out.InPlan || i > 0 && out.Pieces[i-1].jump) {
			today = i
		}
	}
	first, last = today, today
	below, above := list[today], list[today]
	if below.hi > now {
		below.hi, below.jump = now, false
	}
	above.lo = min(above.hi, max(above.lo, now))
	if !out.InPlan || !nearest {
		for ok := s.proven(below); ok && first > 0; ok = s.proven(list[first]) {
			first--
			if nearest && list[first].cand.holds(s.t) {
				break
			}
		}
	}
	if out.InPlan {
		for ok := s.proven(above); ok && last+1 < len(list); ok = s.proven(list[last]) {
			last++
			if !list[last].cand.holds(s.t) {
				break
			}
		}
	}
	return first, last
}

// proven reports whether nothing is cheaper on the whole piece. What does not
// move with x stays cheapest above where it is cheapest, unless the price hangs on
// delivery.
func (s *sweep) proven(p piece) bool {
	if p.cand.segments[p.seg].b.IsZero() && !s.hinged {
		p.hi = p.lo
	}
	if s.isStuck(p) {
		return false
	}
	_, open := s.next(s.split(p))
	return !open
}

// exactEnd is where piece a gives way to b, in decimals: where b begins, or the
// crossing of their lines.
func exactEnd(a, b piece) units.Decimal {
	sa, sb := a.cand.segments[a.seg], b.cand.segments[b.seg]
	if a.jump {
		return sb.from.Round(xDigits)
	}
	return sb.a.Sub(sa.a).Quo(sa.b.Sub(sb.b)).Round(xDigits)
}

// toldDigits are the decimals of a change's place.
const toldDigits = 4
