package optimise

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"mediabuy/optimise/mip"
	"mediabuy/units"
)

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
			// What is short will be bought in the end: then it weighs, and counts against
			// a share where nothing else suits.
			if sl.unit < 0 {
				continue
			}
			also := func(row string, coef float64) {
				if i, ok := rows[row]; ok {
					e.Rows[i].Terms = append(e.Rows[i].Terms, mip.Term{Col: len(e.Cols) - 1, Coef: coef})
				}
			}
			also("weight/"+in.units[sl.unit].name, in.lightest(sl.suit, sl.below))
			for _, sh := range in.units[sl.unit].shares {
				other := func(g int) bool { return in.grades[g].medium != sh.medium }
				if slices.Contains(sh.slots, t) && !slices.ContainsFunc(in.suits[sl.suit].grades, other) {
					also("share/"+sh.name, 1)
				}
			}
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
