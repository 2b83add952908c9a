package show

import (
	"fmt"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers"
	"mediabuy/units"
)

func Order(p *optimise.Plan, orders []*papers.Order, paths []string) string {
	var b strings.Builder
	money := func(m units.Money) string { return units.FormatMoney(m, p.Job.Settings.Currency) }
	for _, o := range orders {
		site := ""
		if o.Site != "" {
			site = " for " + o.Site
		}
		fmt.Fprintf(&b, "Order %s to %s%s: %s.\n", o.Number, o.Supplier, site, money(o.Total))
	}
	own := ""
	if !p.Bill.Rinsing.IsZero() {
		own = " with " + money(p.Bill.Rinsing) + " of your own time for rinsing"
	}
	fmt.Fprintf(&b, "Together%s that is the plan's total of %s.\n", own, money(p.Bill.Total))
	if p.Status != optimise.Optimal {
		fmt.Fprintf(&b, "Not proven: at most %s could still be saved, and the orders say so.\n", money(p.Gap()))
	}
	b.WriteString("Written:\n")
	for _, name := range paths {
		fmt.Fprintf(&b, "  %s\n", name)
	}
	return b.String()
}
