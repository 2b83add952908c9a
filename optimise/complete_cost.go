package optimise

import (
	"math"

	"mediabuy/quotes"
)

// cost is what n costs, +Inf when no supplier would sell it; x, unless nil, is
// filled with the whole columns (and those that hang on them).
func (c *completer) cost(n []int, x []float64) float64 {
	p := c.p
	if x != nil {
		clear(x)
	}
	set := func(col int, v float64) {
		if x != nil && col >= 0 {
			x[col] = v
		}
	}
	total := 0.0
	value := make([]float64, len(c.sends))
	bought := make(map[int]int, 8) // quote → steps, for least and stock
	for g, items := range c.poolItems {
		sum := 0.0
		for _, i := range items {
			if n[i] > 0 {
				sum += float64(n[i]) * c.items[i].step
				bought[c.items[i].quote] += n[i]
			}
		}
		if sum == 0 {
			continue
		}
		pl := p.in.pools[g]
		if pl.kind == quotes.Incremental && len(pl.levels) > 1 {
			total += c.tiers(g, items, n, value, set)
			continue
		}
		level := 0
		for l, from := range c.froms[g] {
			if sum >= from-1e-9 {
				level = l
			}
		}
		for _, i := range items {
			it := &c.items[i]
			if n[i] == 0 {
				continue
			}
			total += float64(n[i]) * it.price[level]
			value[it.send] += float64(n[i]) * it.value[level]
			if it.levels != nil {
				set(it.levels[level], float64(n[i]))
			}
		}
		if len(pl.levels) > 1 {
			set(p.z[[2]int{g, level}], 1)
		}
	}
	for i := range c.items {
		it := &c.items[i]
		if n[i] == 0 {
			continue
		}
		if n[i] > it.most {
			return math.Inf(1)
		}
		total += float64(n[i]) * it.other
		set(it.col, float64(n[i]))
		set(it.take, 1)
		if k := bought[it.quote]; k < it.least || k > it.stock {
			return math.Inf(1)
		}
	}
	deliveries := 0
	handling := make([]float64, len(c.suppliers))
	used := make([]bool, len(c.suppliers))
	for s := range c.sends {
		cost, drops, h, ok := c.deliver(s, n, value[s], set)
		if !ok {
			return math.Inf(1)
		}
		if drops > 0 {
			used[c.sends[s].supplier] = true
			deliveries += drops
			handling[c.sends[s].supplier] = max(handling[c.sends[s].supplier], h)
		}
		total += cost
	}
	suppliers := 0
	for s, name := range c.suppliers {
		if !used[s] {
			continue
		}
		suppliers++
		total += handling[s]
		if o, ok := p.o[name]; ok {
			set(o, 1)
		}
		if h, ok := p.hand[name]; ok {
			set(h, handling[s])
		}
	}
	limits := p.in.job.Settings
	if limits.MaxSuppliers > 0 && suppliers > limits.MaxSuppliers || limits.MaxDeliveries > 0 && deliveries > limits.MaxDeliveries {
		return math.Inf(1)
	}
	return total
}

// tiers prices an incremental pool, filling the levels item by item.
func (c *completer) tiers(g int, items []int, n []int, value []float64, set func(int, float64)) float64 {
	pl := c.p.in.pools[g]
	job := c.p.in.job
	step := job.Quotes[pl.members[0]].Step
	total := 0.0
	l, used := 0, 0
	room := func(l int) int {
		if l+1 == len(pl.levels) {
			return maxSteps
		}
		return stepsUp(pl.before(job, l+1), step) - stepsUp(pl.before(job, l), step)
	}
	top := -1
	for _, i := range items {
		it := &c.items[i]
		for left := n[i]; left > 0; {
			for used >= room(l) {
				l, used = l+1, 0
			}
			k := min(left, room(l)-used)
			total += float64(k) * it.price[l]
			value[it.send] += float64(k) * it.value[l]
			set(it.levels[l], float64(k))
			used += k
			left -= k
			top = l
		}
	}
	for l := 0; l <= top; l++ {
		set(c.p.z[[2]int{g, l}], 1)
	}
	return total
}

// deliver finds the cheapest drops for what is sent, with their count and the
// handling they bring.
func (c *completer) deliver(s int, n []int, goods float64, set func(int, float64)) (cost float64, drops int, handling float64, ok bool) {
	sn := &c.sends[s]
	var vol, kg [3]float64
	any := false
	for _, i := range sn.items {
		if n[i] > 0 {
			any = true
			it := &c.items[i]
			vol[it.form] += float64(n[i]) * it.sold
			kg[it.form] += float64(n[i]) * it.kg
		}
	}
	if !any {
		return 0, 0, 0, true
	}
	var pick, best [3]int
	bestCost := math.Inf(1)
	var walk func(f int)
	eval := func(pick [3]int, fill bool) (float64, int, float64) {
		total, count, h := 0.0, 0, 0.0
		for f := range pick {
			di := pick[f]
			if di < 0 || f > 0 && pick[0] == di || f > 1 && pick[1] == di {
				continue // nothing of this form, or a drop counted already
			}
			v, w := 0.0, 0.0
			for k := range pick {
				if pick[k] == di {
					v, w = v+vol[k], w+kg[k]
				}
			}
			d := &c.drops[di]
			if d.minOrder >= 0 && goods < d.minOrder-1e-9 {
				return math.Inf(1), 0, 0
			}
			count++
			h = max(h, d.handling)
			total += d.haul * v
			loads := 1.0
			if d.volume > 0 {
				loads = max(loads, math.Ceil(v/d.volume-loadSlack))
			}
			if d.weight > 0 {
				loads = max(loads, math.Ceil(w/d.weight-loadSlack))
			}
			waived := d.freeOver >= 0 && goods >= d.freeOver-1e-9
			if !waived {
				total += d.order + d.load*loads
			}
			if fill {
				set(d.y, 1)
				if waived {
					set(d.waive, 1)
				} else {
					set(d.loads, loads)
				}
				for k := range pick {
					if pick[k] != di {
						continue
					}
					set(d.gates[k], 1)
				}
				for _, i := range sn.items {
					if it := &c.items[i]; n[i] > 0 && pick[it.form] == di {
						if col, ok := d.carries[i]; ok {
							set(col, float64(n[i]))
						}
					}
				}
			}
		}
		return total, count, h
	}
	walk = func(f int) {
		if f == 3 {
			// Handling is weighed in, so that a drop that brings it is not taken
			// for nothing; a supplier's other sites may pay it anyway.
			if v, _, h := eval(pick, false); v+h < bestCost {
				bestCost, best = v+h, pick
			}
			return
		}
		if vol[f] == 0 {
			pick[f] = -1
			walk(f + 1)
			return
		}
		for _, di := range sn.ways[f] {
			pick[f] = di
			walk(f + 1)
		}
	}
	walk(0)
	if math.IsInf(bestCost, 1) {
		return 0, 0, 0, false
	}
	cost, drops, handling = eval(best, true)
	return cost, drops, handling, true
}
