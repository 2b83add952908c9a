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
		rows = append(rows, []string{surePercent(at.Sure), p.money(pl, at.Total()), topUp, inAll, boughtWords(at.Plan), p.Strong(strings.Join(marks, ", "))})
	}
	p.grid([]col{{name: "Cases of 100", right: true}, {name: "Cost", right: true}, {name: "Top-up", right: true}, {name: "In all", right: true}, {name: "What is bought", wrap: 36}, {name: ""}}, rows)
	p.para("  ", "  ", "Top-up is what finishing the beds may be expected to cost besides, over all cases.")
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
	if w := c.Worth(); w >= 0 {
		words += worthWords(c.Points[w], w == i, money)
	}
	if c.Cut {
		words += " Time was up before all was tried: give it more with --time-limit."
	}
	return words + " Each is the cheapest found that is as sure; that nothing cheaper is, is not proven."
}

// worthWords say which spare is worth its money.
func worthWords(p risk.Point, chosen bool, money func(units.Money) string) string {
	inAll, _ := p.InAll()
	if chosen {
		return fmt.Sprintf(" The chosen buy is the one worth its money: with the top-up to be expected it comes to least, %s.", money(inAll))
	}
	return fmt.Sprintf(" Worth its money is the buy for %s: with the top-up to be expected it comes to least, %s; what a surer one costs more it does not save.", money(p.Total()), money(inAll))
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
