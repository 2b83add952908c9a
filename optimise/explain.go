package optimise

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"mediabuy/optimise/mip"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Obstacle is one thing that keeps a job from having any purchase, with the
// least change that would help.
type Obstacle struct {
	Bed    string // "" where it is not about one bed
	Layer  quotes.Layer
	Table  string
	Rule   string
	Short  units.Litres    // missing litres, all beds of the row together, or too many of a medium in each; 0 where it is about weight
	Over   units.Kilograms // kilograms too many, of the table or of one bed
	Remedy string
}

// Obstacle rules besides those of suitability.
const (
	RuleLimit      = "limit"
	RuleShare      = "max_share"
	RuleStock      = "stock"
	RuleDelivery   = "delivery"
	RuleSuppliers  = "max_suppliers"
	RuleDeliveries = "max_deliveries"
	RuleMinOrder   = "min_order"
	RuleMinQty     = "min_qty"
	RuleBudget     = "budget"
)

func overBudget(job *quotes.Job, least units.Money) Obstacle {
	d := job.Settings.CurrencyDigits
	return Obstacle{Rule: RuleBudget, Remedy: fmt.Sprintf("the budget is %s and the cheapest safe purchase costs %s: raise the budget by %s",
		job.Settings.Budget.Text(d), least.Text(d), least.Sub(*job.Settings.Budget).Text(d))}
}

// unsupplied lists the suits that nothing sold may fill.
func (p *program) unsupplied() []int {
	var out []int
	for u, su := range p.in.suits {
		if !slices.ContainsFunc(su.classes, func(k int) bool { _, ok := p.v[[2]int{k, u}]; return ok }) {
			out = append(out, u)
		}
	}
	return out
}

// hopeless reports whether some layer has nothing that may fill it, or a frame
// cannot even carry what stands on it without media, so that no solve is needed
// to know.
func (p *program) hopeless() bool {
	return len(p.unsupplied()) > 0 || slices.ContainsFunc(p.in.units, func(u unit) bool { return u.weighed && u.headroom < 0 })
}

// explainLimit bounds each solve that looks for what stands in the way: a first
// explanation that may not be the smallest beats none.
const explainLimit = 20 * time.Second

// explain finds what stands in the way of an infeasible job. Layers that nothing
// may fill are named first. Otherwise the model is solved again with priced
// shortfalls, one family of rules after the other, and the first family that
// alone is enough is named with the least it must give:
//
//	weights    Σ flooded·w ≤ limit + over          cost 1 a kilogram
//	shares     Σ w ≤ share·Σ D + over              cost 1 a litre
//	counts     Σ o ≤ most + over                   cost 1 a supplier or delivery
//	terms      goods + under ≥ min_order·y         cost 1 a unit of money
//	           Σ n + under ≥ min_qty·z             cost 1 a step
//	stock      Σ v ≤ Σ placed·n + more             cost 1 a litre
//
// and all of them together, with layers left short, when none is enough alone.
func explain(ctx context.Context, job *quotes.Job, fit *Fit, solver mip.Solver, opt Options) ([]Obstacle, error) {
	in := newInstance(job, fit, opt.Plain)
	prog := newProgram(in, buildOptions{strong: !opt.Plain})
	if none := prog.unsupplied(); none != nil {
		var out []Obstacle
		for _, at := range in.atoms {
			if slices.Contains(none, at.suit) {
				out = append(out, prog.nothingFits(at))
			}
		}
		return out, nil
	}
	families := []give{{weights: true}, {shares: true}, {weights: true, shares: true}}
	if job.Settings.MaxSuppliers > 0 {
		families = append(families, give{suppliers: true})
	}
	if job.Settings.MaxDeliveries > 0 {
		families = append(families, give{deliveries: true})
	}
	if job.Settings.MaxSuppliers > 0 && job.Settings.MaxDeliveries > 0 {
		families = append(families, give{suppliers: true, deliveries: true})
	}
	families = append(families, give{terms: true}, give{stock: true}, give{stock: true, terms: true}, give{weights: true, shares: true, stock: true},
		give{weights: true, shares: true, suppliers: true, deliveries: true, terms: true, stock: true, short: true})
	limit := explainLimit
	if opt.TimeLimit > 0 {
		limit = min(limit, opt.TimeLimit)
	}
	for _, g := range families {
		e := elastic(in, g)
		if len(e.slack) == 0 {
			continue
		}
		ans, err := solver.Solve(ctx, e.Model, mip.Options{TimeLimit: limit, Progress: opt.Progress})
		if err != nil {
			return nil, err
		}
		if ans.X == nil {
			continue
		}
		out := e.obstacles(ans.X)
		if len(out) == 0 {
			continue
		}
		if more, err := e.dearer(ctx, solver, ans.X, limit); err != nil {
			return nil, err
		} else if more != nil {
			out = append(out, *more)
		}
		return out, nil
	}
	return nil, nil
}

// give says which families of rows may give way at a price.
type give struct{ weights, shares, suppliers, deliveries, terms, stock, short bool }

// slack is a column by which a row gives way, and what that means.
type slack struct {
	col    int
	rule   string
	unit   int // index of the unit, for weights and shares
	share  int // index of the share in its unit
	slot   int // index of the slot that is short, or -1
	grade  int // index of the grade of which more is needed
	what   string
	amount float64 // the smallest order, in money
}

// elasticProgram is a model whose only cost is how far its rows give way.
type elasticProgram struct {
	*program
	slack []slack
	costs []float64 // of the program's own columns, in money
}

// elastic builds the model of an instance with the families of g giving way. It
// needs the tightening rows, which let no stone in without its order.
func elastic(in *instance, g give) *elasticProgram {
	e := &elasticProgram{program: newProgram(in, buildOptions{strong: true})}
	for j := range e.Cols {
		e.costs = append(e.costs, e.Cols[j].Cost)
		e.Cols[j].Cost = 0
	}
	rows := map[string]int{}
	for i, r := range e.Rows {
		rows[r.Name] = i
	}
	add := func(name string, upper float64, coef float64, s slack, at ...string) {
		s.col = e.AddColumn(mip.Column{Name: name, Cost: 1, Upper: upper})
		for _, row := range at {
			if i, ok := rows[row]; ok {
				e.Rows[i].Terms = append(e.Rows[i].Terms, mip.Term{Col: s.col, Coef: coef})
			}
		}
		e.slack = append(e.slack, s)
	}
	for i, u := range in.units {
		if u.weighed && g.weights {
			most := -min(0, u.headroom)
			for _, t := range u.slots {
				most += in.slots[t].litres * in.heaviest(in.slots[t].suit, in.slots[t].below)
			}
			add("over weight/"+u.name, most, -1, slack{rule: RuleLimit, unit: i}, "weight/"+u.name)
		}
		for k, sh := range u.shares {
			if g.shares {
				most := 0.0
				for _, t := range sh.slots {
					most += in.slots[t].litres
				}
				add("over share/"+sh.name, most, -1, slack{rule: RuleShare, unit: i, share: k}, "share/"+sh.name)
			}
		}
	}
	if g.suppliers {
		add("more suppliers", 1e4, -1, slack{rule: RuleSuppliers}, "most suppliers")
	}
	if g.deliveries {
		add("more deliveries", 1e4, -1, slack{rule: RuleDeliveries}, "most deliveries")
	}
	if g.terms {
		for di, d := range in.drops {
			y, ok := e.y[di]
			if !ok || d.row.MinOrder == nil {
				continue
			}
			row := "smallest order/" + e.Cols[y].Name
			if _, ok := rows[row]; ok {
				// The row is scaled to a value of 1, so its slack is a share.
				add("under "+row, 1, 1, slack{rule: RuleMinOrder, what: d.supplier, amount: d.row.MinOrder.Float()}, row)
				e.Cols[len(e.Cols)-1].Cost = d.row.MinOrder.Float()
			}
		}
		for qi, q := range in.job.Quotes {
			if _, ok := e.z[[2]int{-1, qi}]; ok {
				add("under least/"+q.Name, float64(stepsUp(q.MinQty, q.Step)), 1, slack{rule: RuleMinQty, what: q.Name}, "least/"+q.Name)
			}
		}
	}
	if g.stock {
		for k, cl := range in.classes {
			if e.classSold(k) {
				most := 0.0
				for _, u := range in.suits {
					if slices.Contains(u.classes, k) {
						most += u.litres
					}
				}
				add("more/"+cl.name, most, -1, slack{rule: RuleStock, grade: cl.grade, slot: -1}, "supply/"+cl.name)
			}
		}
	}
	if g.short {
		for t, sl := range in.slots {
			at := []string{"fill/" + in.suits[sl.suit].name}
			if e.inUnit(t) {
				at = append(at, "fill slot/"+sl.name)
			}
			add("short/"+sl.name, sl.litres, 1, slack{rule: RuleStock, slot: t}, at...)
		}
	}
	e.Implied = nil // they follow from rows that give way here
	return e
}

// dearer is the budget's own obstacle where the job has one that is too small
// even once the rows give way as in x; nil where it is enough or nothing is known.
func (e *elasticProgram) dearer(ctx context.Context, solver mip.Solver, x []float64, limit time.Duration) (*Obstacle, error) {
	budget := e.in.job.Settings.Budget
	if budget == nil {
		return nil, nil
	}
	priced := *e.Model
	priced.Cols = slices.Clone(e.Cols)
	for j := range priced.Cols {
		if j < len(e.costs) {
			priced.Cols[j].Cost = e.costs[j]
			continue
		}
		// What the remedy grants is a tenth more at most; a layer left short is
		// left short.
		priced.Cols[j].Cost = 0
		priced.Cols[j].Upper = min(priced.Cols[j].Upper, x[j]+1e-6)
	}
	ans, err := solver.Solve(ctx, &priced, mip.Options{TimeLimit: limit})
	if err != nil || ans.Status != mip.Optimal {
		return nil, err
	}
	digits := e.in.job.Settings.CurrencyDigits
	// The bill rounds line by line: ten units of its last digit are room for that.
	scale := math.Pow(10, float64(digits-1))
	cost := units.MoneyOf(units.DecimalOf(math.Ceil(ans.Objective*scale) / scale)).Round(digits)
	if cost.Cmp(*budget) <= 0 {
		return nil, nil
	}
	return &Obstacle{Rule: RuleBudget, Remedy: fmt.Sprintf("even then the cheapest safe purchase costs about %s and the budget is %s: raise the budget by %s as well",
		cost.Text(digits), budget.Text(digits), cost.Sub(*budget).Text(digits))}, nil
}

// least is what a slack must come to before it is worth naming: a spoonful, or
// as many grams.
const least = 1e-3

// obstacles reads the slacks of an answer as sentences.
func (e *elasticProgram) obstacles(x []float64) []Obstacle {
	var out []Obstacle
	for _, s := range e.slack {
		v := x[s.col]
		if v <= least {
			continue
		}
		switch s.rule {
		case RuleLimit:
			out = append(out, e.overweight(e.in.units[s.unit], v)...)
		case RuleShare:
			out = append(out, e.overShare(e.in.units[s.unit].shares[s.share], v)...)
		case RuleSuppliers:
			out = append(out, Obstacle{Rule: RuleSuppliers, Remedy: fmt.Sprintf("no mix fills the beds from %d suppliers: allow %d more", e.in.job.Settings.MaxSuppliers, up(v))})
		case RuleDeliveries:
			out = append(out, Obstacle{Rule: RuleDeliveries, Remedy: fmt.Sprintf("no mix fills the beds with %d deliveries: allow %d more", e.in.job.Settings.MaxDeliveries, up(v))})
		case RuleMinOrder:
			d := e.in.job.Settings.CurrencyDigits
			out = append(out, Obstacle{Rule: RuleMinOrder, Remedy: fmt.Sprintf(
				"what can be bought of %s stays %.*f below its smallest order of %.*f: ask it to take less", s.what, d, v*s.amount, d, s.amount)})
		case RuleMinQty:
			out = append(out, Obstacle{Rule: RuleMinQty, Remedy: fmt.Sprintf(
				"of %q fewer packs can be used than the least it is sold in: ask for %d steps less", s.what, up(v))})
		case RuleStock:
			if s.slot >= 0 {
				out = append(out, e.shortSlot(s.slot, v)...)
			} else {
				out = append(out, e.moreOf(s.grade, v, x)...)
			}
		}
	}
	return out
}

// overShare shares the litres too many of a medium out among the alike beds that
// a share stands for.
func (e *elasticProgram) overShare(sh shareRow, litres float64) []Obstacle {
	all := 0.0
	for _, b := range sh.beds {
		all += e.bedLitres(b)
	}
	var out []Obstacle
	for _, b := range sh.beds {
		bed := e.in.job.Beds[b]
		part := litres * e.bedLitres(b) / all / float64(bed.Count) // the share is of each
		out = append(out, Obstacle{Bed: bed.Name, Rule: RuleShare, Short: units.Litres(part), Remedy: fmt.Sprintf(
			"allow %s %.1f L more in %s, or ask for a quote of another medium that suits it", sh.medium.Name, tenthUp(part), eachBed(bed.Name, bed.Count))})
	}
	return out
}

// bedLitres is all that bed b (by index) takes, every one of its count.
func (e *elasticProgram) bedLitres(b int) float64 {
	sum := 0.0
	for _, a := range e.in.atoms {
		if a.bed == b {
			sum += a.litres
		}
	}
	return sum
}

// tenthUp rounds up to a tenth, so that what is asked for is enough, but not for
// the noise of a solver.
func tenthUp(v float64) float64 { return math.Ceil(v*10-1e-3) / 10 }

// moreOf names the layers that lack litres of a grade: of those that hold it in
// the answer x, the last ones.
func (e *elasticProgram) moreOf(g int, litres float64, x []float64) []Obstacle {
	var out []Obstacle
	medium := e.in.grades[g].medium.Name
	for i := len(e.in.suits) - 1; i >= 0; i-- {
		held := 0.0
		for _, t := range e.gradeOf(g, i, 1) {
			held += t.Coef * x[t.Col]
		}
		here := min(held, litres)
		if here <= least {
			continue
		}
		litres -= here
		last := e.in.suits[i].slots[len(e.in.suits[i].slots)-1]
		at := e.in.atoms[e.in.slots[last].atoms[len(e.in.slots[last].atoms)-1]]
		bed := e.in.job.Beds[at.bed]
		out = append(out, Obstacle{Bed: bed.Name, Layer: at.layer, Rule: RuleStock, Short: units.Litres(here), Remedy: fmt.Sprintf(
			"%.1f L more must be for sale of %s, or of another medium that suits; the %s of bed %q, or layers like it, stay short", tenthUp(here), medium, at.layer, bed.Name)})
	}
	return out
}

func up(v float64) int {
	n := int(v)
	if v-float64(n) > intSlack {
		n++
	}
	return n
}

// intSlack is noise on a count.
const intSlack = 1e-4

// overweight shares the kilograms too many of a unit out among the alike tables
// it stands for.
func (e *elasticProgram) overweight(u unit, kg float64) []Obstacle {
	var out []Obstacle
	for i, name := range u.tables {
		over := kg * u.parts[i]
		o := Obstacle{Rule: RuleLimit}
		where := fmt.Sprintf("table %q", name)
		if u.table[i] {
			o.Table = name
		} else {
			o.Bed = name
			n := e.bedCount(name)
			over /= float64(n) // the limit is for each of them
			where = eachBed(name, n)
		}
		o.Over = units.Kilograms(over)
		enough := tenthUp(over)
		o.Remedy = fmt.Sprintf("the lightest mix is %.1f kg over the limit of %s: raise the limit by %.1f kg once someone qualified has checked the frame, or fill it less deep, or ask for a lighter medium", enough, where, enough)
		out = append(out, o)
	}
	return out
}

// eachBed names one bed or each of several alike.
func eachBed(name string, count int) string {
	if count > 1 {
		return fmt.Sprintf("each of the %d beds %q", count, name)
	}
	return fmt.Sprintf("bed %q", name)
}

func (e *elasticProgram) bedCount(name string) int {
	for _, b := range e.in.job.Beds {
		if b.Name == name {
			return b.Count
		}
	}
	return 1
}

// shortSlot names the layers of a slot that stay short, last layers first.
func (e *elasticProgram) shortSlot(t int, litres float64) []Obstacle {
	var out []Obstacle
	atoms := e.in.slots[t].atoms
	for i := len(atoms) - 1; i >= 0 && litres > least; i-- {
		at := e.in.atoms[atoms[i]]
		short := min(litres, at.litres)
		litres -= short
		bed := e.in.job.Beds[at.bed]
		out = append(out, Obstacle{Bed: bed.Name, Layer: at.layer, Rule: RuleStock, Short: units.Litres(short), Remedy: fmt.Sprintf(
			"%.1f L more must be for sale of %s, or of another medium that suits the %s of bed %q", short, e.suitMedia(at.suit), at.layer, bed.Name)})
	}
	slices.Reverse(out)
	return out
}

func (e *elasticProgram) suitMedia(u int) string {
	var names []string
	for _, g := range e.in.suits[u].grades {
		if n := e.in.grades[g].medium.Name; !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	slices.Sort(names)
	return strings.Join(names, " or ")
}

// nothingFits explains a layer that no quote may fill, by the quote that comes
// nearest: the one with the fewest rules against it.
func (p *program) nothingFits(at atom) Obstacle {
	job := p.in.job
	bed := job.Beds[at.bed]
	o := Obstacle{Bed: bed.Name, Layer: at.layer, Rule: RuleStock, Short: units.Litres(at.litres)}
	var nearest *quotes.Quote
	var against []reason
	for qi, q := range job.Quotes {
		rs := append(slices.Clone(p.in.fit.general[qi]), p.in.fit.ofBed[at.bed].reasons[at.layer][qi]...)
		if len(rs) == 0 {
			switch {
			case len(p.in.dropAt[[2]int{qi, at.site}]) == 0:
				rs = []reason{{Rule(RuleDelivery), fmt.Sprintf("%s does not deliver %s goods to site %q", q.Supplier, q.Form, p.in.sites[at.site])}}
			default:
				rs = []reason{{Rule(RuleStock), "too little of it is in stock to sell any"}}
			}
		}
		if nearest == nil || len(rs) < len(against) {
			nearest, against = q, rs
		}
	}
	if nearest == nil {
		o.Remedy = "ask for quotes: there are none"
		return o
	}
	o.Rule = string(against[0].rule)
	var words []string
	for _, r := range against {
		words = append(words, r.text)
	}
	o.Remedy = fmt.Sprintf("no quote suits it; the nearest is %q, but %s. Ask for another medium or grain size, or change the bed's rule", nearest.Name, strings.Join(words, "; and "))
	return o
}
