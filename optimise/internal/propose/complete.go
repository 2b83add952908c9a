package propose

import (
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// Completer works out, from counts of packs alone, what every other whole column
// of the model must be and what it all costs: the price levels reached, the
// drops and their loads, what is waived. It does in float64 and microseconds
// what Price does in exact money, so that a search can try many purchases.
type Completer struct {
	p         *model.Program
	Items     []packItem
	Sends     []send // supplier and site pairs
	drops     []dropFigures
	poolItems [][]int     // items by pool
	froms     [][]float64 // thresholds by pool
	rooms     [][]int     // steps sold at each level, of incremental pools with several
	covers    []coverRow
	suppliers []string
	sent      map[uint64]delivered // by a key of what is sent
}

// packItem is one pack column.
type packItem struct {
	col, Quote, Site int
	pool, member     int
	Send             int
	Form             int
	step             float64   // packs a step
	placed, sold, kg float64   // litres and kg a step
	other            float64   // rinsing cost a step
	price            []float64 // by level, a step, tax included
	value            []float64 // by level, a step, before tax
	most, least      int       // steps
	stock            int       // steps in stock over all sites
	take             int       // column, -1
	Levels           []int     // columns by level; nil with one level
	class            int
	covers           []helps // cover rows it helps
}

// send is all that one supplier sends to one site.
type send struct {
	supplier, site int
	items          []int
	Ways           [][]int // by form: drops
}

// dropFigures are the terms of one drop, tax included, with its columns.
type dropFigures struct {
	y, waive           int // columns, -1
	order, haul        float64
	fees               []float64 // of a load, by truck; nil where loads cost nothing
	heaps              []heapFigures
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

func NewCompleter(p *model.Program) *Completer {
	c := &Completer{p: p, poolItems: make([][]int, len(p.In.Pools))}
	for _, pl := range p.In.Pools {
		var froms []float64
		for _, lv := range pl.Levels {
			froms = append(froms, lv.From.Float())
		}
		c.froms = append(c.froms, froms)
		var rooms []int
		if pl.Kind == quotes.Incremental && len(pl.Levels) > 1 {
			rooms = roomOf(p.In.Job, pl)
		}
		c.rooms = append(c.rooms, rooms)
	}
	sendAt := map[[2]int]int{}
	for qi, q := range p.In.Job.Quotes {
		for s := range p.In.Sites {
			if col, ok := p.N[[2]int{qi, s}]; ok {
				it := itemOf(p, qi, s, col)
				it.Send = c.sendTo(sendAt, q.Supplier, s)
				sn := &c.Sends[it.Send]
				sn.Ways[it.Form] = p.In.DropAt[[2]int{qi, s}]
				sn.items = append(sn.items, len(c.Items))
				c.poolItems[it.pool] = append(c.poolItems[it.pool], len(c.Items))
				c.Items = append(c.Items, it)
			}
		}
	}
	for di := range p.In.Drops {
		c.drops = append(c.drops, c.figures(di))
	}
	for k, cl := range p.In.Classes {
		for i := range c.Items {
			if it := &c.Items[i]; it.Site == cl.Site && slices.Contains(cl.Quotes, it.Quote) {
				it.class = k
			}
		}
	}
	byCol := map[int]int{}
	for i, it := range c.Items {
		byCol[it.col] = i
	}
	for _, row := range p.Implied {
		c.addCover(row, byCol)
	}
	return c
}

// item is what a purchase of quote qi for site s, in column col, does and costs.
func itemOf(p *model.Program, qi, s, col int) packItem {
	job := p.In.Job
	q := job.Quotes[qi]
	g := p.PoolOf[qi]
	pl := p.In.Pools[g[0]]
	step := q.Step.Float()
	it := packItem{
		col: col, Quote: qi, Site: s, pool: g[0], member: g[1], Form: slices.Index(quotes.Forms, q.Form), step: step,
		placed: float64(job.Yield(q)) * step, sold: float64(q.PackLitres) * step, kg: float64(q.PackMass) * step,
		other: job.Settings.LabourRate.Float() * q.RinseHours() * step,
		most:  p.Cap[[2]int{qi, s}], least: bill.StepsUp(q.MinQty, q.Step), stock: bill.MaxSteps, take: columnOf(p.Z, [2]int{-1, qi}),
	}
	if q.MaxQty != nil {
		it.stock = bill.StepsDown(*q.MaxQty, q.Step)
	}
	tax := 1 + bill.GoodsTax(job, q).Float()
	for l, lv := range pl.Levels {
		price := lv.Prices[g[1]]
		it.price = append(it.price, price.Float()*tax*step)
		it.value = append(it.value, bill.BeforeTax(job, q, price).Float()*step)
		if len(pl.Levels) > 1 {
			it.Levels = append(it.Levels, p.M[[3]int{qi, s, l}])
		}
	}
	return it
}

// sendTo is the index of what a supplier sends to a site, made if it is new.
func (c *Completer) sendTo(sendAt map[[2]int]int, supplier string, site int) int {
	su := slices.Index(c.suppliers, supplier)
	if su < 0 {
		su = len(c.suppliers)
		c.suppliers = append(c.suppliers, supplier)
	}
	key := [2]int{su, site}
	at, ok := sendAt[key]
	if !ok {
		at = len(c.Sends)
		sendAt[key] = at
		c.Sends = append(c.Sends, send{supplier: su, site: site, Ways: make([][]int, len(quotes.Forms))})
	}
	return at
}

// figures are the terms of drop di; the items must be there.
func (c *Completer) figures(di int) dropFigures {
	p := c.p
	d := p.In.Drops[di]
	f := dropFigures{
		y: columnOf(p.Y, di), waive: columnOf(p.Waive, di), order: p.WithTax(d, d.Row.OrderFee), haul: d.Row.Haul.PerLitre() * (1 + bill.DropTax(p.In.Job, d.Row).Float()),
		freeOver: -1, minOrder: -1, handling: p.WithTax(d, d.Row.Handling), carries: map[int]int{},
	}
	if p.Flat(di) {
		f.order += p.WithTax(d, d.Row.Trucks[0].Fee)
	} else if heaps := p.Heaps[di]; heaps != nil {
		for _, t := range d.Row.Trucks {
			f.fees = append(f.fees, p.WithTax(d, t.Fee))
		}
		for _, h := range heaps {
			f.heaps = append(f.heaps, c.heap(d.Row, h))
		}
	}
	if d.Row.FreeOver != nil {
		f.freeOver = d.Row.FreeOver.Float()
	}
	if d.Row.MinOrder != nil {
		f.minOrder = d.Row.MinOrder.Float()
	}
	for form := range quotes.Forms {
		f.gates[form] = columnOf(p.E, [2]int{di, form})
	}
	for i, it := range c.Items {
		if col, ok := p.C[[2]int{it.Quote, di}]; ok && p.In.Sites[it.Site] == d.Site {
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
func (c *Completer) addCover(row mip.Row, byCol map[int]int) {
	for _, t := range row.Terms {
		i := byCol[t.Col]
		c.Items[i].covers = append(c.Items[i].covers, helps{len(c.covers), t.Coef})
	}
	c.covers = append(c.covers, coverRow{row.RHS})
}

// deficits fills out with the litres that n leaves each cover row short, and
// reports whether any is.
func (c *Completer) deficits(n []int, out []float64) (short bool) {
	for r := range c.covers {
		out[r] = c.covers[r].litres
	}
	for i, k := range n {
		if k > 0 {
			for _, h := range c.Items[i].covers {
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
