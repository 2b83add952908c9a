package breakeven

import "math"

// piece is a stretch of x on which one segment of one candidate is the cheapest
// known.
type piece struct {
	lo, hi float64
	cand   *candidate
	seg    int
	// jump says that at hi something is let off a fee or is first taken, so that
	// what holds below hi need not hold at it.
	jump bool
}

func (p piece) value(x float64) float64 { return p.cand.segments[p.seg].value(x) }

// tie is how near two totals count as the same: far below half a cent, far
// above the noise of sums in binary fractions.
const tie = 1e-7

// lowest is the cheapest candidate just right of x: of those that cost the same
// at x the one that rises least, then the first.
func lowest(pool []*candidate, x float64) (*candidate, int) {
	var best *candidate
	seg := 0
	for _, c := range pool {
		i, ok := c.active(x)
		if !ok {
			continue
		}
		if best == nil {
			best, seg = c, i
			continue
		}
		d := c.segments[i].value(x) - best.segments[seg].value(x)
		if d < -tie || d <= tie && c.segments[i].bF < best.segments[seg].bF-tie {
			best, seg = c, i
		}
	}
	return best, seg
}

// envelope walks along the cheapest of the pool from lo to hi: from each point
// to the first x where another candidate falls below the present one or begins
// below it, or where the present one is let off a fee. The first of the pool
// must cover the whole stretch.
func envelope(pool []*candidate, lo, hi float64) []piece {
	var out []piece
	x := lo
	for x < hi {
		cur, seg := lowest(pool, x)
		s := cur.segments[seg]
		next, jump := hi, false
		eps := onEdge * max(1, x)
		consider := func(at float64, isJump bool) {
			if at > x+eps && at < next {
				next, jump = at, isJump
			}
		}
		if seg+1 < len(cur.segments) {
			consider(cur.segments[seg+1].fromF, true)
		}
		for _, c := range pool {
			for i, o := range c.segments {
				end := math.Inf(1)
				if i+1 < len(c.segments) {
					end = c.segments[i+1].fromF
				}
				if o.bF < s.bF-tie {
					if at := (o.aF - s.aF) / (s.bF - o.bF); at >= o.fromF && at < end {
						consider(at, false)
					}
				}
				if o.fromF > x && o.value(o.fromF) < s.value(o.fromF)-tie {
					consider(o.fromF, true)
				}
			}
		}
		if n := len(out); n > 0 && out[n-1].cand == cur && out[n-1].seg == seg {
			out[n-1].hi, out[n-1].jump = next, jump
		} else {
			out = append(out, piece{x, next, cur, seg, jump})
		}
		x = next
	}
	return out
}
