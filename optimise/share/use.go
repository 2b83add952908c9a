package share

import (
	"slices"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/quotes"
)

// Used is what one member's beds take of one quote at one site.
type Used struct {
	Quote  *quotes.Quote
	Site   string
	Litres float64 // placed
}

// usage is who uses what of a plan.
type usage struct {
	c     *club
	plan  *optimise.Plan
	lines [][]float64 // by bill line, then member: litres placed; no left-overs
	site  map[string][]float64
}

func newUsage(c *club, plan *optimise.Plan) *usage {
	u := &usage{c: c, plan: plan, site: map[string][]float64{}}
	type key struct {
		q    *quotes.Quote
		site string
	}
	at := map[key]int{}
	for i, l := range plan.Bill.Lines {
		at[key{l.Quote, l.Site}] = i
		u.lines = append(u.lines, make([]float64, len(c.names)))
	}
	for b, fill := range plan.Fills {
		site := fill.Bed.Site
		if u.site[site] == nil {
			u.site[site] = make([]float64, len(c.names))
		}
		for i, own := range c.owns[b] {
			u.site[site][i] += float64(c.litres[b]) * own
		}
		for _, layer := range fill.Layers {
			for _, part := range layer.Parts {
				for i, own := range c.owns[b] {
					u.lines[at[key{part.Quote, site}]][i] += float64(part.Litres) * float64(fill.Bed.Count) * own
				}
			}
		}
	}
	return u
}

// of lists what member i uses, in the order of the bill.
func (u *usage) of(i int) []Used {
	var out []Used
	for k, l := range u.plan.Bill.Lines {
		if v := u.lines[k][i]; v > 0 {
			out = append(out, Used{l.Quote, l.Site, v})
		}
	}
	return out
}

// shares is each member's part of a bill line: by litres used, and for goods
// that nobody uses, bought to reach a break or a smallest order, by all litres
// placed at the site.
func (u *usage) shares(line int) []float64 {
	out := fractions(u.lines[line])
	if out == nil {
		out = fractions(u.site[u.plan.Bill.Lines[line].Site])
	}
	return out
}

// fractions is w divided by its sum; nil when that is 0.
func fractions(w []float64) []float64 {
	sum := 0.0
	for _, v := range w {
		sum += v
	}
	if sum == 0 {
		return nil
	}
	out := make([]float64, len(w))
	for i, v := range w {
		out[i] = v / sum
	}
	return out
}

// byUse splits the bill by what each member uses, in money:
//
//   - goods: each line, at the price the pooled order reached, by litres used of
//     it; what is left over is paid by those who use the rest;
//   - delivery: each drop by the volume as sold that it carries for each, a
//     supplier's handling by all its volume;
//   - tax: each supplier's by the tax on each one's goods and drops;
//   - rinsing: by the time that each one's goods take.
func (u *usage) byUse() []float64 {
	bill := u.plan.Bill
	n := len(u.c.names)
	pays := make([]float64, n)
	add := func(to []float64, money float64, parts []float64) {
		for i, f := range parts {
			to[i] += money * f
		}
	}
	taxable := map[string][]float64{} // by supplier, then member: unrounded tax
	for s := range bill.TaxOf {
		taxable[s] = make([]float64, n)
	}
	rinsing := make([]float64, n)
	for k, l := range bill.Lines {
		parts := u.shares(k)
		add(pays, l.Goods.Float(), parts)
		add(taxable[l.Quote.Supplier], l.Goods.Float()*l.Quote.Tax.Float(), parts)
		add(rinsing, l.Packs.Float()*l.Quote.RinseHours(), parts)
	}
	for _, d := range bill.Drops {
		carried := make([]float64, n)
		for k, l := range bill.Lines {
			if u.carries(d, l) {
				add(carried, float64(l.Sold), u.shares(k))
			}
		}
		parts := fractions(carried)
		add(pays, d.Fee.Float(), parts)
		if d.Terms != nil {
			add(taxable[d.Supplier], d.Fee.Float()*d.Terms.Tax.Float(), parts)
		}
	}
	for s, tax := range bill.TaxOf {
		add(pays, tax.Float(), fractions(taxable[s]))
	}
	add(pays, bill.Rinsing.Float(), fractions(rinsing))
	return pays
}

// carries reports whether drop d brings the goods of line l; handling goes with
// all goods of its supplier.
func (u *usage) carries(d bill.DropLine, l bill.Line) bool {
	switch {
	case d.Supplier != l.Quote.Supplier:
		return false
	case d.Loads == 0:
		return true
	case d.Site != l.Site:
		return false
	}
	row := u.plan.Purchase.Carry[bill.Carry{Supplier: d.Supplier, Site: d.Site, Form: l.Quote.Form}]
	if row == nil { // the only way for goods of this form
		return slices.Contains(d.Terms.Covers, l.Quote.Form)
	}
	return row == d.Terms || row.Pos == d.Terms.Pos && row.Name == d.Terms.Name
}
