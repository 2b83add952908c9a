package optimise

import (
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

// program is the model of an instance with the map from its columns back to
// quotes, drops and slots. The letters are those of the package comment.
type program struct {
	*mip.Model
	in *instance

	n      map[[2]int]int // (quote, site) → steps bought
	m      map[[3]int]int // (quote, site, level) → steps bought at that level
	c      map[[2]int]int // (quote, drop) → packs carried, where a form has a choice
	v      map[[2]int]int // (class, suit) → placed litres
	w      map[[2]int]int // (grade, slot) → placed litres, for slots of a unit that share their suit
	z      map[[2]int]int // (pool, level) → 1 when the level is reached
	y      map[int]int    // drop → 1 when used
	e      map[[2]int]int // (drop, form index) → 1 when the drop carries that form
	o      map[string]int // supplier → 1 when used
	waive  map[int]int    // drop → 1 when its fees are waived
	loads  map[int]int    // drop → loads paid for
	hand   map[string]int // supplier → handling paid, where its rows differ
	poolOf map[int][2]int // quote → (pool, member)

	cap map[[2]int]int // (quote, site) → most steps worth buying
}

// buildOptions shape the model.
type buildOptions struct {
	strong bool // add the rows that tighten the relaxation
}

// newProgram writes the instance as rows and columns, one method per family.
func newProgram(in *instance, opt buildOptions) *program {
	p := &program{
		Model: &mip.Model{Name: "mediabuy buying model"}, in: in,
		n: map[[2]int]int{}, m: map[[3]int]int{}, c: map[[2]int]int{}, v: map[[2]int]int{}, w: map[[2]int]int{}, z: map[[2]int]int{},
		y: map[int]int{}, e: map[[2]int]int{}, o: map[string]int{}, waive: map[int]int{}, loads: map[int]int{},
		hand: map[string]int{}, poolOf: map[int][2]int{}, cap: map[[2]int]int{},
	}
	for i, pl := range in.pools {
		for k, q := range pl.members {
			p.poolOf[q] = [2]int{i, k}
		}
	}
	p.caps()
	p.suppliers()
	p.drops()
	p.levels()
	p.packs()
	p.carriage()
	p.placing()

	p.fill()
	p.supply()
	p.stock()
	p.breaks()
	p.carried()
	p.orders()
	p.fees()
	p.tie()
	p.counts()
	if opt.strong {
		p.tighten()
		p.imply()
	}
	return p
}

// sold reports whether quote q can be bought for site s at all.
func (p *program) sold(q, s int) bool { return p.cap[[2]int{q, s}] > 0 }

// caps bounds the steps of each quote worth buying for each site, so that the
// bound cuts off no least-cost answer. In a least-cost answer with the fewest
// packs, taking away one step of q at site i must break something: what it
// covers (so n ≤ cover), goods that reach a fee's waiver or a smallest order
// (n ≤ that value ÷ the lowest price), a break of its pool or its own least
// quantity (n ≤ that many). Stock bounds it too.
func (p *program) caps() {
	job := p.in.job
	demand := p.in.demands()
	for qi, q := range job.Quotes {
		pl := p.in.pools[p.poolOf[qi][0]]
		lowest := pl.levels[len(pl.levels)-1].prices[p.poolOf[qi][1]]
		least := stepsUp(q.MinQty, q.Step)
		least = max(least, stepsUp(pl.levels[len(pl.levels)-1].from, q.Step))
		for s := range p.in.sites {
			drops := p.in.dropAt[[2]int{qi, s}]
			cover := demand[[2]int{qi, s}]
			if len(drops) == 0 || cover <= 0 {
				continue
			}
			n := int(min(math.Ceil(cover/(float64(q.Placed())*q.Step.Float())-1e-9), maxSteps))
			n = max(n, least)
			value := beforeTax(job, q, lowest)
			for di, d := range p.in.drops {
				if d.supplier != q.Supplier || d.site != p.in.sites[s] {
					continue
				}
				for _, goal := range []*units.Money{p.in.drops[di].row.FreeOver, p.in.drops[di].row.MinOrder} {
					if goal != nil && value.Sign() > 0 {
						n = max(n, stepsUp(goal.Decimal().Quo(value.Decimal()), q.Step))
					}
				}
			}
			if q.MaxQty != nil {
				n = min(n, stepsDown(*q.MaxQty, q.Step))
			}
			if n > 0 && stepsDown(maxQtyOr(q, maxSteps), q.Step) >= stepsUp(q.MinQty, q.Step) {
				p.cap[[2]int{qi, s}] = n
			}
		}
	}
}

func maxQtyOr(q *quotes.Quote, most int64) units.Decimal {
	if q.MaxQty != nil {
		return *q.MaxQty
	}
	return units.DecimalFromInt(most).Mul(q.Step)
}

// handlings is the handling money (with tax) of each of a supplier's drops, and
// whether they are all alike.
func (p *program) handlings(supplier string) (alike bool, most float64) {
	alike = true
	first := math.NaN()
	for _, d := range p.in.drops {
		if d.supplier != supplier {
			continue
		}
		h := p.withTax(d, d.row.Handling)
		if math.IsNaN(first) {
			first = h
		}
		alike = alike && h == first
		most = max(most, h)
	}
	return alike, most
}

func (p *program) withTax(d drop, m units.Money) float64 {
	return m.Float() * (1 + dropTax(p.in.job, d.row).Float())
}

// supplierNames lists suppliers with something to sell here, in order of quotes.
func (p *program) supplierNames() []string {
	var out []string
	for qi, q := range p.in.job.Quotes {
		for s := range p.in.sites {
			if p.sold(qi, s) && !slices.Contains(out, q.Supplier) {
				out = append(out, q.Supplier)
			}
		}
	}
	return out
}

// suppliers adds o[s] ∈ {0,1} for each supplier whose use costs handling or is
// counted, and h[s] ≥ 0, the handling paid, where it hangs on the drops used.
func (p *program) suppliers() {
	for _, name := range p.supplierNames() {
		alike, most := p.handlings(name)
		if most == 0 && p.in.job.Settings.MaxSuppliers == 0 {
			continue
		}
		cost := 0.0
		if alike {
			cost = most
		} else {
			p.hand[name] = p.AddColumn(mip.Column{Name: "handling/" + name, Cost: 1, Upper: most})
		}
		p.o[name] = p.AddColumn(mip.Column{Name: "use/" + name, Cost: cost, Upper: 1, Integer: true})
	}
}

// charged reports whether using the drop at all has to be known by itself: it
// costs money, is refused below a value, is counted, or is one of several. A drop
// that costs nothing goes with its supplier (see gate).
func (p *program) charged(di int) bool {
	d := p.in.drops[di]
	_, differs := p.hand[d.supplier]
	return differs || d.row.OrderFee.Sign() > 0 || d.row.LoadFee.Sign() > 0 || d.row.MinOrder != nil ||
		p.in.job.Settings.MaxDeliveries > 0 || p.in.choice(d.supplier, d.site)
}

// sellsBy lists the quotes sold at a site that drop di can carry.
func (p *program) sellsBy(di int) []int {
	var out []int
	d := p.in.drops[di]
	s := slices.Index(p.in.sites, d.site)
	for qi, q := range p.in.job.Quotes {
		if q.Supplier == d.supplier && d.carries(q.Form) && p.sold(qi, s) {
			out = append(out, qi)
		}
	}
	return out
}

// flat is the load fee of a drop whose loads have no size: one load an order.
func flat(d *quotes.Delivery) bool { return d.LoadVolume == nil && d.LoadWeight == nil }

// drops adds, for each drop that is charged: y[d] ∈ {0,1} used, at its order
// fee; w[d] ∈ {0,1} waived, giving the order fee back; l[d] whole loads paid for,
// at the load fee.
func (p *program) drops() {
	for di, d := range p.in.drops {
		sells := p.sellsBy(di)
		if len(sells) == 0 || !p.charged(di) {
			continue
		}
		name := d.supplier + "/" + d.site + "/" + d.row.Name
		order := p.withTax(d, d.row.OrderFee)
		load := p.withTax(d, d.row.LoadFee)
		if flat(d.row) {
			order, load = order+load, 0
		}
		p.y[di] = p.AddColumn(mip.Column{Name: "order/" + name, Cost: order, Upper: 1, Integer: true})
		if d.row.FreeOver != nil && order+load > 0 {
			p.waive[di] = p.AddColumn(mip.Column{Name: "waived/" + name, Cost: -order, Upper: 1, Integer: true})
		}
		if load > 0 {
			p.loads[di] = p.AddColumn(mip.Column{Name: "loads/" + name, Cost: load, Upper: p.mostLoads(di, sells), Integer: true})
		}
	}
}

// mostLoads bounds the loads of a drop: all it could ever carry.
func (p *program) mostLoads(di int, sells []int) float64 {
	d := p.in.drops[di]
	s := slices.Index(p.in.sites, d.site)
	vol, mass := 0.0, 0.0
	for _, qi := range sells {
		q := p.in.job.Quotes[qi]
		packs := float64(p.cap[[2]int{qi, s}]) * q.Step.Float()
		vol += packs * float64(q.PackLitres)
		mass += packs * float64(q.PackMass)
	}
	n := 1.0
	if d.row.LoadVolume != nil {
		n = max(n, math.Ceil(vol/float64(*d.row.LoadVolume)))
	}
	if d.row.LoadWeight != nil {
		n = max(n, math.Ceil(mass/float64(*d.row.LoadWeight)))
	}
	return n
}

// levels adds z[g,l] ∈ {0,1}: the price level a pool has reached. A pool with
// one level and no least quantity needs none.
func (p *program) levels() {
	for g, pl := range p.in.pools {
		if !p.poolSold(g) {
			continue
		}
		if len(pl.levels) == 1 {
			continue
		}
		for l, lv := range pl.levels {
			p.z[[2]int{g, l}] = p.AddColumn(mip.Column{Name: fmt.Sprintf("level/%s/%s", pl.name, lv.from), Upper: 1, Integer: true})
		}
	}
	for qi, q := range p.in.job.Quotes {
		if p.leastMatters(qi) {
			p.z[[2]int{-1, qi}] = p.AddColumn(mip.Column{Name: "take/" + q.Name, Upper: 1, Integer: true})
		}
	}
}

// leastMatters reports whether a quote has a least quantity above one step.
func (p *program) leastMatters(qi int) bool {
	q := p.in.job.Quotes[qi]
	if q.MinQty.Cmp(q.Step) <= 0 {
		return false
	}
	for s := range p.in.sites {
		if p.sold(qi, s) {
			return true
		}
	}
	return false
}

func (p *program) poolSold(g int) bool {
	for _, qi := range p.in.pools[g].members {
		for s := range p.in.sites {
			if p.sold(qi, s) {
				return true
			}
		}
	}
	return false
}

// packCost is what one pack of q costs besides its price: rinsing, and haul when
// only one drop can carry it.
func (p *program) packCost(qi, s int) float64 {
	q := p.in.job.Quotes[qi]
	cost := p.in.job.Settings.LabourRate.Float() * rinseHours(q)
	if drops := p.in.dropAt[[2]int{qi, s}]; len(drops) == 1 {
		cost += p.haulCost(qi, drops[0])
	}
	return cost
}

func (p *program) haulCost(qi, di int) float64 {
	d := p.in.drops[di]
	return d.row.Haul.PerLitre() * float64(p.in.job.Quotes[qi].PackLitres) * (1 + dropTax(p.in.job, d.row).Float())
}

// packs adds n[q,i], the whole steps of q bought for site i; where q has price
// levels, m[q,i,l] shares them out among the levels.
func (p *program) packs() {
	for qi, q := range p.in.job.Quotes {
		g := p.poolOf[qi]
		pl := p.in.pools[g[0]]
		step := q.Step.Float()
		tax := 1 + goodsTax(p.in.job, q).Float()
		for s, site := range p.in.sites {
			if !p.sold(qi, s) {
				continue
			}
			key := [2]int{qi, s}
			cap := float64(p.cap[key])
			cost := p.packCost(qi, s)
			name := q.Name
			if len(p.in.sites) > 1 {
				name += "@" + site
			}
			if len(pl.levels) == 1 {
				cost += pl.levels[0].prices[g[1]].Float() * tax
			}
			p.n[key] = p.AddColumn(mip.Column{Name: "steps/" + name, Cost: cost * step, Upper: cap, Integer: true})
			if len(pl.levels) == 1 {
				continue
			}
			for l, lv := range pl.levels {
				// Tiers of an incremental pool that several lines share must be
				// whole: a bill has no half bags at one price.
				whole := pl.kind == quotes.Incremental && (len(pl.members) > 1 || len(p.in.sites) > 1)
				p.m[[3]int{qi, s, l}] = p.AddColumn(mip.Column{
					Name: fmt.Sprintf("steps/%s/from %s", name, lv.from),
					Cost: lv.prices[g[1]].Float() * tax * step, Upper: cap, Integer: whole,
				})
			}
		}
	}
}

// carriage adds, where a form can come by more than one drop: e[d,f] ∈ {0,1},
// the drop carries that form, and c[q,d] ≥ 0, the steps of q it carries.
func (p *program) carriage() {
	for di, d := range p.in.drops {
		if _, ok := p.y[di]; !ok || !p.in.choice(d.supplier, d.site) {
			continue
		}
		s := slices.Index(p.in.sites, d.site)
		for f, form := range quotes.Forms {
			some := false
			for _, qi := range p.sellsBy(di) {
				q := p.in.job.Quotes[qi]
				if q.Form != form {
					continue
				}
				some = true
				if len(p.in.dropAt[[2]int{qi, s}]) > 1 {
					p.c[[2]int{qi, di}] = p.AddColumn(mip.Column{
						Name: "by/" + d.row.Name + "/" + q.Name + "@" + d.site,
						Cost: p.haulCost(qi, di) * q.Step.Float(), Upper: float64(p.cap[[2]int{qi, s}]),
					})
				}
			}
			if some {
				p.e[[2]int{di, f}] = p.AddColumn(mip.Column{
					Name: fmt.Sprintf("carries/%s/%s/%s/%s", d.supplier, d.site, d.row.Name, form), Upper: 1, Integer: true,
				})
			}
		}
	}
}

// placing adds v[k,u] ≥ 0, the placed litres of class k in all that suit u fills,
// and, for a slot t of a unit that is not alone in its suit, w[g,t] ≥ 0, the
// placed litres of grade g in it.
func (p *program) placing() {
	for u, su := range p.in.suits {
		for _, k := range su.classes {
			if p.classSold(k) {
				p.v[[2]int{k, u}] = p.AddColumn(mip.Column{
					Name: "place/" + p.in.classes[k].name + "/" + su.name, Upper: su.litres,
				})
			}
		}
	}
	for t, sl := range p.in.slots {
		if !p.inUnit(t) {
			continue
		}
		for _, g := range p.in.suits[sl.suit].grades {
			if slices.ContainsFunc(p.in.grades[g].classes, p.classSold) {
				p.w[[2]int{g, t}] = p.AddColumn(mip.Column{
					Name: "fill/" + p.in.grades[g].name + "/" + sl.name, Upper: sl.litres,
				})
			}
		}
	}
}

// inUnit reports whether slot t needs columns of its own: it is tied to others
// and shares its suit with other slots.
func (p *program) inUnit(t int) bool {
	sl := p.in.slots[t]
	return sl.unit >= 0 && len(p.in.suits[sl.suit].slots) > 1
}

func (p *program) classSold(k int) bool {
	cl := p.in.classes[k]
	return slices.ContainsFunc(cl.quotes, func(q int) bool { return p.sold(q, cl.site) })
}

// gradeIn is the litres of grade g in slot t of a unit, as a sum.
func (p *program) gradeIn(g, t int, coef float64) []mip.Term {
	if w, ok := p.w[[2]int{g, t}]; ok {
		return []mip.Term{{Col: w, Coef: coef}}
	}
	if p.inUnit(t) {
		return nil
	}
	return p.gradeOf(g, p.in.slots[t].suit, coef)
}

// gradeOf is the litres of grade g in all that suit u fills, as a sum.
func (p *program) gradeOf(g, u int, coef float64) []mip.Term {
	var out []mip.Term
	for _, k := range p.in.grades[g].classes {
		if v, ok := p.v[[2]int{k, u}]; ok {
			out = append(out, mip.Term{Col: v, Coef: coef})
		}
	}
	return out
}

// lean is the model without the columns of slots and the rows they stand in. What
// these ask of a purchase, that it can be placed, is found row by row instead
// (see placer): with hundreds of tables they are nine tenths of the model, and
// few of them matter.
func (p *program) lean() *mip.Model {
	first := len(p.Cols) - len(p.w) // placing adds them last
	out := &mip.Model{Name: p.Name, Constant: p.Constant, Cols: p.Cols[:first], Implied: p.Implied, Parts: p.parts()[:first]}
	for _, r := range p.Rows {
		if !slices.ContainsFunc(r.Terms, func(t mip.Term) bool { return t.Col >= first }) {
			out.Rows = append(out.Rows, r)
		}
	}
	return out
}

// full is an answer of lean with room for the columns it lacks.
func (p *program) full(x []float64) []float64 {
	return append(slices.Clone(x), make([]float64, len(p.Cols)-len(x))...)
}

// parts is the site of each column, -1 for what sites share.
func (p *program) parts() []int {
	out := make([]int, len(p.Cols))
	for j := range out {
		out[j] = -1
	}
	for key, j := range p.n {
		out[j] = key[1]
	}
	for key, j := range p.m {
		out[j] = key[1]
	}
	for key, j := range p.v {
		out[j] = p.in.suits[key[1]].site
	}
	for key, j := range p.w {
		out[j] = p.in.slots[key[1]].site
	}
	for key, j := range p.c {
		out[j] = p.siteOf(key[1])
	}
	for key, j := range p.e {
		out[j] = p.siteOf(key[0])
	}
	for _, cols := range []map[int]int{p.y, p.waive, p.loads} {
		for di, j := range cols {
			out[j] = p.siteOf(di)
		}
	}
	return out
}

// siteOf is the index of the site that drop di goes to.
func (p *program) siteOf(di int) int { return slices.Index(p.in.sites, p.in.drops[di].site) }
