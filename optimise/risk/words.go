package risk

import (
	"fmt"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Words say how sure a purchase fills the beds, how short a bad case leaves them and
// what that costs, with money and volumes as the reader has them.
func (r *Report) Words(money func(units.Money) string, volume func(units.Litres) string) string {
	words := fmt.Sprintf("In %.0f of 100 cases every bed is full with what comes, packs, rinsing and settling as uncertain as they are.", 100*r.Sure)
	if r.Sure >= 0.995 {
		words = "Every bed is full with what comes in all but one case of two hundred, packs, rinsing and settling as uncertain as they are."
	}
	if r.ShortP95 <= 0 {
		return words
	}
	words += fmt.Sprintf(" In one case of twenty more than %s is short", volume(r.ShortP95))
	if !r.Finished {
		return words + ", and in some of them nothing on offer finishes the beds."
	}
	return words + fmt.Sprintf(", and finishing then costs %s; over all cases %s is to be expected.", money(r.TopUpP95), money(r.ExpectedTopUp))
}

// MarginWords say what weights the frames of a plan are held to and what that costs
// against usual, the same job at usual weights; "" where there is nothing to say.
func MarginWords(plan, usual *optimise.Plan, money func(units.Money) string) string {
	switch {
	case plan.Job.Settings.Weights == quotes.UsualWeights:
		return "Held to usual weights: a lot of stone heavier or wetter than usual can pass these limits."
	case usual == nil || usual.Bill == nil:
		return ""
	}
	more := plan.Bill.Total.Sub(usual.Bill.Total)
	if more.Sign() <= 0 {
		return "Held to heavy stone: it costs no more than holding to usual weights."
	}
	about := ""
	if plan.Status != optimise.Optimal || usual.Status != optimise.Optimal {
		about = "about "
	}
	return fmt.Sprintf("Held to heavy stone: %s%s more than at usual weights.", about, money(more))
}
