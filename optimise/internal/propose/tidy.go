package propose

import (
	"context"
	"slices"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/internal/model"
)

// order makes placing prefer earlier beds for earlier quotes, where nothing else
// tells two ways apart: far below what a kilogram on a table counts.
const order = 1e-7

// Settle places what is bought once more, so that the same purchase always lies the
// same way however it was found: of all ways to fill the beds, the one that loads
// the limited tables least, each kilogram counted as a share of its limit.
//
//	minimise Σ_units Σ flooded·w / headroom
//
// It answers with x and the placing changed. Where that cannot be worked out, x
// stays as it was: it is a good placing, only not the tidiest.
func Settle(ctx context.Context, p *model.Program, x []float64, buy bill.Purchase) []float64 {
	out := slices.Clone(x)
	for s := range p.In.Sites {
		if !settleSite(ctx, p, s, buy, out) {
			return x
		}
	}
	return out
}

func settleSite(ctx context.Context, p *model.Program, s int, buy bill.Purchase, x []float64) bool {
	pl, err := newPlacer(p, s)
	if err != nil {
		return false
	}
	defer pl.lp.Close()
	bought := map[int]float64{}
	for _, k := range pl.classes {
		for _, qi := range p.In.Classes[k].Quotes {
			for _, it := range buy.Items {
				if it.Quote == p.In.Job.Quotes[qi] && it.Site == p.In.Sites[s] {
					bought[k] += it.Packs().Float() * float64(p.In.Job.Yield(it.Quote))
				}
			}
		}
	}
	for _, k := range pl.classes {
		if err := pl.lp.SetRHS(pl.row[k], bought[k]); err != nil {
			return false
		}
	}
	costs := map[int]float64{}
	for i, col := range pl.ordered() {
		costs[col] = order * float64(i)
	}
	for _, u := range p.In.Units {
		if !u.Weighed || p.In.Slots[u.Slots[0]].Site != s || u.Headroom <= 0 {
			continue
		}
		for _, t := range u.Slots {
			sl := p.In.Slots[t]
			for _, g := range p.In.Suits[sl.Suit].Grades {
				for _, term := range p.GradeIn(g, t, p.In.Weight(g, sl.Below)/u.Headroom) {
					costs[term.Col] += term.Coef
				}
			}
		}
	}
	for col, at := range pl.cols {
		if err := pl.lp.SetCost(at, costs[col]); err != nil {
			return false
		}
	}
	if !pl.fill(ctx, func(float64) float64 { return shortSlack }) && !pl.fill(ctx, func(litres float64) float64 { return leastSlack * max(1, litres) }) {
		return false
	}
	for col, at := range pl.cols {
		x[col] = pl.res.X[at]
	}
	return true
}

// fill solves for the placing with no more short of each demand than slack says of its
// litres, and reports whether there is one.
func (pl *placer) fill(ctx context.Context, slack func(litres float64) float64) bool {
	for i, j := range pl.shorts {
		if err := pl.lp.SetBounds(j, 0, slack(pl.demands[i])); err != nil {
			return false
		}
	}
	err := pl.lp.SolveSteady(ctx, lpsolve.Options{Pricing: pl.rule()}, &pl.res)
	return err == nil && pl.res.Status == lpsolve.Optimal
}

// shortSlack is what a demand may miss of the noise in what is bought: a drop. Where
// what is bought is just enough, rows that hold within their tolerance may leave more
// short: a share of the litres, half of what a plan is held to when it is checked.
const (
	shortSlack = 1e-6
	leastSlack = 5e-6
)

// ordered lists the placer's program columns in order.
func (pl *placer) ordered() []int {
	out := make([]int, 0, len(pl.cols))
	for col := range pl.cols {
		out = append(out, col)
	}
	slices.Sort(out)
	return out
}
