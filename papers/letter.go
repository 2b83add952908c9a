package papers

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/papers/page"
	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Letter is a letter of complaint to one supplier.
type Letter struct {
	Supplier string
	counted  []received.Counted
	day      quotes.Date
	job      *quotes.Job
}

// Letters are those to every supplier of whose order something is short; what is
// merely over is left to [Notes]. day is the day they are dated.
func Letters(job *quotes.Job, counted []received.Counted, day quotes.Date) []*Letter {
	var out []*Letter
	for _, c := range counted {
		if c.Short().IsZero() {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Supplier == c.Quote.Supplier {
			out[n-1].counted = append(out[n-1].counted, c)
		} else {
			out = append(out, &Letter{c.Quote.Supplier, []received.Counted{c}, day, job})
		}
	}
	return out
}

// Owed is what is missing, at the order's prices: the goods, and the tax on them.
func (l *Letter) Owed() (goods, tax units.Money) {
	for _, c := range l.counted {
		goods = goods.Add(c.Worth)
		if !l.job.Settings.TaxIncluded {
			tax = tax.Add(c.Worth.Times(c.Quote.Tax))
		}
	}
	return goods, tax.Round(l.job.Settings.CurrencyDigits)
}

// Page sets the letter out.
func (l *Letter) Page(st Style) *page.Page {
	s := newScribe(l.job, st)
	var orders []string
	var days []quotes.Date
	sites := map[string]bool{}
	for _, c := range l.counted {
		sites[c.Site] = true
		for _, o := range c.DueOrders() {
			orders = appendNew(orders, o)
		}
		for _, d := range c.Days {
			if !slices.Contains(days, d) {
				days = append(days, d)
			}
		}
	}
	slices.Sort(orders)
	about := "Our order"
	if len(orders) > 0 {
		about += " " + units.Listed(orders)
	}
	p := &page.Page{
		Title:    "A delivery that came short",
		Subtitle: fmt.Sprintf("To %s, dated %s", l.Supplier, l.day),
		Day:      l.day.Time,
		Foot:     fmt.Sprintf("%s, to %s", about, l.Supplier),
		Letter:   st.Letter,
	}
	a := asker{Buyer: l.job.Settings.Buyer, to: l.Supplier}
	p.Sections = []page.Section{
		{Heading: about, Sheet: "Letter", Blocks: append(a.blocks("Letter", l.day),
			&page.Para{Leads: true, Text: l.opening(days)}, l.table(s, len(sites) > 1))},
		{Heading: "What we ask", Blocks: l.asks(s)},
		{Heading: "Signed", Blocks: []page.Block{&page.Fields{Names: []string{"For the buyer", "Date", "Your answer", "Comes on (day)"}}}},
	}
	return p
}

func (l *Letter) opening(days []quotes.Date) string {
	slices.SortFunc(days, func(a, b quotes.Date) int { return a.Compare(b.Time) })
	came := false
	for _, c := range l.counted {
		came = came || c.Arrived.Sign() > 0
	}
	if !came {
		return fmt.Sprintf("Dear %s, we looked forward to the goods below, and none of them has come yet. Perhaps something went wrong on the way to us.", l.Supplier)
	}
	var on []string
	for _, d := range days {
		on = append(on, d.String())
	}
	when := ""
	if len(on) > 0 {
		when = " of " + units.Listed(on)
	}
	lacking := false
	for _, c := range l.counted {
		lacking = lacking || c.Arrived.Cmp(c.Due()) < 0
	}
	if !lacking {
		return fmt.Sprintf("Dear %s, thank you for the delivery%s. All of it came, but a part was not as ordered, and we could not take it. We take it for a slip, and set down what we found:", l.Supplier, when)
	}
	return fmt.Sprintf("Dear %s, thank you for the delivery%s. When we counted it, it was less than we ordered. We take it for a slip, and set down what we found:", l.Supplier, when)
}

// table is what is short, at the order's prices.
func (l *Letter) table(s scribe, several bool) *page.Table {
	t := &page.Table{Cols: []page.Col{{Name: "Your item"}, {Name: "Unit"}, {Name: "Ordered", Right: true}, {Name: "Came", Right: true}, {Name: "Refused", Right: true}, {Name: "Short", Right: true}, {Name: "That is", Right: true}, {Name: "At our order's price", Right: true}}}
	for _, c := range l.counted {
		q := c.Quote
		name := q.Called()
		if several {
			name += AtSite("at", c.Site)
		}
		short := c.Short()
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(name), page.Text(unit(q)), quantity(c.Due()), quantity(c.Arrived), quantity(c.Rejected),
			quantity(short), page.Text(s.volume(q.PackLitres * units.Litres(short.Float()))), s.moneyCell(c.Worth)}})
	}
	goods, tax := l.Owed()
	sum := func(kind page.RowKind, name string, m units.Money) {
		t.Rows = append(t.Rows, page.Row{Kind: kind, Cells: []page.Cell{page.Text(name), {}, {}, {}, {}, {}, {}, s.moneyCell(m)}})
	}
	if !tax.IsZero() {
		sum(page.Plain, "Tax on it", tax)
	}
	name := "Missing"
	if l.job.Settings.TaxIncluded {
		name = "Missing, tax in the prices"
	}
	sum(page.Total, name, goods.Add(tax))
	return t
}

func (l *Letter) asks(s scribe) []page.Block {
	goods, tax := l.Owed()
	owed := s.money(goods.Add(tax))
	by := ""
	if need := l.job.Settings.NeedBy; !need.IsZero() && need.After(l.day.Time) {
		by = " by " + need.String()
	}
	out := []page.Block{&page.Para{Leads: true, Text: "Please tell us which of these suits you:"}, &page.List{Items: []string{
		fmt.Sprintf("you bring what is missing%s, at no further charge for goods or delivery; or", by),
		fmt.Sprintf("you take %s off the bill, or pay it back if the bill is paid.", owed),
	}}}
	var refused []string
	for _, c := range l.counted {
		if c.Rejected.Sign() > 0 {
			refused = append(refused, fmt.Sprintf("%s of %s%s", c.Quote.PacksWords(c.Rejected), c.Quote.ItemWords(), because(c.Why)))
		}
	}
	if len(refused) > 0 {
		out = append(out, &page.Para{Text: "We refused " + strings.Join(refused, "; ") + ". What we refused is set aside for you to look at and to fetch."})
	}
	return append(out, &page.Para{Text: "If your own count or ticket says otherwise, please send it to us and we will look at it together. Thank you for your help."})
}
