package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

// carried adds, for each quote and site, how it comes:
//
//	Σ_q n[q,i]/cap ≤ count·y[d]    where one drop carries its form
//	n[q,i] = Σ_d c[q,d]            where there is a choice
//	c[q,d] ≤ cap·e[d,form]
//
// and for each form with a choice: Σ_d e[d,form] ≤ 1, e[d,form] ≤ y[d].
func (p *Program) carried() {
	type link struct{ gate, site int } // one row for each site: together they bind a gate of several sites far closer than their sum
	var links []link
	linked := map[link][]mip.Term{}
	for qi, q := range p.In.Job.Quotes {
		f := slices.Index(quotes.Forms, q.Form)
		for s := range p.In.Sites {
			n, ok := p.N[[2]int{qi, s}]
			if !ok {
				continue
			}
			most := float64(p.Cap[[2]int{qi, s}])
			drops := p.In.DropAt[[2]int{qi, s}]
			if len(drops) == 1 {
				if gate, ok := p.gate(drops[0], f); ok {
					l := link{gate, s}
					if linked[l] == nil {
						links = append(links, l)
					}
					linked[l] = append(linked[l], mip.Term{Col: n, Coef: 1 / most})
				}
				continue
			}
			split := []mip.Term{{Col: n, Coef: -1}}
			for _, di := range drops {
				c := p.C[[2]int{qi, di}]
				split = append(split, mip.Term{Col: c, Coef: 1})
				p.AddRow(mip.Row{Name: "carried/" + p.Cols[c].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: c, Coef: 1}, {Col: p.E[[2]int{di, f}], Coef: -most}}})
			}
			p.AddRow(mip.Row{Name: "comes/" + p.Cols[n].Name, Rel: mip.Equal, Terms: split})
		}
	}
	for _, l := range links {
		terms, name := linked[l], "carried/"+p.Cols[l.gate].Name
		if slices.ContainsFunc(links, func(o link) bool { return o.gate == l.gate && o.site != l.site }) {
			name += "/" + p.In.Sites[l.site]
		}
		p.AddRow(mip.Row{Name: name, Rel: mip.AtMost, Terms: append(terms, mip.Term{Col: l.gate, Coef: -float64(len(terms))})})
	}
	for s, site := range p.In.Sites {
		for _, supplier := range p.supplierNames() {
			for f, form := range quotes.Forms {
				var one []mip.Term
				for di, d := range p.In.Drops {
					if e, ok := p.E[[2]int{di, f}]; ok && d.Supplier == supplier && d.Site == p.In.Sites[s] {
						one = append(one, mip.Term{Col: e, Coef: 1})
						p.AddRow(mip.Row{Name: "order/" + p.Cols[e].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: e, Coef: 1}, {Col: p.Y[di], Coef: -1}}})
					}
				}
				if len(one) > 1 {
					p.AddRow(mip.Row{Name: fmt.Sprintf("one way/%s/%s/%s", supplier, site, form), Rel: mip.AtMost, RHS: 1, Terms: one})
				}
			}
		}
	}
}

// gate is the column that says whether drop di carries form f: e where it is
// chosen by form, else y, else o where using the supplier is all that counts.
func (p *Program) gate(di, f int) (int, bool) {
	if e, ok := p.E[[2]int{di, f}]; ok {
		return e, true
	}
	if y, ok := p.Y[di]; ok {
		return y, true
	}
	o, ok := p.O[p.In.Drops[di].Supplier]
	return o, ok
}

// onlyGate is the column that says whether anything of quote q comes at all, where one does for all its sites.
func (p *Program) onlyGate(qi int) (gate int, ok bool) {
	gate = -1
	f := slices.Index(quotes.Forms, p.In.Job.Quotes[qi].Form)
	for s := range p.In.Sites {
		if _, sold := p.N[[2]int{qi, s}]; !sold {
			continue
		}
		drops := p.In.DropAt[[2]int{qi, s}]
		if len(drops) != 1 {
			return 0, false
		}
		g, found := p.gate(drops[0], f)
		if !found || gate >= 0 && g != gate {
			return 0, false
		}
		gate = g
	}
	return gate, gate >= 0
}

// orders adds: y[d] ≤ o[s] for each drop d of supplier s, and where a supplier's
// rows state different handling: h[s] ≥ handling[d]·y[d].
func (p *Program) orders() {
	for di, d := range p.In.Drops {
		y, ok := p.Y[di]
		if !ok {
			continue
		}
		if o, ok := p.O[d.Supplier]; ok {
			p.AddRow(mip.Row{Name: "use/" + p.Cols[y].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: y, Coef: 1}, {Col: o, Coef: -1}}})
		}
		if h, ok := p.Hand[d.Supplier]; ok {
			p.AddRow(mip.Row{Name: "handling/" + p.Cols[y].Name, Rel: mip.AtLeast, Terms: []mip.Term{{Col: h, Coef: 1}, {Col: y, Coef: -p.WithTax(d, d.Row.Handling)}}})
		}
	}
}

// carriedTerms is Σ_q amount[q]·(packs of q that drop di carries), over the quotes of.
func (p *Program) carriedTerms(di int, of []int, amount func(*quotes.Quote) float64) []mip.Term {
	var out []mip.Term
	s := slices.Index(p.In.Sites, p.In.Drops[di].Site)
	for _, qi := range of {
		q := p.In.Job.Quotes[qi]
		col := p.N[[2]int{qi, s}]
		if len(p.In.DropAt[[2]int{qi, s}]) > 1 {
			col = p.C[[2]int{qi, di}]
		}
		out = append(out, mip.Term{Col: col, Coef: amount(q) * q.Step.Float()})
	}
	return out
}

// goodsTo is the value before tax of all that a supplier sends to a site, as a
// sum over its packs at the levels reached.
func (p *Program) goodsTo(supplier, site string) []mip.Term {
	var out []mip.Term
	s := slices.Index(p.In.Sites, site)
	for qi, q := range p.In.Job.Quotes {
		if q.Supplier != supplier || !p.sold(qi, s) {
			continue
		}
		g := p.PoolOf[qi]
		pl := p.In.Pools[g[0]]
		for l, lv := range pl.Levels {
			value := bill.BeforeTax(p.In.Job, q, lv.Prices[g[1]]).Float() * q.Step.Float()
			col := p.N[[2]int{qi, s}]
			if len(pl.Levels) > 1 {
				col = p.M[[3]int{qi, s, l}]
			}
			out = append(out, mip.Term{Col: col, Coef: value})
		}
	}
	return out
}

// reach is the row's right side for goods of a supplier that must come to goal.
// Goods move in steps of the last digit of its prices, so what reaches the goal
// reaches the first such step at or above it; half a step is taken off, so that
// goods just below stay clear of the solver's tolerance and goods that reach it
// exactly stay inside. Where prices carry tax, what they are before tax has no
// last digit, and the goal stands as it is.
func (p *Program) reach(supplier string, goal units.Money) float64 {
	step, ok := p.finest(supplier)
	if !ok {
		return goal.Float()
	}
	n := math.Ceil(goal.Decimal().Quo(step).Float() - 1e-9)
	return (n - 0.5) * step.Float()
}

// finest is the smallest amount of money in which a supplier's goods can differ:
// one unit of the last digit of its prices for a step. It reports false where
// there is none.
func (p *Program) finest(supplier string) (units.Decimal, bool) {
	digits := 0
	for _, q := range p.In.Job.Quotes {
		if q.Supplier != supplier {
			continue
		}
		if p.In.Job.Settings.TaxIncluded && !q.Tax.IsZero() {
			return units.Decimal{}, false
		}
		for _, l := range q.Levels() {
			price := l.Price.Times(q.Step).String()
			if at := strings.IndexByte(price, '.'); at >= 0 {
				digits = max(digits, len(price)-at-1)
			}
		}
	}
	return units.DecimalOf(math.Pow(10, -float64(digits))), true
}

// fees adds, for each charged drop d, with G[d] the goods its supplier sends to
// its site:
//
//	Σ litres sold carried ≤ load_volume[d]·(l[d] + most·w[d])
//	Σ dry kg carried     ≤ load_weight[d]·(l[d] + most·w[d])
//	G[d] ≥ free_over[d]·w[d],  w[d] ≤ y[d]      (values eased by half a last digit)
//	G[d] ≥ min_order[d]·y[d]
//	l[d] ≤ most·y[d]
//
// Rows are scaled by the load or the value so that a whole load is 1.
func (p *Program) fees() {
	for di, d := range p.In.Drops {
		y, ok := p.Y[di]
		if !ok {
			continue
		}
		name := p.Cols[y].Name
		w, waivable := p.Waive[di]
		p.fullLoads(di)
		value := func(what string, goal units.Money, gate int) {
			if goal.Sign() <= 0 {
				return
			}
			terms := p.goodsTo(d.Supplier, d.Site)
			want := p.reach(d.Supplier, goal)
			for i := range terms {
				terms[i].Coef /= want
			}
			p.AddRow(mip.Row{Name: what + "/" + name, Rel: mip.AtLeast, Terms: append(terms, mip.Term{Col: gate, Coef: -1})})
		}
		if waivable {
			value("free over", *d.Row.FreeOver, w)
			p.AddRow(mip.Row{Name: "waived/" + name, Rel: mip.AtMost, Terms: []mip.Term{{Col: w, Coef: 1}, {Col: y, Coef: -1}}})
		}
		if d.Row.MinOrder != nil {
			value("smallest order", *d.Row.MinOrder, y)
		}
	}
}
