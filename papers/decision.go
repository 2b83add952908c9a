package papers

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/risk"
	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// decision is the first sheet, for somebody with two minutes: what to buy from whom
// and when, what it costs, what plainer ways cost, how the beds come to look, how
// sure that is, what is asked of the reader, and room to sign.
func (r *report) decision() []page.Block {
	pl := r.Plan
	litres, beds := pl.Job.Demand(), pl.Job.BedCount()
	suppliers, _ := r.byMoney()
	proof := r.proof()
	out := []page.Block{
		&page.Para{Strong: true, Text: fmt.Sprintf("Buy from %s for %s in all, with delivery%s%s: %s of media for %s%s.",
			units.Listed(few(suppliers, 5)), r.money(pl.Bill.Total), r.withTax(), r.withRinsing(), r.volume(litres), units.Several(beds, "bed"), needBy(pl.Job.Settings.NeedBy))},
		r.fromWhom(),
	}
	if t := r.plainer(); t != nil {
		out = append(out, &page.Para{Leads: true, Text: proof + "Other ways, with the same beds, rules and quotes, delivered and taxed in the same way:"}, t)
	} else {
		out = append(out, &page.Para{Text: proof + "No other way of buying was priced."})
	}
	if p := r.cut.Strip(); p != nil {
		out = append(out, p)
	}
	if words := r.sureness(); words != "" {
		out = append(out, &page.Para{Text: words})
	}
	out = append(out, &page.Para{Strong: true, Leads: true, Text: "What is asked of you"}, &page.List{Items: r.asked()})
	return append(out, r.approval()...)
}

// proof is how far the cost is to be trusted, or what a plainer way spares for what it
// costs more, and what of the budget is left; what is not proven stands in a frame above.
func (r *report) proof() (out string) {
	words, warns := r.chosen().Proof(r.money)
	switch {
	case r.plainerTaken():
		words = r.How.Words(r.money)
	case warns:
		words = ""
	}
	for _, said := range []string{words, optimise.BudgetWords(r.Plan.Job, r.Plan.Bill.Total, r.money)} {
		if said != "" {
			out += said + " "
		}
	}
	return out
}

// chosen is how the plan was chosen; a plan by itself is the cheapest there is.
func (r *report) chosen() *risk.Tidied {
	if r.How != nil {
		return r.How
	}
	return &risk.Tidied{Reached: &risk.Reached{Plan: r.Plan, Met: true}}
}

// Rows of the first sheet's tables that go only when pictures show less as well, and
// how many suppliers stand in order of their names; more of them in order of money, so
// that what is left out on the sheet is the least of it.
const (
	decidedRows = 8
	plainerRows = 4
)

// byMoney is the suppliers as they stand in the decision, and what each is paid.
func (r *report) byMoney() ([]string, map[string]units.Money) {
	b := r.Plan.Bill
	sums := map[string]units.Money{}
	for _, l := range b.Lines {
		sums[l.Quote.Supplier] = sums[l.Quote.Supplier].Add(l.Goods)
	}
	for _, d := range b.Drops {
		sums[d.Supplier] = sums[d.Supplier].Add(d.Fee)
	}
	if !r.Plan.Job.Settings.TaxIncluded {
		for s, tax := range b.TaxOf {
			sums[s] = sums[s].Add(tax)
		}
	}
	list := b.Suppliers()
	if len(list) > decidedRows {
		slices.SortStableFunc(list, func(x, y string) int { return sums[y].Cmp(sums[x]) })
	}
	return list, sums
}

// fromWhom is what each supplier brings, by when to order it, and what it costs.
func (r *report) fromWhom() *page.Table {
	b := r.Plan.Bill
	t := &page.Table{Cols: []page.Col{{Name: "From"}, {Name: "What"}, {Name: "How it comes"}, {Name: "Order by"}, {Name: "Delivered, with tax", Right: true}}}
	suppliers, sumOf := r.byMoney()
	var sums []units.Money
	for _, s := range suppliers {
		sum := sumOf[s]
		var what, comes []string
		until := quotes.Date{}
		for _, l := range b.Lines {
			if l.Quote.Supplier != s {
				continue
			}
			what = append(what, l.Quote.PacksWords(l.Packs)+" of "+l.Quote.ItemWords()+r.atSite(l.Site))
			until = earlier(until, l.Quote.ValidUntil)
		}
		for _, d := range b.Drops {
			if d.Supplier != s {
				continue
			}
			switch {
			case d.Untold():
				comes = append(comes, "not quoted: taken as free"+r.atSite(d.Site))
			case d.Loads > 0:
				comes = append(comes, d.Name+", "+units.Several(d.Loads, "load")+r.atSite(d.Site))
			}
		}
		sums = append(sums, sum)
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(s), page.Text(units.Listed(few(what, 6))), page.Text(strings.Join(few(comes, 6), "; ")),
			page.Text(r.orderBy(until).words()), r.moneyCell(sum)}})
	}
	t.Cut = &page.Cut{To: len(sums), Keep: decidedRows, Row: func(from int) page.Row {
		rest := units.Money{}
		for _, sum := range sums[from:] {
			rest = rest.Add(sum)
		}
		return page.Row{Cells: []page.Cell{page.Text(fmt.Sprintf("and %d more suppliers, see A", len(sums)-from)), {}, {}, {}, r.moneyCell(rest)}}
	}}
	if !b.Rinsing.IsZero() {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text("own time"), page.Text("rinsing, by the hour"), {}, {}, r.moneyCell(b.Rinsing)}})
	}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: []page.Cell{page.Text("Total"), {}, {}, {}, r.moneyCell(b.Total)}})
	return t
}

// atSite is " to North plot" where goods go to more than one site.
func (r *report) atSite(site string) string {
	if len(quotes.Sites(r.Plan.Job)) < 2 {
		return ""
	}
	return AtSite("to", site)
}

// few is the first of some words and how many more there are, where they are more than
// most: the appendix has them all.
func few(list []string, most int) []string {
	if len(list) <= most {
		return list
	}
	return append(slices.Clone(list[:most-1]), fmt.Sprintf("%d more", len(list)-most+1))
}

// earlier is the earlier of two days, where a zero day is none.
func earlier(a, b quotes.Date) quotes.Date {
	if a.IsZero() || !b.IsZero() && b.Before(a.Time) {
		return b
	}
	return a
}

// withTax says that tax is counted, or that none is: prices may carry it all the same.
func (r *report) withTax() string {
	if r.Plan.Bill.Tax.IsZero() && !r.Plan.Job.Settings.TaxIncluded {
		return " and no tax added"
	}
	return " and tax"
}

func (r *report) withRinsing() string {
	if r.Plan.Bill.Rinsing.IsZero() {
		return ""
	}
	return " and " + r.money(r.Plan.Bill.Rinsing) + " of one's own time for rinsing"
}

// plainer sets the total against what a sceptic would ask about, and says why each
// costs more or what stops it; nil where nothing was priced.
func (r *report) plainer() *page.Table {
	if len(r.Ways) == 0 {
		return nil
	}
	t := &page.Table{Cols: []page.Col{{Name: "Another way"}, {Name: "Would cost", Right: true}, {Name: "You save", Right: true}, {Name: "Why"}}}
	for _, w := range r.Ways {
		cells := []page.Cell{page.Text(w.Name)}
		switch {
		case w.unsettled():
			cells = append(cells, page.Text("-"), page.Text("-"), page.Text("not settled in time"))
		case w.Total == nil:
			cells = append(cells, page.Text("-"), page.Text("-"), page.Text(r.cannot(w)))
		default:
			cells = append(cells, r.moneyCell(*w.Total), r.moneyCell(w.Total.Sub(r.Plan.Bill.Total)), page.Text(r.whyMore(w)))
		}
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	t.Cut = &page.Cut{To: len(t.Rows), Keep: plainerRows, Row: func(from int) page.Row {
		return page.Row{Cells: []page.Cell{page.Text(fmt.Sprintf("and %d more, see Other ways to buy", len(r.Ways)-from))}}
	}}
	return t
}

func (r *report) cannot(w Way) string {
	if len(w.Why) == 0 {
		return "cannot fill the beds"
	}
	return "cannot fill the beds: " + r.stops(w.Why)
}

// whyMore says in which parts of the bill a way differs from the decision, the
// largest first.
func (r *report) whyMore(w Way) string {
	if w.Bill == nil {
		return ""
	}
	b := r.Plan.Bill
	type part struct {
		name string
		more units.Money
	}
	parts := []part{{"goods", w.Bill.Goods.Sub(b.Goods)}, {"delivery", w.Bill.Delivery.Sub(b.Delivery)}, {"tax", w.Bill.Tax.Sub(b.Tax)}, {"rinsing", w.Bill.Rinsing.Sub(b.Rinsing)}}
	slices.SortStableFunc(parts, func(x, y part) int { return y.more.Cmp(x.more) })
	var words []string
	for _, p := range parts {
		switch p.more.Sign() {
		case 1:
			words = append(words, p.name+" "+r.money(p.more)+" more")
		case -1:
			words = append(words, p.name+" "+r.money(units.Money{}.Sub(p.more))+" less")
		}
	}
	switch {
	case sameBuy(w.Bill, b):
		return "the decision is of this kind already"
	case len(words) == 0:
		return "costs the same in every part"
	}
	out := units.Listed(words)
	if optimise.OverBudget(r.Plan.Job, w.Bill.Total) {
		out += "; over the budget"
	}
	if w.Pains != "" {
		out += "; takes " + w.Pains
	}
	if !w.Proven {
		out += "; best found before time was up"
	}
	return out
}

// sameBuy reports whether two bills are of the same packs of the same quotes.
func sameBuy(a, b *bill.Bill) bool {
	return slices.EqualFunc(a.Lines, b.Lines, func(x, y bill.Line) bool {
		return x.Quote.Name == y.Quote.Name && x.Site == y.Site && x.Packs.Equal(y.Packs)
	})
}

// stops says in a few words what stands in the way of filling the beds: the first
// obstacle, and how many more there are.
func (r *report) stops(why []optimise.Obstacle) string {
	o := why[0]
	where := quotes.BedNamed(o.Bed)
	switch {
	case o.Table != "":
		where = "table " + o.Table
	case o.Layer != "":
		where = fmt.Sprintf("the %s layer of %s", o.Layer, quotes.BedNamed(o.Bed))
	}
	var out string
	switch {
	case o.Over > 0:
		out = fmt.Sprintf("the lightest mix is %s over the limit of %s", r.mass(o.Over), where)
	case o.Rule == optimise.RuleShare:
		out = fmt.Sprintf("%s would hold %s too much of one medium", where, r.volume(o.Short))
	case o.Bed != "" && o.Rule == optimise.RuleStock:
		out = fmt.Sprintf("%s of %s cannot be had", r.volume(o.Short), where)
	case o.Bed != "":
		out = "nothing of that kind suits " + where
	case o.Rule == optimise.RuleSuppliers:
		out = "so few suppliers do not have enough of what suits"
	case o.Rule == optimise.RuleDeliveries:
		out = "so few deliveries do not bring enough"
	case o.Remedy != "":
		out, _, _ = strings.Cut(o.Remedy, ": ") // what is wrong, without the cure
	default:
		out = strings.Join(o.About(), ", ")
	}
	switch n := len(why) - 1; {
	case n == 1:
		out += ", and 1 thing more"
	case n > 1:
		out += fmt.Sprintf(", and %d things more", n)
	}
	return out
}

// sureness is the margin on weights, the tightest frame first, and the chance that
// every bed is full.
func (r *report) sureness() string {
	var out []string
	if words := risk.MarginWords(r.Plan, r.OtherWeights, r.money); words != "" {
		out = append(out, words)
	}
	if name, share, w, limit := r.tightest(); name != "" {
		out = append(out, fmt.Sprintf("The tightest frame, %s, is used to %.0f %% (%s of %s, flooded).", name, 100*share, r.mass(w), r.mass(limit)))
	}
	if over := caution.Overloaded(r.Plan, r.Units); len(over) > 0 {
		out = append(out, fmt.Sprintf("With heavy stone these pass their limits: %s.", units.Listed(few(over, 4))))
	}
	if r.Risk != nil {
		out = append(out, r.Risk.Words(r.money, r.volume)+r.Risk.BudgetWords(r.Plan, r.money))
	}
	return strings.Join(out, " ")
}

// tightest is the frame nearest to its limit; "" where none has a limit.
func (r *report) tightest() (name string, share float64, w, limit units.Kilograms) {
	look := func(n string, kg units.Kilograms, most *units.Kilograms) {
		if most == nil || *most <= 0 {
			return
		}
		if s := float64(kg / *most); s > share {
			name, share, w, limit = n, s, kg, *most
		}
	}
	for _, t := range r.Plan.Tables {
		look("table "+t.Name, t.Flooded, t.Limit)
	}
	for _, f := range r.Plan.Fills {
		if f.Bed.Table == "" {
			look(quotes.BedNamed(f.Bed.Name), f.Flooded, f.Bed.Limit)
		}
	}
	return name, share, w, limit
}

// asked is what the reader is asked to do.
func (r *report) asked() []string {
	until := quotes.Date{}
	for _, l := range r.Plan.Bill.Lines {
		until = earlier(until, l.Quote.ValidUntil)
	}
	out := []string{"Sign below, or say what is to change" + r.orderBy(until).inTime() + "."}
	if k := r.Risk; k != nil && k.ShortP95 > 0 && k.Finished && k.TopUpP95.Sign() > 0 {
		out = append(out, fmt.Sprintf("It is not certain that every bed comes out full: keep %s in hand for a top-up, or ask for %s.", r.money(k.TopUpP95), r.surerPurchase()))
	}
	if list := r.untold(); len(list) > 0 {
		out = append(out, fmt.Sprintf("Have it in writing that %s for nothing: no terms of delivery were quoted.", deliver(list)))
	}
	if r.Plan.Bill.Tax.IsZero() && !r.Plan.Job.Settings.TaxIncluded {
		out = append(out, "Have it in writing that the prices are what is paid: no tax is reckoned here.")
	}
	if r.For == Coop && r.Split != nil {
		out = append(out, "Each member pays the part set out under \"Who pays what\".")
	}
	if len(r.Plan.Fills) > 0 {
		out = append(out, "Have every frame checked by someone qualified before it is filled; local codes govern.")
	}
	out = append(out, "Have someone at the gate when goods come, with the sheet for the gate: it says what to count, measure and test before anything is tipped.")
	return out
}

// surerPurchase names the purchase whose spare is worth its money, where it is another
// than the one decided on.
func (r *report) surerPurchase() string {
	const any = "a surer purchase"
	if r.Sureness == nil {
		return any
	}
	c := r.Sureness.Curve
	w := c.Worth()
	if w < 0 || c.Points[w].Chosen || c.Points[w].Total().Cmp(r.Plan.Bill.Total) <= 0 {
		return any
	}
	p := c.Points[w]
	var what []string
	for _, l := range p.Plan.Bill.Lines {
		what = append(what, l.Quote.PacksWords(l.Packs)+" of "+l.Quote.ItemWords()+r.atSite(l.Site))
	}
	known := ""
	if i := slices.IndexFunc(r.Ways, func(w Way) bool { return w.Bill != nil && sameBuy(w.Bill, p.Plan.Bill) }); i >= 0 {
		known = fmt.Sprintf(", above called %q", r.Ways[i].Name)
	}
	words := fmt.Sprintf("the one for %s, %s more, that fills every bed in %s of 100 cases (%s%s)", r.money(p.Total()), r.money(p.Total().Sub(r.Plan.Bill.Total)), p.Cases(), units.Listed(few(what, 5)), known)
	if i := c.Chosen(); i >= 0 {
		then, ok := p.InAll()
		if here, known := c.Points[i].InAll(); ok && known && then.Cmp(here) < 0 {
			words += fmt.Sprintf("; with the top-up to be expected it comes to %s, this one to %s", r.money(then), r.money(here))
		}
	}
	return words
}

// untold are the suppliers bought from that stated no terms of delivery.
func (r *report) untold() []string {
	var out []string
	for _, d := range r.Plan.Bill.Drops {
		if d.Untold() {
			out = appendNew(out, d.Supplier)
		}
	}
	return out
}

func deliver(suppliers []string) string {
	if len(suppliers) == 1 {
		return suppliers[0] + " delivers"
	}
	return units.Listed(few(suppliers, 4)) + " deliver"
}

func (r *report) approval() []page.Block {
	names := []string{"Prepared by", "Date", "Approved by", "Signature, date"}
	switch r.For {
	case Client:
		names = []string{"Prepared by, date", "Client", "Approved up to (money)", "Signature, date"}
	case Coop:
		names = []string{"Prepared by, date", "Treasurer, signature, date"}
	}
	own := ""
	if m := r.Plan.Bill.Rinsing; !m.IsZero() {
		own = fmt.Sprintf(", %s of it one's own time", r.money(m))
	}
	return []page.Block{&page.Para{Strong: true, Text: fmt.Sprintf("Approved: a purchase of %s in all%s, as set out here.", r.money(r.Plan.Bill.Total), own)}, &page.Fields{Names: names}}
}
