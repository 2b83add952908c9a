package search

import (
	"mediabuy/optimise/mip"
)

// partNodes bounds the linear programs that one part may take to improve.
const partNodes = 400

// improveParts solves the model again for one part after another, the others
// being as in the best answer, for as long as that improves it: with hundreds of
// whole columns a part by itself is easy where the whole is hard.
func (t *tree) improveParts() error {
	parts := 0
	for _, p := range t.m.Parts {
		parts = max(parts, p+1)
	}
	if parts < 2 || t.best == nil {
		return nil
	}
	sub := *t.m
	sub.Parts = nil
	for stale, b := 0, 0; stale < parts; b = (b + 1) % parts {
		if err := t.limits(); err != nil {
			return err
		}
		sub.Cols = append(sub.Cols[:0:0], t.m.Cols...)
		for j := range sub.Cols {
			lo, hi := t.rootLo[j], t.rootHi[j]
			if p := t.m.Parts[j]; p >= 0 && p != b {
				lo, hi = t.best[j], t.best[j]
			}
			sub.Cols[j].Lower, sub.Cols[j].Upper = min(lo, t.best[j]), max(hi, t.best[j])
		}
		opt := mip.Options{Gap: t.gap, Start: t.best, Lazy: t.opt.Lazy, TimeLimit: t.timeLeft()}
		ans, err := Solver{maxNodes: partNodes}.Solve(t.ctx, &sub, opt)
		if err != nil {
			return err
		}
		t.nodes += ans.Nodes
		stale++
		if ans.X != nil && ans.Objective < t.bestValue-t.gap {
			t.take(ans.X)
			stale = 1
		}
	}
	return nil
}
