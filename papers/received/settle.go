package received

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Counted is one quote at one site: what was ordered, what came, what of it is
// good. All amounts are packs.
type Counted struct {
	Quote    *quotes.Quote
	Site     string
	Orders   []string // numbers of the orders, sorted
	Ordered  units.Decimal
	Arrived  units.Decimal
	Rejected units.Decimal
	// Worth is the goods money of what is missing or was rejected, at the order's
	// price, before tax; 0 if nothing is.
	Worth units.Money
	Notes []string      // as written, in the order read
	Days  []quotes.Date // on which something came, where that is said
}

// Accepted is what came and was kept.
func (c Counted) Accepted() units.Decimal { return c.Arrived.Sub(c.Rejected) }

// Short is what was ordered and is not there in good order; 0 if nothing.
func (c Counted) Short() units.Decimal { return above(c.Ordered.Sub(c.Accepted())) }

// Over is what came in good order and was not ordered; 0 if nothing.
func (c Counted) Over() units.Decimal { return above(c.Accepted().Sub(c.Ordered)) }

func above(d units.Decimal) units.Decimal {
	if d.Sign() < 0 {
		return units.Decimal{}
	}
	return d
}

// Count adds up arrivals, of however many days and files, against what was
// ordered: one entry for each quote and site that was ordered or came, by
// supplier, site and quote.
func Count(job *quotes.Job, ordered []Ordered, arrived []Arrival) []Counted {
	var out []Counted
	amounts := map[int]units.Money{}
	at := func(q *quotes.Quote, site string) int {
		i := slices.IndexFunc(out, func(c Counted) bool { return c.Quote == q && c.Site == site })
		if i < 0 {
			i = len(out)
			out = append(out, Counted{Quote: q, Site: site})
		}
		return i
	}
	for _, o := range ordered {
		i := at(o.Quote, o.Site)
		out[i].Ordered = out[i].Ordered.Add(o.Packs)
		amounts[i] = amounts[i].Add(o.Amount)
		if !slices.Contains(out[i].Orders, o.Order) {
			out[i].Orders = append(out[i].Orders, o.Order)
		}
	}
	for _, a := range arrived {
		i := at(a.Quote, a.Site)
		out[i].Arrived = out[i].Arrived.Add(a.Packs)
		out[i].Rejected = out[i].Rejected.Add(a.Rejected)
		if !a.Day.IsZero() && !slices.Contains(out[i].Days, a.Day) {
			out[i].Days = append(out[i].Days, a.Day)
		}
		if a.Note != "" {
			out[i].Notes = append(out[i].Notes, a.Note)
		}
	}
	for i := range out {
		slices.Sort(out[i].Orders)
		if short := out[i].Short(); short.Sign() > 0 {
			out[i].Worth = units.MoneyOf(amounts[i].Decimal().Mul(short).Quo(out[i].Ordered)).Round(job.Settings.CurrencyDigits)
		}
	}
	slices.SortStableFunc(out, func(a, b Counted) int {
		return cmp.Or(cmp.Compare(a.Quote.Supplier, b.Quote.Supplier), cmp.Compare(a.Site, b.Site), cmp.Compare(a.Quote.Name, b.Quote.Name))
	})
	return out
}

// Settlement is the count and the cheapest way to finish.
type Settlement struct {
	Counted []Counted
	Day     quotes.Date // the pricing day of what is still to buy
	*optimise.Finish
	// Used is how much of each stock of Counted goes into the beds, in placed litres.
	Used []units.Litres
}

// Stock is what of the count is there and good, for [optimise.FinishWith].
func Stock(counted []Counted) []optimise.Stock {
	var out []optimise.Stock
	for _, c := range counted {
		if c.Accepted().Sign() > 0 {
			out = append(out, optimise.Stock{Quote: c.Quote, Site: c.Site, Packs: c.Accepted()})
		}
	}
	return out
}

// Settled puts a count and the way to finish that was found for it together.
func Settled(counted []Counted, day quotes.Date, finish *optimise.Finish) *Settlement {
	s := &Settlement{Counted: counted, Day: day, Finish: finish}
	if finish.Plan.Bill == nil {
		return s
	}
	s.Used = make([]units.Litres, len(counted))
	next := 0
	for i, c := range counted {
		if c.Accepted().Sign() > 0 {
			s.Used[i] = finish.Used[next]
			next++
		}
	}
	return s
}

// Words say in sentences what it takes to finish the beds, or what stands in the way.
func (s *Settlement) Words(money func(units.Money) string) []string {
	switch {
	case s.Plan.Bill == nil:
		return []string{fmt.Sprintf("Nothing that is there or quoted on %s finishes the beds:", s.Day)}
	case len(s.Buy) == 0:
		return append([]string{"What is there fills every bed; nothing more is needed."}, s.sureWords()...)
	}
	out := []string{fmt.Sprintf("Pay %s more, at the quotes that hold on %s; what is there is counted as paid for and what is missing as not coming.", money(s.ToPay), s.Day)}
	if s.Plan.Status != optimise.Optimal {
		out = append(out, "Not proven: time was up, and a cheaper way may exist.")
	}
	return append(out, s.sureWords()...)
}

// sureWords say how sure the beds are filled, where the job asks for it.
func (s *Settlement) sureWords() []string {
	asked := s.Plan.Job.Settings.Sure
	if asked <= 0 {
		return nil
	}
	in := min(99, math.Floor(100*s.Sure))
	return []string{fmt.Sprintf("Every bed is then full in %.0f of 100 cases; %.0f are asked for.", in, 100*asked)}
}
