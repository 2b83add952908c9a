package ways

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// Ways gives rows that every answer of a model satisfies in which one quote fills each
// layer, and relaxations often do not: those put by as [model.Program.Tight], and those
// of the ways in which the layers of a unit can be filled.
type Ways struct {
	ctx   context.Context
	tight []mip.Row
	hulls []*hull
}

// New readies the rows of p; it is for the caller to close.
func New(ctx context.Context, p *model.Program) (*Ways, error) {
	w := &Ways{ctx: ctx, tight: p.Tight}
	if p.In.Job.Settings.LayerMix != quotes.OneMix {
		return w, nil
	}
	for _, un := range p.In.Units {
		h := newHull(p, un)
		if h == nil {
			continue
		}
		w.hulls = append(w.hulls, h)
		if err := h.prepare(); err != nil {
			w.Close()
			return nil, fmt.Errorf("preparing the ways to fill %q: %w", un.Name, err)
		}
	}
	return w, nil
}

// Close frees what the linear solver holds.
func (w *Ways) Close() {
	for _, h := range w.hulls {
		if h.lp != nil {
			h.lp.Close()
		}
	}
}

// Broken is rows that x breaks; see [mip.Options].
func (w *Ways) Broken(x []float64) ([]mip.Row, error) {
	var out []mip.Row
	for _, r := range w.tight {
		sum := -r.RHS
		for _, t := range r.Terms {
			sum += t.Coef * x[t.Col]
		}
		if sum < -leastBroken {
			out = append(out, r)
		}
	}
	for _, h := range w.hulls {
		r, ok, err := h.row(w.ctx, x)
		if err != nil {
			return nil, fmt.Errorf("finding ways to fill %q: %w", h.name, err)
		}
		if ok {
			out = append(out, r)
		}
	}
	return out, nil
}

// hull gives rows that every way to fill the layers of a unit satisfies. Half of a heavy
// stone and half of a light one is no way, and yet lets a relaxation off at the price of
// the mean.
//
// With y[l,k] the part of layer l that quotes of kind k fill, the row
// Σ c[l,k]·y[l,k] ≥ min {Σ_l c[l,p(l)] : p a way}, 0 ≤ c ≤ 1, that y breaks most is found
// by a linear program whose rows are ways, of which one is added after the other: that
// which costs least by c. Such rows are known as Fenchel cuts (E. A. Boyd, Operations
// Research 42, 1994; from memory).
type hull struct {
	name   string
	layers [][]kind
	most   []float64 // by limit
	lp     *lpsolve.Problem
	least  int     // column of the least a way costs
	c      [][]int // column by layer and kind
	res    lpsolve.Result
}

// kind is the quotes that count alike in a layer.
type kind struct {
	uses []float64 // of each limit
	cols []int     // of v, each 0 or 1
}

// A row must be broken by leastBroken of a layer to be worth adding. What a kind costs
// that y has none of is lightly more than nothing, so that its c is no higher than it has
// to be.
const (
	leastBroken = 1e-3
	lightly     = 1e-5
)

// mostWays is how many fillings of the first layers are kept in mind, and mostLooks how
// many ways are added for one x; the next x goes on from there.
const (
	mostWays  = 4000
	mostLooks = 40
)

// newHull is the unit's layers and kinds; nil where it has nothing to tell.
func newHull(p *model.Program, un model.Unit) *hull {
	h := &hull{name: un.Name}
	rows := p.UnitRows(un)
	uses := map[int][]float64{} // by column
	for i, r := range rows {
		h.most = append(h.most, r.RHS*(1+1e-9))
		for _, t := range r.Terms {
			if uses[t.Col] == nil {
				uses[t.Col] = make([]float64, len(rows))
			}
			uses[t.Col][i] += t.Coef
		}
	}
	seen := map[int]bool{} // suits
	for _, t := range un.Slots {
		u := p.In.Slots[t].Suit
		if seen[u] || p.In.Suits[u].Layers != 1 {
			return nil
		}
		seen[u] = true
		var kinds []kind
		for _, k := range p.In.Suits[u].Classes {
			v, ok := p.V[[2]int{k, u}]
			if !ok {
				continue
			}
			use := uses[v]
			if use == nil {
				use = make([]float64, len(rows))
			}
			i := slices.IndexFunc(kinds, func(o kind) bool { return slices.Equal(o.uses, use) })
			if i < 0 {
				i = len(kinds)
				kinds = append(kinds, kind{uses: use})
			}
			kinds[i].cols = append(kinds[i].cols, v)
		}
		if len(kinds) == 0 {
			return nil
		}
		h.layers = append(h.layers, kinds)
	}
	if len(h.layers) < 2 { // a limit on one layer leaves its columns whole or at 0 by itself
		return nil
	}
	return h
}

// prepare writes down the linear program without its rows.
func (h *hull) prepare() error {
	lp, err := lpsolve.New()
	if err != nil {
		return err
	}
	h.lp = lp
	if h.least, err = lp.AddColumn("least", -1, 0, float64(len(h.layers)), nil, nil); err != nil {
		return err
	}
	for l, kinds := range h.layers {
		var cols []int
		for k := range kinds {
			col, err := lp.AddColumn(fmt.Sprintf("c/%d/%d", l, k), 0, 0, 1, nil, nil)
			if err != nil {
				return err
			}
			cols = append(cols, col)
		}
		h.c = append(h.c, cols)
	}
	return nil
}

// row is a row that x breaks; false where none is found.
func (h *hull) row(ctx context.Context, x []float64) (mip.Row, bool, error) {
	y, whole := h.parts(x)
	if whole {
		return mip.Row{}, false, nil
	}
	for l := range h.layers {
		for k, col := range h.c[l] {
			if err := h.lp.SetCost(col, y[l][k]+lightly); err != nil {
				return mip.Row{}, false, err
			}
		}
	}
	for range mostLooks {
		if err := h.lp.SolveSteady(ctx, lpsolve.Options{}, &h.res); err != nil {
			return mip.Row{}, false, err
		}
		most := -h.res.Objective // by which y may break a row
		if h.res.Status != lpsolve.Optimal || most < leastBroken {
			return mip.Row{}, false, nil
		}
		c := h.costs()
		way, least, ok := h.cheapest(c)
		if !ok {
			return mip.Row{}, false, nil
		}
		if broken := least - cost(c, y); broken > max(leastBroken, most/2) {
			return h.rowOf(c, least), true, nil
		}
		cols, coefs := []int{h.least}, []float64{-1}
		for l, k := range way {
			cols, coefs = append(cols, h.c[l][k]), append(coefs, 1)
		}
		if _, err := h.lp.AddRow("way", lpsolve.AtLeast, 0, cols, coefs); err != nil {
			return mip.Row{}, false, err
		}
	}
	return mip.Row{}, false, nil
}

// parts is how much of each layer each kind fills in x, and whether all is whole.
func (h *hull) parts(x []float64) (y [][]float64, whole bool) {
	whole = true
	for _, kinds := range h.layers {
		of := make([]float64, len(kinds))
		for k, kd := range kinds {
			for _, col := range kd.cols {
				of[k] += x[col]
			}
			whole = whole && math.Abs(of[k]-math.Round(of[k])) < leastBroken/10
		}
		y = append(y, of)
	}
	return y, whole
}

// costs is the c of the linear program now solved.
func (h *hull) costs() [][]float64 {
	var out [][]float64
	for _, cols := range h.c {
		var of []float64
		for _, col := range cols {
			v := h.res.X[col]
			if v < 1e-9 {
				v = 0
			}
			of = append(of, v)
		}
		out = append(out, of)
	}
	return out
}

func cost(c, y [][]float64) (sum float64) {
	for l := range c {
		for k, v := range c[l] {
			sum += v * y[l][k]
		}
	}
	return sum
}

// rowOf says of the model's columns that they cost least at the least. The right side
// gives way by a hair, so that noise cannot cut off an answer.
func (h *hull) rowOf(c [][]float64, least float64) mip.Row {
	r := mip.Row{Name: "ways/" + h.name, Rel: mip.AtLeast, RHS: least - 1e-9*float64(len(h.layers))}
	for l, kinds := range h.layers {
		for k, kd := range kinds {
			if c[l][k] == 0 {
				continue
			}
			for _, col := range kd.cols {
				r.Terms = append(r.Terms, mip.Term{Col: col, Coef: c[l][k]})
			}
		}
	}
	return r
}

// filling is a way to fill the first layers.
type filling struct {
	used []float64 // of each limit
	cost float64
	way  []int // kind by layer
}

// cheapest is the way, within all limits, that costs least by c; false where there is
// none, or too many to look at. Layer by layer, a filling is kept unless another costs
// and uses no more.
func (h *hull) cheapest(c [][]float64) (way []int, least float64, ok bool) {
	rest := leastUses(len(h.layers), len(h.most), func(l int) (out [][]float64) {
		for _, kd := range h.layers[l] {
			out = append(out, kd.uses)
		}
		return out
	})
	now := []filling{{used: make([]float64, len(h.most))}}
	for l, kinds := range h.layers {
		var next []filling
		for _, f := range now {
			for k, kd := range kinds {
				used := slices.Clone(f.used)
				within := true
				for i := range used {
					used[i] += kd.uses[i]
					within = within && used[i]+rest[l+1][i] <= h.most[i]
				}
				if within {
					next = append(next, filling{used, f.cost + c[l][k], append(slices.Clip(f.way), k)})
				}
			}
		}
		slices.SortStableFunc(next, func(a, b filling) int {
			return cmp.Or(cmp.Compare(a.cost, b.cost), slices.Compare(a.used, b.used))
		})
		now = nil
		for _, f := range next {
			if !slices.ContainsFunc(now, func(o filling) bool { return noMore(o.used, f.used) }) {
				now = append(now, f)
			}
			if len(now) > mostWays {
				return nil, 0, false
			}
		}
	}
	if len(now) == 0 {
		return nil, 0, false
	}
	return now[0].way, now[0].cost, true
}

// noMore reports whether a is nowhere above b.
func noMore(a, b []float64) bool {
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}

// leastUses is the least that the layers from each on use of each of so many limits; use is
// what each thing that may fill a layer uses.
func leastUses(layers, limits int, use func(layer int) [][]float64) [][]float64 {
	rest := make([][]float64, layers+1)
	rest[layers] = make([]float64, limits)
	for l := layers - 1; l >= 0; l-- {
		rest[l] = slices.Clone(rest[l+1])
		all := use(l)
		for i := range limits {
			least := math.Inf(1)
			for _, uses := range all {
				least = min(least, uses[i])
			}
			rest[l][i] += least
		}
	}
	return rest
}
