package optimise

import (
	"context"
	"slices"
	"time"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/suitability"
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
	RuleLayerMix   = "layer_mix"
	RuleLeastShare = "least_share"
)

// mixingInTheWay is what the job asks of the mix in a layer, where a purchase fills the beds without that, whatever it costs.
func mixingInTheWay(ctx context.Context, job *quotes.Job, limit time.Duration) ([]Obstacle, error) {
	set := &job.Settings
	free := *job
	free.Settings.LayerMix, free.Settings.LeastShare, free.Settings.Budget = quotes.AnyMix, 0, nil
	if set.LayerMix != quotes.OneMix && set.LeastShare == free.Settings.LeastShare {
		return nil, nil
	}
	if limit <= 0 || limit > seenLimit {
		limit = seenLimit
	}
	mix, _, err := Possible(ctx, &free, limit)
	if err != nil || mix != MixFound {
		return nil, err
	}
	if set.LayerMix == quotes.OneMix {
		return []Obstacle{{Rule: RuleLayerMix, Remedy: `no single quote fills each layer within the other rules, and a mix does: write layer_mix = "any"`}}, nil
	}
	return []Obstacle{{Rule: RuleLeastShare, Remedy: "parts so large do not go together within the other rules, and smaller ones do: ask for less under least_share"}}, nil
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
// What the buyer asks for without need gives first: how a layer may be mixed, then how many to buy
// from, and only then what a frame carries or a bed takes.
//
// What is seen without a solve leaves out the families that cannot be enough, and is
// itself the answer where the others take too long.
func explain(ctx context.Context, job *quotes.Job, fit *suitability.Fit, solver mip.Solver, opt Options) ([]Obstacle, error) {
	in := model.NewInstance(job, fit, opt.Plain)
	prog := model.Build(in, model.Options{Strong: !opt.Plain})
	if none := prog.Unsupplied(); none != nil {
		var out []Obstacle
		for _, at := range in.Atoms {
			if slices.Contains(none, at.Suit) {
				out = append(out, nothingFits(prog, at))
			}
		}
		return out, nil
	}
	if opt.mostColumns == 0 {
		if why, err := mixingInTheWay(ctx, job, opt.TimeLimit); why != nil || err != nil {
			return why, err
		}
	}
	seen := &seenAtOnce{heavy: prog.Overloaded(), scarce: prog.Scarce()}
	placing := []give{{weights: true}, {shares: true}, {weights: true, shares: true}}
	var counts []give
	if job.Settings.MaxSuppliers > 0 {
		counts = append(counts, give{suppliers: true})
	}
	if job.Settings.MaxDeliveries > 0 {
		counts = append(counts, give{deliveries: true})
	}
	if job.Settings.MaxSuppliers > 0 && job.Settings.MaxDeliveries > 0 {
		counts = append(counts, give{suppliers: true, deliveries: true})
	}
	families := slices.Concat(counts, placing)
	if opt.mostColumns > 0 { // a way that is there to be compared asks for so few itself
		families = slices.Concat(placing, counts)
	}
	families = append(families, give{terms: true}, give{stock: true}, give{stock: true, terms: true}, give{weights: true, shares: true, stock: true},
		give{weights: true, shares: true, suppliers: true, deliveries: true, terms: true, stock: true, short: true})
	limit := explainLimit
	if opt.TimeLimit > 0 {
		limit = min(limit, opt.TimeLimit)
	}
	if seen.any() {
		limit = min(limit, seenLimit)
	}
	for _, g := range families {
		if !seen.leaves(g) {
			continue
		}
		e := elastic(in, g)
		if len(e.slack) == 0 {
			continue
		}
		ans, err := solver.Solve(ctx, e.Model, mip.Options{TimeLimit: limit, Progress: opt.Progress})
		if err != nil {
			return nil, err
		}
		if ans.Status == mip.NoAnswer && seen.any() {
			break // what was seen at once is known; to look on takes as long again
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
	return seen.obstacles(&elasticProgram{Program: prog}), nil
}
