package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise/bill"
	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Page sets the order out for print: to the supplier, in the supplier's own words,
// about nothing but what is ordered. It is a letter, so it names no file of the job.
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
		{Heading: "Who orders, and where it goes", Sheet: "Order", Blocks: o.parties()},
		{Heading: "What is ordered", Blocks: o.goods(s)},
		{Heading: "How it is to come", Blocks: []page.Block{&page.List{Items: o.howItComes(s)}}},
		{Heading: "When it comes, and if something is short", Blocks: []page.Block{&page.Para{Text: o.checks()}, &page.Para{Text: o.shortfall()}}},
		{Heading: "Signed", Blocks: []page.Block{&page.Fields{Names: []string{"For the buyer", "Date", "Accepted by", "Comes on (day)"}}}},
	}
	return p
}

// parties is who orders from whom and where goods are set down.
func (o *Order) parties() []page.Block {
	a := asker{Buyer: o.job.Settings.Buyer, to: o.Supplier}
	a.spot(o.Site, false)
	if o.NeedBy.IsZero() {
		a.add("Day", "please say which day you can come")
	} else {
		a.add("Needed by", o.NeedBy.String()+"; please say which day you can come")
	}
	return a.blocks("Order "+o.Number, o.Day)
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

func (o *Order) goods(s scribe) []page.Block {
	t := &page.Table{Cols: []page.Col{{Name: "Your item"}, {Name: "Size"}, {Name: "Quantity", Right: true}, {Name: "Unit"}, {Name: "Each", Right: true}, {Name: "Price reached"}, {Name: "Your quote holds until", Narrow: true}, {Name: "Amount", Right: true}}}
	row := func(kind page.RowKind, cells ...page.Cell) {
		t.Rows = append(t.Rows, page.Row{Kind: kind, Cells: cells})
	}
	for _, l := range o.Lines {
		q := l.Quote
		row(page.Plain, page.Text(cmp.Or(q.Item, q.Medium.Name)), page.Text(cmp.Or(q.Size.Raw, "not stated")), quantity(l.Packs), page.Text(unit(q)),
			s.quotedCell(l.PackPrice), page.Text(reached(l.Line)), page.Text(cmp.Or(q.ValidUntil.String(), "not stated")), s.moneyCell(l.Goods))
		if len(l.tiers) > 1 {
			for _, part := range l.tiers {
				row(page.Sub, page.Text("of these"), page.Cell{}, quantity(part.packs), page.Text(unit(q)), s.quotedCell(part.price))
			}
		}
	}
	for _, d := range o.Drops {
		n := page.Cell{}
		if d.Loads > 0 {
			n = quantity(units.DecimalFromInt(int64(d.Loads)))
		}
		row(page.Plain, page.Text(dropWords(d)), page.Cell{}, n, page.Text(loadWord(d)), page.Cell{}, page.Cell{}, page.Cell{}, s.moneyCell(d.Fee))
	}
	if o.Included {
		row(page.Plain, page.Text("Tax is in the prices"))
	} else {
		tax := "Tax"
		if o.Tax.IsZero() { // which they may carry
			tax = "Tax added to these prices"
		}
		row(page.Plain, page.Text(tax), page.Cell{}, page.Cell{}, page.Cell{}, page.Cell{}, page.Cell{}, page.Cell{}, s.moneyCell(o.Tax))
	}
	row(page.Total, page.Text("Total to pay"), page.Cell{}, page.Cell{}, page.Cell{}, page.Cell{}, page.Cell{}, page.Cell{}, s.moneyCell(o.Total))
	return []page.Block{t, &page.Para{Text: "Money is in " + s.currency + ". If any price, quantity, size or fee differs from your quote, please say so before you load."}}
}

// unit is what one of the packs ordered is, in the supplier's words.
func unit(q *quotes.Quote) string {
	if q.Form == quotes.Bulk {
		return q.PackWords() + " loose"
	}
	return q.PackWords()
}

func loadWord(d bill.DropLine) string {
	switch d.Loads {
	case 0:
		return ""
	case 1:
		return "load"
	}
	return "loads"
}

// howItComes says in what loads and packs each stone is to come, and what its
// delivery costs and why.
func (o *Order) howItComes(s scribe) []string {
	var out []string
	var packed, heaps []string
	own := false
	for _, l := range o.Lines {
		name := l.Quote.Called()
		if l.Quote.Form != quotes.Bulk {
			packed = append(packed, name)
			continue
		}
		heaps = append(heaps, name)
		for _, d := range o.Drops {
			own = own || d.Terms != nil && bill.OwnLoads(d.Terms, l.Quote)
		}
	}
	switch {
	case len(heaps) > 1 && own:
		out = append(out, fmt.Sprintf("One stone a load: %s each on a truck bed of its own, swept clean before.", units.Listed(heaps)))
	case len(heaps) > 1:
		out = append(out, fmt.Sprintf("%s may share a truck, kept apart so that they do not mix: tip one, then the other.", units.Listed(heaps)))
	case len(heaps) == 1:
		out = append(out, fmt.Sprintf("%s: loose, on a truck bed swept clean before, with no other stone on it.", heaps[0]))
	}
	if len(packed) > 0 {
		out = append(out, fmt.Sprintf("%s: packed and closed, each marked with what is in it.", units.Listed(packed)))
	}
	for _, d := range o.Drops {
		if d.Untold() {
			out = append(out, "You quoted no delivery, so it is taken as free: please tell us before you load if it is not.")
			continue
		}
		if d.IsHandling() { // its line says all of it
			continue
		}
		if words := s.feeWords(d); words != "" {
			out = append(out, words)
		}
	}
	return append(out, "Please call before you set out. Further trips, or other charges than those above, only if we agree to them first.")
}

// feeWords is how a drop's fee is made up, as the supplier quoted it.
func (s scribe) feeWords(d bill.DropLine) string {
	var parts []string
	if !d.Order.IsZero() {
		parts = append(parts, s.money(d.Order)+" for the order")
	}
	for _, t := range d.Trucks {
		words := units.Several(t.Loads, "load")
		if t.Truck.Sized() {
			words += " " + t.Truck.Words(s.Units)
		}
		if !t.Truck.Fee.IsZero() {
			words += " at " + s.money(t.Truck.Fee)
		}
		if !t.Truck.Fee.IsZero() || t.Truck.Sized() {
			parts = append(parts, words)
		}
	}
	if !d.Haul.IsZero() {
		parts = append(parts, "haul of "+d.Terms.Haul.Raw)
	}
	if len(parts) == 0 {
		return ""
	}
	words := fmt.Sprintf("%s, as you quoted it: %s.", d.Way("Delivery"), strings.Join(parts, ", "))
	if w := d.Waiver(); w != "" {
		words = strings.TrimSuffix(words, ".") + "; " + w + "."
	}
	return words
}

// checks is what is looked at before anything is tipped, so that the supplier knows what
// goes back; how, stands on the sheet for the gate.
func (o *Order) checks() string {
	var looks []string
	add := func(words string, when func(q *quotes.Quote) bool) {
		if slices.ContainsFunc(o.Lines, func(l OrderLine) bool { return when(l.Quote) }) {
			looks = append(looks, words)
		}
	}
	add("count the bags", func(q *quotes.Quote) bool { return q.Form == quotes.Bag })
	add("count the bulk bags, each full to its mark", func(q *quotes.Quote) bool { return q.Form == quotes.Sack })
	add("read the weighbridge ticket, so please bring it", func(q *quotes.Quote) bool { return q.Form == quotes.Bulk && q.Pack.IsMass })
	add("measure the load before it is tipped", func(q *quotes.Quote) bool { return q.Form == quotes.Bulk && !q.Pack.IsMass })
	add("lay ten stones along a ruler (a few outside the size above are normal)", func(q *quotes.Quote) bool { return q.Size.Known })
	add("put a drop of acid on several stones", mayHoldLime)
	words := "We " + strings.Join(looks, "; we ") + ". The wrong stone"
	if slices.ContainsFunc(o.Lines, func(l OrderLine) bool { return l.Quote.Size.Known }) {
		words += " or size"
	}
	if slices.ContainsFunc(o.Lines, func(l OrderLine) bool { return mayHoldLime(l.Quote) }) {
		return words + ", or one that fizzes and so carries lime, is refused."
	}
	return words + " is refused."
}

// shortfall is what is asked for when goods are short or refused.
func (o *Order) shortfall() string {
	loose := slices.ContainsFunc(o.Lines, func(l OrderLine) bool { return l.Quote.Form == quotes.Bulk })
	what := "What is short, torn or refused"
	if loose {
		what = "What is short or refused"
	}
	return what + " is written on the driver's copy before it is signed. We then ask you to bring it at no further delivery charge, or to take it off the bill at the prices above; " +
		"we say which on the same day. What was not ordered goes back, or stays at no charge."
}

func mayHoldLime(q *quotes.Quote) bool { return q.Medium.Carbonate == quotes.CarbonateSuspect }

// moneyCell is money as text for people and as a number for spreadsheets.
func (s scribe) moneyCell(m units.Money) page.Cell {
	return page.Num(s.money(m), m.Round(s.digits).Float(), s.digits)
}

// priceCell is a price in the one form of money, and as a number for spreadsheets with
// all its digits.
func (s scribe) priceCell(m units.Money) page.Cell { return s.fullCell(s.price(m), m) }

// quotedCell is a price as the supplier quoted it, to its last digit.
func (s scribe) quotedCell(m units.Money) page.Cell {
	return s.fullCell(units.FormatQuoted(m, s.currency), m)
}

func (s scribe) fullCell(words string, m units.Money) page.Cell {
	digits := s.digits
	for !m.Round(digits).Equal(m) && digits < 8 {
		digits++
	}
	return page.Num(words, m.Float(), digits)
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

// dropWords names a drop and says what was waived.
func dropWords(d bill.DropLine) string {
	words := d.Way("Delivery")
	switch {
	case d.IsHandling():
		words = "Handling, once for the whole order"
	case d.Untold():
		words = "Delivery, none quoted and taken as free"
	}
	if w := d.Waiver(); w != "" {
		words += ": " + w
	}
	return words
}
