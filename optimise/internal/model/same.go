package model

import (
	"fmt"
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// Where every bed is to be filled alike, what is chosen is the share of each quote
// in a layer, not its litres in a bed: all layers of that name at one site are one
// suit, and slot t holds v[k,u]·D[t]/D[u] of class k. Every quote is a class of its
// own then, so that alike means the same quotes.

// welcome reports whether quote q may fill a layer of bed b: of every bed that has
// the layer, where they are filled alike.
func (in *Instance) welcome(q, b int, l quotes.Layer, site int) bool {
	if !in.Same {
		return in.Fit.OK(q, b, l) && len(in.DropAt[[2]int{q, site}]) > 0
	}
	for i, bed := range in.Job.Beds {
		if bed.LayerLitres(l) <= 0 {
			continue
		}
		if s := slices.Index(in.Sites, bed.Site); !in.Fit.OK(q, i, l) || len(in.DropAt[[2]int{q, s}]) == 0 {
			return false
		}
	}
	return true
}

// sameEverywhere adds, where every bed is filled alike and beds stand at several
// sites, for each quote and layer, u of the first site and u′ of another:
//
//	v[k,u]/D[u] = v[k′,u′]/D[u′]
func (p *Program) sameEverywhere() {
	if !p.In.Same {
		return
	}
	shares := func(u int) map[int]mip.Term { // by quote
		out := map[int]mip.Term{}
		for _, k := range p.In.Suits[u].Classes {
			if v, ok := p.V[[2]int{k, u}]; ok {
				out[p.In.Classes[k].Quotes[0]] = mip.Term{Col: v, Coef: p.Scale(u) / p.In.Suits[u].Litres}
			}
		}
		return out
	}
	first := map[quotes.Layer]map[int]mip.Term{}
	for u, su := range p.In.Suits {
		here := shares(u)
		there, ok := first[su.layer]
		if !ok {
			first[su.layer] = here
			continue
		}
		for q := range p.In.Job.Quotes {
			var terms []mip.Term
			if t, ok := here[q]; ok {
				terms = append(terms, t)
			}
			if t, ok := there[q]; ok {
				terms = append(terms, mip.Term{Col: t.Col, Coef: -t.Coef})
			}
			if len(terms) > 0 {
				p.AddRow(mip.Row{Name: fmt.Sprintf("alike/%s/%s", p.In.Job.Quotes[q].Name, su.Name), Rel: mip.Equal, Terms: terms})
			}
		}
	}
}

// things adds b[q] ∈ {0,1}, some of q is bought, where those are counted.
func (p *Program) things() {
	if p.In.Job.Settings.MaxQuotes <= 0 {
		return
	}
	for qi, q := range p.In.Job.Quotes {
		if len(p.allSites(qi, 1)) > 0 {
			p.Things[qi] = p.AddColumn(mip.Column{Name: "bought/" + q.Name, Upper: 1, Integer: true})
		}
	}
}

// countThings adds, where the quotes bought of are counted:
//
//	Σ_q b[q] ≤ most
//	n[q,i] ≤ cap[q,i]·b[q]
//	v[k,u] ≤ D[u]·Σ_{q∈k} b[q]                     follows, and tightens
func (p *Program) countThings() {
	most := p.In.Job.Settings.MaxQuotes
	if most <= 0 {
		return
	}
	var all []mip.Term
	for qi, q := range p.In.Job.Quotes {
		b, ok := p.Things[qi]
		if !ok {
			continue
		}
		all = append(all, mip.Term{Col: b, Coef: 1})
		for s, site := range p.In.Sites {
			if n, ok := p.N[[2]int{qi, s}]; ok {
				p.AddRow(mip.Row{Name: "only bought/" + q.Name + "@" + site, Rel: mip.AtMost,
					Terms: []mip.Term{{Col: n, Coef: 1 / float64(p.Cap[[2]int{qi, s}])}, {Col: b, Coef: -1}}})
			}
		}
	}
	p.AddRow(mip.Row{Name: "most quotes", Rel: mip.AtMost, RHS: float64(most), Terms: all})
	for u, su := range p.In.Suits {
		for _, k := range su.Classes {
			v, ok := p.V[[2]int{k, u}]
			if !ok {
				continue
			}
			terms := []mip.Term{{Col: v, Coef: p.Scale(u) / su.Litres}}
			for _, qi := range p.In.Classes[k].Quotes {
				if b, ok := p.Things[qi]; ok {
					terms = append(terms, mip.Term{Col: b, Coef: -1})
				}
			}
			p.AddRow(mip.Row{Name: "only bought/" + p.Cols[v].Name, Rel: mip.AtMost, Terms: terms})
		}
	}
}
