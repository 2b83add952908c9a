package show

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Per is the volume that money is shown per.
type Per struct {
	Name   string
	Litres units.Litres
	Digits int // decimals of money
}

// CompareView is what the text of a comparison is made of.
type CompareView struct {
	Job      *quotes.Job
	List     []optimise.Quoted
	Litres   units.Litres // asked of each quote, or all that the beds take
	Asked    string       // the volume asked for as it was written, or "" for what the beds take
	Per      Per
	Warnings []*quotes.Problem
}

// Compare sets quotes side by side, the cheapest per placed volume first.
func Compare(v CompareView, st Style) string {
	p := &page{Style: st}
	var priced, unpriced, barred []optimise.Quoted
	for _, e := range v.List {
		switch {
		case e.Barred:
			barred = append(barred, e)
		case e.Bill == nil:
			unpriced = append(unpriced, e)
		default:
			priced = append(priced, e)
		}
	}
	slices.SortStableFunc(priced, func(a, b optimise.Quoted) int { return a.PerLitre.Cmp(b.PerLitre) })
	switch {
	case v.Asked != "":
		p.line("Each quote priced as if it alone supplied %s placed, in money per %s.", p.volume(v.Litres), v.Per.Name)
	default:
		p.line("Each quote priced as if it alone filled all it may go into (the beds take %s), in money per placed %s.", p.volume(v.Litres), v.Per.Name)
	}
	if len(v.Job.Beds) == 0 {
		p.line("No beds were read: grain size, top layers and media asked for or avoided are not judged.")
	}
	p.heading("side by side")
	p.priced(v, priced)
	p.notes(priced)
	if len(unpriced) > 0 {
		p.heading("without a price")
		for _, e := range unpriced {
			p.item("%s: %s", p.Strong(e.Quote.Name), e.Note)
		}
	}
	if len(barred) > 0 {
		p.heading("left out")
		for _, e := range barred {
			p.item("%s (%s): %s", p.Strong(e.Quote.Name), e.Quote.Supplier, reasonWords(e.Reasons))
		}
	}
	p.warnings(v.Warnings)
	return p.String()
}

// priced is the table. The parts add up to the landed figure, except for
// rounding; what is lost to rinsing and settling is within goods.
func (p *page) priced(v CompareView, list []optimise.Quoted) {
	if len(list) == 0 {
		p.line("  no quote can be priced")
		return
	}
	// A currency without cents needs no four decimals per yard, but per litre it does.
	per := func(m units.Money, litres float64) string {
		if m.IsZero() {
			return "-"
		}
		return units.MoneyOf(m.Decimal().Mul(units.DecimalOf(float64(v.Per.Litres))).Quo(units.DecimalOf(litres))).Text(v.Per.Digits)
	}
	cols := []col{
		{name: "Quote"}, {name: "Medium"}, {name: "Packs"}, {name: "Break", right: true}, {name: "Landed", right: true}, {name: "Goods", right: true},
		{name: "Delivery", right: true}, {name: "Tax", right: true},
	}
	rinsing := slices.ContainsFunc(list, func(e optimise.Quoted) bool { return !e.Bill.Rinsing.IsZero() })
	if rinsing {
		cols = append(cols, col{name: "Rinsing", right: true})
	}
	cols = append(cols, col{name: "Lost", right: true}, col{name: "List", right: true})
	if len(v.Job.Beds) > 0 {
		cols = append(cols, col{name: "Fits", right: true})
	}
	var rows [][]string
	for _, e := range list {
		litres := float64(e.Litres - e.Short)
		b := e.Bill
		reached := "-"
		if !e.Break.IsZero() {
			reached = e.Break.String()
		}
		row := []string{
			e.Quote.Name, e.Quote.Medium.Name, e.Quote.PacksWords(e.Packs), reached, per(b.Total, litres), per(b.Goods, litres), per(b.Delivery, litres), per(b.Tax, litres),
		}
		if rinsing {
			row = append(row, per(b.Rinsing, litres))
		}
		lost := 1 - float64(e.Quote.Placed())/float64(e.Quote.PackLitres)
		row = append(row, fmt.Sprintf("%.1f %%", 100*lost), per(e.Quote.Price, float64(e.Quote.PackLitres)))
		if len(v.Job.Beds) > 0 {
			row = append(row, fmt.Sprintf("%d of %d", e.Beds, v.Job.BedCount()))
		}
		rows = append(rows, row)
	}
	p.grid(cols, rows)
	fits := ""
	if len(v.Job.Beds) > 0 {
		fits = " Fits counts beds with a layer that may take it, " + optimise.FitsWords + "."
	}
	p.para("  ", "  ", fmt.Sprintf("Landed = goods + delivery + tax%s, per placed %s, in %s. Lost is the share that rinsing and settling take. List is the price alone, per %s as sold, before breaks.%s",
		map[bool]string{true: " + rinsing", false: ""}[rinsing], v.Per.Name, v.Job.Settings.Currency, v.Per.Name, fits))
}

// notes says what stands behind a price that is not plain.
func (p *page) notes(list []optimise.Quoted) {
	for _, e := range list {
		if e.Note != "" {
			p.item("%s: %s", e.Quote.Name, e.Note)
		}
		if e.Packs.Cmp(e.Enough) > 0 {
			p.item("%s: buying %s is the cheapest, %s would hold enough", e.Quote.Name, e.Packs, e.Enough)
		}
	}
}

// reasonWords joins reasons, each with its rule.
func reasonWords(list []optimise.DocumentRefusal) string {
	var words []string
	for _, r := range list {
		rule := string(r.Rule)
		if r.Where != "" {
			rule += "; " + r.Where
		}
		words = append(words, fmt.Sprintf("%s (%s)", r.Reason, rule))
	}
	return strings.Join(words, "; also ")
}
