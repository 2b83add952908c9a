package show

import (
	"fmt"
	"strings"

	"mediabuy/optimise/risk"
	"mediabuy/papers/chart"
	"mediabuy/units"
)

// RiskView is what the text of risk is made of.
type RiskView struct {
	Reached *risk.Reached
	Report  *risk.Report // nil where that was not worked out in time
	Curve   *risk.Curve
}

// Risk sets out how sure a plan fills the beds, and what more sureness costs.
func Risk(v RiskView, st Style) string {
	p := &page{Style: st}
	pl := v.Reached.Plan
	p.line("The plan costs %s.", p.money(pl, pl.Bill.Total))
	plan := PlanView{Plan: pl, Reached: v.Reached, Risk: v.Report}
	if v.Report == nil {
		p.line("How sure it fills the beds was not worked out in time: give it more with --time-limit.")
	}
	p.sureness(plan, surerBySettings)
	p.curve(v)
	return p.String()
}

// curve is cost against sureness, as a table and as a plot.
func (p *page) curve(v RiskView) {
	c := v.Curve
	pl := v.Reached.Plan
	if len(c.Points) == 0 {
		return
	}
	p.heading("what more sureness costs")
	var rows [][]string
	worth := c.Worth()
	for i, at := range c.Points {
		var marks []string
		if at.Chosen {
			marks = append(marks, "chosen")
		}
		if i == worth {
			marks = append(marks, "worth it")
		}
		topUp, inAll := "-", "-"
		if m, ok := at.InAll(); ok {
			topUp, inAll = p.money(pl, *at.TopUp), p.money(pl, m)
		}
		rows = append(rows, []string{at.Cases(), p.money(pl, at.Total()), topUp, inAll, at.Bought(), p.Strong(strings.Join(marks, ", "))})
	}
	p.grid([]col{{name: "Cases of 100", right: true}, {name: "Cost", right: true}, {name: "Top-up", right: true}, {name: "In all", right: true}, {name: "What is bought", wrap: 36}, {name: ""}}, rows)
	p.para("  ", "  ", "Top-up is what finishing the beds may be expected to cost besides, over all cases.")
	words := c.Words(func(m units.Money) string { return p.money(pl, m) })
	if c.Cut {
		words += " Give it more with --time-limit."
	}
	p.para("  ", "  ", words)
	if len(c.Points) > 1 {
		width := p.Width
		if width == 0 || width > 80 {
			width = 80
		}
		for l := range strings.SplitSeq(strings.TrimRight(chart.Text(chart.OfCurve(pl.Job.Settings.Currency, c), width-2, 10), "\n"), "\n") {
			fmt.Fprintf(&p.b, "%s\n", strings.TrimRight("  "+l, " "))
		}
	}
}
