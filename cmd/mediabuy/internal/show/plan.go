package show

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/cmd/mediabuy/internal/advice"
	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/risk"
	"mediabuy/papers/caution"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/units"
)

// PlanView is what the text of a plan is made of.
type PlanView struct {
	Plan    *optimise.Plan
	Tidied  *risk.Tidied  // what is plainer about it than the cheapest; nil where that was not asked
	Reached *risk.Reached // how the sureness asked for was reached; nil for a plan without
	Risk    *risk.Report  // how sure the plan is; nil where that is not known
	// OtherWeights is the plan with frames held to usual weights, or to heavy stone where they are held to usual weights; nil where
	// there is nothing to compare.
	OtherWeights *optimise.Plan
	Others       []optimise.Alternative // ways to buy to compare it with; may be empty
	OthersErr    error                  // why there are none
	Small        []breakeven.Other      // small changes that save much; may be empty
	Warnings     []*quotes.Problem
}

// Plan sets out a plan: first what a person must know in ten seconds, then where
// everything goes, then what to be careful about.
func Plan(v PlanView, st Style) string {
	p := &page{Style: st}
	if v.Plan.Bill == nil {
		p.infeasible(v)
		return p.String()
	}
	p.verdict(v)
	p.unsure(v)
	p.buy(v.Plan)
	p.costs(v)
	p.small(v)
	p.beds(v.Plan)
	p.tables(v)
	p.sureness(v, surerBySettings+surerByRisk)
	p.leftover(v.Plan)
	p.heading("left out")
	p.refusals(v.Plan.Fit, v.Plan.Job)
	p.warnings(v.Warnings)
	p.cautions(caution.Of(v.Plan, st.Units))
	return p.String()
}

func (p *page) money(pl *optimise.Plan, m units.Money) string {
	return units.FormatMoney(m, pl.Job.Settings.Currency)
}

// verdict is the first lines: the total, and how far it is to be trusted.
func (p *page) verdict(v PlanView) {
	pl := v.Plan
	litres, beds := pl.Job.Demand(), pl.Job.BedCount()
	p.line("%s", p.Strong(fmt.Sprintf("Buy for %s in all: %s of media for %s, from %s.",
		p.money(pl, pl.Bill.Total), p.volume(litres), units.Several(beds, "bed"), units.Several(len(pl.Bill.Suppliers()), "supplier"))))
	budget := func() {
		if words := optimise.BudgetWords(pl.Job, pl.Bill.Total, func(m units.Money) string { return p.money(pl, m) }); words != "" {
			p.line("%s", words)
		}
	}
	if t := v.Tidied; t != nil && t.Way != "" {
		budget()
		p.para("", "", t.Words(func(m units.Money) string { return p.money(pl, m) }))
		return
	}
	reached := v.Reached
	if reached == nil { // a plan by itself
		reached = &risk.Reached{Plan: pl, Met: true}
	}
	words, warns := reached.Proof(func(m units.Money) string { return p.money(pl, m) })
	if warns {
		words = p.Alarm(words)
	}
	p.line("%s", words)
	budget()
	if t := v.Tidied; t != nil {
		if words := t.Words(func(m units.Money) string { return p.money(pl, m) }); words != "" {
			p.para("", "", words)
		}
	}
	p.others(v)
}

// unsure says at once what a buyer must know who reads no further.
func (p *page) unsure(v PlanView) {
	if r := v.Risk; r != nil && r.Sure < risk.FairlySure {
		p.line("%s", p.Strong(fmt.Sprintf("It fills every bed in %s of 100 cases only; below stands how to ask for a surer buy.", risk.Cases(r.Sure))))
	}
}

func (p *page) buy(pl *optimise.Plan) {
	p.heading("what to buy")
	sites := len(quotes.Sites(pl.Job)) > 1
	cols := []col{{name: "Supplier"}, {name: "Quote"}, {name: "Item", wrap: 26}, {name: "Packs"}, {name: "Each", right: true}, {name: "Break"}, {name: "Goods", right: true}}
	if sites {
		cols = append(cols, col{name: "Site"})
	}
	var rows [][]string
	lines := slices.Clone(pl.Bill.Lines)
	slices.SortStableFunc(lines, func(a, b bill.Line) int { return strings.Compare(a.Quote.Supplier, b.Quote.Supplier) })
	for _, l := range lines {
		row := []string{
			l.Quote.Supplier, l.Quote.Name, l.Quote.ItemWords(), l.Quote.PacksWords(l.Packs), p.money(pl, l.PackPrice),
			breakWords(l), p.money(pl, l.Goods),
		}
		if sites {
			row = append(row, l.Site)
		}
		rows = append(rows, row)
	}
	p.grid(cols, rows)
	for _, words := range advice.More(pl) {
		p.item("%s", words)
	}
}

func breakWords(l bill.Line) string {
	switch {
	case l.BreakFrom.IsZero():
		return "-"
	case l.Quote.BreakKind == quotes.Incremental:
		return "from " + l.BreakFrom.String() + ", average"
	}
	return "from " + l.BreakFrom.String()
}

func (p *page) costs(v PlanView) {
	pl := v.Plan
	p.heading("what it costs")
	rows := [][]string{{"Goods", "", p.money(pl, pl.Bill.Goods)}}
	for _, d := range pl.Bill.Drops {
		rows = append(rows, []string{"Delivery", d.Words(), p.money(pl, d.Fee)})
	}
	if !pl.Bill.Tax.IsZero() {
		rows = append(rows, []string{"Tax", "", p.money(pl, pl.Bill.Tax)})
	}
	if !pl.Bill.Rinsing.IsZero() {
		rows = append(rows, []string{"Rinsing", "your own time", p.money(pl, pl.Bill.Rinsing)})
	}
	p.grid([]col{{name: "Part"}, {name: "What", wrap: 64}, {name: "Money", right: true}}, rows, []string{"Total", "", p.money(pl, pl.Bill.Total)})
}

// mostSmall is how many small changes are told with a plan.
const mostSmall = 4

// small says what small changes would save.
func (p *page) small(v PlanView) {
	if len(v.Small) == 0 {
		return
	}
	p.heading("what a small change would save")
	words := chart.SmallWords(v.Small, p.Units, func(m units.Money) string { return p.money(v.Plan, m) })
	for _, w := range words[:min(len(words), mostSmall)] {
		p.para("  - ", "    ", w)
	}
}

// others says in one sentence what the plan saves against plainer ways to buy.
func (p *page) others(v PlanView) {
	if v.OthersErr != nil {
		p.line("Other ways to buy were not worked out: %v.", v.OthersErr)
		return
	}
	var saves, same, cheaper, cannot, unsettled []string
	remedy := "give the search more time with --time-limit"
	for _, o := range v.Others {
		if o.Plan.Status == optimise.TimeLimit && o.Plan.Bill == nil {
			unsettled = append(unsettled, o.Name)
			continue
		}
		if o.Plan.Bill == nil {
			name := o.Name
			if len(o.Plan.Why) > 0 {
				name += " (stopped by " + strings.Join(o.Plan.Why[0].About(), ", ") + ")"
			}
			cannot = append(cannot, name)
			continue
		}
		name := o.Name
		if from := o.Plan.Bill.Suppliers(); len(from) == 1 {
			name += " (" + from[0] + ")"
		}
		if optimise.OverBudget(v.Plan.Job, o.Plan.Bill.Total) {
			name += " (over the budget)"
		}
		more := o.Plan.Bill.Total.Sub(v.Plan.Bill.Total)
		switch {
		case more.Sign() > 0 && o.Plan.Status == optimise.Optimal:
			saves = append(saves, p.money(v.Plan, more)+" against "+name)
		case more.Sign() > 0:
			saves = append(saves, fmt.Sprintf("up to %s against the best found for %s", p.money(v.Plan, more), name))
		case more.Sign() < 0: // which only a plan that is not proven leaves
			cheaper = append(cheaper, fmt.Sprintf("%s less by %s", p.money(v.Plan, units.Money{}.Sub(more)), name))
			if o.Plain {
				remedy = "give the search more time with --time-limit, or take the plainer way with --tidy"
			}
		default:
			same = append(same, name)
		}
	}
	words := ""
	if len(cheaper) > 0 {
		words = p.Alarm("Cheaper was found: "+units.Listed(cheaper)+"; "+remedy+".") + " "
	}
	if len(saves) > 0 {
		words += "Saves " + units.Listed(saves) + "."
	}
	if len(same) > 0 {
		words += " No cheaper than " + units.Listed(same) + "."
	}
	if len(cannot) > 0 {
		words += " Cannot fill the beds at all: " + units.Listed(cannot) + "."
	}
	if len(unsettled) > 0 {
		words += " Not settled in time: " + units.Listed(unsettled) + "."
	}
	if words != "" {
		p.line("%s", strings.TrimSpace(words))
	}
}

func (p *page) tables(v PlanView) {
	pl := v.Plan
	var rows [][]string
	add := func(name string, beds []string, usual, heavy units.Kilograms, limit *units.Kilograms) {
		w := heavy
		if pl.Job.Settings.Weights == quotes.UsualWeights {
			w = usual
		}
		most, used := "not given", ""
		if limit != nil {
			most, used = p.mass(*limit), percent(float64(w), float64(*limit))
			if float64(w) >= caution.NearLimit*float64(*limit) {
				used = p.Care(used + " near its limit")
			}
		}
		rows = append(rows, []string{name, several(beds, 6), p.mass(usual), p.mass(heavy), most, used})
	}
	for _, t := range pl.Tables {
		add(t.Name, t.Beds, t.Usual, t.Heavy, t.Limit)
	}
	for _, f := range pl.Fills {
		if f.Bed.Table == "" && f.Bed.Limit != nil {
			add("-", []string{f.Bed.Name}, f.Usual, f.Heavy, f.Bed.Limit)
		}
	}
	p.heading("what the tables carry when flooded")
	if len(rows) == 0 {
		p.line("  no table or limit is given, so no weight was held against one")
	} else {
		p.grid([]col{{name: "Table"}, {name: "Beds", wrap: 36}, {name: "Usual", right: true}, {name: "Heavy", right: true}, {name: "Limit", right: true}, {name: "Used", right: true}}, rows)
	}
	if words := risk.MarginWords(pl, v.OtherWeights, func(m units.Money) string { return p.money(pl, m) }); words != "" {
		p.para("  ", "  ", words)
	}
	p.para("  ", "  ", caution.Frames.Words)
}

// Where a buy is not very sure, what may be done about it.
const (
	surerBySettings = `Write sure = "90%" in job.toml for a buy that is surer, or extra = "5%" for a spare.`
	surerByRisk     = " What each costs, and which spare is worth its money, is told by: mediabuy risk"
)

// sureness says how sure the buy fills every bed, and what may be done where it does
// not.
func (p *page) sureness(v PlanView, remedy string) {
	if v.Risk == nil {
		return
	}
	p.heading("how sure it fills the beds")
	r := v.Risk
	money := func(m units.Money) string { return p.money(v.Plan, m) }
	p.para("  ", "  ", r.Words(money, p.volume)+r.BudgetWords(v.Plan, money))
	if s := v.Plan.Job.Settings.Sure; s > 0 && v.Reached != nil && (v.Tidied == nil || v.Tidied.Way == "") {
		words := fmt.Sprintf("Asked for is %.3g of 100.", 100*s)
		if !v.Reached.Met {
			words += " The search for a surer buy ran out of time: this is the surest found. Give it more with --time-limit."
		} else if v.Reached.Cut {
			words += " The search for a cheaper buy that is as sure ran out of time."
		} else if above := v.Reached.Above(); above.Sign() > 0 {
			words += " Cheaper buys were looked for and none found that is as sure."
		} else {
			words += " No buy at all is cheaper."
		}
		p.para("  ", "  ", words)
	} else if r.Sure < risk.FairlySure {
		p.para("  ", "  ", remedy)
	}
}

func percent(part, whole float64) string {
	if whole <= 0 {
		return "over"
	}
	return fmt.Sprintf("%.0f %%", 100*part/whole)
}

func (p *page) leftover(pl *optimise.Plan) {
	p.heading("left over")
	if len(pl.Leftover) == 0 {
		p.line("  nothing")
		return
	}
	for _, l := range pl.Leftover {
		site := ""
		if l.Site != "" {
			site = " at " + l.Site
		}
		p.item("%s: %s%s", l.Quote.Name, p.volume(l.Litres), site)
	}
}

func (p *page) warnings(list []*quotes.Problem) {
	if len(list) == 0 {
		return
	}
	p.heading("warnings")
	for _, w := range list {
		p.item("%s: %s", w.Pos, optimise.WarningText(w))
	}
}

func (p *page) cautions(list []caution.Caution) {
	if len(list) == 0 {
		return
	}
	p.heading("take care")
	for _, c := range list {
		p.item("%s %s", p.Care(c.About+":"), c.Words)
	}
}

// infeasible says what stands in the way and what would help.
func (p *page) infeasible(v PlanView) {
	p.line("%s", p.Alarm("No mix of these quotes can satisfy the beds."))
	p.obstacles(v.Plan.Why)
	p.heading("left out")
	p.refusals(v.Plan.Fit, v.Plan.Job)
	p.warnings(v.Warnings)
}

// obstacles lists what stands in the way of filling the beds.
func (p *page) obstacles(why []optimise.Obstacle) {
	p.heading("what stands in the way")
	if len(why) == 0 {
		p.line("  %s", optimise.NoOneObstacle)
	}
	for _, o := range why {
		about := o.AboutWith(p.volume)
		p.item("%s: %s", p.Strong(strings.Join(about, ", ")), o.Remedy)
	}
}
