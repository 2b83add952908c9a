package breakeven

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Size is the cheapest buy of the whole job made larger or smaller: factor times
// the litres of every bed, with frames that carry factor times the weight.
type Size struct {
	Factor float64
	Litres units.Litres // all placed litres
	Other
	// Bulk is the share of the litres sold that does not come in bags, 0 to 1.
	Bulk float64
}

// SizeChange is a factor at which the suppliers of the cheapest buy change.
type SizeChange struct {
	// The suppliers are Below up to From and Above from To on; the change lies
	// between.
	From, To     float64
	Below, Above []string
}

// Sizes is the whole job at several sizes. Between two of them that have the same
// suppliers a change and its undoing would not be seen.
type Sizes struct {
	Sizes   []Size // rising
	Changes []SizeChange
}

// Factors are the sizes looked at.
var Factors = []float64{0.1, 0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4}

// sizeStep is how closely a change of size is found: one part in a hundred.
const sizeStep = 0.01

// Scaled is the job with every bed factor times as large in volume, and whatever
// carries it factor times as strong. Stocks and prices stay.
func Scaled(job *quotes.Job, factor float64) *quotes.Job {
	return withBeds(job, func(b *quotes.Bed) {
		b.Length *= units.Millimetres(factor)
		b.Volume *= units.Litres(factor)
		b.TopVolume *= units.Litres(factor)
		b.Displaced *= units.Litres(factor)
		b.OwnWeight *= units.Kilograms(factor)
		if b.Limit != nil {
			v := *b.Limit * units.Kilograms(factor)
			b.Limit = &v
		}
	})
}

// BySize solves the job at each of [Factors] and halves the gaps between
// neighbours whose suppliers differ until they are a hundredth apart.
func BySize(ctx context.Context, job *quotes.Job, plan *optimise.Plan, opt Options) (*Sizes, error) {
	if err := usable(plan); err != nil {
		return nil, err
	}
	j := *job
	j.Settings.Budget, j.Settings.TimeLimit = nil, 0
	solve := func(factors []float64) ([]Size, error) {
		var list []change
		for _, f := range factors {
			list = append(list, change{fmt.Sprintf("%.4g times the job", f), Scaled(&j, f)})
		}
		others, err := solveAll(ctx, list, plan, opt, job)
		if err != nil {
			return nil, err
		}
		out := make([]Size, len(factors))
		for i, f := range factors {
			out[i] = Size{Factor: f, Litres: list[i].job.Demand(), Other: others[i], Bulk: bulkShare(others[i].Buy)}
		}
		return out, nil
	}
	all, err := solve(Factors)
	if err != nil {
		return nil, err
	}
	type gap struct{ lo, hi Size }
	var gaps []gap
	for i := range all[1:] {
		if !sameSuppliers(all[i], all[i+1]) {
			gaps = append(gaps, gap{all[i], all[i+1]})
		}
	}
	out := &Sizes{Sizes: all}
	for len(gaps) > 0 {
		var mids []float64
		for _, g := range gaps {
			mids = append(mids, (g.lo.Factor+g.hi.Factor)/2)
		}
		found, err := solve(mids)
		if err != nil {
			return nil, err
		}
		var next []gap
		for i, g := range gaps {
			for _, part := range []gap{{g.lo, found[i]}, {found[i], g.hi}} {
				switch {
				case sameSuppliers(part.lo, part.hi):
				case part.hi.Factor-part.lo.Factor > sizeStep:
					next = append(next, part)
				default:
					out.Changes = append(out.Changes, SizeChange{part.lo.Factor, part.hi.Factor, part.lo.Suppliers, part.hi.Suppliers})
				}
			}
		}
		gaps = next
	}
	slices.SortFunc(out.Changes, func(a, b SizeChange) int { return int(math.Copysign(1, a.From-b.From)) })
	return out, nil
}

func sameSuppliers(a, b Size) bool {
	return a.NoAnswer || b.NoAnswer || a.Infeasible == b.Infeasible && slices.Equal(a.Suppliers, b.Suppliers)
}

func bulkShare(buy []Bought) float64 {
	bulk, all := 0.0, 0.0
	for _, b := range buy {
		v := b.Packs.Float() * float64(b.Quote.PackLitres)
		all += v
		if b.Quote.Form != quotes.Bag {
			bulk += v
		}
	}
	if all == 0 {
		return 0
	}
	return bulk / all
}

// OneMore is the job with one more bed like the one named, and the cheapest buy
// of all. The new bed stands on a frame of its own: where the old one shares a
// table, it carries the bed's part by volume of the table's limit.
func OneMore(ctx context.Context, job *quotes.Job, plan *optimise.Plan, bed string, opt Options) (*Other, error) {
	if err := usable(plan); err != nil {
		return nil, err
	}
	i := slices.IndexFunc(job.Beds, func(b *quotes.Bed) bool { return strings.EqualFold(b.Name, bed) })
	if i < 0 {
		var names []string
		for _, b := range job.Beds {
			names = append(names, b.Name)
		}
		return nil, unknown("bed", bed, names)
	}
	j := *job
	j.Settings.Budget, j.Settings.TimeLimit = nil, 0
	more := *job.Beds[i]
	more.Count = 1
	more.Name += " (one more)"
	if more.Table != "" {
		table := more.Table
		more.Table = ""
		if more.Limit != nil {
			all := 0.0
			for _, b := range job.Beds {
				if b.Table == table {
					all += float64(b.Count) * litresOf(b)
				}
			}
			v := *more.Limit * units.Kilograms(litresOf(&more)/all)
			more.Limit = &v
		}
	}
	j.Beds = append(slices.Clone(job.Beds), &more)
	out, err := solveAll(ctx, []change{{"one more bed like " + job.Beds[i].Name, &j}}, plan, opt, job)
	if err != nil {
		return nil, err
	}
	return &out[0], nil
}

func litresOf(b *quotes.Bed) float64 {
	return max(0, float64(b.LayerLitres(quotes.Top))) + max(0, float64(b.LayerLitres(quotes.Base)))
}
