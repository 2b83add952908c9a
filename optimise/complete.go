package optimise

import (
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// completer works out, from counts of packs alone, what every other whole column
// of the model must be and what it all costs: the price levels reached, the
// drops and their loads, what is waived. It does in float64 and microseconds
// what Price does in exact money, so that a search can try many purchases.
type completer struct {
	p         *program
	items     []packItem
	sends     []send // supplier and site pairs
	drops     []dropFigures
	poolItems [][]int     // items by pool
	froms     [][]float64 // thresholds by pool
	covers    []coverRow
	suppliers []string
}

// packItem is one pack column.
type packItem struct {
	col, quote, site int
	pool, member     int
	send             int
	form             int
	step             float64   // packs a step
	placed, sold, kg float64   // litres and kg a step
	other            float64   // rinsing cost a step
	price            []float64 // by level, a step, tax included
	value            []float64 // by level, a step, before tax
	most, least      int       // steps
	stock            int       // steps in stock over all sites
	take             int       // column, -1
	levels           []int     // columns by level; nil with one level
	class            int
	covers           []helps // cover rows it helps
}

// send is all that one supplier sends to one site.
type send struct {
	supplier, site int
	items          []int
	ways           [][]int // by form: drops
}

// dropFigures are the terms of one drop, tax included, with its columns.
type dropFigures struct {
	y, waive, loads    int // columns, -1
	order, load, haul  float64
	volume, weight     float64 // of a load; 0 none
	freeOver, minOrder float64 // -1 none
	handling           float64
	gates              [3]int      // e columns by form, -1
	carries            map[int]int // item → c column
}

// coverRow is Σ_i per[i]·n[i] ≥ litres.
type coverRow struct{ litres float64 }

// helps says that one step of an item adds per litres to a cover row.
type helps struct {
	row int
	per float64
}

func newCompleter(p *program) *completer {
	c := &completer{p: p, poolItems: make([][]int, len(p.in.pools))}
	for _, pl := range p.in.pools {
		var froms []float64
		for _, lv := range pl.levels {
			froms = append(froms, lv.from.Float())
		}
		c.froms = append(c.froms, froms)
	}
	sendAt := map[[2]int]int{}
	for qi, q := range p.in.job.Quotes {
		for s := range p.in.sites {
			if col, ok := p.n[[2]int{qi, s}]; ok {
				it := p.item(qi, s, col)
				it.send = c.sendTo(sendAt, q.Supplier, s)
				sn := &c.sends[it.send]
				sn.ways[it.form] = p.in.dropAt[[2]int{qi, s}]
				sn.items = append(sn.items, len(c.items))
				c.poolItems[it.pool] = append(c.poolItems[it.pool], len(c.items))
				c.items = append(c.items, it)
			}
		}
	}
	for di := range p.in.drops {
		c.drops = append(c.drops, c.figures(di))
	}
	for k, cl := range p.in.classes {
		for i := range c.items {
			if it := &c.items[i]; it.site == cl.site && slices.Contains(cl.quotes, it.quote) {
				it.class = k
			}
		}
	}
	byCol := map[int]int{}
	for i, it := range c.items {
		byCol[it.col] = i
	}
	for _, row := range p.Implied {
		c.addCover(row, byCol)
	}
	return c
}

// item is what a purchase of quote qi for site s, in column col, does and costs.
func (p *program) item(qi, s, col int) packItem {
	job := p.in.job
	q := job.Quotes[qi]
	g := p.poolOf[qi]
	pl := p.in.pools[g[0]]
	step := q.Step.Float()
	it := packItem{
		col: col, quote: qi, site: s, pool: g[0], member: g[1], form: slices.Index(quotes.Forms, q.Form), step: step,
		placed: float64(q.Placed()) * step, sold: float64(q.PackLitres) * step, kg: float64(q.PackMass) * step,
		other: job.Settings.LabourRate.Float() * q.RinseHours() * step,
		most:  p.cap[[2]int{qi, s}], least: stepsUp(q.MinQty, q.Step), stock: maxSteps, take: columnOf(p.z, [2]int{-1, qi}),
	}
	if q.MaxQty != nil {
		it.stock = stepsDown(*q.MaxQty, q.Step)
	}
	tax := 1 + goodsTax(job, q).Float()
	for l, lv := range pl.levels {
		price := lv.prices[g[1]]
		it.price = append(it.price, price.Float()*tax*step)
		it.value = append(it.value, beforeTax(job, q, price).Float()*step)
		if len(pl.levels) > 1 {
			it.levels = append(it.levels, p.m[[3]int{qi, s, l}])
		}
	}
	return it
}

// sendTo is the index of what a supplier sends to a site, made if it is new.
func (c *completer) sendTo(sendAt map[[2]int]int, supplier string, site int) int {
	su := slices.Index(c.suppliers, supplier)
	if su < 0 {
		su = len(c.suppliers)
		c.suppliers = append(c.suppliers, supplier)
	}
	key := [2]int{su, site}
	at, ok := sendAt[key]
	if !ok {
		at = len(c.sends)
		sendAt[key] = at
		c.sends = append(c.sends, send{supplier: su, site: site, ways: make([][]int, len(quotes.Forms))})
	}
	return at
}

// figures are the terms of drop di; the items must be there.
func (c *completer) figures(di int) dropFigures {
	p := c.p
	d := p.in.drops[di]
	f := dropFigures{
		y: columnOf(p.y, di), waive: columnOf(p.waive, di), loads: columnOf(p.loads, di),
		order: p.withTax(d, d.row.OrderFee), load: p.withTax(d, d.row.LoadFee), haul: d.row.Haul.PerLitre() * (1 + dropTax(p.in.job, d.row).Float()),
		freeOver: -1, minOrder: -1, handling: p.withTax(d, d.row.Handling), carries: map[int]int{},
	}
	if flat(d.row) {
		f.order, f.load = f.order+f.load, 0
	}
	if d.row.LoadVolume != nil {
		f.volume = float64(*d.row.LoadVolume)
	}
	if d.row.LoadWeight != nil {
		f.weight = float64(*d.row.LoadWeight)
	}
	if d.row.FreeOver != nil {
		f.freeOver = d.row.FreeOver.Float()
	}
	if d.row.MinOrder != nil {
		f.minOrder = d.row.MinOrder.Float()
	}
	for form := range quotes.Forms {
		f.gates[form] = columnOf(p.e, [2]int{di, form})
	}
	for i, it := range c.items {
		if col, ok := p.c[[2]int{it.quote, di}]; ok && p.in.sites[it.site] == d.site {
			f.carries[i] = col
		}
	}
	return f
}

// columnOf is the column of k, or -1 where the model has none.
func columnOf[K comparable](m map[K]int, k K) int {
	if v, ok := m[k]; ok {
		return v
	}
	return -1
}

// addCover keeps an implied row in the form that trials of purchases use.
func (c *completer) addCover(row mip.Row, byCol map[int]int) {
	for _, t := range row.Terms {
		i := byCol[t.Col]
		c.items[i].covers = append(c.items[i].covers, helps{len(c.covers), t.Coef})
	}
	c.covers = append(c.covers, coverRow{row.RHS})
}

// deficits fills out with the litres that n leaves each cover row short, and
// reports whether any is.
func (c *completer) deficits(n []int, out []float64) (short bool) {
	for r := range c.covers {
		out[r] = c.covers[r].litres
	}
	for i, k := range n {
		if k > 0 {
			for _, h := range c.items[i].covers {
				out[h.row] -= float64(k) * h.per
			}
		}
	}
	for r := range out {
		if out[r] > 1e-7*c.covers[r].litres {
			short = true
		} else {
			out[r] = 0
		}
	}
	return short
}
