package papers

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/risk"
	"mediabuy/optimise/share"
	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Audience is who a report is for.
type Audience string

// Audiences.
const (
	Client Audience = "client" // who pays for all of it
	Coop   Audience = "coop"   // the members of a co-op and their treasurer
)

// Way is another way to buy that a sceptic would ask about.
type Way struct {
	Name      string
	Suppliers []string
	Total     *units.Money // nil: it cannot fill the beds, or, unless Proven, nothing was found in time
	Proven    bool         // nothing of that kind is cheaper
	Stops     string       // what stops it, where it cannot fill the beds
}

// unsettled reports that time was up before it was known whether there is a
// purchase of the kind.
func (w Way) unsettled() bool { return w.Total == nil && !w.Proven }

// WayOf is the cheapest plan of its kind as a way.
func WayOf(name string, p *optimise.Plan) Way {
	w := Way{Name: name, Proven: p.Status != optimise.TimeLimit}
	if p.Bill != nil {
		w.Total = &p.Bill.Total
		w.Suppliers = suppliersOf(p.Bill)
	}
	if len(p.Why) > 0 {
		w.Stops = strings.Join(p.Why[0].About(), ", ")
	}
	return w
}

// Chart is a drawing made elsewhere, with one sentence that says what it shows.
type Chart struct {
	SVG, PNG []byte
	Sentence string
}

// Input is what a report is made of.
type Input struct {
	Plan     *optimise.Plan
	Ways     []Way
	Usual    *optimise.Plan // with frames held to usual weights; nil where there is nothing to compare
	Risk     *risk.Report   // how sure the plan fills every bed; nil where that is not known
	Compared []optimise.Quoted
	Warnings []*quotes.Problem
	Cautions []caution.Caution // about this very plan, besides those that hold for all
	Charts   []Chart
	Split    *share.Result // how the members of a co-op share the bill; nil without members
	For      Audience
}

// Justify makes the report that explains a purchase to someone who never saw how
// it was found.
func Justify(in Input, st Style) (*page.Page, error) {
	if err := checkPlan(in.Plan); err != nil {
		return nil, err
	}
	r := &report{Input: in, scribe: newScribe(in.Plan.Job, st)}
	bill, err := r.bill()
	if err != nil {
		return nil, fmt.Errorf("writing the report: %w", err)
	}
	p := &page.Page{
		Title:    "What to buy for the beds, and why",
		Subtitle: fmt.Sprintf("Prices of %s%s", in.Plan.Job.Settings.Date, r.readers()),
		Day:      in.Plan.Job.Settings.Date.Time,
		Alarm:    r.unproven(in.Plan),
		Foot:     fmt.Sprintf("Purchase of growing media, prices of %s", in.Plan.Job.Settings.Date),
		Letter:   st.Letter,
	}
	if p.Alarm == "" && in.For == Coop && in.Split != nil && !in.Split.Proven {
		p.Alarm = statement.Unproven
	}
	add := func(heading, sheet string, blocks []page.Block) {
		if len(blocks) > 0 {
			p.Sections = append(p.Sections, page.Section{Heading: heading, Sheet: sheet, Blocks: blocks})
		}
	}
	add("The decision", "Decision", r.decision())
	add("What is bought from whom", "Bill", bill)
	if in.For == Coop {
		for _, s := range r.members() {
			add(s.Heading, s.Sheet, s.Blocks)
		}
	}
	add("The quotes compared", "Quotes", r.compared())
	add("Other ways to buy", "Other ways", r.otherWays())
	add("Where it goes", "Beds", r.beds())
	add("Where another choice would be cheaper", "Break-even", r.charts())
	add("What was assumed", "Assumptions", r.assumed())
	add("Take care", "Cautions", r.cautions())
	add("Approval", "Approval", r.approval())
	return p, nil
}

type report struct {
	Input
	scribe
}

func (r *report) readers() string {
	switch r.For {
	case Client:
		return ", for the client"
	case Coop:
		return ", for the members and the treasurer"
	}
	return ""
}

func suppliersOf(b *bill.Bill) []string {
	var out []string
	for _, l := range b.Lines {
		out = appendNew(out, l.Quote.Supplier)
	}
	slices.Sort(out)
	return out
}

// needed is the placed litres of all beds, and the beds there are.
func (r *report) needed() (litres units.Litres, beds int) {
	for _, f := range r.Plan.Fills {
		beds += f.Bed.Count
		for _, l := range f.Layers {
			litres += l.Demand * units.Litres(f.Bed.Count)
		}
	}
	return litres, beds
}

// decision is three sentences: what for how much, what that saves, how sure it is.
func (r *report) decision() []page.Block {
	pl := r.Plan
	litres, beds := r.needed()
	what := fmt.Sprintf("Buy from %s for %s in all, with delivery and tax%s: %s of media for %s.",
		inWords(suppliersOf(pl.Bill)), r.money(pl.Bill.Total), r.withRinsing(), both(litres), units.Several(beds, "bed"))
	sure := "No purchase from these quotes is cheaper by more than half a cent; that is proven, not estimated."
	if pl.Status != optimise.Optimal {
		sure = fmt.Sprintf("This is the best found before time was up; a purchase cheaper by at most %s may exist.", r.money(pl.Gap()))
	}
	out := []page.Block{&page.Para{Text: what, Strong: true}, &page.Para{Text: r.saving()}, &page.Para{Text: sure}}
	if words := risk.MarginWords(pl, r.Usual, r.money); words != "" {
		out = append(out, &page.Para{Text: words})
	}
	if r.Risk != nil {
		out = append(out, &page.Para{Text: r.Risk.Words(r.money, func(l units.Litres) string { return units.FormatVolume(l, r.Units) })})
	}
	var rows []page.Row
	for _, part := range []struct {
		name string
		m    units.Money
	}{{"Goods", pl.Bill.Goods}, {"Delivery", pl.Bill.Delivery}, {"Tax", pl.Bill.Tax}, {"Rinsing, own time", pl.Bill.Rinsing}} {
		if !part.m.IsZero() {
			rows = append(rows, page.Row{Cells: []page.Cell{page.Text(part.name), r.moneyCell(part.m)}})
		}
	}
	rows = append(rows, page.Row{Kind: page.Total, Cells: []page.Cell{page.Text("Total"), r.moneyCell(pl.Bill.Total)}})
	return append(out, &page.Table{Cols: []page.Col{{Name: "Part"}, {Name: "Money", Right: true}}, Rows: rows})
}

func (r *report) withRinsing() string {
	if r.Plan.Bill.Rinsing.IsZero() {
		return ""
	}
	return " and " + r.money(r.Plan.Bill.Rinsing) + " of one's own time for rinsing"
}

// saving is the sentence that sets the total against plainer ways.
func (r *report) saving() string {
	var saves, cannot, open []string
	for _, w := range r.Ways {
		if w.unsettled() {
			open = append(open, w.Name)
			continue
		}
		if w.Total == nil {
			name := w.Name
			if w.Stops != "" {
				name += " (stopped by " + w.Stops + ")"
			}
			cannot = append(cannot, name)
			continue
		}
		d := w.Total.Sub(r.Plan.Bill.Total)
		if d.Sign() <= 0 {
			saves = append(saves, "nothing against "+w.Name)
			continue
		}
		saves = append(saves, r.money(d)+" against "+w.Name)
	}
	out := "No other way of buying was priced."
	if len(saves) > 0 {
		out = "That saves " + inWords(saves) + "."
	}
	if len(cannot) > 0 {
		out = strings.TrimSuffix(out, ".") + "; " + inWords(cannot) + " cannot fill the beds at all."
	}
	if len(open) > 0 {
		out = strings.TrimSuffix(out, ".") + "; " + inWords(open) + " could not be settled in time."
	}
	return out
}

// otherWays is the table of what a sceptic would ask about.
func (r *report) otherWays() []page.Block {
	if len(r.Ways) == 0 {
		return nil
	}
	t := &page.Table{Cols: []page.Col{{Name: "Way to buy"}, {Name: "From"}, {Name: "Total", Right: true}, {Name: "More than the decision", Right: true}, {Name: "How sure"}}}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: []page.Cell{page.Text("the decision"), page.Text(strings.Join(suppliersOf(r.Plan.Bill), ", ")),
		r.moneyCell(r.Plan.Bill.Total), r.moneyCell(units.Money{}), page.Text(sureWords(r.Plan.Status == optimise.Optimal))}})
	for _, w := range r.Ways {
		row := page.Row{Cells: []page.Cell{page.Text(w.Name)}}
		switch {
		case w.unsettled():
			row.Cells = append(row.Cells, page.Text("not settled in time"))
		case w.Total == nil:
			words := "cannot fill the beds"
			if w.Stops != "" {
				words += ": " + w.Stops
			}
			row.Cells = append(row.Cells, page.Text(words))
		default:
			more := r.moneyCell(w.Total.Sub(r.Plan.Bill.Total))
			n := len(t.Rows)
			more.Formula = func(at func(int, int) string) string { return at(n, 2) + "-" + at(0, 2) }
			row.Cells = append(row.Cells, page.Text(strings.Join(w.Suppliers, ", ")), r.moneyCell(*w.Total), more, page.Text(sureWords(w.Proven)))
		}
		t.Rows = append(t.Rows, row)
	}
	return []page.Block{&page.Para{Text: "Each is the cheapest of its kind, with the same beds, rules and quotes, delivered and taxed in the same way."}, t}
}

func sureWords(proven bool) string {
	if proven {
		return "proven"
	}
	return "best found before time was up"
}

func (r *report) charts() []page.Block {
	var out []page.Block
	for _, c := range r.Charts {
		out = append(out, &page.Chart{Caption: c.Sentence, SVG: c.SVG, PNG: c.PNG})
	}
	return out
}

// cautions are those of this plan, then those that hold for all.
func (r *report) cautions() []page.Block {
	var of []*quotes.Quote
	for _, l := range r.Plan.Bill.Lines {
		if !slices.Contains(of, l.Quote) {
			of = append(of, l.Quote)
		}
	}
	list := append([]caution.Caution{caution.Frames}, r.Input.Cautions...)
	return []page.Block{&page.List{Items: cautionTexts(append(list, caution.Goods(of, r.Units)...))}}
}

func (r *report) approval() []page.Block {
	names := []string{"Prepared by", "Date", "Approved by", "Date", "Signature"}
	switch r.For {
	case Client:
		names = []string{"Prepared by, date", "Client", "Approved up to (money)", "Signature, date"}
	case Coop:
		names = []string{"Prepared by, date", "Treasurer", "Signature, date"}
		for _, m := range quotes.Members(r.Plan.Job) {
			names = append(names, "For "+m+", signature, date")
		}
	}
	return []page.Block{&page.Para{Text: fmt.Sprintf("Approved: a purchase of %s in all, as listed in this report.", r.money(r.Plan.Bill.Total))}, &page.Fields{Names: names}}
}
