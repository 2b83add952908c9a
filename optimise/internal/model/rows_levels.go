package model

import (
	"fmt"
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// atLevel is Σ_{q∈pool,i} step[q]·m[q,i,l]: the packs bought at level l.
func (p *Program) atLevel(g, l int) (terms []mip.Term, most float64) {
	for _, qi := range p.In.Pools[g].Members {
		step := p.In.Job.Quotes[qi].Step.Float()
		for s := range p.In.Sites {
			if m, ok := p.M[[3]int{qi, s, l}]; ok {
				terms = append(terms, mip.Term{Col: m, Coef: step})
				most += step * float64(p.Cap[[2]int{qi, s}])
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
//	z[g,l+1] ≤ z[g,l]                     where no step fits between two thresholds
//
// upto[l] is the most packs below the next threshold; above it the next level is
// no dearer, so nothing is cut off.
func (p *Program) breaks() {
	for g, pl := range p.In.Pools {
		if _, ok := p.Z[[2]int{g, 0}]; !ok {
			continue
		}
		for _, qi := range pl.Members {
			for s := range p.In.Sites {
				n, ok := p.N[[2]int{qi, s}]
				if !ok {
					continue
				}
				terms := []mip.Term{{Col: n, Coef: -1}}
				for l := range pl.Levels {
					terms = append(terms, mip.Term{Col: p.M[[3]int{qi, s, l}], Coef: 1})
				}
				p.AddRow(mip.Row{Name: "levels/" + p.Cols[n].Name, Rel: mip.Equal, Terms: terms})
			}
		}
		if pl.Kind == quotes.Incremental {
			p.incremental(g)
		} else {
			p.allUnits(g)
		}
	}
}

func (p *Program) allUnits(g int) {
	pl := p.In.Pools[g]
	var one []mip.Term
	for l, lv := range pl.Levels {
		z := p.Z[[2]int{g, l}]
		one = append(one, mip.Term{Col: z, Coef: 1})
		packs, most := p.atLevel(g, l)
		if l+1 < len(pl.Levels) {
			most = min(most, p.below(g, l+1))
		}
		name := fmt.Sprintf("%s/%s", pl.Name, lv.From)
		p.AddRow(mip.Row{Name: "upto/" + name, Rel: mip.AtMost, Terms: append(slices.Clone(packs), mip.Term{Col: z, Coef: -most})})
		if from := lv.From.Float(); from > 0 {
			p.AddRow(mip.Row{Name: "reach/" + name, Rel: mip.AtLeast, Terms: append(packs, mip.Term{Col: z, Coef: -from})})
		}
	}
	p.AddRow(mip.Row{Name: "one level/" + pl.Name, Rel: mip.AtMost, RHS: 1, Terms: one})
}

// below is the most packs of pool g that stay under the threshold of level l:
// exact when all its quotes are sold in the same step, else the threshold.
func (p *Program) below(g, l int) float64 {
	pl := p.In.Pools[g]
	step := p.In.Job.Quotes[pl.Members[0]].Step
	for _, qi := range pl.Members {
		if !p.In.Job.Quotes[qi].Step.Equal(step) {
			return pl.Levels[l].From.Float()
		}
	}
	return pl.Before(p.In.Job, l).Float()
}

func (p *Program) incremental(g int) {
	pl := p.In.Pools[g]
	for l, lv := range pl.Levels {
		packs, most := p.atLevel(g, l)
		z := p.Z[[2]int{g, l}]
		name := fmt.Sprintf("%s/%s", pl.Name, lv.From)
		if l+1 < len(pl.Levels) {
			width := pl.Before(p.In.Job, l+1).Sub(pl.Before(p.In.Job, l)).Float()
			most = min(most, width)
			next := p.Z[[2]int{g, l + 1}]
			full := mip.Row{Name: "full/" + name, Rel: mip.AtLeast, Terms: append(slices.Clone(packs), mip.Term{Col: next, Coef: -width})}
			if width == 0 { // one step passes two thresholds: the levels before must be full all the same
				full.Terms = []mip.Term{{Col: z, Coef: 1}, {Col: next, Coef: -1}}
			}
			p.AddRow(full)
		}
		p.AddRow(mip.Row{Name: "upto/" + name, Rel: mip.AtMost, Terms: append(packs, mip.Term{Col: z, Coef: -most})})
	}
}
