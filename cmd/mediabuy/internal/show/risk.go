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
	p.sureness(plan)
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
	for _, at := range c.Points {
		mark := ""
		if at.Chosen {
			mark = p.Strong("chosen")
		}
		rows = append(rows, []string{risk.Percent(at.Sure), p.money(pl, at.Total()), p.money(pl, at.Total().Sub(c.Points[0].Total())), risk.Bought(at.Plan), mark})
	}
	p.grid([]col{{name: "Cases of 100", right: true}, {name: "Cost", right: true}, {name: "More", right: true}, {name: "What is bought", wrap: 52}, {name: ""}}, rows)
	p.para("  ", "  ", c.Words(func(m units.Money) string { return p.money(pl, m) }))
	if len(c.Points) > 1 {
		width := p.Width
		if width == 0 || width > 80 {
			width = 80
		}
		for l := range strings.SplitSeq(strings.TrimRight(chart.Text(SurenessPanel(pl.Job.Settings.Currency, c), width-2, 10), "\n"), "\n") {
			fmt.Fprintf(&p.b, "%s\n", strings.TrimRight("  "+l, " "))
		}
	}
}

// SurenessPanel is the curve as it is drawn.
func SurenessPanel(currency string, c *risk.Curve) chart.Panel {
	var at []chart.SureAt
	for _, x := range c.Points {
		at = append(at, chart.SureAt{Percent: 100 * x.Sure, Words: risk.Percent(x.Sure), Total: x.Total(), Chosen: x.Chosen})
	}
	return chart.Sureness(currency, at)
}
