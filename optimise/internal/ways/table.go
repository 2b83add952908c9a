package ways

import (
	"cmp"
	"slices"
)

// Table is layers that limits tie together, each to be filled by one of its choices.
type Table struct {
	layers []Layer
	most   []float64   // by limit
	rest   [][]float64 // the least that the layers from each on use of each limit
}

// Layer is so many litres, with what may fill them.
type Layer struct {
	Litres  float64
	Choices []Choice
}

// Choice is something that may fill a layer, and what it then uses of each limit.
type Choice struct {
	Of   int
	Uses []float64
}

// NewTable readies layers and the most that may be used of each limit.
func NewTable(layers []Layer, most []float64) *Table {
	t := &Table{layers: layers, most: most}
	t.rest = leastUses(len(t.layers), len(t.most), func(l int) (out [][]float64) {
		for _, c := range t.layers[l].Choices {
			out = append(out, c.Uses)
		}
		return out
	})
	return t
}

// laidTo is a way to fill the first layers of a table.
type laidTo struct {
	cost    float64
	used    []float64 // of each limit
	from, j int       // the one it goes on from, and the choice it adds
}

// Cheapest is the choice for each layer that together cost least within the limits, where a litre of
// what is chosen costs g; false where there is none. Layer by layer, a way to fill the first ones is kept unless
// another costs and uses no more. Where that keeps more than mostWays, limits are left out
// from the last on, which only lets more in.
func (t *Table) Cheapest(g []float64) (pick []int, cost float64, ok bool) {
	if pick, cost, ok = t.unbound(g); ok {
		return pick, cost, ok
	}
	for limits := len(t.most); limits > 0; limits-- {
		pick, cost, ok, many := t.within(g, limits)
		if !many {
			return pick, cost, ok
		}
	}
	pick, cost, ok, _ = t.within(g, 0)
	return pick, cost, ok
}

// unbound is the choice for each layer that costs least by itself, if that keeps the limits.
func (t *Table) unbound(g []float64) (pick []int, cost float64, ok bool) {
	used := make([]float64, len(t.most))
	for _, l := range t.layers {
		if len(l.Choices) == 0 {
			return nil, 0, false
		}
		best := 0
		for j, c := range l.Choices {
			if g[c.Of] < g[l.Choices[best].Of] {
				best = j
			}
		}
		c := l.Choices[best]
		pick = append(pick, best)
		cost += g[c.Of] * l.Litres
		for i, v := range c.Uses {
			used[i] += v
		}
	}
	return pick, cost, noMore(used, t.most)
}

// within is cheapest by the first so many limits; many says that it kept too many ways.
func (t *Table) within(g []float64, limits int) (pick []int, cost float64, ok, many bool) {
	most := t.most[:limits]
	steps := [][]laidTo{{{used: make([]float64, limits)}}}
	for a, l := range t.layers {
		front := t.worthTaking(a, g, limits)
		var next []laidTo
		for from, w := range steps[a] {
			for _, j := range front {
				c := l.Choices[j]
				used := slices.Clone(w.used)
				within := true
				for i := range used {
					used[i] += c.Uses[i]
					within = within && used[i]+t.rest[a+1][i] <= most[i]
				}
				if within {
					next = append(next, laidTo{w.cost + g[c.Of]*l.Litres, used, from, j})
				}
			}
		}
		slices.SortStableFunc(next, func(x, y laidTo) int {
			return cmp.Or(cmp.Compare(x.cost, y.cost), slices.Compare(x.used, y.used))
		})
		var now []laidTo
		for _, w := range next {
			if !slices.ContainsFunc(now, func(o laidTo) bool { return noMore(o.used, w.used) }) {
				now = append(now, w)
			}
			if len(now) > mostWays {
				return nil, 0, false, true
			}
		}
		if len(now) == 0 {
			return nil, 0, false, false
		}
		steps = append(steps, now)
	}
	pick = make([]int, len(t.layers))
	for a, at := len(t.layers), 0; a > 0; a-- {
		pick[a-1] = steps[a][at].j
		at = steps[a][at].from
	}
	return pick, steps[len(t.layers)][0].cost, true, false
}

// worthTaking is the choices for layer a of which no other costs and uses no more.
func (t *Table) worthTaking(a int, g []float64, limits int) (out []int) {
	all := t.layers[a].Choices
	order := make([]int, len(all))
	for j := range order {
		order[j] = j
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(g[all[i].Of], g[all[j].Of]), slices.Compare(all[i].Uses[:limits], all[j].Uses[:limits]))
	})
	for _, j := range order {
		if !slices.ContainsFunc(out, func(o int) bool { return noMore(all[o].Uses[:limits], all[j].Uses[:limits]) }) {
			out = append(out, j)
		}
	}
	return out
}
