package search

import (
	"errors"
	"fmt"
	"math"
	"time"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// relax solves the linear relaxation at the ranges now set and returns the bound
// worked out from its row prices. Where it is short of something the bound is at
// or above where nodes are dropped.
func (t *tree) relax() (lpsolve.Status, float64, error) {
	status, bound, err := t.relaxOnce()
	if err == nil && status == lpsolve.Optimal && t.isShort() && bound < t.dropAt() {
		return t.relaxInFull()
	}
	return status, bound, err
}

func (t *tree) relaxOnce() (lpsolve.Status, float64, error) {
	t.nodes++
	if err := t.limits(); err != nil {
		return 0, 0, err
	}
	status, err := t.solve()
	if err != nil {
		return 0, 0, err
	}
	if status != lpsolve.Optimal {
		return status, 0, nil
	}
	if t.duals, err = t.lp.Duals(t.duals); err != nil {
		return 0, 0, err
	}
	t.spread()
	t.y = t.y[:0]
	for i := range t.rows {
		t.y = append(t.y, t.price(i, t.duals))
	}
	return status, t.dualBound(t.y), nil
}

// spread puts the linear program's answer into t.x, settled columns included.
func (t *tree) spread() {
	if t.x == nil {
		t.x = make([]float64, len(t.m.Cols))
	}
	for j, at := range t.colAt {
		if at == settled {
			t.x[j] = t.rootLo[j]
		} else {
			t.x[j] = t.res.X[at]
		}
	}
}

// maxLazyRounds bounds the passes at the root; the rows still missing then are
// found where an answer breaks them.
const maxLazyRounds = 60

// relaxLazily solves the relaxation and adds lazy rows until it breaks none. Where a limit
// ends that, the bound is what it had come to, -Inf for none.
func (t *tree) relaxLazily() (lpsolve.Status, float64, error) {
	last := math.Inf(-1)
	for range maxLazyRounds {
		status, bound, err := t.relax()
		if err != nil {
			return 0, last, err
		}
		if status != lpsolve.Optimal || bound >= t.dropAt() {
			return status, bound, nil
		}
		last = max(last, bound)
		added, err := t.addLazy()
		if err != nil || !added {
			return status, last, err
		}
	}
	status, bound, err := t.relax()
	if err != nil {
		bound = last
	}
	return status, bound, err
}

// lazyTol is how far, as a share of its size, x must break a lazy row for it to
// be added: below that the linear solver holds it for kept and would break it
// again for ever.
const lazyTol = 1e-7

// breaks reports whether x breaks an AtLeast row.
func breaks(r mip.Row, x []float64) bool {
	sum, size := 0.0, max(1, math.Abs(r.RHS))
	for _, t := range r.Terms {
		sum += t.Coef * x[t.Col]
	}
	return r.RHS-sum > lazyTol*size
}

// addLazy adds the lazy rows that the relaxation now solved breaks.
func (t *tree) addLazy() (bool, error) {
	if t.opt.Lazy == nil {
		return false, nil
	}
	rows, err := t.opt.Lazy(t.x)
	if errors.Is(err, mip.ErrLimit) {
		return false, errStop
	}
	if err != nil {
		return false, fmt.Errorf("finding rows: %w", err)
	}
	added := false
	for _, r := range rows {
		if !breaks(r, t.x) {
			continue
		}
		t.lazyRows = append(t.lazyRows, r)
		if err := t.add(r, always); err != nil {
			return false, err
		}
		added = true
	}
	return added, nil
}

func (t *tree) solve() (lpsolve.Status, error) {
	opt := lpsolve.Options{TimeLimit: t.timeLeft()}
	if err := t.lp.SolveSteady(t.ctx, opt, &t.res); err != nil {
		return 0, err
	}
	if t.res.Status == lpsolve.Limit || t.res.Status == lpsolve.Feasible {
		return 0, errStop
	}
	return t.res.Status, nil
}

// timeLeft is what is left of the time limit, at least a moment; 0 without one.
func (t *tree) timeLeft() time.Duration {
	if t.opt.TimeLimit == 0 {
		return 0
	}
	return max(time.Millisecond, t.opt.TimeLimit-time.Since(t.started))
}

// limits stops the search when its time is up, and tells of progress.
func (t *tree) limits() error {
	if err := t.ctx.Err(); err != nil {
		return err
	}
	now := time.Now()
	if t.opt.TimeLimit > 0 && now.Sub(t.started) >= t.opt.TimeLimit || t.maxNodes > 0 && t.nodes > t.maxNodes {
		return errStop
	}
	if t.opt.Progress != nil && now.Sub(t.told) > 250*time.Millisecond {
		t.told = now
		bound := min(t.bestValue, t.floor)
		if len(t.open) > 0 {
			bound = min(bound, t.open[0].bound)
		}
		t.opt.Progress(mip.Progress{Nodes: t.nodes, Best: t.bestValue, Bound: bound})
	}
	return nil
}

// dualBound is b·y + Σ_j min over the column's range of (c_j − A_j·y)·x_j, with a
// y for each of t.rows that fits its sense. It also leaves c − A·y in t.reduced.
func (t *tree) dualBound(y []float64) float64 {
	sum, size := t.m.Constant, math.Abs(t.m.Constant)
	t.reduced = t.reduced[:0]
	for _, c := range t.m.Cols {
		t.reduced = append(t.reduced, c.Cost)
	}
	for i, r := range t.rows {
		v := y[i]
		if v == 0 {
			continue
		}
		sum += v * r.RHS
		size += math.Abs(v * r.RHS)
		for _, term := range r.Terms {
			t.reduced[term.Col] -= v * term.Coef
		}
	}
	for j, d := range t.reduced {
		v := d * t.lo[j]
		if d < 0 {
			v = d * t.hi[j]
		}
		sum += v
		size += math.Abs(v)
	}
	return sum - boundTol*size
}

// price is the price of row i among those of lp, made to fit the sense of the row.
func (t *tree) price(i int, y []float64) float64 {
	if t.rowAt[i] == settled {
		return 0
	}
	return fitting(t.rows[i].Rel, y[t.rowAt[i]])
}

// fitting is the price nearest to y that fits the sense of a row.
func fitting(rel mip.Rel, y float64) float64 {
	switch rel {
	case mip.AtMost:
		return min(y, 0)
	case mip.AtLeast:
		return max(y, 0)
	}
	return y
}

// tightenByCost narrows whole columns whose reduced cost says that moving them
// further would pass the best answer.
func (t *tree) tightenByCost(n *node, bound float64) {
	room := t.dropAt() - bound
	if math.IsInf(room, 1) {
		return
	}
	for j, c := range t.m.Cols {
		if !c.Integer || t.lo[j] == t.hi[j] {
			continue
		}
		d := t.reduced[j]
		lo, hi := t.lo[j], t.hi[j]
		if d > 0 {
			hi = min(hi, math.Floor(lo+room/d+intTol))
		} else if d < 0 {
			lo = max(lo, math.Ceil(hi+room/d-intTol))
		}
		if lo > t.lo[j] || hi < t.hi[j] {
			if lo > hi {
				lo = hi // the node is about to be dropped; keep the range sane
			}
			n.changes = append(n.changes, change{int32(j), lo, hi})
			t.setRange(j, lo, hi)
		}
	}
}
