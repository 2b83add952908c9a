package model

import (
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

// handlings is the handling money (with tax) of each of a supplier's drops, and
// whether they are all alike.
func (p *Program) handlings(supplier string) (alike bool, most float64) {
	alike = true
	first := math.NaN()
	for _, d := range p.In.Drops {
		if d.Supplier != supplier {
			continue
		}
		h := p.WithTax(d, d.Row.Handling)
		if math.IsNaN(first) {
			first = h
		}
		alike = alike && h == first
		most = max(most, h)
	}
	return alike, most
}

func (p *Program) WithTax(d bill.Drop, m units.Money) float64 {
	return m.Float() * (1 + bill.DropTax(p.In.Job, d.Row).Float())
}

// supplierNames lists suppliers with something to sell here, in order of quotes.
func (p *Program) supplierNames() []string {
	var out []string
	for qi, q := range p.In.Job.Quotes {
		for s := range p.In.Sites {
			if p.sold(qi, s) && !slices.Contains(out, q.Supplier) {
				out = append(out, q.Supplier)
			}
		}
	}
	return out
}

// suppliers adds o[s] ∈ {0,1} for each supplier whose use costs handling or is
// counted, and h[s] ≥ 0, the handling paid, where it hangs on the drops used.
func (p *Program) suppliers() {
	for _, name := range p.supplierNames() {
		alike, most := p.handlings(name)
		if most == 0 && p.In.Job.Settings.MaxSuppliers == 0 {
			continue
		}
		cost := 0.0
		if alike {
			cost = most
		} else {
			p.Hand[name] = p.AddColumn(mip.Column{Name: "handling/" + name, Cost: 1, Upper: most})
		}
		p.O[name] = p.AddColumn(mip.Column{Name: "use/" + name, Cost: cost, Upper: 1, Integer: true})
	}
}

// charged reports whether using the drop at all has to be known by itself: it
// costs money, is refused below a value, is counted, or is one of several. A drop
// that costs nothing goes with its supplier (see gate).
func (p *Program) charged(di int) bool {
	d := p.In.Drops[di]
	_, differs := p.Hand[d.Supplier]
	return differs || d.Row.OrderFee.Sign() > 0 || slices.ContainsFunc(d.Row.Trucks, func(t quotes.Truck) bool { return t.Fee.Sign() > 0 }) || d.Row.MinOrder != nil ||
		p.In.Job.Settings.MaxDeliveries > 0 || p.In.choice(d.Supplier, d.Site)
}

// sellsBy lists the quotes sold at a site that drop di can carry.
func (p *Program) sellsBy(di int) []int {
	var out []int
	d := p.In.Drops[di]
	s := slices.Index(p.In.Sites, d.Site)
	for qi, q := range p.In.Job.Quotes {
		if q.Supplier == d.Supplier && d.Carries(q.Form) && p.sold(qi, s) {
			out = append(out, qi)
		}
	}
	return out
}

// drops adds, for each drop that is charged: y[d] ∈ {0,1} used, at its order
// fee; w[d] ∈ {0,1} waived, giving the order fee back; and the loads of what it carries (see
// loads).
func (p *Program) drops() {
	for di, d := range p.In.Drops {
		sells := p.sellsBy(di)
		if len(sells) == 0 || !p.charged(di) {
			continue
		}
		name := d.Supplier + "/" + d.Site + "/" + d.Row.Name
		order := p.WithTax(d, d.Row.OrderFee)
		flat, paid := p.Flat(di), false
		for _, t := range d.Row.Trucks {
			if flat {
				order += p.WithTax(d, t.Fee)
			} else {
				paid = paid || t.Fee.Sign() > 0
			}
		}
		p.Y[di] = p.AddColumn(mip.Column{Name: "order/" + name, Cost: order, Upper: 1, Integer: true})
		if d.Row.FreeOver != nil && (order > 0 || paid) {
			p.Waive[di] = p.AddColumn(mip.Column{Name: "waived/" + name, Cost: -order, Upper: 1, Integer: true})
		}
		if paid {
			p.loads(di, name, p.heapsOf(di, sells))
		}
	}
}

// levels adds z[g,l] ∈ {0,1}: the price level a pool has reached. A pool with
// one level and no least quantity needs none.
func (p *Program) levels() {
	for g, pl := range p.In.Pools {
		if !p.poolSold(g) {
			continue
		}
		if len(pl.Levels) == 1 {
			continue
		}
		for l, lv := range pl.Levels {
			p.Z[[2]int{g, l}] = p.AddColumn(mip.Column{Name: fmt.Sprintf("level/%s/%s", pl.Name, lv.From), Upper: 1, Integer: true})
		}
	}
	for qi, q := range p.In.Job.Quotes {
		if p.leastMatters(qi) {
			p.Z[[2]int{-1, qi}] = p.AddColumn(mip.Column{Name: "take/" + q.Name, Upper: 1, Integer: true})
		}
	}
}

// leastMatters reports whether a quote has a least quantity above one step.
func (p *Program) leastMatters(qi int) bool {
	q := p.In.Job.Quotes[qi]
	if q.MinQty.Cmp(q.Step) <= 0 {
		return false
	}
	for s := range p.In.Sites {
		if p.sold(qi, s) {
			return true
		}
	}
	return false
}

func (p *Program) poolSold(g int) bool {
	for _, qi := range p.In.Pools[g].Members {
		for s := range p.In.Sites {
			if p.sold(qi, s) {
				return true
			}
		}
	}
	return false
}

// packCost is what one pack of q costs besides its price: rinsing, and haul when
// only one drop can carry it.
func (p *Program) packCost(qi, s int) float64 {
	q := p.In.Job.Quotes[qi]
	cost := p.In.Job.Settings.LabourRate.Float() * q.RinseHours()
	if drops := p.In.DropAt[[2]int{qi, s}]; len(drops) == 1 {
		cost += p.haulCost(qi, drops[0])
	}
	return cost
}

func (p *Program) haulCost(qi, di int) float64 {
	d := p.In.Drops[di]
	return d.Row.Haul.PerLitre() * float64(p.In.Job.Quotes[qi].PackLitres) * (1 + bill.DropTax(p.In.Job, d.Row).Float())
}

// packs adds n[q,i], the whole steps of q bought for site i; where q has price
// levels, m[q,i,l] shares them out among the levels.
func (p *Program) packs() {
	for qi, q := range p.In.Job.Quotes {
		g := p.PoolOf[qi]
		pl := p.In.Pools[g[0]]
		step := q.Step.Float()
		tax := 1 + bill.GoodsTax(p.In.Job, q).Float()
		for s, site := range p.In.Sites {
			if !p.sold(qi, s) {
				continue
			}
			key := [2]int{qi, s}
			cap := float64(p.Cap[key])
			cost := p.packCost(qi, s)
			name := q.Name
			if len(p.In.Sites) > 1 {
				name += "@" + site
			}
			if len(pl.Levels) == 1 {
				cost += pl.Levels[0].Prices[g[1]].Float() * tax
			}
			p.N[key] = p.AddColumn(mip.Column{Name: "steps/" + name, Cost: cost * step, Upper: cap, Integer: true})
			if len(pl.Levels) == 1 {
				continue
			}
			for l, lv := range pl.Levels {
				// Tiers of an incremental pool that several lines share must be
				// whole: a bill has no half bags at one price.
				whole := pl.Kind == quotes.Incremental && (len(pl.Members) > 1 || len(p.In.Sites) > 1)
				p.M[[3]int{qi, s, l}] = p.AddColumn(mip.Column{
					Name: fmt.Sprintf("steps/%s/from %s", name, lv.From),
					Cost: lv.Prices[g[1]].Float() * tax * step, Upper: cap, Integer: whole,
				})
			}
		}
	}
}

// carriage adds, where a form can come by more than one drop: e[d,f] ∈ {0,1},
// the drop carries that form, and c[q,d] ≥ 0, the steps of q it carries.
func (p *Program) carriage() {
	for di, d := range p.In.Drops {
		if _, ok := p.Y[di]; !ok || !p.In.choice(d.Supplier, d.Site) {
			continue
		}
		s := slices.Index(p.In.Sites, d.Site)
		for f, form := range quotes.Forms {
			some := false
			for _, qi := range p.sellsBy(di) {
				q := p.In.Job.Quotes[qi]
				if q.Form != form {
					continue
				}
				some = true
				if len(p.In.DropAt[[2]int{qi, s}]) > 1 {
					p.C[[2]int{qi, di}] = p.AddColumn(mip.Column{
						Name: "by/" + d.Row.Name + "/" + q.Name + "@" + d.Site,
						Cost: p.haulCost(qi, di) * q.Step.Float(), Upper: float64(p.Cap[[2]int{qi, s}]),
					})
				}
			}
			if some {
				p.E[[2]int{di, f}] = p.AddColumn(mip.Column{
					Name: fmt.Sprintf("carries/%s/%s/%s/%s", d.Supplier, d.Site, d.Row.Name, form), Upper: 1, Integer: true,
				})
			}
		}
	}
}

// placing adds v[k,u] ≥ 0, the placed litres of class k in all that suit u fills,
// and, for a slot t of a unit that is not alone in its suit, w[g,t] ≥ 0, the
// placed litres of grade g in it.
func (p *Program) placing() {
	for u, su := range p.In.Suits {
		for _, k := range su.Classes {
			if p.ClassSold(k) {
				p.V[[2]int{k, u}] = p.AddColumn(p.place("place/"+p.In.Classes[k].Name+"/"+su.Name, u))
			}
		}
	}
	for t, sl := range p.In.Slots {
		if !p.InUnit(t) {
			continue
		}
		for _, g := range p.In.Suits[sl.Suit].Grades {
			if slices.ContainsFunc(p.In.Grades[g].Classes, p.ClassSold) {
				p.w[[2]int{g, t}] = p.AddColumn(mip.Column{
					Name: "fill/" + p.In.Grades[g].name + "/" + sl.Name, Upper: sl.Litres,
				})
			}
		}
	}
}

// InUnit reports whether slot t needs columns of its own: it is tied to others
// and shares its suit with other slots, which may be filled in other ways.
func (p *Program) InUnit(t int) bool {
	sl := p.In.Slots[t]
	return !p.In.Same && sl.Unit >= 0 && len(p.In.Suits[sl.Suit].Slots) > 1
}

func (p *Program) ClassSold(k int) bool {
	cl := p.In.Classes[k]
	return slices.ContainsFunc(cl.Quotes, func(q int) bool { return p.sold(q, cl.Site) })
}
