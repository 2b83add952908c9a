package model

import (
	"fmt"
	"slices"

	"mediabuy/optimise/mip"
)

// imply lists rows that follow from the others, for a solver to round into cuts.
// For a set U of suits of one site and K the classes welcome in any of them:
//
//	Σ_{q∈k∈K} u[q]·step[q]·n[q,i] ≥ Σ_{u∈U} D[u]
//
// The sets tried are each suit with all whose classes it covers, and the whole
// site.
func (p *Program) imply() {
	for s := range p.In.Sites {
		var mine []int
		for u, su := range p.In.Suits {
			if su.Site == s {
				mine = append(mine, u)
			}
		}
		seen := map[string]bool{}
		cover := func(set []int) {
			key := fmt.Sprint(set)
			if len(set) == 0 || seen[key] {
				return
			}
			seen[key] = true
			p.cover(set)
		}
		for _, u := range mine {
			var closed []int
			for _, v := range mine {
				if !slices.ContainsFunc(p.In.Suits[v].Classes, func(k int) bool { return !slices.Contains(p.In.Suits[u].Classes, k) }) {
					closed = append(closed, v)
				}
			}
			cover([]int{u})
			cover(closed)
		}
		cover(mine)
	}
}

// cover adds the implied row of one set of suits.
func (p *Program) cover(set []int) {
	litres := 0.0
	var terms []mip.Term
	done := map[int]bool{}
	for _, u := range set {
		litres += p.In.Suits[u].Litres
		for _, k := range p.In.Suits[u].Classes {
			if done[k] {
				continue
			}
			done[k] = true
			for _, qi := range p.In.Classes[k].Quotes {
				if n, ok := p.N[[2]int{qi, p.In.Classes[k].Site}]; ok {
					q := p.In.Job.Quotes[qi]
					terms = append(terms, mip.Term{Col: n, Coef: float64(p.In.Job.Yield(q)) * q.Step.Float()})
				}
			}
		}
	}
	p.Implied = append(p.Implied, mip.Row{Name: "cover/" + p.In.Suits[set[0]].Name, Rel: mip.AtLeast, RHS: litres, Terms: terms})
}
