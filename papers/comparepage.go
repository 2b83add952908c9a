package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/optimise/suitability"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// perUnit is the volume that quotes are compared per.
func (r *report) perUnit() (name string, litres units.Litres, digits int) {
	name, litres, digits = optimise.ComparedPer(r.Units)
	if litres == units.Litre {
		name = "litre" // a letter is easily read over
	}
	return name, litres, digits
}

// compared is every quote on one scale, cheapest first, then those that no bed may
// take and why.
func (r *report) compared() []page.Block {
	name, unit, digits := r.perUnit()
	priced, barred := []optimise.Quoted{}, []optimise.Quoted{}
	for _, e := range r.Compared {
		switch {
		case e.Barred || e.Bill == nil:
			barred = append(barred, e)
		default:
			priced = append(priced, e)
		}
	}
	if len(priced)+len(barred) == 0 {
		return nil
	}
	slices.SortStableFunc(priced, func(a, b optimise.Quoted) int {
		return cmp.Or(a.PerLitre.Cmp(b.PerLitre), cmp.Compare(a.Quote.Name, b.Quote.Name))
	})
	most := 0.0
	for _, e := range priced {
		most = max(most, e.PerLitre.Float())
	}
	inPlan := map[*quotes.Quote]bool{}
	for _, l := range r.Plan.Bill.Lines {
		inPlan[l.Quote] = true
	}
	beds := r.Plan.Job.BedCount()
	t := &page.Table{Cols: []page.Col{{Name: "Per placed " + name, Right: true}, {Name: "Quote"}, {Name: "What"}, {Name: "Supplier"}, {Name: "Delivery in it", Right: true}, {Name: "Fits beds", Right: true}, {Name: "Bought"}}}
	for _, e := range priced {
		bar := 0.0
		if most > 0 {
			bar = e.PerLitre.Float() / most
		}
		per := units.MoneyOf(e.PerLitre.Decimal().Mul(units.DecimalOf(float64(unit))))
		first := page.Num(per.Text(digits), per.Round(digits).Float(), digits)
		first.Bar = &bar
		share := "-"
		if !e.Bill.Total.IsZero() {
			share = fmt.Sprintf("%.0f %%", 100*e.Bill.Delivery.Float()/e.Bill.Total.Float())
		}
		bought := ""
		if inPlan[e.Quote] {
			bought = "yes"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{first, page.Text(e.Quote.Name), page.Text(e.Quote.ItemWords() + ", " + e.Quote.Pack.Raw),
			page.Text(e.Quote.Supplier), page.Text(share), page.Text(fmt.Sprintf("%d of %d", e.Beds, beds)), page.Text(bought)}})
	}
	out := []page.Block{&page.Para{Text: "No quote may go into any bed."}}
	if len(priced) > 0 {
		out = []page.Block{&page.Para{Leads: true, Text: fmt.Sprintf("Each quote is priced as if it alone filled the beds it may go into: whole packs at the break reached, delivered, taxed and rinsed, over the volume in place after losses, in %s. "+
			"The cheapest mix need not take the cheapest quotes: weight limits, layers and shared delivery decide. Fits beds counts beds with a layer that may take it, %s.", r.currency, optimise.FitsWords)}, t}
	}
	return append(out, r.refused(barred)...)
}

// refused lists why quotes are left out: of every bed, then of some layers.
func (r *report) refused(barred []optimise.Quoted) []page.Block {
	var out []page.Block
	gone := map[*quotes.Quote]bool{}
	if len(barred) > 0 {
		t := &page.Table{Caption: "Quotes that cannot be used at all", Cols: []page.Col{{Name: "Quote"}, {Name: "Supplier"}, {Name: "Why not"}}}
		for _, e := range barred {
			gone[e.Quote] = true
			var why []string
			for _, reason := range e.Reasons {
				why = append(why, reason.Words())
			}
			if e.Note != "" && len(why) == 0 {
				why = append(why, e.Note)
			}
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(e.Quote.Name), page.Text(e.Quote.Supplier), page.Text(strings.Join(why, "; "))}})
		}
		out = append(out, t)
	}
	type key struct {
		quote  *quotes.Quote
		layer  quotes.Layer
		reason string
	}
	var order []key
	count, beds := map[key]int{}, map[key][]string{}
	r.Plan.Fit.Refusals(func(f suitability.Refusal) bool {
		if gone[f.Quote] {
			return true
		}
		k := key{f.Quote, f.Layer, f.Reason}
		if count[k] == 0 {
			order = append(order, k)
		}
		count[k] += f.Bed.Count
		beds[k] = append(beds[k], f.Bed.Name)
		return true
	})
	if len(order) == 0 {
		return out
	}
	slices.SortFunc(order, func(a, b key) int {
		return cmp.Or(cmp.Compare(a.quote.Name, b.quote.Name), cmp.Compare(b.layer, a.layer), cmp.Compare(a.reason, b.reason))
	})
	t := &page.Table{Caption: "Quotes that some layers cannot take", Cols: []page.Col{{Name: "Quote"}, {Name: "Layer"}, {Name: "Beds", Right: true}, {Name: "Why not"}}}
	for _, k := range order {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(k.quote.Name), page.Text(string(k.layer)),
			page.Num(fmt.Sprint(count[k]), float64(count[k]), 0), page.Text(optimise.DocumentRefusal{Reason: k.reason, Where: suitability.SomeBeds(r.Plan.Job, []quotes.Layer{k.layer}, beds[k])}.Words())}})
	}
	return append(out, t)
}
