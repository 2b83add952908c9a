package optimise

import (
	"slices"

	"mediabuy/quotes"
	"mediabuy/units"
)

// drop is one way for a supplier's goods to reach one site: a row of the
// delivery terms, or free delivery where a supplier has stated none.
type drop struct {
	supplier, site string
	row            *quotes.Delivery
}

// freeDelivery stands for a supplier who states no delivery terms at all.
func freeDelivery(supplier string) *quotes.Delivery {
	return &quotes.Delivery{Supplier: supplier, Name: "delivered", Covers: quotes.Forms}
}

// dropsTo lists how supplier reaches site, in file order: none if it has terms
// but none for that site, one free drop if it has no terms.
func dropsTo(job *quotes.Job, supplier, site string) []drop {
	var out []drop
	any := false
	for _, d := range job.Delivery {
		if d.Supplier != supplier {
			continue
		}
		any = true
		if d.Site == "" || d.Site == site {
			out = append(out, drop{supplier, site, d})
		}
	}
	if !any {
		out = append(out, drop{supplier, site, freeDelivery(supplier)})
	}
	return out
}

// carries reports whether the drop takes goods of form f.
func (d drop) carries(f quotes.Form) bool { return slices.Contains(d.row.Covers, f) }

// goodsTax and dropTax are the shares really added to a bill: none where prices
// already carry tax.
func goodsTax(job *quotes.Job, q *quotes.Quote) units.Decimal {
	if job.Settings.TaxIncluded {
		return units.Decimal{}
	}
	return q.Tax
}

func dropTax(job *quotes.Job, d *quotes.Delivery) units.Decimal {
	if job.Settings.TaxIncluded {
		return units.Decimal{}
	}
	return d.Tax
}

// beforeTax is the part of a goods price that counts towards free_over and
// min_order, which are values before tax: all of it, unless prices carry tax.
func beforeTax(job *quotes.Job, q *quotes.Quote, goods units.Money) units.Money {
	if !job.Settings.TaxIncluded || q.Tax.IsZero() {
		return goods
	}
	return units.MoneyOf(goods.Decimal().Quo(units.DecimalFromInt(1).Add(q.Tax)))
}

// level is one price level of a break pool: from so many packs of the pool on,
// each of its quotes costs this much.
type level struct {
	from   units.Decimal
	prices []units.Money // by member of the pool
}

// pool is the quotes whose packs reach price breaks together: one quote by
// itself, or a supplier's break group.
type pool struct {
	name    string
	members []int // indexes into Job.Quotes
	kind    quotes.BreakKind
	levels  []level // the first from 0
}

// poolsOf lists the pools of the job in order of their first quote.
func poolsOf(job *quotes.Job) []*pool {
	var out []*pool
	byGroup := map[[2]string]*pool{}
	for i, q := range job.Quotes {
		if q.BreakGroup == "" {
			out = append(out, &pool{name: q.Name, members: []int{i}, kind: q.BreakKind})
			continue
		}
		key := [2]string{q.Supplier, q.BreakGroup}
		p := byGroup[key]
		if p == nil {
			p = &pool{name: q.Supplier + "/" + q.BreakGroup, kind: q.BreakKind}
			byGroup[key] = p
			out = append(out, p)
		}
		p.members = append(p.members, i)
	}
	for _, p := range out {
		p.fillLevels(job)
	}
	return out
}

// fillLevels merges the members' breaks: a level begins wherever any member's
// price falls, and each member is at its own last price reached.
func (p *pool) fillLevels(job *quotes.Job) {
	froms := []units.Decimal{{}}
	for _, i := range p.members {
		for _, b := range job.Quotes[i].Breaks {
			if !slices.ContainsFunc(froms, b.From.Equal) {
				froms = append(froms, b.From)
			}
		}
	}
	slices.SortFunc(froms, units.Decimal.Cmp)
	for _, from := range froms {
		l := level{from: from}
		for _, i := range p.members {
			l.prices = append(l.prices, job.Quotes[i].PriceAt(from))
		}
		p.levels = append(p.levels, l)
	}
}

// before is how many packs of the pool are bought at prices before level l of
// an incremental pool: the largest whole number of steps below its threshold,
// since the step that brings the sum to the break is the first at the new price.
func (p *pool) before(job *quotes.Job, l int) units.Decimal {
	from := p.levels[l].from
	if from.Sign() <= 0 {
		return units.Decimal{}
	}
	step := job.Quotes[p.members[0]].Step
	n := stepsUp(from, step) - 1
	return step.Mul(units.DecimalFromInt(int64(max(0, n))))
}

// stepsUp is the fewest steps that make at least n packs.
func stepsUp(n, step units.Decimal) int {
	steps, err := n.Quo(step).Ceil()
	if err != nil {
		return maxSteps
	}
	return int(min(steps, maxSteps))
}

// stepsDown is the most steps that make at most n packs.
func stepsDown(n, step units.Decimal) int {
	steps, err := n.Quo(step).Floor()
	if err != nil {
		return maxSteps
	}
	return int(min(steps, maxSteps))
}

// maxSteps bounds every count of packs: a billion bags are no order.
const maxSteps = 1_000_000_000
