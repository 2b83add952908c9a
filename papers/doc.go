// Package papers turns a plan into what people sign, send and check: the report
// that justifies the purchase, the orders, the sheets that ask for quotes, and the
// count of what arrived.
//
// The builders ([Orders], [Requests], [Justify], [Settle]) read a finished plan and
// change nothing; they fill package page's model, which knows the forms. Every
// number comes from the plan's bill or its fills, which are exact. Whoever reads a
// paper never sees the job's files, so no paper names them. Days come from the job, never from a clock, so the
// same job gives the same bytes.
package papers

import (
	"fmt"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers/caution"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Style is how numbers are shown.
type Style struct {
	Units  units.System
	Letter bool // US Letter in place of A4
}

// LetterFor reports whether papers of a job in a currency go on US Letter: where it is
// paid in, not in what units it is read.
func LetterFor(currency string) bool { return currency == "USD" }

// scribe writes a job's numbers in words.
type scribe struct {
	Style
	currency string
	digits   int
}

func newScribe(job *quotes.Job, st Style) scribe {
	return scribe{st, job.Settings.Currency, job.Settings.CurrencyDigits}
}

// money is an amount of the bill, in the currency's digits.
func (s scribe) money(m units.Money) string { return units.FormatMoney(m, s.currency) }

// price is the price of a pack, in the one form of money.
func (s scribe) price(m units.Money) string { return units.FormatPrice(m, s.currency) }

func (s scribe) mass(m units.Kilograms) string { return caution.Mass(m, s.Units) }

// volume is a large volume in the reader's habit.
func (s scribe) volume(v units.Litres) string { return units.FormatVolume(v, s.Units) }

// grain is a grain size as written, and in the reader's habit where that is another.
func (s scribe) grain(g quotes.Grain) string {
	if !g.Known {
		return "not stated"
	}
	if s.Units == units.US && !strings.Contains(strings.ToLower(g.Raw), "m") && !strings.HasPrefix(g.Raw, "#") {
		return g.Raw // inches, as the yard has them
	}
	if s.Units == units.US {
		words := quotes.GrainWords(g.Min, units.US) + " to " + quotes.GrainWords(g.Max, units.US)
		switch {
		case g.Open():
			words = quotes.GrainWords(g.Min, units.US) + " and up"
		case g.Min == g.Max:
			words = quotes.GrainWords(g.Min, units.US)
		}
		return g.Raw + " (" + words + ")"
	}
	mm := fmt.Sprintf("%.4g to %.4g mm", float64(g.Min), float64(g.Max))
	switch {
	case g.Open():
		mm = fmt.Sprintf("%.4g mm and up", float64(g.Min))
	case g.Min == g.Max:
		mm = fmt.Sprintf("%.4g mm", float64(g.Min))
	}
	return g.Raw + " (" + mm + ")"
}

// AtSite is " to North plot", or nothing in a job that names no site.
func AtSite(word, site string) string {
	if site == "" {
		return ""
	}
	return " " + word + " " + site
}

// checkPlan refuses a plan that has nothing to put on paper.
func checkPlan(p *optimise.Plan) error {
	if p.Bill == nil {
		return fmt.Errorf("a paper needs a purchase and the plan is %q, want one that is optimal or stopped at its time limit", p.Status)
	}
	return nil
}
