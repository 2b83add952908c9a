package optimise

import (
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
