package optimise

import (
	"slices"

	"mediabuy/optimise/mip"
)

// fill adds, with D the placed litres asked for:
//
//	Σ_k v[k,u] = D[u]                          each suit u
//	Σ_g w[g,t] = D[t]                          each slot t of a unit
//	Σ_{t in units} w[g,t] ≤ Σ_{k∈g} v[k,u]     each grade g of suit u
func (p *program) fill() {
	for u, su := range p.in.suits {
		var terms []mip.Term
		for _, k := range su.classes {
			if v, ok := p.v[[2]int{k, u}]; ok {
				terms = append(terms, mip.Term{Col: v, Coef: 1})
			}
		}
		p.AddRow(mip.Row{Name: "fill/" + su.name, Rel: mip.Equal, RHS: su.litres, Terms: terms})
		split := false
		for _, t := range su.slots {
			if !p.inUnit(t) {
				continue
			}
			split = true
			var terms []mip.Term
			for _, g := range su.grades {
				terms = append(terms, p.gradeIn(g, t, 1)...)
			}
			p.AddRow(mip.Row{Name: "fill slot/" + p.in.slots[t].name, Rel: mip.Equal, RHS: p.in.slots[t].litres, Terms: terms})
		}
		if !split {
			continue
		}
		for _, g := range su.grades {
			terms := p.gradeOf(g, u, -1)
			for _, t := range su.slots {
				if p.inUnit(t) {
					terms = append(terms, p.gradeIn(g, t, 1)...)
				}
			}
			p.AddRow(mip.Row{Name: "grade/" + p.in.grades[g].name + "/" + su.name, Rel: mip.AtMost, Terms: terms})
		}
	}
}

// supply adds: Σ_u v[k,u] ≤ Σ_{q∈k} u[q]·step[q]·n[q,i] for each class k at its
// site i, where u[q] is the litres a pack places.
func (p *program) supply() {
	for k, cl := range p.in.classes {
		var terms []mip.Term
		for u := range p.in.suits {
			if v, ok := p.v[[2]int{k, u}]; ok {
				terms = append(terms, mip.Term{Col: v, Coef: 1})
			}
		}
		if len(terms) == 0 {
			continue
		}
		for _, qi := range cl.quotes {
			if n, ok := p.n[[2]int{qi, cl.site}]; ok {
				q := p.in.job.Quotes[qi]
				terms = append(terms, mip.Term{Col: n, Coef: -float64(q.Placed()) * q.Step.Float()})
			}
		}
		p.AddRow(mip.Row{Name: "supply/" + cl.name, Rel: mip.AtMost, Terms: terms})
	}
}

// stock adds, for each quote over its sites, what it is sold in:
//
//	Σ_i n[q,i] ≤ max[q]              where more than one site draws on it
//	Σ_i n[q,i] ≥ min[q]·z[q]         where it has a least quantity
//	Σ_i n[q,i] ≤ most[q]·z[q]
func (p *program) stock() {
	for qi, q := range p.in.job.Quotes {
		all := p.allSites(qi, 1)
		if len(all) == 0 {
			continue
		}
		if q.MaxQty != nil && len(all) > 1 {
			p.AddRow(mip.Row{Name: "stock/" + q.Name, Rel: mip.AtMost, RHS: float64(stepsDown(*q.MaxQty, q.Step)), Terms: all})
		}
		if z, ok := p.z[[2]int{-1, qi}]; ok {
			least := float64(stepsUp(q.MinQty, q.Step))
			most := 0.0
			for s := range p.in.sites {
				most += float64(p.cap[[2]int{qi, s}])
			}
			if q.MaxQty != nil {
				most = min(most, float64(stepsDown(*q.MaxQty, q.Step)))
			}
			p.AddRow(mip.Row{Name: "least/" + q.Name, Rel: mip.AtLeast, Terms: append(slices.Clone(all), mip.Term{Col: z, Coef: -least})})
			p.AddRow(mip.Row{Name: "taken/" + q.Name, Rel: mip.AtMost, Terms: append(slices.Clone(all), mip.Term{Col: z, Coef: -most})})
		}
	}
}

// allSites is Σ_i coef·n[q,i].
func (p *program) allSites(qi int, coef float64) []mip.Term {
	var out []mip.Term
	for s := range p.in.sites {
		if n, ok := p.n[[2]int{qi, s}]; ok {
			out = append(out, mip.Term{Col: n, Coef: coef})
		}
	}
	return out
}

// unitRows are the weight and the shares of a unit.
//
//	Σ_{g,t} flooded[m(g),t]·w[g,t] ≤ limit − own weight, in kilograms
//	Σ_{g of m, t of the bed} w[g,t] ≤ share·Σ_t D[t] for each capped medium m
func (p *program) unitRows(u unit) []mip.Row {
	var out []mip.Row
	if u.weighed {
		r := mip.Row{Name: "weight/" + u.name, Rel: mip.AtMost, RHS: u.headroom}
		for _, t := range u.slots {
			sl := p.in.slots[t]
			for _, g := range p.in.suits[sl.suit].grades {
				r.Terms = append(r.Terms, p.gradeIn(g, t, p.in.grades[g].medium.Flooded(sl.below))...)
			}
		}
		out = append(out, r)
	}
	for _, sh := range u.shares {
		r := mip.Row{Name: "share/" + sh.name, Rel: mip.AtMost, RHS: sh.most}
		for _, t := range sh.slots {
			for _, g := range p.in.suits[p.in.slots[t].suit].grades {
				if p.in.grades[g].medium == sh.medium {
					r.Terms = append(r.Terms, p.gradeIn(g, t, 1)...)
				}
			}
		}
		out = append(out, r)
	}
	return out
}

// tie adds the rows of every unit.
func (p *program) tie() {
	for _, u := range p.in.units {
		for _, r := range p.unitRows(u) {
			p.AddRow(r)
		}
	}
}

// counts adds: Σ_s o[s] ≤ max_suppliers and Σ_d y[d] ≤ max_deliveries.
func (p *program) counts() {
	set := p.in.job.Settings
	if set.MaxSuppliers > 0 {
		var terms []mip.Term
		for _, name := range p.supplierNames() {
			terms = append(terms, mip.Term{Col: p.o[name], Coef: 1})
		}
		p.AddRow(mip.Row{Name: "most suppliers", Rel: mip.AtMost, RHS: float64(set.MaxSuppliers), Terms: terms})
	}
	if set.MaxDeliveries > 0 {
		var terms []mip.Term
		for di := range p.in.drops {
			if y, ok := p.y[di]; ok {
				terms = append(terms, mip.Term{Col: y, Coef: 1})
			}
		}
		p.AddRow(mip.Row{Name: "most deliveries", Rel: mip.AtMost, RHS: float64(set.MaxDeliveries), Terms: terms})
	}
}
