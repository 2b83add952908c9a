package optimise

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
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

// atLevel is Σ_{q∈pool,i} step[q]·m[q,i,l]: the packs bought at level l.
func (p *program) atLevel(g, l int) (terms []mip.Term, most float64) {
	for _, qi := range p.in.pools[g].members {
		step := p.in.job.Quotes[qi].Step.Float()
		for s := range p.in.sites {
			if m, ok := p.m[[3]int{qi, s, l}]; ok {
				terms = append(terms, mip.Term{Col: m, Coef: step})
				most += step * float64(p.cap[[2]int{qi, s}])
			}
		}
	}
	return terms, most
}

// breaks adds, for each pool g with levels l = 0..L and thresholds from[l]:
//
//	n[q,i] = Σ_l m[q,i,l]
//
// all-units, at most one level:
//
//	Σ_l z[g,l] ≤ 1
//	from[l]·z[g,l] ≤ Σ_{q,i} step[q]·m[q,i,l] ≤ upto[l]·z[g,l]
//
// incremental, levels filled in order, width[l] packs each:
//
//	width[l]·z[g,l+1] ≤ Σ_{q,i} step[q]·m[q,i,l] ≤ width[l]·z[g,l]
//
// upto[l] is the most packs below the next threshold; above it the next level is
// no dearer, so nothing is cut off.
func (p *program) breaks() {
	for g, pl := range p.in.pools {
		if _, ok := p.z[[2]int{g, 0}]; !ok {
			continue
		}
		for _, qi := range pl.members {
			for s := range p.in.sites {
				n, ok := p.n[[2]int{qi, s}]
				if !ok {
					continue
				}
				terms := []mip.Term{{Col: n, Coef: -1}}
				for l := range pl.levels {
					terms = append(terms, mip.Term{Col: p.m[[3]int{qi, s, l}], Coef: 1})
				}
				p.AddRow(mip.Row{Name: "levels/" + p.Cols[n].Name, Rel: mip.Equal, Terms: terms})
			}
		}
		if pl.kind == quotes.Incremental {
			p.incremental(g)
		} else {
			p.allUnits(g)
		}
	}
}

func (p *program) allUnits(g int) {
	pl := p.in.pools[g]
	var one []mip.Term
	for l, lv := range pl.levels {
		z := p.z[[2]int{g, l}]
		one = append(one, mip.Term{Col: z, Coef: 1})
		packs, most := p.atLevel(g, l)
		if l+1 < len(pl.levels) {
			most = min(most, p.below(g, l+1))
		}
		name := fmt.Sprintf("%s/%s", pl.name, lv.from)
		p.AddRow(mip.Row{Name: "upto/" + name, Rel: mip.AtMost, Terms: append(slices.Clone(packs), mip.Term{Col: z, Coef: -most})})
		if from := lv.from.Float(); from > 0 {
			p.AddRow(mip.Row{Name: "reach/" + name, Rel: mip.AtLeast, Terms: append(packs, mip.Term{Col: z, Coef: -from})})
		}
	}
	p.AddRow(mip.Row{Name: "one level/" + pl.name, Rel: mip.AtMost, RHS: 1, Terms: one})
}

// below is the most packs of pool g that stay under the threshold of level l:
// exact when all its quotes are sold in the same step, else the threshold.
func (p *program) below(g, l int) float64 {
	pl := p.in.pools[g]
	step := p.in.job.Quotes[pl.members[0]].Step
	for _, qi := range pl.members {
		if !p.in.job.Quotes[qi].Step.Equal(step) {
			return pl.levels[l].from.Float()
		}
	}
	return pl.before(p.in.job, l).Float()
}

func (p *program) incremental(g int) {
	pl := p.in.pools[g]
	for l, lv := range pl.levels {
		packs, most := p.atLevel(g, l)
		z := p.z[[2]int{g, l}]
		name := fmt.Sprintf("%s/%s", pl.name, lv.from)
		if l+1 < len(pl.levels) {
			width := pl.before(p.in.job, l+1).Sub(pl.before(p.in.job, l)).Float()
			most = min(most, width)
			next := p.z[[2]int{g, l + 1}]
			p.AddRow(mip.Row{Name: "full/" + name, Rel: mip.AtLeast, Terms: append(slices.Clone(packs), mip.Term{Col: next, Coef: -width})})
		}
		p.AddRow(mip.Row{Name: "upto/" + name, Rel: mip.AtMost, Terms: append(packs, mip.Term{Col: z, Coef: -most})})
	}
}

// carried adds, for each quote and site, how it comes:
//
//	Σ_q n[q,i]/cap ≤ count·y[d]    where one drop carries its form
//	n[q,i] = Σ_d c[q,d]            where there is a choice
//	c[q,d] ≤ cap·e[d,form]
//
// and for each form with a choice: Σ_d e[d,form] ≤ 1, e[d,form] ≤ y[d].
func (p *program) carried() {
	var gates []int
	gated := map[int][]mip.Term{}
	for qi, q := range p.in.job.Quotes {
		f := slices.Index(quotes.Forms, q.Form)
		for s := range p.in.sites {
			n, ok := p.n[[2]int{qi, s}]
			if !ok {
				continue
			}
			most := float64(p.cap[[2]int{qi, s}])
			drops := p.in.dropAt[[2]int{qi, s}]
			if len(drops) == 1 {
				if gate, ok := p.gate(drops[0], f); ok {
					if gated[gate] == nil {
						gates = append(gates, gate)
					}
					gated[gate] = append(gated[gate], mip.Term{Col: n, Coef: 1 / most})
				}
				continue
			}
			split := []mip.Term{{Col: n, Coef: -1}}
			for _, di := range drops {
				c := p.c[[2]int{qi, di}]
				split = append(split, mip.Term{Col: c, Coef: 1})
				p.AddRow(mip.Row{Name: "carried/" + p.Cols[c].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: c, Coef: 1}, {Col: p.e[[2]int{di, f}], Coef: -most}}})
			}
			p.AddRow(mip.Row{Name: "comes/" + p.Cols[n].Name, Rel: mip.Equal, Terms: split})
		}
	}
	for _, gate := range gates {
		terms := gated[gate]
		p.AddRow(mip.Row{Name: "carried/" + p.Cols[gate].Name, Rel: mip.AtMost, Terms: append(terms, mip.Term{Col: gate, Coef: -float64(len(terms))})})
	}
	for s, site := range p.in.sites {
		for _, supplier := range p.supplierNames() {
			for f, form := range quotes.Forms {
				var one []mip.Term
				for di, d := range p.in.drops {
					if e, ok := p.e[[2]int{di, f}]; ok && d.supplier == supplier && d.site == p.in.sites[s] {
						one = append(one, mip.Term{Col: e, Coef: 1})
						p.AddRow(mip.Row{Name: "order/" + p.Cols[e].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: e, Coef: 1}, {Col: p.y[di], Coef: -1}}})
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
func (p *program) gate(di, f int) (int, bool) {
	if e, ok := p.e[[2]int{di, f}]; ok {
		return e, true
	}
	if y, ok := p.y[di]; ok {
		return y, true
	}
	o, ok := p.o[p.in.drops[di].supplier]
	return o, ok
}

// orders adds: y[d] ≤ o[s] for each drop d of supplier s, and where a supplier's
// rows state different handling: h[s] ≥ handling[d]·y[d].
func (p *program) orders() {
	for di, d := range p.in.drops {
		y, ok := p.y[di]
		if !ok {
			continue
		}
		if o, ok := p.o[d.supplier]; ok {
			p.AddRow(mip.Row{Name: "use/" + p.Cols[y].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: y, Coef: 1}, {Col: o, Coef: -1}}})
		}
		if h, ok := p.hand[d.supplier]; ok {
			p.AddRow(mip.Row{Name: "handling/" + p.Cols[y].Name, Rel: mip.AtLeast, Terms: []mip.Term{{Col: h, Coef: 1}, {Col: y, Coef: -p.withTax(d, d.row.Handling)}}})
		}
	}
}

// carriedTerms is Σ_q amount[q]·(packs of q that drop di carries).
func (p *program) carriedTerms(di int, amount func(*quotes.Quote) float64) []mip.Term {
	var out []mip.Term
	s := slices.Index(p.in.sites, p.in.drops[di].site)
	for _, qi := range p.sellsBy(di) {
		q := p.in.job.Quotes[qi]
		col := p.n[[2]int{qi, s}]
		if len(p.in.dropAt[[2]int{qi, s}]) > 1 {
			col = p.c[[2]int{qi, di}]
		}
		out = append(out, mip.Term{Col: col, Coef: amount(q) * q.Step.Float()})
	}
	return out
}

// goodsTo is the value before tax of all that a supplier sends to a site, as a
// sum over its packs at the levels reached.
func (p *program) goodsTo(supplier, site string) []mip.Term {
	var out []mip.Term
	s := slices.Index(p.in.sites, site)
	for qi, q := range p.in.job.Quotes {
		if q.Supplier != supplier || !p.sold(qi, s) {
			continue
		}
		g := p.poolOf[qi]
		pl := p.in.pools[g[0]]
		for l, lv := range pl.levels {
			value := beforeTax(p.in.job, q, lv.prices[g[1]]).Float() * q.Step.Float()
			col := p.n[[2]int{qi, s}]
			if len(pl.levels) > 1 {
				col = p.m[[3]int{qi, s, l}]
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
func (p *program) reach(supplier string, goal units.Money) float64 {
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
func (p *program) finest(supplier string) (units.Decimal, bool) {
	digits := 0
	for _, q := range p.in.job.Quotes {
		if q.Supplier != supplier {
			continue
		}
		if p.in.job.Settings.TaxIncluded && !q.Tax.IsZero() {
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
func (p *program) fees() {
	for di, d := range p.in.drops {
		y, ok := p.y[di]
		if !ok {
			continue
		}
		name := p.Cols[y].Name
		w, waivable := p.waive[di]
		if l, ok := p.loads[di]; ok {
			most := p.Cols[l].Upper
			full := func(what string, load float64, amount func(*quotes.Quote) float64) {
				terms := p.carriedTerms(di, func(q *quotes.Quote) float64 { return amount(q) / load })
				terms = append(terms, mip.Term{Col: l, Coef: -1})
				if waivable {
					terms = append(terms, mip.Term{Col: w, Coef: -most})
				}
				p.AddRow(mip.Row{Name: what + "/" + name, Rel: mip.AtMost, Terms: terms})
			}
			if d.row.LoadVolume != nil {
				full("load volume", float64(*d.row.LoadVolume), func(q *quotes.Quote) float64 { return float64(q.PackLitres) })
			}
			if d.row.LoadWeight != nil {
				full("load weight", float64(*d.row.LoadWeight), func(q *quotes.Quote) float64 { return float64(q.PackMass) })
			}
			p.AddRow(mip.Row{Name: "loads/" + name, Rel: mip.AtMost, Terms: []mip.Term{{Col: l, Coef: 1}, {Col: y, Coef: -most}}})
		}
		value := func(what string, goal units.Money, gate int) {
			if goal.Sign() <= 0 {
				return
			}
			terms := p.goodsTo(d.supplier, d.site)
			want := p.reach(d.supplier, goal)
			for i := range terms {
				terms[i].Coef /= want
			}
			p.AddRow(mip.Row{Name: what + "/" + name, Rel: mip.AtLeast, Terms: append(terms, mip.Term{Col: gate, Coef: -1})})
		}
		if waivable {
			value("free over", *d.row.FreeOver, w)
			p.AddRow(mip.Row{Name: "waived/" + name, Rel: mip.AtMost, Terms: []mip.Term{{Col: w, Coef: 1}, {Col: y, Coef: -1}}})
		}
		if d.row.MinOrder != nil {
			value("smallest order", *d.row.MinOrder, y)
		}
	}
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

// tighten adds rows that every whole answer satisfies and fractions often do
// not, so that the search starts from a truer bound:
//
//	Σ_{k by gate g} v[k,u] ≤ D[u]·y[g]            what comes needs its order
//	y[d] ≤ l[d] + w[d]                              an order has a load, or is waived
func (p *program) tighten() {
	for u, su := range p.in.suits {
		byGate := map[string][]mip.Term{}
		gates := map[string][]mip.Term{}
		var order []string
		for _, k := range su.classes {
			v, ok := p.v[[2]int{k, u}]
			if !ok {
				continue
			}
			key, gate := p.gatesOf(k)
			if gate == nil {
				continue
			}
			if byGate[key] == nil {
				order = append(order, key)
				gates[key] = gate
			}
			byGate[key] = append(byGate[key], mip.Term{Col: v, Coef: 1 / su.litres})
		}
		for _, key := range order {
			p.AddRow(mip.Row{Name: "needs order/" + key + "/" + su.name, Rel: mip.AtMost, Terms: append(byGate[key], gates[key]...)})
		}
	}
	p.tightenLevels()
	for di := range p.in.drops {
		l, ok := p.loads[di]
		if !ok {
			continue
		}
		terms := []mip.Term{{Col: l, Coef: 1}, {Col: p.y[di], Coef: -1}}
		if w, ok := p.waive[di]; ok {
			terms = append(terms, mip.Term{Col: w, Coef: 1})
		}
		p.AddRow(mip.Row{Name: "one load/" + p.Cols[p.y[di]].Name, Rel: mip.AtLeast, Terms: terms})
	}
}

// tightenLevels adds, where several sites or quotes share an all-units level:
//
//	m[q,i,l] ≤ cap[q,i]·z[g,l]
//
// For incremental tiers it was tried, and took a third more linear programs.
func (p *program) tightenLevels() {
	for g, pl := range p.in.pools {
		if pl.kind == quotes.Incremental {
			continue
		}
		for l := range pl.levels {
			z, ok := p.z[[2]int{g, l}]
			if !ok {
				continue
			}
			terms, _ := p.atLevel(g, l)
			if len(terms) < 2 {
				continue
			}
			for _, qi := range pl.members {
				for s := range p.in.sites {
					if m, ok := p.m[[3]int{qi, s, l}]; ok {
						p.AddRow(mip.Row{Name: "some/" + p.Cols[m].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: m, Coef: 1}, {Col: z, Coef: -float64(p.cap[[2]int{qi, s}])}}})
					}
				}
			}
		}
	}
}

// gatesOf is the sum of order columns that class k needs, negated, with a key
// that tells equal sums.
func (p *program) gatesOf(k int) (string, []mip.Term) {
	cl := p.in.classes[k]
	f := slices.Index(quotes.Forms, p.in.job.Quotes[cl.quotes[0]].Form)
	var out []mip.Term
	key := cl.supplier
	for _, di := range cl.drops {
		col, ok := p.gate(di, f)
		if !ok {
			return "", nil
		}
		out = append(out, mip.Term{Col: col, Coef: -1})
		key += fmt.Sprintf("/%d", col)
	}
	return key, out
}

// wholeTol is how far from whole a count of packs or loads may come back from a
// solver: counts are at most millions, its own tolerance is 1e-9 of them.
const wholeTol = 1e-5

// whole is a column's value as a whole number, or an error when it is not one.
func (p *program) whole(x []float64, col int) (int64, error) {
	v := math.Round(x[col])
	if math.Abs(x[col]-v) > wholeTol*max(1, math.Abs(v)) {
		return 0, fmt.Errorf("solver's answer for %q is %v, want a whole number", p.Cols[col].Name, x[col])
	}
	return int64(v), nil
}
