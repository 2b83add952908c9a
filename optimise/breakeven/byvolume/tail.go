package byvolume

import (
	"math"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
	"mediabuy/units"
)

// tail is how a quote's price runs on at large volumes when it comes one way:
// from volume from on, v placed litres cost rate·v + base, give or take slack.
type tail struct {
	rate, base, slack, from float64
	endless                 bool // not bounded by stock
}

// tails works out the lasting rate of a quote for each way it can come.
//
// Past its last break, and past free delivery and the smallest order, n steps
// cost goods + rinsing + haul, which are proportional to n but for a constant, and
// either no fees or an order fee and loads·fee, where loads is within one of
// n × the larger of its shares of a load's volume and weight. Placed litres need
// within one step of v ÷ litres per step.
func (p *pricer) tails() []tail {
	q := *p.q
	q.MaxQty = nil // how its price would run on if there were stock
	only := *p
	only.q = &q
	job := *p.job
	job.Quotes = []*quotes.Quote{&q}
	only.job = &job

	step := q.Step.Float()
	perStep := float64(q.Placed()) * step
	lift := func(tax units.Decimal) float64 {
		if job.Settings.TaxIncluded {
			return 1
		}
		return 1 + tax.Float()
	}
	levels := q.Levels()
	last := levels[len(levels)-1]
	value := last.Price.Float() * step // what each step adds to free_over and min_order
	if job.Settings.TaxIncluded {
		value /= 1 + q.Tax.Float()
	}
	rinse := job.Settings.LabourRate.Float() * q.RinseHours() * step
	unit := math.Pow(10, -float64(job.Settings.CurrencyDigits))
	ways := p.ways
	if len(ways) == 0 {
		ways = []*quotes.Delivery{{Trucks: []quotes.Truck{{}}}}
	}
	var out []tail
	for _, w := range ways {
		n := max(1, last.From.Float()/step, q.MinQty.Float()/step)
		for _, goal := range []*units.Money{w.FreeOver, w.MinOrder} {
			if goal != nil && value > 0 {
				n = max(n, goal.Float()/value)
			}
		}
		if n >= math.MaxInt32 {
			n = math.MaxInt32 - 1
		}
		n = math.Ceil(n) + 1
		// By the truck that carries a litre cheapest; a mix of sizes is dearer by less
		// than one load of it, and cheaper never.
		carrying, load := math.Inf(1), 0.0
		for _, t := range w.Trucks {
			fee := t.Fee.Float() * lift(w.Tax)
			if r := fee * float64(q.PackLitres) * step / bill.Capacity(t, &q); r < carrying {
				carrying, load = r, fee
			}
		}
		rate := last.Price.Float()*step*lift(q.Tax) + rinse + w.Haul.PerLitre()*float64(q.PackLitres)*step*lift(w.Tax)
		if free := w.FreeOver != nil && (value > 0 || w.FreeOver.Sign() <= 0); !free {
			rate += carrying
		}
		if len(p.ways) > 0 {
			only.ways = []*quotes.Delivery{w}
		}
		total := only.total(int64(n))
		if total == nil {
			continue // goods worth nothing never reach a smallest order
		}
		out = append(out, tail{
			rate: rate / perStep, base: total.Float() - rate*n, from: n * perStep, endless: p.q.MaxQty == nil,
			// A step more or less, a load more or less here and at n, and the
			// rounding of a few lines.
			slack: rate + 2*load + 10*unit,
		})
	}
	return out
}

// settledFrom is the volume from which on one side is cheaper than the other
// whatever follows, by the tails of their quotes; ok is false where neither is.
func settledFrom(left, right []tail) (from float64, winner Winner, ok bool) {
	beats := func(win, lose []tail) float64 {
		best := math.Inf(1)
		for _, w := range win {
			if !w.endless {
				continue
			}
			at := w.from
			for _, l := range lose {
				at = max(at, l.from)
				gap := w.base + w.slack - (l.base - l.slack)
				switch {
				case gap < 0 && w.rate <= l.rate:
				case w.rate < l.rate*(1-1e-12):
					at = max(at, gap/(l.rate-w.rate))
				default:
					at = math.Inf(1)
				}
			}
			best = min(best, at)
		}
		return best
	}
	l, r := beats(left, right), beats(right, left)
	switch {
	case math.IsInf(l, 1) && math.IsInf(r, 1):
		return 0, Equal, false
	case l <= r:
		return l, Left, true
	}
	return r, Right, true
}
