package model

import (
	"fmt"
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// tighten adds rows that every whole answer satisfies and fractions often do
// not, so that the search starts from a truer bound:
//
//	Σ_{k by gate g} v[k,u] ≤ D[u]·y[g]            what comes needs its order
func (p *Program) tighten() {
	for u, su := range p.In.Suits {
		byGate := map[string][]mip.Term{}
		gates := map[string][]mip.Term{}
		var order []string
		for _, k := range su.Classes {
			v, ok := p.V[[2]int{k, u}]
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
			byGate[key] = append(byGate[key], mip.Term{Col: v, Coef: p.Scale(u) / su.Litres})
		}
		for _, key := range order {
			p.tight(mip.Row{Name: "needs order/" + key + "/" + su.Name, Rel: mip.AtMost, Terms: append(byGate[key], gates[key]...)})
		}
	}
	p.tightenLevels()
	p.oneLoad()
}

// tight adds a row that tightens the relaxation; where one quote fills each layer, of which
// every one then has such rows and few of them matter, it is put by in Tight.
func (p *Program) tight(r mip.Row) {
	if !p.oneEach() {
		p.AddRow(r)
		return
	}
	r.Rel = mip.AtLeast
	for i := range r.Terms {
		r.Terms[i].Coef = -r.Terms[i].Coef
	}
	p.Tight = append(p.Tight, r)
}

// tightenLevels adds, where several sites or quotes share an all-units level:
//
//	m[q,i,l] ≤ cap[q,i]·z[g,l]
//
// For incremental tiers it was tried, and took a third more linear programs.
func (p *Program) tightenLevels() {
	for g, pl := range p.In.Pools {
		if pl.Kind == quotes.Incremental {
			continue
		}
		for l := range pl.Levels {
			z, ok := p.Z[[2]int{g, l}]
			if !ok {
				continue
			}
			terms, _ := p.atLevel(g, l)
			if len(terms) < 2 {
				continue
			}
			for _, qi := range pl.Members {
				for s := range p.In.Sites {
					if m, ok := p.M[[3]int{qi, s, l}]; ok {
						p.AddRow(mip.Row{Name: "some/" + p.Cols[m].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: m, Coef: 1}, {Col: z, Coef: -float64(p.Cap[[2]int{qi, s}])}}})
					}
				}
			}
		}
	}
}

// gatesOf is the sum of order columns that class k needs, negated, with a key
// that tells equal sums.
func (p *Program) gatesOf(k int) (string, []mip.Term) {
	cl := p.In.Classes[k]
	if slices.ContainsFunc(cl.Quotes, func(qi int) bool { return p.In.Job.Quotes[qi].Supplier != cl.supplier }) {
		return "", nil
	}
	f := slices.Index(quotes.Forms, p.In.Job.Quotes[cl.Quotes[0]].Form)
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
