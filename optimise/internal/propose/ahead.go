package propose

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/mip"
	"mediabuy/quotes"
)

// Ahead is what is known of a job before the layers themselves are searched.
type Ahead struct {
	X     []float64 // a purchase with where all lies; nil for none
	Bound float64   // what no purchase costs less than
}

// How near the purchase the bound has to come, as a share of it, and how many layers may be
// wandered through: of thousands each round takes seconds.
const (
	nearEnough  = 2e-5
	mostWalkers = 600
)

// leastSuits is from how many sorts of layers on looking ahead pays: of 25 beds, some 45, it
// proved the purchase of four jobs in 22 at once and took the others a third longer.
const leastSuits = 90

// CanLookAhead reports whether a model is one to look ahead in: one quote fills each of many
// layers, none has to be filled as another is, and none of what is on offer is there already.
func CanLookAhead(p *model.Program) bool {
	for _, cl := range p.In.Classes {
		if len(cl.Quotes) > 1 {
			return false
		}
	}
	return len(p.In.Suits) >= leastSuits && p.In.Job.Settings.LayerMix == quotes.OneMix && !p.In.Same && len(p.Lean().Cols) == len(p.Cols)
}

// LookAhead searches the purchase alone, held against rows of fillings, and lays layers with
// what that comes to. Which layers a quote fills is then left to chance, so its bound is below
// the truth where a few layers take whole packs each, and hardly where there are many.
// It stops at the time until, unless that is zero.
func (m *Mixer) LookAhead(ctx context.Context, solver mip.Solver, until time.Time) (Ahead, error) {
	out := Ahead{Bound: math.Inf(-1)}
	var sites []*fillings
	defer func() {
		for _, f := range sites {
			f.lp.Close()
		}
	}()
	for s, name := range m.p.In.Sites {
		f, err := newFillings(m, s)
		if err != nil {
			return out, fmt.Errorf("preparing the fillings of site %q: %w", name, err)
		}
		if sites = append(sites, f); f.litres == 0 {
			sites = sites[:len(sites)-1]
			f.lp.Close()
		}
	}
	cheapest := math.Inf(1)
	keep := func(x []float64) bool {
		if v := m.p.Value(x); v < cheapest && len(m.p.Check(x, 1e-6)) == 0 {
			out.X, cheapest = x, v
			return true
		}
		return false
	}
	if err := m.layAtPrices(sites, keep); err != nil {
		return out, err
	}
	for i := 0; i < len(m.Items) && out.X == nil && ctx.Err() == nil; i++ {
		if s := m.mostly(i); s != nil && m.mend(s) {
			if n, cost := m.buy(s); !math.IsInf(cost, 1) {
				keep(m.answer(s, n))
			}
		}
	}
	lazy := func(x []float64) ([]mip.Row, error) {
		var rows []mip.Row
		for _, f := range sites {
			if !until.IsZero() && time.Now().After(until) {
				return nil, mip.ErrLimit
			}
			r, ok, err := f.row(ctx, x)
			if err != nil {
				return nil, err
			}
			if ok {
				rows = append(rows, r)
			}
		}
		return rows, nil
	}
	opt := mip.Options{Lazy: lazy, Propose: func(x []float64, _ float64, _ bool, _ func([]float64) bool) error {
		return m.layMean(sites, keep)
	}}
	if !math.IsInf(cheapest, 1) {
		opt.Gap = max(mip.DefaultGap, nearEnough*cheapest)
	}
	if !until.IsZero() {
		opt.TimeLimit = max(time.Millisecond, time.Until(until))
	}
	ans, err := solver.Solve(ctx, buying(m.p), opt)
	if err != nil {
		return out, err
	}
	out.Bound = ans.Bound
	if ans.X != nil {
		if _, err := lazy(ans.X); err != nil && !errors.Is(err, mip.ErrLimit) {
			return out, err
		}
	}
	return out, m.layMean(sites, keep)
}

// Prices are raised by dearer where a filling takes more than is in stock, up to mostRaises times.
const (
	dearer     = 1.3
	mostRaises = 40
)

// layAtPrices lays each layer by the quote that costs least by the litre, and where that asks for more of
// one than there is, once more as if it were dearer, until it finds a purchase: in thousands of
// layers that is at hand long before anything is proven.
func (m *Mixer) layAtPrices(sites []*fillings, keep func([]float64) bool) error {
	rate := make([]float64, len(m.Items))
	for i := range m.Items {
		it := &m.Items[i]
		rate[i] = max((it.price[len(it.price)-1]+it.other)/it.placed, 1e-9)
	}
	for range mostRaises {
		if err := m.ctx.Err(); err != nil {
			return err
		}
		most := slices.Max(append([]float64{1e-9}, rate...))
		s := m.empty()
		for _, f := range sites {
			g := make([]float64, len(f.classes))
			for i, k := range f.classes {
				g[i] = rate[m.itemOf[k]] / most
			}
			if _, ok, err := f.meet(g); !ok || err != nil {
				return err
			}
			f.parts = nil
			f.mean(s)
		}
		if m.mend(s) {
			if n, cost := m.buy(s); !math.IsInf(cost, 1) && keep(m.answer(s, n)) {
				return nil
			}
		}
		for i := range m.Items {
			if it := &m.Items[i]; s.litres[i] > float64(min(it.most, it.stock))*it.placed {
				rate[i] *= dearer
			}
		}
	}
	return nil
}

// layMean lays layers by what the sites were last asked about, betters that where they are
// not too many, and offers it.
func (m *Mixer) layMean(sites []*fillings, keep func([]float64) bool) error {
	s := m.empty()
	for _, f := range sites {
		if len(f.met) == 0 {
			return nil
		}
		f.mean(s)
	}
	if !m.mend(s) {
		return nil
	}
	n, cost := m.buy(s)
	w := worked{s, n, cost}
	if math.IsInf(cost, 1) {
		return nil
	}
	if keep(m.answer(w.mixing, w.n)); len(m.suits) <= mostWalkers {
		m.budget = thoroughWork / 20
		w = m.improve(w)
		keep(m.answer(w.mixing, w.n))
		if m.kept == nil || w.cost < m.kept.cost {
			m.kept = &w
		}
	}
	return m.ctx.Err()
}
