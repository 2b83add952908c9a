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
	Orders   []string // numbers of the orders that were written, sorted
	Ordered  units.Decimal
	Arrived  units.Decimal
	Rejected units.Decimal
	// Coming is what of it is still under way, see [underWay].
	Coming []Coming
	// Worth is the goods money of what is missing or was rejected, at the order's
	// price, before tax; 0 if nothing is.
	Worth units.Money
	Bills []Bill        // of what came, where a bill was looked at, in the order read
	Notes []string      // as written, in the order read
	Why   []string      // of these, what stands with something that was rejected
	Days  []quotes.Date // on which something came, where that is said
}

// Bill is what was billed for some packs that came and were kept, against the order.
type Bill struct {
	Packs  units.Decimal
	Price  units.Money // of one pack on the bill, before tax
	Agreed units.Money // of one pack by the order, on the mean where its breaks are incremental
	More   units.Money // for all the packs; below 0 where the bill asks for less
}

// BeforeTax is " before tax" where tax is added to the prices of some of the goods; "" where none is, as where prices carry it.
func BeforeTax(job *quotes.Job, counted []Counted) string {
	if job.Settings.TaxIncluded || !slices.ContainsFunc(counted, func(c Counted) bool { return !c.Quote.Tax.IsZero() }) {
		return ""
	}
	return " before tax"
}

// BilledWords say what bills ask for more or less than was agreed, all of them together, with money as the reader has it.
func BilledWords(job *quotes.Job, counted []Counted, money func(units.Money) string) string {
	head, more := "The bills", billedMore(counted)
	if BeforeTax(job, counted) != "" {
		head = "Before tax the bills"
	}
	switch {
	case more.Sign() > 0:
		return fmt.Sprintf("%s ask for %s more than was agreed for what was kept. Ask for a bill at the order's prices before you pay.", head, money(more))
	case more.Sign() < 0:
		return fmt.Sprintf("%s ask for %s less than was agreed for what was kept.", head, money(more.Neg()))
	}
	return head + " ask for what was agreed, for what was kept."
}

// billedMore is what the bills ask for above what was agreed, before tax; below 0 they ask for less.
func billedMore(counted []Counted) units.Money {
	var more units.Money
	for _, c := range counted {
		for _, b := range c.Bills {
			more = more.Add(b.More)
		}
	}
	return more
}

// Accepted is what came and was kept.
func (c Counted) Accepted() units.Decimal { return c.Arrived.Sub(c.Rejected) }

// UnderWay is what is still to come.
func (c Counted) UnderWay() units.Decimal {
	var n units.Decimal
	for _, p := range c.Coming {
		n = n.Add(p.Packs)
	}
	return n
}

// Due is what of the order should be there.
func (c Counted) Due() units.Decimal { return c.Ordered.Sub(c.UnderWay()) }

// DueOrders are the orders of which it should be there.
func (c Counted) DueOrders() []string {
	return slices.DeleteFunc(slices.Clone(c.Orders), func(n string) bool {
		return slices.ContainsFunc(c.Coming, func(p Coming) bool { return p.Order == n })
	})
}

// CountedOn is what is there and good, and what is under way.
func (c Counted) CountedOn() units.Decimal { return c.Accepted().Add(c.UnderWay()) }

// Short is what should be there and is not in good order; 0 if nothing.
func (c Counted) Short() units.Decimal { return above(c.Due().Sub(c.Accepted())) }

// Over is what came in good order and was not ordered; 0 if nothing.
func (c Counted) Over() units.Decimal { return above(c.Accepted().Sub(c.Due())) }

func above(d units.Decimal) units.Decimal {
	if d.Sign() < 0 {
		return units.Decimal{}
	}
	return d
}

// billed holds a bill against the orders of what came, or the quote's own price where none is on any.
func billed(a Arrival, ordered []Ordered, digits int) Bill {
	var packs units.Decimal
	var money units.Money
	for _, o := range ordered {
		if o.Quote == a.Quote && o.Site == a.Site && (a.Order == "" || a.Order == o.Order) {
			packs, money = packs.Add(o.Packs), money.Add(o.Amount)
		}
	}
	b := Bill{Packs: a.Packs.Sub(a.Rejected), Price: *a.Billed, Agreed: a.Quote.Price}
	agreed := b.Agreed.Times(b.Packs)
	if packs.Sign() > 0 {
		b.Agreed = units.MoneyOf(money.Decimal().Quo(packs))
		agreed = units.MoneyOf(money.Decimal().Mul(b.Packs).Quo(packs))
	}
	b.More = b.Price.Times(b.Packs).Sub(agreed).Round(digits)
	return b
}

// Count adds up arrivals, of however many days and files, against what was
// ordered: one entry for each quote and site that was ordered or came, by
// supplier, site and quote. on is the day from which is looked whether what has not
// come is late.
func Count(job *quotes.Job, ordered []Ordered, arrived []Arrival, on quotes.Date) []Counted {
	var out []Counted
	due := map[int]units.Money{} // goods money of what should be there
	at := func(q *quotes.Quote, site string) int {
		i := slices.IndexFunc(out, func(c Counted) bool { return c.Quote == q && c.Site == site })
		if i < 0 {
			i = len(out)
			out = append(out, Counted{Quote: q, Site: site})
		}
		return i
	}
	coming := underWay(ordered, arrived, on)
	for n, o := range ordered {
		i := at(o.Quote, o.Site)
		out[i].Ordered = out[i].Ordered.Add(o.Packs)
		if coming[n] {
			out[i].Coming = append(out[i].Coming, Coming{o.Order, o.Packs, o.Due})
		} else {
			due[i] = due[i].Add(o.Amount)
		}
		if !o.Planned && !slices.Contains(out[i].Orders, o.Order) {
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
			if a.Rejected.Sign() > 0 {
				out[i].Why = append(out[i].Why, a.Note)
			}
		}
	}
	for _, a := range arrived {
		if a.Billed != nil {
			i := at(a.Quote, a.Site)
			out[i].Bills = append(out[i].Bills, billed(a, ordered, job.Settings.CurrencyDigits))
		}
	}
	for i := range out {
		slices.Sort(out[i].Orders)
		if short := out[i].Short(); short.Sign() > 0 {
			out[i].Worth = units.MoneyOf(due[i].Decimal().Mul(short).Quo(out[i].Due())).Round(job.Settings.CurrencyDigits)
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
	Budget *units.Money // of the job, for all that is bought; nil for none
	// Used is how much of each stock of Counted goes into the beds, in placed litres.
	Used []units.Litres
}

// Stock is what of the count is there and good or under way, for [optimise.FinishWith].
func Stock(counted []Counted) []optimise.Stock {
	var out []optimise.Stock
	for _, c := range counted {
		if c.CountedOn().Sign() > 0 {
			out = append(out, optimise.Stock{Quote: c.Quote, Site: c.Site, Packs: c.CountedOn()})
		}
	}
	return out
}

// Settled puts a count and the way to finish that was found for it together.
func Settled(job *quotes.Job, counted []Counted, day quotes.Date, finish *optimise.Finish) *Settlement {
	s := &Settlement{Counted: counted, Day: day, Finish: finish, Budget: job.Settings.Budget}
	if finish.Plan.Bill == nil {
		return s
	}
	s.Used = make([]units.Litres, len(counted))
	next := 0
	for i, c := range counted {
		if c.CountedOn().Sign() > 0 {
			s.Used[i] = finish.Used[next]
			next++
		}
	}
	return s
}

// Words say in sentences what it takes to finish the beds, or what stands in the way.
func (s *Settlement) Words(money func(units.Money) string) []string {
	there, missing := "What is there", "what is missing"
	if slices.ContainsFunc(s.Counted, func(c Counted) bool { return len(c.Coming) > 0 }) {
		there, missing = "What is there or under way", "what else is missing"
	}
	switch {
	case s.Plan.Bill == nil:
		return []string{fmt.Sprintf("Nothing that is there or quoted on %s finishes the beds:", s.Day)}
	case len(s.Buy) == 0:
		return slices.Concat([]string{there + " fills every bed; nothing more is needed."}, s.sureWords(), s.splitWords(money))
	}
	out := []string{fmt.Sprintf("Pay %s more, at the quotes that hold on %s; w%s is counted as paid for and %s as not coming.", money(s.ToPay), s.Day, there[1:], missing)}
	if s.Budget != nil {
		out = append(out, fmt.Sprintf("The budget of %s is for what was ordered and for this together, and was not held against them here.", money(*s.Budget)))
	}
	if s.Plan.Status != optimise.Optimal {
		out = append(out, "Not proven: time was up, and a cheaper way may exist.")
	}
	if slices.ContainsFunc(s.Counted, func(c Counted) bool { return c.Short().Sign() > 0 }) {
		out = append(out, "Ask for what is missing first: what is brought after all, at no further charge, need not be bought.")
	}
	return slices.Concat(out, s.sureWords(), s.splitWords(money))
}

// splitWords say what the split among members leaves out, where there are several: it is
// of the plan, whatever came and was billed.
func (s *Settlement) splitWords(money func(units.Money) string) []string {
	if len(quotes.Members(s.Plan.Job)) < 2 {
		return nil
	}
	var out []string
	before := BeforeTax(s.Plan.Job, s.Counted)
	switch more := billedMore(s.Counted); more.Sign() {
	case 1:
		out = append(out, fmt.Sprintf("the %s%s that the bills ask for more", money(more), before))
	case -1:
		out = append(out, fmt.Sprintf("the %s%s that the bills ask for less", money(more.Neg()), before))
	}
	if len(s.Buy) > 0 {
		out = append(out, fmt.Sprintf("the %s to finish the beds", money(s.ToPay)))
	}
	if len(out) == 0 {
		return nil
	}
	is := "is"
	if len(out) > 1 {
		is = "are"
	}
	return []string{fmt.Sprintf("The split among the members is of the plan: %s %s not in it. Settle that among you besides.", units.Listed(out), is)}
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
