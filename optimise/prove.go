package optimise

import (
	"fmt"
	"io"
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/propose"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// proofTol is how far, as a share of its size, a row of the plain model may be
// off in a plan: litres of a plan are rounded at a thousandth of a spoonful.
const proofTol = 1e-5

// Prove writes what a sceptic needs to check a plan without this program: the
// plain model of the job as LP text, with the plan as an answer to it, the bound,
// and how to confirm both with any solver in its comments. It is an error if the
// plan does not satisfy the model or does not cost what the model says.
func Prove(w io.Writer, plan *Plan) error {
	if plan.Bill == nil {
		return fmt.Errorf("there is no purchase to prove: the job is %s", plan.Status)
	}
	p := model.Build(model.NewInstance(plan.Job, plan.Fit, true), model.Options{})
	x, err := restate(p, plan)
	if err != nil {
		return err
	}
	if broken := p.Check(x, proofTol); len(broken) > 0 {
		return fmt.Errorf("the plan does not satisfy the plain model: %w", broken[0])
	}
	value := p.Value(x)
	if d := plan.Bill.Total.Float() - value; math.Abs(d) > plan.roundingAllowance() {
		return fmt.Errorf("the bill comes to %s and the plain model says %.4f", plan.Bill.Total, value)
	}
	digits := plan.Job.Settings.CurrencyDigits
	below := value - 2*mip.DefaultGap
	for _, line := range []string{
		"THE CLAIM",
		fmt.Sprintf("  The purchase below costs %.4f before each invoice line is rounded, %s %s after.", value, plan.Bill.Total.Text(digits), plan.Job.Settings.Currency),
		fmt.Sprintf("  Status: %s. No purchase costs less than %.4f before rounding.", plan.Status, plan.Bound),
		"HOW TO CONFIRM IT",
		"  1. This file is a model as LP text; everything after a backslash is a comment. Give it to",
		fmt.Sprintf("     any solver: its least cost is that of the claim, to 0.005 %s. For example:", plan.Job.Settings.Currency),
		"       glpsol --lp FILE -o answer.txt",
		"       cbc FILE -preprocess off -ratio 0 -allow 0.004 -solve",
		"  2. That the purchase can be made: fix the columns listed below at their values; every row holds.",
		"  3. That none is cheaper: add the objective as a row that must be at most",
		fmt.Sprintf("     %.4f; the solver must find that nothing satisfies it.", below),
		"THE PURCHASE, columns at 0 left out",
	} {
		if _, err := fmt.Fprintf(w, "\\ %s\n", line); err != nil {
			return err
		}
	}
	if err := p.WriteAnswer(w, x); err != nil {
		return err
	}
	return p.WriteLP(w)
}

// restate writes a plan as the columns of a plain model.
func restate(p *model.Program, plan *Plan) ([]float64, error) {
	c := propose.NewCompleter(p)
	n := make([]int, len(c.Items))
	tiers := map[int][]int64{}
	for i, it := range c.Items {
		for _, b := range plan.Purchase.Items {
			if b.Quote != p.In.Job.Quotes[it.Quote] || b.Site != p.In.Sites[it.Site] {
				continue
			}
			n[i] = int(b.Steps)
			tiers[i] = b.Tiers
			// The drop is the plan's choice, not the completer's.
			row := plan.Purchase.Carry[bill.Carry{Supplier: b.Quote.Supplier, Site: b.Site, Form: b.Quote.Form}]
			ways := c.Sends[it.Send].Ways[it.Form]
			at := slices.IndexFunc(ways, func(d int) bool { return p.In.Drops[d].Row == row })
			if at < 0 && len(ways) > 1 {
				return nil, fmt.Errorf("%q to site %q: no drop is chosen among %d", b.Quote.Name, b.Site, len(ways))
			}
			if at >= 0 {
				c.Sends[it.Send].Ways[it.Form] = ways[at : at+1]
			}
		}
	}
	x := make([]float64, len(p.Cols))
	c.Cost(n, x)
	for i, ts := range tiers {
		for l, steps := range ts {
			x[c.Items[i].Levels[l]] = float64(steps)
		}
	}
	byQuote := map[*quotes.Quote]int{}
	for i, q := range p.In.Job.Quotes {
		byQuote[q] = i
	}
	for _, at := range p.In.Atoms {
		for _, l := range plan.Fills[at.Bed].Layers {
			if l.Layer != at.Layer {
				continue
			}
			for _, part := range l.Parts {
				for _, k := range p.In.Suits[at.Suit].Classes {
					if slices.Contains(p.In.Classes[k].Quotes, byQuote[part.Quote]) {
						x[p.V[[2]int{k, at.Suit}]] += float64(part.Litres) * float64(p.In.Job.Beds[at.Bed].Count) / p.Scale(at.Suit)
						if r, ok := p.Some[[2]int{k, at.Suit}]; ok {
							x[r] = 1
						}
					}
				}
			}
		}
	}
	return x, nil
}
