package show

import (
	"fmt"
	"strings"

	"mediabuy/optimise"
	"mediabuy/papers"
	"mediabuy/units"
)

// OrderView is what the answer of order is made of.
type OrderView struct {
	Plan   *optimise.Plan
	Orders []*papers.Order
	Files  []string
	Kept   []string // copies of orders that were written over
	Still  []string // other orders that lie in the job's folder, in words
}

func (v OrderView) Text() string {
	var b strings.Builder
	p, orders := v.Plan, v.Orders
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
	files(&b, v.Files)
	if len(v.Kept) > 0 {
		b.WriteString("Kept, of orders that were written over; receive does not count them unless you name them:\n")
		files(&b, v.Kept)
	}
	if len(v.Still) > 0 {
		b.WriteString("Other orders lie there, which receive counts as well; take out what was never sent:\n")
		files(&b, v.Still)
	}
	return b.String()
}

func files(b *strings.Builder, list []string) {
	for _, name := range list {
		fmt.Fprintf(b, "  %s\n", name)
	}
}
