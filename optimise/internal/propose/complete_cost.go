package propose

import (
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/quotes"
)

// setter fills columns of an answer, or does nothing.
type setter func(col int, v float64)

// Cost is what n costs, +Inf when no supplier would sell it; x, unless nil, is
// filled with the whole columns (and those that hang on them).
func (c *Completer) Cost(n []int, x []float64) float64 {
	set := func(int, float64) {}
	if x != nil {
		clear(x)
		set = func(col int, v float64) {
			if col >= 0 {
				x[col] = v
			}
		}
	}
	value := make([]float64, len(c.Sends)) // goods before tax
	deliver := c.delivered
	if x != nil {
		deliver = func(s int, n []int, goods float64) delivered { return c.deliver(s, n, goods, set) }
	}
	return c.goods(n, value, set) + c.rinsing(n, set) + c.bringing(n, value, set, deliver)
}

// delivered is what bringing the goods of one send costs, in how many drops, and the handling these bring; ok is false where
// the supplier would not.
type delivered struct {
	cost     float64
	drops    int
	handling float64
	ok       bool
}

// mostSent bounds what is kept of sends that were asked for before.
const mostSent = 1 << 16

// delivered is deliver for goods alone, kept: one change of a purchase leaves what most suppliers send as it was.
// Two sends with one key by chance would mislead a proposal, which is priced anew when it is taken.
func (c *Completer) delivered(s int, n []int, goods float64) delivered {
	key := uint64(s) ^ math.Float64bits(goods)
	for _, i := range c.Sends[s].items {
		key = (key^uint64(n[i]))*0x9E3779B97F4A7C15 + 1
		key ^= key >> 29
	}
	d, ok := c.sent[key]
	if !ok {
		if c.sent == nil || len(c.sent) >= mostSent {
			c.sent = map[uint64]delivered{}
		}
		d = c.deliver(s, n, goods, func(int, float64) {})
		c.sent[key] = d
	}
	return d
}

// goods prices n by the levels reached and adds up what each send is worth.
func (c *Completer) goods(n []int, value []float64, set setter) float64 {
	total := 0.0
	for g, items := range c.poolItems {
		sum := 0.0
		for _, i := range items {
			sum += float64(n[i]) * c.Items[i].step
		}
		if sum == 0 {
			continue
		}
		pl := c.p.In.Pools[g]
		if pl.Kind == quotes.Incremental && len(pl.Levels) > 1 {
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
			it := &c.Items[i]
			if n[i] == 0 {
				continue
			}
			total += float64(n[i]) * it.price[level]
			value[it.Send] += float64(n[i]) * it.value[level]
			if it.Levels != nil {
				set(it.Levels[level], float64(n[i]))
			}
		}
		if len(pl.Levels) > 1 {
			set(c.p.Z[[2]int{g, level}], 1)
		}
	}
	return total
}

// rinsing prices the washing of n; +Inf where less or more is bought of a quote
// than is sold.
func (c *Completer) rinsing(n []int, set setter) float64 {
	total := 0.0
	bought := make(map[int]int, 8) // quote → steps
	for i, k := range n {
		if k > 0 {
			bought[c.Items[i].Quote] += k
		}
	}
	for i := range c.Items {
		it := &c.Items[i]
		if n[i] == 0 {
			continue
		}
		if k := bought[it.Quote]; n[i] > it.most || k < it.least || k > it.stock {
			return math.Inf(1)
		}
		total += float64(n[i]) * it.other
		set(it.col, float64(n[i]))
		set(it.take, 1)
		set(columnOf(c.p.Things, it.Quote), 1)
	}
	if most := c.p.In.Job.Settings.MaxQuotes; most > 0 && len(bought) > most {
		return math.Inf(1)
	}
	return total
}

// bringing prices the delivery and handling of n; +Inf where a smallest order or
// a limit on suppliers or deliveries is not kept.
func (c *Completer) bringing(n []int, value []float64, set setter, deliver func(s int, n []int, goods float64) delivered) float64 {
	total, deliveries, suppliers := 0.0, 0, 0
	handling, used := make([]float64, len(c.suppliers)), make([]bool, len(c.suppliers))
	for s := range c.Sends {
		d := deliver(s, n, value[s])
		if !d.ok {
			return math.Inf(1)
		}
		if su := c.Sends[s].supplier; d.drops > 0 {
			used[su] = true
			deliveries += d.drops
			handling[su] = max(handling[su], d.handling)
		}
		total += d.cost
	}
	for s, name := range c.suppliers {
		if !used[s] {
			continue
		}
		suppliers++
		total += handling[s]
		set(columnOf(c.p.O, name), 1)
		set(columnOf(c.p.Hand, name), handling[s])
	}
	limits := c.p.In.Job.Settings
	if limits.MaxSuppliers > 0 && suppliers > limits.MaxSuppliers || limits.MaxDeliveries > 0 && deliveries > limits.MaxDeliveries {
		return math.Inf(1)
	}
	return total
}

// roomOf is how many steps of an incremental pool are sold at each of its levels.
func roomOf(job *quotes.Job, pl *bill.Pool) []int {
	step := job.Quotes[pl.Members[0]].Step
	out := make([]int, len(pl.Levels))
	for l := range out {
		out[l] = bill.MaxSteps
		if l+1 < len(out) {
			out[l] = bill.StepsUp(pl.Before(job, l+1), step) - bill.StepsUp(pl.Before(job, l), step)
		}
	}
	return out
}

// tiers prices an incremental pool, filling the levels item by item.
func (c *Completer) tiers(g int, items []int, n []int, value []float64, set setter) float64 {
	total := 0.0
	l, used := 0, 0
	top := -1
	for _, i := range items {
		it := &c.Items[i]
		for left := n[i]; left > 0; {
			for used >= c.rooms[g][l] {
				l, used = l+1, 0
			}
			k := min(left, c.rooms[g][l]-used)
			total += float64(k) * it.price[l]
			value[it.Send] += float64(k) * it.value[l]
			set(it.Levels[l], float64(k))
			used += k
			left -= k
			top = l
		}
	}
	for l := 0; l <= top; l++ {
		set(c.p.Z[[2]int{g, l}], 1)
	}
	return total
}

// byForm says by which drop each form of goods comes, -1 where there is none of it.
type byForm [3]int

// sending is what one send asks to be carried, by form.
type sending struct {
	*send
	vol, kg [3]float64
	bulk    []bulkAmount // each bulk item by itself
	goods   float64      // value before tax
}

// bulkAmount is how much of a bulk item is sent.
type bulkAmount struct {
	item       int
	litres, kg float64
}

// deliver finds the cheapest drops for what is sent, with their count and the
// handling they bring.
func (c *Completer) deliver(s int, n []int, goods float64, set setter) (out delivered) {
	sn := sending{send: &c.Sends[s], goods: goods}
	any := false
	for _, i := range sn.items {
		if n[i] > 0 {
			any = true
			it := &c.Items[i]
			sn.vol[it.Form] += float64(n[i]) * it.sold
			sn.kg[it.Form] += float64(n[i]) * it.kg
			if quotes.Forms[it.Form] == quotes.Bulk {
				sn.bulk = append(sn.bulk, bulkAmount{i, float64(n[i]) * it.sold, float64(n[i]) * it.kg})
			}
		}
	}
	if !any {
		return delivered{ok: true}
	}
	best, ok := c.cheapestWays(&sn)
	if !ok {
		return delivered{}
	}
	for f, di := range best {
		if di < 0 || slices.Contains(best[:f], di) {
			continue // nothing of this form, or a drop counted already
		}
		one := c.drop(&sn, best, di)
		out.cost, out.drops, out.handling = out.cost+one.cost, out.drops+1, max(out.handling, one.handling)
		c.carry(&sn, n, best, di, one, set)
	}
	out.ok = true
	return out
}

// cheapestWays tries every choice of a drop for each form. Handling is weighed in,
// so that a drop that brings it is not taken for nothing; a supplier's other sites
// may pay it anyway.
func (c *Completer) cheapestWays(sn *sending) (best byForm, ok bool) {
	cost := math.Inf(1)
	var pick byForm
	var walk func(f int)
	walk = func(f int) {
		if f == len(pick) {
			total, handling := 0.0, 0.0
			for k, di := range pick {
				if di >= 0 && !slices.Contains(pick[:k], di) {
					one := c.drop(sn, pick, di)
					total, handling = total+one.cost, max(handling, one.handling)
				}
			}
			if total+handling < cost {
				cost, best = total+handling, pick
			}
			return
		}
		if sn.vol[f] == 0 {
			pick[f] = -1
			walk(f + 1)
			return
		}
		for _, di := range sn.Ways[f] {
			pick[f] = di
			walk(f + 1)
		}
	}
	walk(0)
	return best, !math.IsInf(cost, 1)
}

// dropped is what one drop costs: +Inf where its order is too small.
type dropped struct {
	cost, handling float64
	waived         bool
}

// drop prices drop di for the forms that come by it.
func (c *Completer) drop(sn *sending, pick byForm, di int) dropped {
	d := &c.drops[di]
	if d.minOrder >= 0 && sn.goods < d.minOrder-1e-9 {
		return dropped{cost: math.Inf(1)}
	}
	vol := 0.0
	for f := range pick {
		if pick[f] == di {
			vol += sn.vol[f]
		}
	}
	out := dropped{cost: d.haul * vol, handling: d.handling, waived: d.freeOver >= 0 && sn.goods >= d.freeOver-1e-9}
	if !out.waived {
		out.cost += d.order + c.loads(d, sn, pick, di, nil)
	}
	return out
}

// carry sets the columns of drop di and of what comes by it.
func (c *Completer) carry(sn *sending, n []int, pick byForm, di int, one dropped, set setter) {
	d := &c.drops[di]
	set(d.y, 1)
	if one.waived {
		set(d.waive, 1)
	} else {
		c.loads(d, sn, pick, di, set)
	}
	for f := range pick {
		if pick[f] == di {
			set(d.gates[f], 1)
		}
	}
	for _, i := range sn.items {
		if it := &c.Items[i]; n[i] > 0 && pick[it.Form] == di {
			if col, ok := d.carries[i]; ok {
				set(col, float64(n[i]))
			}
		}
	}
}
