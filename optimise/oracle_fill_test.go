package optimise

import (
	"context"
	"slices"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/quotes"
)

// fills reports whether the packs can fill every layer within the weights and
// shares: a linear program straight from the beds.
func (o *oracle) fills(t require.TestingT, steps []int) bool {
	lp, err := lpsolve.New()
	require.NoError(t, err)
	defer lp.Close()
	row := func(rel lpsolve.Relation, rhs float64, cols []int, coef []float64) {
		if len(cols) == 0 { // nothing to place: the row holds or it does not
			cols, coef = []int{0}, []float64{0}
		}
		_, err := lp.AddRow("", rel, rhs, cols, coef)
		require.NoError(t, err)
	}
	_, err = lp.AddColumn("none", 0, 0, 0, nil, nil)
	require.NoError(t, err)
	type place struct {
		col, quote, site, bed int
		below, litres         float64
	}
	var all []place
	type demand struct {
		litres float64
		cols   []int
		layer  quotes.Layer
		of     map[int]int // quote → column
	}
	var demands []demand
	whole := make([]float64, len(o.job.Beds))
	for b, bed := range o.job.Beds {
		for _, l := range []quotes.Layer{quotes.Top, quotes.Base} {
			litres := float64(bed.LayerLitres(l)) * float64(bed.Count)
			if litres <= 0 {
				continue
			}
			whole[b] += litres
			d := demand{litres: litres, layer: l, of: map[int]int{}}
			for q := range o.job.Quotes {
				if !o.fit.OK(q, b, l) {
					continue
				}
				col, err := lp.AddColumn("", 0, 0, litres, nil, nil)
				require.NoError(t, err)
				d.cols = append(d.cols, col)
				d.of[q] = col
				all = append(all, place{col, q, slices.Index(o.sites, bed.Site), b, bed.Below(l), litres})
			}
			demands = append(demands, d)
		}
	}
	sum := func(of func(place) float64) (cols []int, coef []float64) {
		for _, p := range all {
			if c := of(p); c != 0 {
				cols, coef = append(cols, p.col), append(coef, c)
			}
		}
		return cols, coef
	}
	if o.job.Settings.SameMix {
		// Of each quote the same share in that layer of any two beds; none of it where
		// one of them may not hold it.
		for i, d := range demands {
			for _, e := range demands[:i] {
				for q := range o.job.Quotes {
					var cols []int
					var coef []float64
					if c, ok := d.of[q]; ok {
						cols, coef = append(cols, c), append(coef, 1/d.litres)
					}
					if c, ok := e.of[q]; ok {
						cols, coef = append(cols, c), append(coef, -1/e.litres)
					}
					if d.layer == e.layer && len(cols) > 0 {
						row(lpsolve.Equal, 0, cols, coef)
					}
				}
			}
		}
	}
	one, share := o.job.Settings.LayerMix == quotes.OneMix, o.job.Settings.LeastShare
	var used []int // columns that are 0 or 1: whether a quote fills some of a layer
	for _, d := range demands {
		row(lpsolve.Equal, d.litres, d.cols, slices.Repeat([]float64{1}, len(d.cols)))
		if !one && share == 0 {
			continue
		}
		// v = litres·r where one quote fills the layer, else share·litres·r ≤ v ≤ litres·r.
		least := share
		if one {
			least = 1
		}
		for _, v := range d.cols {
			r, err := lp.AddColumn("", 0, 0, 1, nil, nil)
			require.NoError(t, err)
			used = append(used, r)
			row(lpsolve.AtMost, 0, []int{v, r}, []float64{1, -d.litres})
			row(lpsolve.AtLeast, 0, []int{v, r}, []float64{1, -d.litres * least})
		}
	}
	for k, key := range o.keys {
		q := o.job.Quotes[key.quote]
		yield := float64(q.PackLitres) * (1 - q.RinseLoss.Usual) * (1 - q.Medium.Settle.Usual) / (1 + o.job.Settings.Extra.Float())
		cols, coef := sum(func(p place) float64 { return b2f(p.quote == key.quote && p.site == key.site) })
		row(lpsolve.AtMost, o.packs(steps, k)*yield+1e-7, cols, coef)
	}
	weigh := func(p place) float64 {
		q := o.job.Quotes[p.quote]
		dry, held := q.Medium.DryDensity.High, q.Medium.HeldWater.High
		if o.job.Settings.Weights == quotes.UsualWeights {
			dry, held = q.Medium.DryDensity.Usual, q.Medium.HeldWater.Usual
		}
		if q.Density > 0 && (o.job.Settings.Weights == quotes.UsualWeights || q.Density > dry) {
			dry = q.Density
		}
		return float64(dry) + held + p.below*q.Medium.Voids.Usual*0.998
	}
	tables := map[string]bool{}
	for b, bed := range o.job.Beds {
		if bed.Limit != nil && !tables[bed.Table] {
			limit := float64(*bed.Limit)
			on := func(i int) bool { return i == b }
			if bed.Table == "" {
				limit *= float64(bed.Count)
			} else {
				tables[bed.Table] = true
				on = func(i int) bool { return o.job.Beds[i].Table == bed.Table }
			}
			for i, other := range o.job.Beds {
				if on(i) {
					limit -= float64(other.OwnWeight) * float64(other.Count)
				}
			}
			cols, coef := sum(func(p place) float64 {
				if on(p.bed) {
					return weigh(p)
				}
				return 0
			})
			row(lpsolve.AtMost, limit, cols, coef)
		}
		for _, sh := range bed.MaxShare {
			cols, coef := sum(func(p place) float64 { return b2f(p.bed == b && o.job.Quotes[p.quote].Medium == sh.Medium) })
			row(lpsolve.AtMost, sh.Most*whole[b], cols, coef)
		}
	}
	return fits(t, lp, used)
}

// fits reports whether the program has a solution in which the columns used are each
// 0 or 1: where one without that leaves some between, both are tried.
func fits(t require.TestingT, lp *lpsolve.Problem, used []int) bool {
	var res lpsolve.Result
	require.NoError(t, lp.SolveInto(context.Background(), lpsolve.Options{}, &res))
	require.Contains(t, []lpsolve.Status{lpsolve.Optimal, lpsolve.Infeasible}, res.Status)
	if res.Status == lpsolve.Infeasible {
		return false
	}
	between := slices.IndexFunc(used, func(col int) bool { return res.X[col] > 1e-7 && res.X[col] < 1-1e-7 })
	if between < 0 {
		return true
	}
	for _, v := range []float64{1, 0} {
		require.NoError(t, lp.SetBounds(used[between], v, v))
		if fits(t, lp, used) {
			return true
		}
	}
	require.NoError(t, lp.SetBounds(used[between], 0, 1))
	return false
}
