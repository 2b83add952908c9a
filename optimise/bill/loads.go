package bill

import (
	"math"
	"slices"

	"mediabuy/quotes"
	"mediabuy/units"
)

// TruckLoads is how many loads a drop takes of one size of truck.
type TruckLoads struct {
	Truck quotes.Truck
	Loads int
}

// OwnLoads reports whether goods of q fill loads of their own on a way of delivery:
// bulk does, where a load holds one; bags and sacks share loads among themselves.
func OwnLoads(d *quotes.Delivery, q *quotes.Quote) bool {
	return d.LoadHolds == quotes.HoldsOne && q.Form == quotes.Bulk
}

// Capacity is what one load of t holds of one stone, in litres as sold: a load is
// full at its volume or at its weight, whichever comes first. +Inf where it has
// neither.
func Capacity(t quotes.Truck, q *quotes.Quote) float64 {
	most := math.Inf(1)
	if t.Volume != nil {
		most = float64(*t.Volume)
	}
	if t.Weight != nil && q.PackMass > 0 {
		most = min(most, float64(*t.Weight)*float64(q.PackLitres)/float64(q.PackMass))
	}
	return most
}

// heap is goods that share loads: those of one quote, or all that may lie together.
type heap struct {
	quote        *quotes.Quote // nil where goods of several share loads
	sold, weight units.Decimal
}

// cargo is what one drop carries, in heaps; the first is that of goods that share.
type cargo []heap

func (c cargo) add(d *quotes.Delivery, q *quotes.Quote, packs units.Decimal) cargo {
	var own *quotes.Quote
	if OwnLoads(d, q) {
		own = q
	}
	i := slices.IndexFunc(c, func(h heap) bool { return h.quote == own })
	if i < 0 {
		i = len(c)
		c = append(c, heap{quote: own})
	}
	c[i].sold = c[i].sold.Add(packs.Mul(units.DecimalOf(float64(q.PackLitres))))
	c[i].weight = c[i].weight.Add(packs.Mul(units.DecimalOf(float64(q.PackMass))))
	return c
}

func (c cargo) sold() units.Decimal {
	var sum units.Decimal
	for _, h := range c {
		sum = sum.Add(h.sold)
	}
	return sum
}

// loads is the cheapest number of loads of each truck that bring the whole cargo,
// with what they cost. Of equal costs the fewest loads are taken.
func (c cargo) loads(trucks []quotes.Truck) ([]TruckLoads, units.Money) {
	out := make([]TruckLoads, len(trucks))
	for t := range trucks {
		out[t].Truck = trucks[t]
	}
	var cost units.Money
	for _, h := range c {
		best := h.cheapest(trucks)
		for t, n := range best {
			out[t].Loads += n
			cost = cost.Add(trucks[t].Fee.Times(units.DecimalFromInt(int64(n))))
		}
	}
	return slices.DeleteFunc(out, func(l TruckLoads) bool { return l.Loads == 0 }), cost
}

// LoadSlack is the share of a load by which goods may be over a whole number of
// loads and still be carried by it: the noise of binary fractions, under a
// thimbleful in a truck.
const LoadSlack = 1e-9

// needs are the parts of a load of each truck, by volume and by weight, that a heap
// takes: one part where it is one stone, both where several share.
func (h heap) needs(t quotes.Truck) [2]float64 {
	if h.quote != nil {
		return [2]float64{h.sold.Float() / Capacity(t, h.quote), 0}
	}
	var out [2]float64
	if t.Volume != nil {
		out[0] = h.sold.Float() / float64(*t.Volume)
	}
	if t.Weight != nil {
		out[1] = h.weight.Float() / float64(*t.Weight)
	}
	return out
}

func (h heap) cheapest(trucks []quotes.Truck) []int {
	needs, fees := make([][2]float64, len(trucks)), make([]float64, len(trucks))
	for t := range trucks {
		needs[t], fees[t] = h.needs(trucks[t]), trucks[t].Fee.Float()
	}
	return CheapestLoads(fees, needs)
}

// CheapestLoads is the loads of each truck that carry a heap for least money, of
// which needs[t] fill a whole number of trucks t, by volume and by weight; of equal
// costs the fewest loads. For each count of every truck but the last it takes the
// fewest of the last that carry the rest.
//
//	Σ_t k[t] / needs[t] ≥ 1, by volume and by weight;  minimise Σ_t fee[t]·k[t]
func CheapestLoads(fees []float64, needs [][2]float64) []int {
	if len(fees) == 1 {
		return []int{WholeLoads(max(needs[0][0], needs[0][1]))}
	}
	s := loadSearch{fees: fees, needs: needs, best: make([]int, len(fees)), k: make([]int, len(fees)), least: math.Inf(1)}
	s.try(0, [2]float64{1, 1}, 0, 0)
	return s.best
}

type loadSearch struct {
	fees    []float64
	needs   [][2]float64
	k, best []int
	least   float64
	fewest  int
}

// try carries what is left, as shares of the heap, by the trucks from t on.
func (s *loadSearch) try(t int, left [2]float64, cost float64, loads int) {
	const same = 1e-9 // of money: fees are whole cents
	if cost > s.least+same || cost > s.least-same && loads >= s.fewest {
		return
	}
	if loads > 0 && left[0] <= LoadSlack && left[1] <= LoadSlack {
		copy(s.best, s.k)
		s.least, s.fewest = cost, loads
		return
	}
	if t == len(s.fees) {
		return
	}
	most := WholeLoads(max(s.needs[t][0]*left[0], s.needs[t][1]*left[1]))
	for n := most; n >= 0 && (n == most || t < len(s.fees)-1); n-- {
		s.k[t] = n
		rest := left
		for d := range rest {
			if n > 0 && s.needs[t][d] == 0 {
				rest[d] = 0 // one load of it carries any amount
			} else if n > 0 {
				rest[d] = left[d] - float64(n)/s.needs[t][d]
			}
			if rest[d] <= LoadSlack {
				rest[d] = 0
			}
		}
		s.try(t+1, rest, cost+s.fees[t]*float64(n), loads+n)
	}
	s.k[t] = 0
}

// WholeLoads is the loads for so many parts of one, at least one.
func WholeLoads(parts float64) int {
	whole := int(parts)
	if parts-float64(whole) > LoadSlack*max(1, parts) {
		whole++
	}
	return max(1, whole)
}
