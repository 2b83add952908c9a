package model

import (
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/mip"
)

// fill adds, with D the placed litres asked for:
//
//	Σ_k v[k,u] = D[u]                          each suit u
//	Σ_g w[g,t] = D[t]                          each slot t of a unit
//	Σ_{t in units} w[g,t] ≤ Σ_{k∈g} v[k,u]     each grade g of suit u
func (p *Program) fill() {
	for u, su := range p.In.Suits {
		var terms []mip.Term
		for _, k := range su.Classes {
			if v, ok := p.V[[2]int{k, u}]; ok {
				terms = append(terms, mip.Term{Col: v, Coef: p.Scale(u)})
			}
		}
		p.AddRow(mip.Row{Name: "fill/" + su.Name, Rel: mip.Equal, RHS: su.Litres, Terms: terms})
		split := false
		for _, t := range su.Slots {
			if !p.InUnit(t) {
				continue
			}
			split = true
			var terms []mip.Term
			for _, g := range su.Grades {
				terms = append(terms, p.GradeIn(g, t, 1)...)
			}
			p.AddRow(mip.Row{Name: "fill slot/" + p.In.Slots[t].Name, Rel: mip.Equal, RHS: p.In.Slots[t].Litres, Terms: terms})
		}
		if !split {
			continue
		}
		for _, g := range su.Grades {
			terms := p.GradeOf(g, u, -1)
			for _, t := range su.Slots {
				if p.InUnit(t) {
					terms = append(terms, p.GradeIn(g, t, 1)...)
				}
			}
			p.AddRow(mip.Row{Name: "grade/" + p.In.Grades[g].name + "/" + su.Name, Rel: mip.AtMost, Terms: terms})
		}
	}
}

// supply adds: Σ_u v[k,u] ≤ Σ_{q∈k} u[q]·step[q]·n[q,i] for each class k at its
// site i, where u[q] is the litres a pack places.
func (p *Program) supply() {
	for k, cl := range p.In.Classes {
		var terms []mip.Term
		for u := range p.In.Suits {
			if v, ok := p.V[[2]int{k, u}]; ok {
				terms = append(terms, mip.Term{Col: v, Coef: p.Scale(u)})
			}
		}
		if len(terms) == 0 {
			continue
		}
		for _, qi := range cl.Quotes {
			if n, ok := p.N[[2]int{qi, cl.Site}]; ok {
				q := p.In.Job.Quotes[qi]
				terms = append(terms, mip.Term{Col: n, Coef: -float64(p.In.Job.Yield(q)) * q.Step.Float()})
			}
		}
		p.AddRow(mip.Row{Name: "supply/" + cl.Name, Rel: mip.AtMost, Terms: terms})
	}
}

// stock adds, for each quote over its sites, what it is sold in:
//
//	Σ_i n[q,i] ≤ max[q]·o            where more than one site draws on it; o where it says whether any comes
//	Σ_i n[q,i] ≥ min[q]·z[q]         where it has a least quantity
//	Σ_i n[q,i] ≤ most[q]·z[q]
func (p *Program) stock() {
	for qi, q := range p.In.Job.Quotes {
		all := p.allSites(qi, 1)
		if len(all) == 0 {
			continue
		}
		if q.MaxQty != nil && len(all) > 1 {
			most := float64(bill.StepsDown(*q.MaxQty, q.Step))
			r := mip.Row{Name: "stock/" + q.Name, Rel: mip.AtMost, RHS: most, Terms: slices.Clone(all)}
			if gate, ok := p.onlyGate(qi); ok {
				r.RHS, r.Terms = 0, append(r.Terms, mip.Term{Col: gate, Coef: -most})
			}
			p.AddRow(r)
		}
		if z, ok := p.Z[[2]int{-1, qi}]; ok {
			least := float64(bill.StepsUp(q.MinQty, q.Step))
			most := 0.0
			for s := range p.In.Sites {
				most += float64(p.Cap[[2]int{qi, s}])
			}
			if q.MaxQty != nil {
				most = min(most, float64(bill.StepsDown(*q.MaxQty, q.Step)))
			}
			p.AddRow(mip.Row{Name: "least/" + q.Name, Rel: mip.AtLeast, Terms: append(slices.Clone(all), mip.Term{Col: z, Coef: -least})})
			p.AddRow(mip.Row{Name: "taken/" + q.Name, Rel: mip.AtMost, Terms: append(slices.Clone(all), mip.Term{Col: z, Coef: -most})})
		}
	}
}

// allSites is Σ_i coef·n[q,i].
func (p *Program) allSites(qi int, coef float64) []mip.Term {
	var out []mip.Term
	for s := range p.In.Sites {
		if n, ok := p.N[[2]int{qi, s}]; ok {
			out = append(out, mip.Term{Col: n, Coef: coef})
		}
	}
	return out
}

// UnitRows are the weight and the shares of a unit.
//
//	Σ_{g,t} flooded[m(g),t]·w[g,t] ≤ limit − own weight, in kilograms
//	Σ_{g of m, t of the bed} w[g,t] ≤ share·Σ_t D[t] for each capped medium m
func (p *Program) UnitRows(u Unit) []mip.Row {
	var out []mip.Row
	if u.Weighed {
		r := mip.Row{Name: "weight/" + u.Name, Rel: mip.AtMost, RHS: u.Headroom}
		for _, t := range u.Slots {
			sl := p.In.Slots[t]
			for _, g := range p.In.Suits[sl.Suit].Grades {
				r.Terms = append(r.Terms, p.GradeIn(g, t, p.In.Weight(g, sl.Below))...)
			}
		}
		out = append(out, p.gathered(r))
	}
	for _, sh := range u.Shares {
		r := mip.Row{Name: "share/" + sh.Name, Rel: mip.AtMost, RHS: sh.most}
		for _, t := range sh.Slots {
			for _, g := range p.In.Suits[p.In.Slots[t].Suit].Grades {
				if p.In.Grades[g].Medium == sh.Medium {
					r.Terms = append(r.Terms, p.GradeIn(g, t, 1)...)
				}
			}
		}
		out = append(out, p.gathered(r))
	}
	return out
}

// gathered is a row with one term for each column: where beds are filled alike,
// several slots are parts of the same columns.
func (p *Program) gathered(r mip.Row) mip.Row {
	if !p.In.Same {
		return r
	}
	at := map[int]int{}
	var terms []mip.Term
	for _, t := range r.Terms {
		i, ok := at[t.Col]
		if !ok {
			i = len(terms)
			at[t.Col] = i
			terms = append(terms, mip.Term{Col: t.Col})
		}
		terms[i].Coef += t.Coef
	}
	r.Terms = terms
	return r
}

// tie adds the rows of every unit.
func (p *Program) tie() {
	for _, u := range p.In.Units {
		for _, r := range p.UnitRows(u) {
			p.AddRow(r)
		}
	}
}

// counts adds: Σ_s o[s] ≤ max_suppliers and Σ_d y[d] ≤ max_deliveries.
func (p *Program) counts() {
	set := p.In.Job.Settings
	if set.MaxSuppliers > 0 {
		var terms []mip.Term
		for _, name := range p.supplierNames() {
			terms = append(terms, mip.Term{Col: p.O[name], Coef: 1})
		}
		p.AddRow(mip.Row{Name: "most suppliers", Rel: mip.AtMost, RHS: float64(set.MaxSuppliers), Terms: terms})
	}
	if set.MaxDeliveries > 0 {
		var terms []mip.Term
		for di := range p.In.Drops {
			if y, ok := p.Y[di]; ok {
				terms = append(terms, mip.Term{Col: y, Coef: 1})
			}
		}
		p.AddRow(mip.Row{Name: "most deliveries", Rel: mip.AtMost, RHS: float64(set.MaxDeliveries), Terms: terms})
	}
}
