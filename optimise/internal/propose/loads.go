package propose

import (
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/quotes"
)

// heapFigures is a heap of a drop: what a litre and a kilogram of it take of a load
// of each truck.
type heapFigures struct {
	own      int // the item whose goods alone it is, or -1
	shares   [3]bool
	byVolume []float64 // loads a litre, by truck
	byWeight []float64 // loads a kilogram
	cols     []int
	needs    [][2]float64 // room for a moment
}

// heap sets out a heap for trials.
func (c *Completer) heap(row *quotes.Delivery, h model.Heap) heapFigures {
	f := heapFigures{own: -1, cols: h.Cols, needs: make([][2]float64, len(row.Trucks))}
	for _, qi := range h.Quotes {
		q := c.p.In.Job.Quotes[qi]
		f.shares[slices.Index(quotes.Forms, q.Form)] = true
		if h.Own {
			f.own = qi
		}
	}
	for _, t := range row.Trucks {
		volume, weight := 0.0, 0.0
		if h.Own {
			volume = 1 / bill.Capacity(t, c.p.In.Job.Quotes[h.Quotes[0]])
		} else {
			if t.Volume != nil {
				volume = 1 / float64(*t.Volume)
			}
			if t.Weight != nil {
				weight = 1 / float64(*t.Weight)
			}
		}
		f.byVolume, f.byWeight = append(f.byVolume, volume), append(f.byWeight, weight)
	}
	return f
}

// amount is what of a sending lies on the heap when it comes by drop di.
func (c *Completer) amount(h *heapFigures, sn *sending, pick byForm, di int) (litres, kg float64) {
	if h.own >= 0 {
		for _, b := range sn.bulk {
			if c.Items[b.item].Quote == h.own && pick[c.Items[b.item].Form] == di {
				return b.litres, b.kg
			}
		}
		return 0, 0
	}
	for f, on := range h.shares {
		if on && pick[f] == di {
			litres, kg = litres+sn.vol[f], kg+sn.kg[f]
		}
	}
	return litres, kg
}

// loads prices the loads of drop di, and sets their columns.
func (c *Completer) loads(d *dropFigures, sn *sending, pick byForm, di int, set setter) (cost float64) {
	for i := range d.heaps {
		h := &d.heaps[i]
		litres, kg := c.amount(h, sn, pick, di)
		if litres <= 0 {
			continue
		}
		for t := range d.fees {
			h.needs[t] = [2]float64{litres * h.byVolume[t], kg * h.byWeight[t]}
		}
		if len(d.fees) == 1 { // nearly always, and a search tries millions
			n := float64(bill.WholeLoads(max(h.needs[0][0], h.needs[0][1])))
			cost += d.fees[0] * n
			if set != nil {
				set(h.cols[0], n)
			}
			continue
		}
		for t, n := range bill.CheapestLoads(d.fees, h.needs) {
			cost += d.fees[t] * float64(n)
			if set != nil {
				set(h.cols[t], float64(n))
			}
		}
	}
	return cost
}
