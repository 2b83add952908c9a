package papers

import (
	"fmt"
	"strings"

	"mediabuy/optimise/bill"
	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Page sets the order out for print.
func (o *Order) Page(st Style) *page.Page {
	s := newScribe(o.job, st)
	p := &page.Page{
		Title:    "Purchase order " + o.Number,
		Subtitle: fmt.Sprintf("To %s, dated %s%s", o.Supplier, o.Day, needBy(o.NeedBy)),
		Day:      o.Day.Time,
		Alarm:    o.Unproven,
		Foot:     fmt.Sprintf("Order %s to %s%s", o.Number, o.Supplier, AtSite("for", o.Site)),
		Letter:   st.Letter,
	}
	p.Sections = []page.Section{
		{Heading: "What is ordered", Sheet: "Order", Blocks: o.goods(s)},
		{Heading: "Check at the tailgate, before anything is tipped", Blocks: []page.Block{&page.List{Items: o.tailgate(s)}}},
		{Heading: "Take care", Blocks: []page.Block{&page.List{Items: cautionTexts(caution.Goods(o.quotes(), s.Units))}}},
		{Heading: "Signed", Blocks: []page.Block{&page.Fields{Names: []string{"Ordered by, date", "Received by, date and time", "Packs or loads counted", "Refused, and why"}}}},
	}
	return p
}

func needBy(d quotes.Date) string {
	if d.IsZero() {
		return ""
	}
	return ", needed by " + d.String()
}

func cautionTexts(list []caution.Caution) []string {
	var out []string
	for _, c := range list {
		out = append(out, c.Text())
	}
	return out
}

func (o *Order) quotes() []*quotes.Quote {
	var out []*quotes.Quote
	for _, l := range o.Lines {
		out = append(out, l.Quote)
	}
	return out
}

func (o *Order) goods(s scribe) []page.Block {
	var out []page.Block
	if o.Site != "" {
		out = append(out, &page.Para{Text: "Deliver to: " + o.Site + ".", Strong: true})
	}
	if o.NeedBy.IsZero() {
		out = append(out, &page.Para{Text: "No day is asked for; please say which day you can come."})
	} else {
		out = append(out, &page.Para{Text: fmt.Sprintf("Needed by %s; please say which day you can come.", o.NeedBy), Strong: true})
	}
	t := &page.Table{Cols: []page.Col{{Name: "Your item"}, {Name: "Grain size"}, {Name: "Quantity"}, {Name: "Each", Right: true}, {Name: "Price reached"}, {Name: "Amount", Right: true}, {Name: "Quoted in"}}}
	for _, l := range o.Lines {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{
			page.Text(item(l.Quote)), page.Text(grain(l.Quote.Size)), page.Text(packs(l.Quote, l.Packs)),
			s.priceCell(l.PackPrice), page.Text(reached(l.Line)), s.moneyCell(l.Goods), page.Text(l.Quote.Name + ", " + row(l.Quote.Pos)),
		}})
		if len(l.tiers) > 1 {
			for _, part := range l.tiers {
				t.Rows = append(t.Rows, page.Row{Kind: page.Sub, Cells: []page.Cell{{}, {}, page.Text(packs(l.Quote, part.packs)), s.priceCell(part.price)}})
			}
		}
	}
	for _, d := range o.Drops {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(dropWords(d)), {}, page.Text(loads(d)), {}, {}, s.moneyCell(d.Fee), page.Text(termsRow(d))}})
	}
	if o.Included {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text("Tax is in the prices")}})
	} else {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text("Tax"), {}, {}, {}, {}, s.moneyCell(o.Tax)}})
	}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: []page.Cell{page.Text("Total"), {}, {}, {}, {}, s.moneyCell(o.Total)}})
	return append(out, t, &page.Para{Text: "If any price, quantity, size or fee differs from this, please say so before you load."})
}

// moneyCell is money as text for people and as a number for spreadsheets.
func (s scribe) moneyCell(m units.Money) page.Cell {
	return page.Num(s.money(m), m.Round(s.digits).Float(), s.digits)
}

// priceCell is a price with all its digits.
func (s scribe) priceCell(m units.Money) page.Cell {
	digits := s.digits
	for !m.Round(digits).Equal(m) && digits < 8 {
		digits++
	}
	return page.Num(s.price(m), m.Float(), digits)
}

// reached says which break a line reached.
func reached(l bill.Line) string {
	switch {
	case l.BreakFrom.IsZero():
		return "list price"
	case l.Quote.BreakKind == quotes.Incremental:
		return "average; last step from " + l.BreakFrom.String() + " packs"
	}
	return "price from " + l.BreakFrom.String() + " packs"
}

func loads(d bill.DropLine) string {
	if d.Loads == 0 {
		return ""
	}
	return units.Several(d.Loads, "load")
}

// dropWords names a drop and says what was waived.
func dropWords(d bill.DropLine) string {
	words := "Delivery, " + d.Name
	if d.Loads == 0 {
		words = "Handling, once for the whole order"
	}
	if w := d.Waiver(); w != "" {
		words += ": " + w
	}
	return words
}

// heapShape is the share of the box around a cone that the cone fills: π/12 of
// width × width × height (computed).
const heapShape = 0.262

// tailgate lists what to look at while the driver is there.
func (o *Order) tailgate(s scribe) []string {
	var out []string
	bags := false
	for _, l := range o.Lines {
		q := l.Quote
		words := []string{}
		switch {
		case q.Form == quotes.Bag:
			bags = true
			words = append(words, fmt.Sprintf("count %s bags, and see that none is torn or wet through", l.Packs))
		case q.Pack.IsMass:
			words = append(words, fmt.Sprintf("read the weighbridge ticket: %s ordered; at %s that is about %s loose, and rain on the load is weight you pay for",
				packs(q, l.Packs), units.FormatDensity(q.DryDensity().Usual, s.Units), both(l.Sold)))
		default:
			words = append(words, fmt.Sprintf("measure the heap or the bed of the truck: %s loose ordered", both(l.Sold)))
		}
		if q.Size.Known {
			words = append(words, fmt.Sprintf("lay ten stones taken at random along a ruler: %s asked, and some outside it are normal", grain(q.Size)))
		} else {
			words = append(words, "its size was not stated: lay ten stones along a ruler and write down the smallest and the largest")
		}
		lime := fmt.Sprintf("put an acid drop on several stones, as below (the quote says %s)", q.Carbonate)
		if q.Carbonate == quotes.NoFizz {
			lime = "put an acid drop on several stones, as below (the sample did not fizz; the load may differ)"
		}
		out = append(out, fmt.Sprintf("%s (%s): %s; %s.", q.Name, q.Medium.Name, strings.Join(words, "; "), lime))
	}
	out = append(out,
		fmt.Sprintf("A heap with a round foot holds about %.3f × width × width × height (a cone, computed); a truck bed holds length × width × depth of the levelled load.", heapShape),
		"A nominal size is not a guarantee: a load of ASTM D448 No. 57 may have 10 % finer than 4.75 mm and 5 % coarser than 25 mm (its table in Colorado DOT section 703, secondary, read).")
	if bags {
		out = append(out, "Pour one bag loosely into a box you have measured. In the United States one bag of mulch or soil may be 5 % short while the lot is right on average (NIST Handbook 133, table 2-10, from memory); whether the same holds for bagged stone was not established.")
	}
	return append(out, "Refuse what is the wrong stone, the wrong size or fizzes; write it on the driver's copy before signing.")
}
