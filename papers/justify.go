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
	"mediabuy/papers/cut"
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
	Total     *units.Money        // nil: it cannot fill the beds, or, unless Proven, nothing was found in time
	Proven    bool                // nothing of that kind is cheaper
	Why       []optimise.Obstacle // what stops it, where it cannot fill the beds
	Bill      *bill.Bill          // nil where it was not priced
	Pains     string              // what it asks of those who carry it out that the decision does not, in words
}

// unsettled reports that time was up before it was known whether there is a
// purchase of the kind.
func (w Way) unsettled() bool { return w.Total == nil && !w.Proven }

// WayOf is the cheapest plan of its kind as a way.
func WayOf(name string, p *optimise.Plan) Way {
	w := Way{Name: name, Proven: p.Status != optimise.TimeLimit, Bill: p.Bill, Why: p.Why}
	if p.Bill != nil {
		w.Total = &p.Bill.Total
		w.Suppliers = p.Bill.Suppliers()
	}
	return w
}

// Chart is a drawing made elsewhere, with one sentence that says what it shows.
type Chart struct {
	SVG, PNG []byte
	Sentence string
}

// Sureness is cost against sureness and its drawing, which is empty without points.
type Sureness struct {
	Curve *risk.Curve
	Chart Chart // its sentence is the report's own
}

// Input is what a report is made of.
type Input struct {
	Plan *optimise.Plan
	How  *risk.Tidied // how the plan was chosen: as sure as asked, or plainer; nil for the cheapest there is
	Ways []Way
	// OtherWeights is the plan with frames held to the other weights, usual or heavy; nil where there is nothing to compare.
	OtherWeights *optimise.Plan
	Risk         *risk.Report // how sure the plan fills every bed; nil where that is not known
	Sureness     *Sureness    // what more sureness costs; nil where nobody asked
	Compared     []optimise.Quoted
	Warnings     []*quotes.Problem
	Cautions     []caution.Caution // about this very plan, besides those that hold for all
	Charts       []Chart
	Split        *share.Result // how the members of a co-op share the bill; nil without members
	For          Audience
}

// Justify makes the report that explains a purchase to someone who never saw how
// it was found.
func Justify(in Input, st Style) (*page.Page, error) {
	if err := checkPlan(in.Plan); err != nil {
		return nil, err
	}
	r := &report{Input: in, scribe: newScribe(in.Plan.Job, st), cut: cut.Of(in.Plan, st.Units)}
	bill, prices, err := r.bill()
	if err != nil {
		return nil, fmt.Errorf("writing the report: %w", err)
	}
	p := &page.Page{
		Title:    "What to buy for the beds, and why",
		Subtitle: r.subtitle(),
		Day:      in.Plan.Job.Settings.Date.Time,
		Alarm:    r.alarm(),
		Foot:     fmt.Sprintf("Purchase of growing media, prices of %s", in.Plan.Job.Settings.Date),
		Letter:   st.Letter,
	}
	if p.Alarm == "" && in.For == Coop && in.Split != nil && !in.Split.Proven {
		p.Alarm = statement.Unproven
	}
	p.Sections = []page.Section{{Heading: "The decision", Sheet: "Decision", Blocks: r.decision(), OneSheet: true}}
	add := func(heading, sheet string, blocks []page.Block) {
		if len(blocks) == 0 {
			return
		}
		n := len(p.Sections) // the first behind the decision is A
		p.Sections = append(p.Sections, page.Section{Heading: string(rune('A'-1+n)) + ". " + heading, Sheet: sheet, Blocks: blocks, NewSheet: n == 1})
	}
	add("The bill, line by line", "Bill", bill)
	if in.For == Coop {
		for _, s := range r.members() {
			add(s.Heading, s.Sheet, s.Blocks)
		}
		add("Members agree", "", r.membersSign())
	}
	add("The quotes compared", "Quotes", r.compared())
	add("Other ways to buy", "Other ways", r.otherWays())
	add("Each bed", "Beds", r.beds())
	add("Where another choice would be cheaper", "Break-even", r.charts())
	add("What more sureness costs", "Sureness", r.surer())
	add("What was assumed", "Assumptions", r.assumed())
	add("Take care", "Cautions", r.cautions())
	add("Sources", "Sources", r.sources())
	p.Sections = behindSheet(p.Sections, "Bill", prices)
	return p, nil
}

// membersSign is room for each member to sign for its part; nothing without members.
func (r *report) membersSign() []page.Block {
	var names []string
	for _, m := range quotes.Members(r.Plan.Job) {
		names = append(names, "For "+m+", signature, date")
	}
	if len(names) == 0 {
		return nil
	}
	return []page.Block{&page.Para{Leads: true, Text: "Each member agrees to pay the part set out above."}, &page.Fields{Names: names}}
}

type report struct {
	Input
	scribe
	cut *cut.Beds
}

// alarm says that the decision is not proven, and where another way was found that costs
// less, that it is not to be signed yet; "" where it is proven.
func (r *report) alarm() string {
	words, warns := r.chosen().Proof(r.money)
	if !warns {
		return ""
	}
	if r.plainerTaken() {
		return words // what is cheaper stands beside it anyhow
	}
	var best *Way
	for i, w := range r.Ways {
		if w.Total != nil && w.Total.Cmp(r.Plan.Bill.Total) < 0 && (best == nil || w.Total.Cmp(*best.Total) < 0) {
			best = &r.Ways[i]
		}
	}
	if best != nil {
		words += fmt.Sprintf(" Another way was found that costs less: %s, for %s, %s less. Give the search more time before anything is signed.",
			best.Name, r.money(*best.Total), r.money(r.Plan.Bill.Total.Sub(*best.Total)))
	}
	return words
}

// subtitle says for whom the report is and of which day its prices are.
func (r *report) subtitle() string {
	out := fmt.Sprintf("Prices of %s", r.Plan.Job.Settings.Date)
	if name := r.Plan.Job.Settings.Buyer.Name; name != "" {
		out = name + ", prices of " + r.Plan.Job.Settings.Date.String()
	}
	switch r.For {
	case Client:
		return out + ", for the client"
	case Coop:
		return out + ", for the members and the treasurer"
	}
	return out
}

// mostFrom is how many suppliers of a way are named.
const mostFrom = 6

// otherWays is the table of what a sceptic would ask about.
func (r *report) otherWays() []page.Block {
	if len(r.Ways) == 0 {
		return nil
	}
	t := &page.Table{Cols: []page.Col{{Name: "Way to buy"}, {Name: "From"}, {Name: "Total", Right: true}, {Name: "More than the decision", Right: true}, {Name: "How sure"}}}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: []page.Cell{page.Text("the decision"), page.Text(strings.Join(few(r.Plan.Bill.Suppliers(), mostFrom), ", ")),
		r.moneyCell(r.Plan.Bill.Total), r.moneyCell(units.Money{}), page.Text(r.sureOfDecision())}})
	for _, w := range r.Ways {
		row := page.Row{Cells: []page.Cell{page.Text(w.Name)}}
		switch {
		case w.unsettled():
			row.Cells = append(row.Cells, page.Text("not settled in time"))
		case w.Total == nil:
			row.Cells = append(row.Cells, page.Text(r.cannot(w)))
		default:
			more := r.moneyCell(w.Total.Sub(r.Plan.Bill.Total))
			n := len(t.Rows)
			more.Formula = func(at func(int, int) string) string { return at(n, 2) + "-" + at(0, 2) }
			row.Cells = append(row.Cells, page.Text(strings.Join(few(w.Suppliers, mostFrom), ", ")), r.moneyCell(*w.Total), more, page.Text(sureWords(w.Proven)))
		}
		t.Rows = append(t.Rows, row)
	}
	words := "Each is the cheapest of its kind, with the same beds, rules and quotes, delivered and taxed in the same way."
	if r.reserved() {
		words += " For each as much is held back for what may come short as for the decision."
	}
	return []page.Block{&page.Para{Leads: true, Text: words}, t}
}

// sureOfDecision says what is proven about the decision.
func (r *report) sureOfDecision() string {
	switch {
	case r.plainerTaken() && r.Plan.Status == optimise.Optimal:
		return "proven of its kind"
	case r.reserved():
		return "cheapest found"
	}
	return sureWords(r.Plan.Status == optimise.Optimal)
}

// plainerTaken reports whether a plainer way was taken in place of the cheapest.
func (r *report) plainerTaken() bool { return r.How != nil && r.How.Way != "" }

// reserved reports whether something is held back so that the beds come out as sure as
// asked: then nothing says that no purchase as sure is cheaper.
func (r *report) reserved() bool {
	return r.How != nil && r.How.Way == "" && r.Plan.Job.Settings.Sure > 0 && r.How.Above().Sign() > 0
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

// cautions are those of this plan, then those that hold for all but for that of frames,
// which stands beside their weights.
func (r *report) cautions() []page.Block {
	var of []*quotes.Quote
	for _, l := range r.Plan.Bill.Lines {
		if !slices.Contains(of, l.Quote) {
			of = append(of, l.Quote)
		}
	}
	return []page.Block{&page.List{Items: cautionTexts(slices.Concat(r.Input.Cautions, caution.Goods(of, r.Plan.Job.Settings.Currency, r.Units)))}}
}
