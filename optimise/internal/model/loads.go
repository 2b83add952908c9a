package model

import (
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// Heap is goods that share the loads of one drop: those of one quote, where its
// bulk fills loads of its own, or all others together.
type Heap struct {
	Own    bool
	Quotes []int // one where Own
	Cols   []int // by truck: whole loads paid for
}

// heapsOf lists the heaps of what drop di can carry; the shared one first.
func (p *Program) heapsOf(di int, sells []int) []Heap {
	row := p.In.Drops[di].Row
	var shared Heap
	var own []Heap
	for _, qi := range sells {
		if bill.OwnLoads(row, p.In.Job.Quotes[qi]) {
			own = append(own, Heap{Own: true, Quotes: []int{qi}})
		} else {
			shared.Quotes = append(shared.Quotes, qi)
		}
	}
	if shared.Quotes != nil {
		own = append([]Heap{shared}, own...)
	}
	return own
}

// Flat reports whether the load fee of drop di is paid once for any order: one
// size of truck without a limit, and all goods on one load.
func (p *Program) Flat(di int) bool {
	t := p.In.Drops[di].Row.Trucks
	return len(t) == 1 && !t[0].Sized() && len(p.heapsOf(di, p.sellsBy(di))) <= 1
}

// side is one way to measure a heap against its trucks: what a step of a quote
// takes, and what a load of each truck holds.
type side struct {
	name   string
	amount func(*quotes.Quote) float64 // of one pack
	holds  []float64                   // by truck; as much as there can be where it has no limit
	most   float64                     // all there can be
}

// sides measures heap h of drop di: one stone by volume alone, as much as a load
// holds of it; several by volume and by weight, where any truck has such a limit.
func (p *Program) sides(di int, h *Heap) []side {
	trucks := p.In.Drops[di].Row.Trucks
	s := slices.Index(p.In.Sites, p.In.Drops[di].Site)
	volume := side{name: "load volume", amount: func(q *quotes.Quote) float64 { return float64(q.PackLitres) }}
	weight := side{name: "load weight", amount: func(q *quotes.Quote) float64 { return float64(q.PackMass) }}
	for _, qi := range h.Quotes {
		q := p.In.Job.Quotes[qi]
		packs := float64(p.Cap[[2]int{qi, s}]) * q.Step.Float()
		volume.most += packs * float64(q.PackLitres)
		weight.most += packs * float64(q.PackMass)
	}
	byWeight := false
	for _, t := range trucks {
		holds := volume.most
		switch {
		case h.Own:
			holds = min(holds, bill.Capacity(t, p.In.Job.Quotes[h.Quotes[0]]))
		case t.Volume != nil:
			holds = min(holds, float64(*t.Volume))
		}
		volume.holds = append(volume.holds, holds)
		holds = weight.most
		if t.Weight != nil {
			byWeight = true
			holds = min(holds, float64(*t.Weight))
		}
		weight.holds = append(weight.holds, holds)
	}
	if !h.Own && byWeight {
		return []side{volume, weight}
	}
	return []side{volume}
}

// loads adds, for each heap of a drop and each truck, k[h,t] whole loads at their
// fee. No more are worth paying for than carry all there can be.
func (p *Program) loads(di int, name string, heaps []Heap) {
	d := p.In.Drops[di]
	for i := range heaps {
		h := &heaps[i]
		label := name
		if len(heaps) > 1 {
			label += "/together"
			if h.Own {
				label = name + "/" + p.In.Job.Quotes[h.Quotes[0]].Name
			}
		}
		for t, truck := range d.Row.Trucks {
			most := 1.0
			for _, sd := range p.sides(di, h) {
				most = max(most, math.Ceil(sd.most/sd.holds[t]-bill.LoadSlack))
			}
			size := ""
			if len(d.Row.Trucks) > 1 {
				size = fmt.Sprintf("/size %d", t+1)
			}
			h.Cols = append(h.Cols, p.AddColumn(mip.Column{Name: "loads/" + label + size, Cost: p.WithTax(d, truck.Fee), Upper: most, Integer: true}))
		}
	}
	p.Heaps[di] = heaps
}

// fullLoads adds, for each heap h of drop di, by volume and by weight:
//
//	Σ_q amount[q]·c[q,d] ≤ Σ_t holds[t]·k[h,t] + all·w[d]
//	k[h,t] ≤ most·y[d]
//
// Rows are scaled by the largest load, so that it is 1.
func (p *Program) fullLoads(di int) {
	y := p.Y[di]
	name := p.Cols[y].Name
	w, waivable := p.Waive[di]
	for i := range p.Heaps[di] {
		h := &p.Heaps[di][i]
		for _, sd := range p.sides(di, h) {
			largest := slices.Max(sd.holds)
			terms := p.carriedTerms(di, h.Quotes, func(q *quotes.Quote) float64 { return sd.amount(q) / largest })
			for t, col := range h.Cols {
				terms = append(terms, mip.Term{Col: col, Coef: -sd.holds[t] / largest})
			}
			if waivable {
				terms = append(terms, mip.Term{Col: w, Coef: -max(1, math.Ceil(sd.most/largest))})
			}
			p.AddRow(mip.Row{Name: sd.name + "/" + p.Cols[h.Cols[0]].Name, Rel: mip.AtMost, Terms: terms})
		}
		for _, col := range h.Cols {
			p.AddRow(mip.Row{Name: "loads/" + p.Cols[col].Name + "/" + name, Rel: mip.AtMost, Terms: []mip.Term{{Col: col, Coef: 1}, {Col: y, Coef: -p.Cols[col].Upper}}})
		}
	}
}

// oneLoad adds: y[d] ≤ Σ k[h,t] + w[d], an order has a load, or is waived.
func (p *Program) oneLoad() {
	for di := range p.In.Drops {
		if p.Heaps[di] == nil {
			continue
		}
		terms := []mip.Term{{Col: p.Y[di], Coef: -1}}
		for _, h := range p.Heaps[di] {
			for _, col := range h.Cols {
				terms = append(terms, mip.Term{Col: col, Coef: 1})
			}
		}
		if w, ok := p.Waive[di]; ok {
			terms = append(terms, mip.Term{Col: w, Coef: 1})
		}
		p.AddRow(mip.Row{Name: "one load/" + p.Cols[p.Y[di]].Name, Rel: mip.AtLeast, Terms: terms})
	}
}
