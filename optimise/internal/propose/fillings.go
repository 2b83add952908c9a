package propose

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/ways"
	"mediabuy/optimise/mip"
)

// fillings says of one site, whose layers are filled by one quote each, what a purchase
// must place so that all can be filled, whatever lies in which.
//
// A filling gives every layer a quote within all limits; a[f,k] is the litres it takes of
// class k. Where a purchase that places S[k] is enough, some filling has a[f,k] ≤ S[k] for
// every k. So for all weights g ≥ 0
//
//	Σ_k g[k]·S[k] ≥ h(g) = min over fillings f of Σ_k g[k]·a[f,k]
//
// and h(g) is found table by table, as limits tie no others. The weights 0 ≤ g ≤ 1 whose row
// S breaks most are found by a linear program whose rows are fillings, of which one is added
// after the other: that which costs least by g (cutting planes: Kelley, Journal of SIAM 8,
// 1960; from memory). Where S breaks no row, the prices of its rows say of which fillings in
// which parts it is enough for the mean.
type fillings struct {
	*Mixer
	classes []int // of the site
	at      []int // class → its place in classes
	tables  []table
	litres  float64 // of all layers
	met     []filled
	parts   []float64 // of each in the mean that comes nearest to the purchase last asked about

	lp    *lpsolve.Problem
	least int   // column of h
	cols  []int // of g
	res   lpsolve.Result
}

// filled is a filling that was met: for each table and suit the index of its class.
type filled [][]int

// table is suits that limits tie together, or one that none does.
type table struct {
	suits []int
	*ways.Table
}

// S must break a row by rowBroken of all litres for it to be told of; mostFillings are
// added at a time.
const (
	rowBroken    = 1e-6
	mostFillings = 200
)

// newFillings readies site s; it is for the caller to close.
func newFillings(m *Mixer, s int) (*fillings, error) {
	f := &fillings{Mixer: m, at: slices.Repeat([]int{-1}, len(m.p.In.Classes))}
	for k, cl := range m.p.In.Classes {
		if cl.Site == s && m.itemOf[k] >= 0 {
			f.at[k] = len(f.classes)
			f.classes = append(f.classes, k)
		}
	}
	for _, t := range m.ties {
		if m.p.In.Suits[t.suits[0]].Site == s {
			f.tables = append(f.tables, f.table(t))
		}
	}
	var err error
	if f.lp, err = lpsolve.New(); err != nil {
		return nil, err
	}
	f.least, err = f.lp.AddColumn("least", -1, 0, 1, nil, nil)
	for _, k := range f.classes {
		if err == nil {
			var col int
			col, err = f.lp.AddColumn(fmt.Sprintf("g/%d", k), 0, 0, 1, nil, nil)
			f.cols = append(f.cols, col)
		}
	}
	if err != nil {
		f.lp.Close()
		return nil, err
	}
	return f, nil
}

// table is the choices for what is tied together. Several layers in one suit are let off
// their limits, which only lets more fillings in.
func (f *fillings) table(t tie) table {
	limits := t.limits
	if slices.ContainsFunc(t.suits, func(u int) bool { return f.suits[u].layers != 1 }) {
		limits = nil
	}
	var most []float64
	for _, un := range limits {
		most = append(most, f.units[un].most)
	}
	var layers []ways.Layer
	for _, u := range t.suits {
		su := &f.suits[u]
		l := ways.Layer{Litres: su.litres * float64(su.layers)}
		f.litres += l.Litres
		for j, k := range su.classes {
			c := ways.Choice{Of: f.at[k], Uses: make([]float64, len(limits))}
			for i, un := range limits {
				if at := slices.Index(su.units, un); at >= 0 {
					c.Uses[i] = su.uses[j][at]
				}
			}
			l.Choices = append(l.Choices, c)
		}
		layers = append(layers, l)
	}
	return table{t.suits, ways.NewTable(layers, most)}
}

// placed is the litres of each class that x buys.
func (f *fillings) placed(x []float64) []float64 {
	var out []float64
	for _, k := range f.classes {
		it := &f.Items[f.itemOf[k]]
		out = append(out, x[it.col]*it.placed)
	}
	return out
}

// row is a row that x breaks; false where none is found.
func (f *fillings) row(ctx context.Context, x []float64) (mip.Row, bool, error) {
	s := f.placed(x)
	for i, col := range f.cols {
		if err := f.lp.SetCost(col, s[i]/f.litres); err != nil {
			return mip.Row{}, false, err
		}
	}
	if len(f.met) == 0 {
		if _, ok, err := f.meet(slices.Repeat([]float64{1}, len(f.cols))); !ok || err != nil {
			return mip.Row{}, false, err
		}
	}
	for range mostFillings {
		if err := f.lp.SolveSteady(ctx, lpsolve.Options{}, &f.res); err != nil {
			return mip.Row{}, false, err
		}
		if f.res.Status != lpsolve.Optimal {
			return mip.Row{}, false, nil
		}
		var err error
		if f.parts, err = f.lp.Duals(f.parts); err != nil {
			return mip.Row{}, false, err
		}
		most := -f.res.Objective
		if most < rowBroken {
			return mip.Row{}, false, nil
		}
		g := make([]float64, len(f.cols))
		sum := 0.0
		for i, col := range f.cols {
			if v := f.res.X[col]; v > 1e-9 {
				g[i] = v
				sum += v * s[i]
			}
		}
		h, ok, err := f.meet(g)
		if !ok || err != nil {
			return mip.Row{}, false, err
		}
		if (h-sum)/f.litres > max(rowBroken, most/2) {
			return f.rowOf(g, h), true, nil
		}
	}
	return mip.Row{}, false, nil
}

// rowOf is the row of g, each litre a share of all. The right side gives way by a hair, so
// that noise cannot cut off an answer.
func (f *fillings) rowOf(g []float64, h float64) mip.Row {
	r := mip.Row{Name: "fillings", Rel: mip.AtLeast, RHS: h / f.litres * (1 - 1e-9)}
	for i, k := range f.classes {
		if g[i] > 0 {
			it := &f.Items[f.itemOf[k]]
			r.Terms = append(r.Terms, mip.Term{Col: it.col, Coef: g[i] * it.placed / f.litres})
		}
	}
	return r
}

// meet finds the filling that costs least by g, adds it and gives its cost; false where a
// table cannot be filled.
func (f *fillings) meet(g []float64) (h float64, ok bool, err error) {
	fl, litres := filled{}, make([]float64, len(f.classes))
	for i := range f.tables {
		t := &f.tables[i]
		pick, cost, ok := t.Cheapest(g)
		if !ok {
			return 0, false, nil
		}
		h += cost
		for a, u := range t.suits {
			su := &f.suits[u]
			litres[f.at[su.classes[pick[a]]]] += su.litres * float64(su.layers)
		}
		fl = append(fl, pick)
	}
	f.met = append(f.met, fl)
	cols, coefs := []int{f.least}, []float64{-1}
	for i, l := range litres {
		if l > 0 {
			cols, coefs = append(cols, f.cols[i]), append(coefs, l/f.litres)
		}
	}
	_, err = f.lp.AddRow("filling", lpsolve.AtLeast, 0, cols, coefs)
	return h, true, err
}

// mean gives each table, the largest first, the filling that keeps what is taken of each
// class nearest to the mean whose parts the linear program last found, into s.
func (f *fillings) mean(s *mixing) {
	type share struct {
		part float64
		of   filled
	}
	var shares []share
	sum := 0.0
	for i, fl := range f.met {
		if i < len(f.parts) && f.parts[i] > 1e-9 {
			shares = append(shares, share{f.parts[i], fl})
			sum += f.parts[i]
		}
	}
	if len(shares) == 0 {
		shares, sum = []share{{1, f.met[len(f.met)-1]}}, 1
	}
	order := make([]int, len(f.tables))
	size := make([]float64, len(f.tables))
	for i, t := range f.tables {
		order[i] = i
		for _, u := range t.suits {
			size[i] += f.suits[u].litres * float64(f.suits[u].layers)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(size[b], size[a]) })
	over := make([]float64, len(f.classes)) // litres taken beyond the mean
	add := func(i int, fl filled, times float64) {
		for a, u := range f.tables[i].suits {
			su := &f.suits[u]
			over[f.at[su.classes[fl[i][a]]]] += times * su.litres * float64(su.layers)
		}
	}
	square := func() (sum float64) {
		for _, v := range over {
			sum += v * v
		}
		return sum
	}
	for _, i := range order {
		for _, sh := range shares {
			add(i, sh.of, -sh.part/sum)
		}
		best, least := 0, math.Inf(1)
		for j, sh := range shares {
			add(i, sh.of, 1)
			if v := square(); v < least-1e-9 {
				best, least = j, v
			}
			add(i, sh.of, -1)
		}
		add(i, shares[best].of, 1)
		for a, u := range f.tables[i].suits {
			f.put(s, u, shares[best].of[i][a], f.suits[u].layers)
		}
	}
}

// buying is the model without what lies where.
func buying(p *model.Program) *mip.Model {
	out := p.Lean()
	first := len(out.Cols) - len(p.V) // placing adds them last
	out.Cols, out.Parts = out.Cols[:first], out.Parts[:first]
	rows := out.Rows
	out.Rows = nil
	for _, r := range rows {
		if !slices.ContainsFunc(r.Terms, func(t mip.Term) bool { return t.Col >= first }) {
			out.Rows = append(out.Rows, r)
		}
	}
	return out
}
