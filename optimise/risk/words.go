package risk

import (
	"fmt"
	"math"
	"strings"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Words say how sure a purchase fills the beds, how short a bad case leaves them and
// what that costs, with money and volumes as the reader has them.
func (r *Report) Words(money func(units.Money) string, volume func(units.Litres) string) string {
	words := fmt.Sprintf("In %s of 100 cases every bed is full with what comes, packs, rinsing and settling as uncertain as they are.", Cases(r.Sure))
	if r.ShortP95 <= 0 {
		return words
	}
	words += fmt.Sprintf(" In one case of twenty more than %s is short", volume(r.ShortP95))
	if !r.Finished {
		return words + ", and in some of them nothing on offer finishes the beds."
	}
	return words + fmt.Sprintf("; in one of twenty finishing costs more than %s, and over all cases %s is to be expected.", money(r.TopUpP95), money(r.ExpectedTopUp))
}

// BudgetWords say behind Words where the budget pays for a purchase and not for finishing it in a bad case; "" elsewhere.
func (r *Report) BudgetWords(p *optimise.Plan, money func(units.Money) string) string {
	total := p.Bill.Total
	if r.ShortP95 <= 0 || !r.Finished || optimise.OverBudget(p.Job, total) || !optimise.OverBudget(p.Job, total.Add(r.TopUpP95)) {
		return ""
	}
	return fmt.Sprintf(" The budget leaves %s, which does not pay for that.", money(p.Job.Settings.Budget.Sub(total)))
}

// Proof says in a sentence how far the cost of the plan is to be trusted, with money as
// the reader has it. It warns where time was up, for the cheapest or for one as sure as
// was asked for.
func (r *Reached) Proof(money func(units.Money) string) (words string, warns bool) {
	sure := r.Plan.Job.Settings.Sure
	switch {
	case sure > 0 && !r.Met:
		return fmt.Sprintf("Not as sure as asked for: time was up. Of what was found this is the surest, and the job asks for %.3g of 100 cases with every bed full.", 100*sure), true
	case sure > 0 && r.Above().Sign() > 0:
		return fmt.Sprintf("The cheapest found that is %.3g %% sure to fill every bed; a cheaper one as sure could save at most %s.", 100*sure, money(r.Above())), false
	case r.Plan.Status == optimise.Optimal:
		return "Proven: nothing is " + optimise.Cheaper + ".", false
	}
	return notProven(r.Plan.LowerBound(), r.Plan.Gap(), money), true
}

// Proof is [Reached.Proof] of a plainer purchase as well: what may still be saved is counted
// against all that is on offer, and not against purchases of its kind.
func (t *Tidied) Proof(money func(units.Money) string) (words string, warns bool) {
	switch {
	case t.Way == "" || t.Plan.Job.Settings.Sure > 0 && !t.Met:
		return t.Reached.Proof(money)
	case t.Cheapest.Plan.Status == optimise.Optimal && t.Plan.Status == optimise.Optimal:
		return t.Words(money), false
	}
	return notProven(t.Least, t.Above(), money), true
}

func notProven(least, above units.Money, money func(units.Money) string) string {
	return fmt.Sprintf("Not proven: time was up. No purchase can cost less than %s, so at most %s could still be saved.", money(least), money(above))
}

// MarginWords say what weights the frames of a plan are held to, and what holding them to
// heavy stone costs against other, the same job at the other weights; "" where there is
// nothing to say.
func MarginWords(plan, other *optimise.Plan, money func(units.Money) string) string {
	words := ""
	if plan.Job.Settings.Weights == quotes.UsualWeights {
		words = "Frames are held to usual weights: a lot of stone heavier or wetter than usual can pass these limits."
		if other != nil && other.Status == optimise.Infeasible {
			if plan.Job.Settings.Sure > 0 {
				return words + " Held to heavy stone, nothing on offer fills the beds as surely."
			}
			return words + " Held to heavy stone, nothing on offer fills the beds."
		}
	}
	if other == nil || other.Bill == nil {
		return words
	}
	about := ""
	if plan.Status != optimise.Optimal || other.Status != optimise.Optimal || plan.Job.Settings.Sure > 0 { // a surer one is the cheapest found
		about = "about "
	}
	more := plan.Bill.Total.Sub(other.Bill.Total)
	switch {
	case words != "" && more.Sign() >= 0:
		return words + " Holding them to heavy stone costs no more."
	case words != "":
		return fmt.Sprintf("%s Holding them to heavy stone costs %s%s more.", words, about, money(more.Neg()))
	case more.Sign() <= 0:
		return "Frames are held to heavy stone: it costs no more than holding to usual weights."
	}
	return fmt.Sprintf("Frames are held to heavy stone: %s%s more than at usual weights.", about, money(more))
}

// Words say where the chosen plan stands on the curve and what the next step up
// brings, with money as the reader has it.
func (c *Curve) Words(money func(units.Money) string) string {
	i := c.Chosen()
	if i < 0 {
		return "Cost against sureness was not worked out in time."
	}
	here := c.Points[i]
	words := "Nothing surer was found: the chosen buy is the surest."
	if here.Sure >= 0.9999 {
		words = "The chosen buy is as sure as it can be."
	} else if next, ok := c.Next(here); ok && next.Cases() == here.Cases() {
		words = fmt.Sprintf("%s more than the chosen buy fills every bed in less than one more case of 100.", money(next.Total().Sub(here.Total())))
	} else if ok {
		words = fmt.Sprintf("%s more than the chosen buy fills every bed in %s of 100 cases in place of %s.", money(next.Total().Sub(here.Total())), next.Cases(), here.Cases())
	}
	if i > 0 && c.Points[i-1].Sure >= here.Sure {
		best, _ := c.AtLeast(here.Sure)
		words += fmt.Sprintf(" One that is as sure was found for %s less.", money(here.Total().Sub(best.Total())))
	}
	if w := c.Worth(); w >= 0 {
		words += worthWords(c.Points[w], w == i, money)
	}
	words += " Each is the cheapest found that is as sure; that nothing cheaper is, is not proven."
	if c.Cut {
		words += " Time was up before all was tried."
	}
	return words
}

// worthWords say which spare is worth its money.
func worthWords(p Point, chosen bool, money func(units.Money) string) string {
	inAll, _ := p.InAll()
	if chosen {
		return fmt.Sprintf(" The chosen buy is the one worth its money: with the top-up to be expected it comes to least, %s.", money(inAll))
	}
	return fmt.Sprintf(" Worth its money is the buy for %s: with the top-up to be expected it comes to least, %s; what a surer one costs more it does not save.", money(p.Total()), money(inAll))
}

// Cases is a share as so many of 100 cases: a whole number, as no finer one is known of
// the draws, and rounded down, so that 100 says every case that was tried.
func Cases(share float64) string { return fmt.Sprintf("%.0f", math.Floor(100*share+1e-6)) }

// Cases is in how many of 100 cases every bed is full.
func (p Point) Cases() string { return Cases(p.Sure) }

// Bought is what the purchase buys, in short: "6.5 gravel-ton, 2 shale-sack at North".
func (p Point) Bought() string {
	var out []string
	for _, l := range p.Plan.Bill.Lines {
		words := l.Packs.String() + " " + l.Quote.Name
		if l.Site != "" {
			words += " at " + l.Site
		}
		out = append(out, words)
	}
	return strings.Join(out, ", ")
}
