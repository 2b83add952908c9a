package show

import (
	"fmt"
	"math"
	"strings"

	"mediabuy/optimise"
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
		rows = append(rows, []string{surePercent(at.Sure), p.money(pl, at.Total()), p.money(pl, at.Total().Sub(c.Points[0].Total())), boughtWords(at.Plan), mark})
	}
	p.grid([]col{{name: "Cases of 100", right: true}, {name: "Cost", right: true}, {name: "More", right: true}, {name: "What is bought", wrap: 52}, {name: ""}}, rows)
	p.para("  ", "  ", curveWords(c, func(m units.Money) string { return p.money(pl, m) }))
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
		at = append(at, chart.SureAt{Percent: 100 * x.Sure, Words: surePercent(x.Sure), Total: x.Total(), Chosen: x.Chosen})
	}
	return chart.Sureness(currency, at)
}

// curveWords say where the chosen plan stands on the curve and what the next step up
// brings.
func curveWords(c *risk.Curve, money func(units.Money) string) string {
	i := c.Chosen()
	if i < 0 {
		return "Cost against sureness was not worked out in time."
	}
	here := c.Points[i]
	words := "Nothing surer was found: the chosen buy is the surest."
	if here.Sure >= 0.9999 {
		words = "The chosen buy is as sure as it can be."
	} else if next, ok := c.Next(here); ok {
		words = fmt.Sprintf("%s more than the chosen buy fills every bed in %s of 100 cases in place of %s.", money(next.Total().Sub(here.Total())), surePercent(next.Sure), surePercent(here.Sure))
	}
	if i > 0 && c.Points[i-1].Sure >= here.Sure {
		best, _ := c.AtLeast(here.Sure)
		words += fmt.Sprintf(" One that is as sure was found for %s less.", money(here.Total().Sub(best.Total())))
	}
	if c.Cut {
		words += " Time was up before all was tried: give it more with --time-limit."
	}
	return words + " Each is the cheapest found that is as sure; that nothing cheaper is, is not proven."
}

// surePercent is a chance in cases of a hundred, finer where only few cases are left.
func surePercent(sure float64) string {
	p := 100 * sure
	if p > 99 && p < 100 {
		return fmt.Sprintf("%.2f", math.Floor(p*100+1e-6)/100) // never rounded up to certain
	}
	return fmt.Sprintf("%.0f", p)
}

// boughtWords is what a plan buys, in short.
func boughtWords(p *optimise.Plan) string {
	var out []string
	for _, l := range p.Bill.Lines {
		words := l.Packs.String() + " " + l.Quote.Name
		if l.Site != "" {
			words += " at " + l.Site
		}
		out = append(out, words)
	}
	return strings.Join(out, ", ")
}
