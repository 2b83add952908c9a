package model

import (
	"math"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Program is the model of an instance with the map from its columns back to
// quotes, drops and slots. The letters are those of the package comment.
type Program struct {
	*mip.Model
	In *Instance

	N      map[[2]int]int // (quote, site) → steps bought
	M      map[[3]int]int // (quote, site, level) → steps bought at that level
	C      map[[2]int]int // (quote, drop) → packs carried, where a form has a choice
	V      map[[2]int]int // (class, suit) → placed litres
	w      map[[2]int]int // (grade, slot) → placed litres, for slots of a unit that share their suit
	Z      map[[2]int]int // (pool, level) → 1 when the level is reached
	Y      map[int]int    // drop → 1 when used
	E      map[[2]int]int // (drop, form index) → 1 when the drop carries that form
	O      map[string]int // supplier → 1 when used
	Waive  map[int]int    // drop → 1 when its fees are waived
	Some   map[[2]int]int // (class, suit) → 1 when it fills some of it, where there is a least share
	Heaps  map[int][]Heap // drop → what shares its loads, where those are paid for
	Hand   map[string]int // supplier → handling paid, where its rows differ
	Things map[int]int    // quote → 1 when it is bought, where those are counted
	PoolOf map[int][2]int // quote → (pool, member)

	Tight []mip.Row // AtLeast rows that are only worth adding where the relaxation breaks them

	Cap map[[2]int]int // (quote, site) → most steps worth buying
}

// Options shape the model.
type Options struct {
	Strong bool // add the rows that tighten the relaxation
}

// Build writes the instance as rows and columns, one method per family.
func Build(in *Instance, opt Options) *Program {
	p := &Program{
		Model: &mip.Model{Name: "mediabuy buying model"}, In: in,
		N: map[[2]int]int{}, M: map[[3]int]int{}, C: map[[2]int]int{}, V: map[[2]int]int{}, w: map[[2]int]int{}, Z: map[[2]int]int{},
		Y: map[int]int{}, E: map[[2]int]int{}, O: map[string]int{}, Waive: map[int]int{}, Heaps: map[int][]Heap{}, Some: map[[2]int]int{},
		Hand: map[string]int{}, Things: map[int]int{}, PoolOf: map[int][2]int{}, Cap: map[[2]int]int{},
	}
	for i, pl := range in.Pools {
		for k, q := range pl.Members {
			p.PoolOf[q] = [2]int{i, k}
		}
	}
	p.caps()
	p.suppliers()
	p.drops()
	p.levels()
	p.packs()
	p.carriage()
	p.things()
	p.placing()

	p.fill()
	p.supply()
	p.stock()
	p.breaks()
	p.carried()
	p.orders()
	p.fees()
	p.tie()
	p.leastShares()
	p.sameEverywhere()
	p.counts()
	p.countThings()
	if opt.Strong {
		p.tighten()
		p.imply()
	}
	return p
}

// sold reports whether quote q can be bought for site s at all.
func (p *Program) sold(q, s int) bool { return p.Cap[[2]int{q, s}] > 0 }

// caps bounds the steps of each quote worth buying for each site, so that the
// bound cuts off no least-cost answer. In a least-cost answer with the fewest
// packs, taking away one step of q at site i must break something: what it
// covers (so n ≤ cover), goods that reach a fee's waiver or a smallest order
// (n ≤ that value ÷ the lowest price), a break of its pool or its own least
// quantity (n ≤ that many). Stock bounds it too.
func (p *Program) caps() {
	job := p.In.Job
	demand := p.In.demands()
	for qi, q := range job.Quotes {
		pl := p.In.Pools[p.PoolOf[qi][0]]
		lowest := pl.Levels[len(pl.Levels)-1].Prices[p.PoolOf[qi][1]]
		least := bill.StepsUp(q.MinQty, q.Step)
		least = max(least, bill.StepsUp(pl.Levels[len(pl.Levels)-1].From, q.Step))
		for s := range p.In.Sites {
			drops := p.In.DropAt[[2]int{qi, s}]
			cover := demand[[2]int{qi, s}]
			if len(drops) == 0 || cover <= 0 {
				continue
			}
			n := int(min(math.Ceil(cover/(float64(job.Yield(q))*q.Step.Float())-1e-9), bill.MaxSteps))
			n = max(n, least)
			value := bill.BeforeTax(job, q, lowest)
			for di, d := range p.In.Drops {
				if d.Supplier != q.Supplier || d.Site != p.In.Sites[s] {
					continue
				}
				for _, goal := range []*units.Money{p.In.Drops[di].Row.FreeOver, p.In.Drops[di].Row.MinOrder} {
					if goal != nil && value.Sign() > 0 {
						n = max(n, bill.StepsUp(goal.Decimal().Quo(value.Decimal()), q.Step))
					}
				}
			}
			if q.MaxQty != nil {
				n = min(n, bill.StepsDown(*q.MaxQty, q.Step))
			}
			if n > 0 && bill.StepsDown(maxQtyOr(q, bill.MaxSteps), q.Step) >= bill.StepsUp(q.MinQty, q.Step) {
				p.Cap[[2]int{qi, s}] = n
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

// GradeIn is the litres of grade g in slot t of a unit, as a sum.
func (p *Program) GradeIn(g, t int, coef float64) []mip.Term {
	if w, ok := p.w[[2]int{g, t}]; ok {
		return []mip.Term{{Col: w, Coef: coef}}
	}
	if p.InUnit(t) {
		return nil
	}
	if p.In.Same {
		coef *= p.In.Slots[t].Litres / p.In.Suits[p.In.Slots[t].Suit].Litres
	}
	return p.GradeOf(g, p.In.Slots[t].Suit, coef)
}

// GradeOf is the litres of grade g in all that suit u fills, as a sum.
func (p *Program) GradeOf(g, u int, coef float64) []mip.Term {
	var out []mip.Term
	for _, k := range p.In.Grades[g].Classes {
		if v, ok := p.V[[2]int{k, u}]; ok {
			out = append(out, mip.Term{Col: v, Coef: coef * p.Scale(u)})
		}
	}
	return out
}

// Lean is the model without the columns of slots and the rows they stand in. What
// these ask of a purchase, that it can be placed, is found row by row instead
// (see placer): with hundreds of tables they are nine tenths of the model, and
// few of them matter.
func (p *Program) Lean() *mip.Model {
	first := len(p.Cols) - len(p.w) // placing adds them last
	out := &mip.Model{Name: p.Name, Constant: p.Constant, Cols: p.Cols[:first], Implied: p.Implied, Parts: p.parts()[:first]}
	for _, r := range p.Rows {
		if !slices.ContainsFunc(r.Terms, func(t mip.Term) bool { return t.Col >= first }) {
			out.Rows = append(out.Rows, r)
		}
	}
	return out
}

// Full is an answer of lean with room for the columns it lacks.
func (p *Program) Full(x []float64) []float64 {
	return append(slices.Clone(x), make([]float64, len(p.Cols)-len(x))...)
}

// parts is the site of each column, -1 for what sites share.
func (p *Program) parts() []int {
	out := make([]int, len(p.Cols))
	for j := range out {
		out[j] = -1
	}
	for key, j := range p.N {
		out[j] = key[1]
	}
	for key, j := range p.M {
		out[j] = key[1]
	}
	for key, j := range p.V {
		out[j] = p.In.Suits[key[1]].Site
	}
	for key, j := range p.w {
		out[j] = p.In.Slots[key[1]].Site
	}
	for key, j := range p.C {
		out[j] = p.siteOf(key[1])
	}
	for key, j := range p.E {
		out[j] = p.siteOf(key[0])
	}
	for di, heaps := range p.Heaps {
		for _, h := range heaps {
			for _, j := range h.Cols {
				out[j] = p.siteOf(di)
			}
		}
	}
	for _, cols := range []map[int]int{p.Y, p.Waive} {
		for di, j := range cols {
			out[j] = p.siteOf(di)
		}
	}
	return out
}

// siteOf is the index of the site that drop di goes to.
func (p *Program) siteOf(di int) int { return slices.Index(p.In.Sites, p.In.Drops[di].Site) }
