package model

import (
	"math"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// Where layers may not be mixed freely, alike layers are no longer one demand: any
// split of what fills their sum does not fill each by one quote. Every layer is
// then a suit of its own and every quote a class, but for layers of one size that
// nothing ties down: which of them a quote fills changes nothing, so only how many
// it fills is asked, and that is whole.

// Scale is what v[k,u] is counted in: litres, or whole layers where one quote
// fills each, or where it must fill some share of them parts of a layer that are at
// most leastParts.
func (p *Program) Scale(u int) float64 {
	switch {
	case p.oneEach():
		return p.In.Suits[u].Litres / float64(p.In.Suits[u].Layers)
	case p.In.Job.Settings.LeastShare > 0:
		return max(1, p.In.Suits[u].Litres/leastParts)
	}
	return 1
}

// leastParts keeps what stands before v[k,u] above 1/leastParts in leastShares, beside a 1:
// lp_solve pivots on nothing below 2e-7 (reference guide, set_epspivot.htm), and a layer of 1,000 m³
// counted in litres came near that and was called impossible.
const leastParts = 1e4

// oneEach says that one quote fills each layer.
func (p *Program) oneEach() bool { return p.In.Job.Settings.LayerMix == quotes.OneMix }

// place is the column v[k,u] as it stands before it is in the model.
func (p *Program) place(name string, u int) mip.Column {
	if p.oneEach() {
		return mip.Column{Name: name, Upper: float64(p.In.Suits[u].Layers), Integer: true, Late: true}
	}
	return mip.Column{Name: name, Upper: p.In.Suits[u].Litres / p.Scale(u)}
}

// leastShares adds, where a quote must fill some share s of a layer or nothing of
// it, r[k,u] ∈ {0,1}: class k fills some of suit u, and
//
//	v[k,u] ≤ D[u]·r[k,u]
//	v[k,u] ≥ s·D[u]·r[k,u]
//	Σ_k r[k,u] ≤ 1/s
func (p *Program) leastShares() {
	s := p.In.Job.Settings.LeastShare
	if s <= 0 || p.oneEach() {
		return
	}
	for u, su := range p.In.Suits {
		var some []mip.Term
		for _, k := range su.Classes {
			v, ok := p.V[[2]int{k, u}]
			if !ok {
				continue
			}
			r := p.AddColumn(mip.Column{Name: "some/" + p.Cols[v].Name, Upper: 1, Integer: true})
			p.Some[[2]int{k, u}] = r
			some = append(some, mip.Term{Col: r, Coef: 1})
			p.AddRow(mip.Row{Name: "at most/" + p.Cols[v].Name, Rel: mip.AtMost, Terms: []mip.Term{{Col: v, Coef: p.Scale(u) / su.Litres}, {Col: r, Coef: -1}}})
			p.AddRow(mip.Row{Name: "at least/" + p.Cols[v].Name, Rel: mip.AtLeast, Terms: []mip.Term{{Col: v, Coef: p.Scale(u) / su.Litres}, {Col: r, Coef: -s}}})
		}
		if len(some) > 0 {
			p.AddRow(mip.Row{Name: "stones/" + su.Name, Rel: mip.AtMost, RHS: math.Floor(1/s + 1e-9), Terms: some})
		}
	}
}
