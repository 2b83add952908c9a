package propose

import (
	"slices"

	"mediabuy/optimise/bill"
)

// near has proposals keep to purchases that hold what moves with a price, and begin
// near purchases that are known to be good.
type near struct {
	moving []int   // items
	buys   [][]int // steps by item
}

// NewNear finds what moves between the prices of c and those of dearer.
func NewNear(c, dearer *Completer, buys []bill.Purchase) *near {
	out := &near{}
	for i := range c.Items {
		if c.Items[i].price[0] != dearer.Items[i].price[0] {
			out.moving = append(out.moving, i)
		}
	}
	for _, buy := range buys {
		n := make([]int, len(c.Items))
		for i, it := range c.Items {
			for _, b := range buy.Items {
				if b.Quote.Name == c.p.In.Job.Quotes[it.Quote].Name && b.Site == c.p.In.Sites[it.Site] {
					n[i] = int(b.Steps)
				}
			}
		}
		out.buys = append(out.buys, n)
	}
	return out
}

// Only is the column of the one item that moves; false where there are several.
func (nr *near) Only(c *Completer) (col int, ok bool) {
	if len(nr.moving) != 1 {
		return 0, false
	}
	return c.Items[nr.moving[0]].col, true
}

// holdsMoving reports whether n holds something that moves, where it has to.
func (pr *Proposer) holdsMoving(n []int) bool {
	return pr.Near == nil || slices.ContainsFunc(pr.Near.moving, func(i int) bool { return n[i] > 0 })
}

// moreSteps is by how much the steps tried of an item grow from one to the next.
const moreSteps = 1.25

// nearStarts are, for a thorough look, the purchases to begin near, and the first of them with more and
// less of each item that moves, without what is then too much.
func (pr *Proposer) nearStarts(thorough bool) [][]int {
	if pr.Near == nil || len(pr.Near.buys) == 0 || !thorough {
		return nil
	}
	var out [][]int
	add := func(n []int) {
		if pr.holdsMoving(n) && !pr.deficits(n, pr.deficit) {
			out = append(out, n)
		}
	}
	for _, n := range pr.Near.buys {
		add(slices.Clone(n))
	}
	for _, i := range pr.Near.moving {
		it := &pr.Items[i]
		for k := max(1, it.least); k <= it.most && pr.budget > 0; k = max(k+1, int(float64(k)*moreSteps)) {
			pr.budget -= len(pr.Items)
			n := slices.Clone(pr.Near.buys[0])
			n[i] = k
			pr.trim(n, i)
			add(n)
		}
	}
	return out
}

// Reprice lets trials of purchases go by the prices at x, between those here, at
// from, and those above, at to.
func (pr *Proposer) Reprice(above *Completer, from, to float64) func(x float64) {
	type figure struct {
		at        *float64
		low, rise float64
	}
	var moving []figure
	add := func(at *float64, high float64) {
		if high != *at {
			moving = append(moving, figure{at, *at, (high - *at) / (to - from)})
		}
	}
	for i := range pr.Items {
		for l := range pr.Items[i].price {
			add(&pr.Items[i].price[l], above.Items[i].price[l])
		}
	}
	for d := range pr.drops {
		add(&pr.drops[d].order, above.drops[d].order)
		for t := range pr.drops[d].fees {
			add(&pr.drops[d].fees[t], above.drops[d].fees[t])
		}
	}
	return func(x float64) {
		for _, f := range moving {
			*f.at = f.low + f.rise*(x-from)
		}
	}
}
