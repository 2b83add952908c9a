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
		// Where every bed stands by itself thousands of suits take the same classes.
		kinds, kindOf := p.kindsOf(mine)
		within := make([][]bool, len(kinds)) // kind → kinds whose classes it covers
		for i, u := range mine {
			cover([]int{u})
			if within[kindOf[i]] != nil {
				continue
			}
			within[kindOf[i]] = p.coveredBy(kinds[kindOf[i]], kinds)
			var closed []int
			for j, v := range mine {
				if within[kindOf[i]][kindOf[j]] {
					closed = append(closed, v)
				}
			}
			cover(closed)
		}
		cover(mine)
	}
}

// kindsOf lists the different sets of classes that suits take, and which of them each
// suit takes.
func (p *Program) kindsOf(suits []int) (kinds [][]int, of []int) {
	index := map[string]int{}
	for _, u := range suits {
		key := fmt.Sprint(p.In.Suits[u].Classes)
		i, ok := index[key]
		if !ok {
			i = len(kinds)
			index[key] = i
			kinds = append(kinds, p.In.Suits[u].Classes)
		}
		of = append(of, i)
	}
	return kinds, of
}

// coveredBy tells of each set of classes whether all of it is in a wider one.
func (p *Program) coveredBy(wide []int, sets [][]int) []bool {
	has := make([]bool, len(p.In.Classes))
	for _, k := range wide {
		has[k] = true
	}
	out := make([]bool, len(sets))
	for i, set := range sets {
		out[i] = !slices.ContainsFunc(set, func(k int) bool { return !has[k] })
	}
	return out
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
