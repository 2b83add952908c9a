package optimise

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
func (p *program) imply() {
	for s := range p.in.sites {
		var mine []int
		for u, su := range p.in.suits {
			if su.site == s {
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
				if !slices.ContainsFunc(p.in.suits[v].classes, func(k int) bool { return !slices.Contains(p.in.suits[u].classes, k) }) {
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
func (p *program) cover(set []int) {
	litres := 0.0
	var terms []mip.Term
	done := map[int]bool{}
	for _, u := range set {
		litres += p.in.suits[u].litres
		for _, k := range p.in.suits[u].classes {
			if done[k] {
				continue
			}
			done[k] = true
			for _, qi := range p.in.classes[k].quotes {
				if n, ok := p.n[[2]int{qi, p.in.classes[k].site}]; ok {
					q := p.in.job.Quotes[qi]
					terms = append(terms, mip.Term{Col: n, Coef: float64(q.Placed()) * q.Step.Float()})
				}
			}
		}
	}
	p.Implied = append(p.Implied, mip.Row{Name: "cover/" + p.in.suits[set[0]].name, Rel: mip.AtLeast, RHS: litres, Terms: terms})
}
