package message

import (
	"maps"
	"slices"
	"strings"

	"mediabuy/quotes/files"
	"mediabuy/units"
)

// Cautious is the proposal with every question answered by the reading that costs the buyer most. What is doubtful is taken where it can
// only cost: fees, taxes, fewest and most packs, days. A doubtful price or rebate, or a value from which delivery is free, is left out.
func (p *Proposal) Cautious() (*Proposal, error) {
	for len(p.Asked) > 0 {
		src := p.from
		for _, q := range p.Asked {
			src = src.with(q.choice.answers(q.costliest(p.from.job.Habit()), q.base))
		}
		next, err := src.read()
		if err != nil {
			return nil, err
		}
		p = next // each round has answered a question more, and there are no more than the message has bytes
	}
	return p, nil
}

// costing are the cells that only cost the buyer, or let him buy less, the weightiest first; with them stand those that only say what a
// fee is for.
var (
	costing = []string{"load_fee", "haul", "order_fee", "delivery", "min_order", "tax", "min_qty", "max_qty", "rinse_loss", "valid_until", "ready_by"}
	saying  = set("supplier name covers load_volume load_weight free_over notes")
)

// costliest is the answer that costs most: of several that only cost, the one with the greatest amount, and of a most number of packs
// and a last day the least one.
func (q Question) costliest(mark units.DecimalMark) int {
	best, cost := q.choice.costly, weight{at: len(costing)}
	if !q.choice.leaves {
		return best
	}
	for _, reading := range q.Readings {
		if w, ok := reading.weigh(mark); ok && w.over(cost) {
			best, cost = reading.answer, w
		}
	}
	return best
}

// weight is what a reading costs, to be held against others: the heading that weighs, by its place in costing, how much stands there,
// and whether what a load holds is said, which may make it several.
type weight struct {
	at     int
	amount units.Decimal
	loads  bool
}

// over says whether w costs more than v. A fee for each load costs no less than one for each order of the same amount.
func (w weight) over(v weight) bool {
	if c := w.amount.Cmp(v.amount); c != 0 && (w.at == v.at || w.fee() && v.fee()) {
		return c > 0
	}
	return w.at < v.at || w.at == v.at && w.loads && !v.loads
}

func (w weight) fee() bool { return w.at < slices.Index(costing, "min_order") }

// weigh is what a reading costs; false for one that may spare the buyer something, or says nothing.
func (g Reading) weigh(mark units.DecimalMark) (weight, bool) {
	w := weight{at: len(costing)}
	for _, change := range g.Changes() {
		if change.New && change.File == files.QuotesFile {
			return w, false // a price
		}
		for _, column := range slices.Sorted(maps.Keys(change.Cells)) {
			at := slices.Index(costing, column)
			switch {
			case at < 0 && !saying[column]:
				return w, false
			case at >= 0 && at < w.at:
				w.at, w.amount = at, amountOf(column, change.Cells[column], mark)
			}
			w.loads = w.loads || column == "load_volume" || column == "load_weight"
		}
	}
	return w, w.at < len(costing)
}

// amountOf is how much a cell costs; of what limits, the less the more.
func amountOf(column, text string, mark units.DecimalMark) units.Decimal {
	switch column {
	case "load_fee", "order_fee", "delivery", "min_order":
		if m, err := units.ParseMoney(text, mark); err == nil {
			return m.Decimal()
		}
	case "haul":
		if m, err := units.ParsePerVolume(text, mark); err == nil {
			return m.Money.Decimal()
		}
	case "tax", "rinse_loss":
		if share, err := units.ParseShare(text, mark); err == nil {
			return share
		}
	case "min_qty", "max_qty":
		if n, err := units.ParseNumber(text, mark); err == nil && column == "min_qty" {
			return n
		} else if err == nil {
			return units.Decimal{}.Sub(n)
		}
	case "valid_until", "ready_by":
		if d, err := units.ParsePlainDecimal(strings.Map(onlyDigits, text)); err == nil && column == "ready_by" {
			return d
		} else if err == nil {
			return units.Decimal{}.Sub(d)
		}
	}
	return units.Decimal{}
}
