package optimise

import (
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

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
	cost := p.in.job.Settings.LabourRate.Float() * q.RinseHours()
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
