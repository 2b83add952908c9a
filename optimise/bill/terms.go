package bill

import (
	"slices"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Drop is one way for a supplier's goods to reach one site: a row of the
// delivery terms, or free delivery where a supplier has stated none.
type Drop struct {
	Supplier, Site string
	Row            *quotes.Delivery
}

// freeDelivery stands for a supplier who states no delivery terms at all.
func freeDelivery(supplier string) *quotes.Delivery {
	return &quotes.Delivery{Supplier: supplier, Name: "delivered", Covers: quotes.Forms}
}

// DropsTo lists how supplier reaches site, in file order: none if it has terms
// but none for that site, one free drop if it has no terms.
func DropsTo(job *quotes.Job, supplier, site string) []Drop {
	var out []Drop
	any := false
	for _, d := range job.Delivery {
		if d.Supplier != supplier {
			continue
		}
		any = true
		if d.Site == "" || d.Site == site {
			out = append(out, Drop{supplier, site, d})
		}
	}
	if !any {
		out = append(out, Drop{supplier, site, freeDelivery(supplier)})
	}
	return out
}

// Carries reports whether the drop takes goods of form f.
func (d Drop) Carries(f quotes.Form) bool { return slices.Contains(d.Row.Covers, f) }

// GoodsTax and dropTax are the shares really added to a bill: none where prices
// already carry tax.
func GoodsTax(job *quotes.Job, q *quotes.Quote) units.Decimal {
	if job.Settings.TaxIncluded {
		return units.Decimal{}
	}
	return q.Tax
}

func DropTax(job *quotes.Job, d *quotes.Delivery) units.Decimal {
	if job.Settings.TaxIncluded {
		return units.Decimal{}
	}
	return d.Tax
}

// BeforeTax is the part of a goods price that counts towards free_over and
// min_order, which are values before tax: all of it, unless prices carry tax.
func BeforeTax(job *quotes.Job, q *quotes.Quote, goods units.Money) units.Money {
	if !job.Settings.TaxIncluded || q.Tax.IsZero() {
		return goods
	}
	return units.MoneyOf(goods.Decimal().Quo(units.DecimalFromInt(1).Add(q.Tax)))
}

// level is one price level of a break pool: from so many packs of the pool on,
// each of its quotes costs this much.
type level struct {
	From   units.Decimal
	Prices []units.Money // by member of the pool
}

// Pool is the quotes whose packs reach price breaks together: one quote by
// itself, or a supplier's break group.
type Pool struct {
	Name    string
	Members []int // indexes into Job.Quotes
	Kind    quotes.BreakKind
	Levels  []level // the first from 0
}

// Pools lists the pools of the job in order of their first quote.
func Pools(job *quotes.Job) []*Pool {
	var out []*Pool
	byGroup := map[[2]string]*Pool{}
	for i, q := range job.Quotes {
		if q.BreakGroup == "" {
			out = append(out, &Pool{Name: q.Name, Members: []int{i}, Kind: q.BreakKind})
			continue
		}
		key := [2]string{q.Supplier, q.BreakGroup}
		p := byGroup[key]
		if p == nil {
			p = &Pool{Name: q.Supplier + "/" + q.BreakGroup, Kind: q.BreakKind}
			byGroup[key] = p
			out = append(out, p)
		}
		p.Members = append(p.Members, i)
	}
	for _, p := range out {
		p.fillLevels(job)
	}
	return out
}

// fillLevels merges the members' breaks: a level begins wherever any member's
// price falls, and each member is at its own last price reached.
func (p *Pool) fillLevels(job *quotes.Job) {
	froms := []units.Decimal{{}}
	for _, i := range p.Members {
		for _, b := range job.Quotes[i].Breaks {
			if !slices.ContainsFunc(froms, b.From.Equal) {
				froms = append(froms, b.From)
			}
		}
	}
	slices.SortFunc(froms, units.Decimal.Cmp)
	for _, from := range froms {
		l := level{From: from}
		for _, i := range p.Members {
			l.Prices = append(l.Prices, job.Quotes[i].PriceAt(from))
		}
		p.Levels = append(p.Levels, l)
	}
}

// Before is how many packs of the pool are bought at prices before level l of
// an incremental pool: the largest whole number of steps below its threshold,
// since the step that brings the sum to the break is the first at the new price.
func (p *Pool) Before(job *quotes.Job, l int) units.Decimal {
	from := p.Levels[l].From
	if from.Sign() <= 0 {
		return units.Decimal{}
	}
	step := job.Quotes[p.Members[0]].Step
	n := StepsUp(from, step) - 1
	return step.Mul(units.DecimalFromInt(int64(max(0, n))))
}

// StepsUp is the fewest steps that make at least n packs.
func StepsUp(n, step units.Decimal) int {
	steps, err := n.Quo(step).Ceil()
	if err != nil {
		return MaxSteps
	}
	return int(min(steps, MaxSteps))
}

// StepsDown is the most steps that make at most n packs.
func StepsDown(n, step units.Decimal) int {
	steps, err := n.Quo(step).Floor()
	if err != nil {
		return MaxSteps
	}
	return int(min(steps, MaxSteps))
}

// MaxSteps bounds every count of packs: a billion bags are no order.
const MaxSteps = 1_000_000_000
