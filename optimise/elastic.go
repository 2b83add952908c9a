package optimise

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
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
	*model.Program
	slack []slack
	costs []float64 // of the program's own columns, in money
}

// elastic builds the model of an instance with the families of g giving way. It
// needs the tightening rows, which let no stone in without its order.
func elastic(in *model.Instance, g give) *elasticProgram {
	e := &elasticProgram{Program: model.Build(in, model.Options{Strong: true})}
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
	for i, u := range in.Units {
		if u.Weighed && g.weights {
			most := -min(0, u.Headroom)
			for _, t := range u.Slots {
				most += in.Slots[t].Litres * in.Heaviest(in.Slots[t].Suit, in.Slots[t].Below)
			}
			add("over weight/"+u.Name, most, -1, slack{rule: RuleLimit, unit: i}, "weight/"+u.Name)
		}
		for k, sh := range u.Shares {
			if g.shares {
				most := 0.0
				for _, t := range sh.Slots {
					most += in.Slots[t].Litres
				}
				add("over share/"+sh.Name, most, -1, slack{rule: RuleShare, unit: i, share: k}, "share/"+sh.Name)
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
		for di, d := range in.Drops {
			y, ok := e.Y[di]
			if !ok || d.Row.MinOrder == nil {
				continue
			}
			row := "smallest order/" + e.Cols[y].Name
			if _, ok := rows[row]; ok {
				// The row is scaled to a value of 1, so its slack is a share.
				add("under "+row, 1, 1, slack{rule: RuleMinOrder, what: d.Supplier, amount: d.Row.MinOrder.Float()}, row)
				e.Cols[len(e.Cols)-1].Cost = d.Row.MinOrder.Float()
			}
		}
		for qi, q := range in.Job.Quotes {
			if _, ok := e.Z[[2]int{-1, qi}]; ok {
				add("under least/"+q.Name, float64(bill.StepsUp(q.MinQty, q.Step)), 1, slack{rule: RuleMinQty, what: q.Name}, "least/"+q.Name)
			}
		}
	}
	if g.stock {
		for k, cl := range in.Classes {
			if e.ClassSold(k) {
				most := 0.0
				for _, u := range in.Suits {
					if slices.Contains(u.Classes, k) {
						most += u.Litres
					}
				}
				add("more/"+cl.Name, most, -1, slack{rule: RuleStock, grade: cl.Grade, slot: -1}, "supply/"+cl.Name)
			}
		}
	}
	if g.short {
		for t, sl := range in.Slots {
			at := []string{"fill/" + in.Suits[sl.Suit].Name}
			if e.InUnit(t) {
				at = append(at, "fill slot/"+sl.Name)
			}
			add("short/"+sl.Name, sl.Litres, 1, slack{rule: RuleStock, slot: t}, at...)
			// What is short will be bought in the end: then it weighs, and counts against
			// a share where nothing else suits.
			if sl.Unit < 0 {
				continue
			}
			also := func(row string, coef float64) {
				if i, ok := rows[row]; ok {
					e.Rows[i].Terms = append(e.Rows[i].Terms, mip.Term{Col: len(e.Cols) - 1, Coef: coef})
				}
			}
			also("weight/"+in.Units[sl.Unit].Name, in.Lightest(sl.Suit, sl.Below))
			for _, sh := range in.Units[sl.Unit].Shares {
				other := func(g int) bool { return in.Grades[g].Medium != sh.Medium }
				if slices.Contains(sh.Slots, t) && !slices.ContainsFunc(in.Suits[sl.Suit].Grades, other) {
					also("share/"+sh.Name, 1)
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
	budget := e.In.Job.Settings.Budget
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
	digits := e.In.Job.Settings.CurrencyDigits
	// The bill rounds line by line: ten units of its last digit are room for that.
	scale := math.Pow(10, float64(digits-1))
	cost := units.MoneyOf(units.DecimalOf(math.Ceil(ans.Objective*scale) / scale)).Round(digits)
	if cost.Cmp(*budget) <= 0 {
		return nil, nil
	}
	say := func(m units.Money) string { return units.FormatMoney(m, e.In.Job.Settings.Currency) }
	return &Obstacle{Rule: RuleBudget, Remedy: fmt.Sprintf("even then the cheapest safe purchase costs about %s and the budget is %s: raise the budget by %s as well",
		say(cost), say(*budget), say(cost.Sub(*budget)))}, nil
}
