package search

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/mip"
)

// twoSites is a model of two parts that share a column: each site needs 7 of
// boxes of 3 at 5 and of 2 at 4, and all boxes of 3 together need a shared 2.
//
// One site by itself: 3+2+2 costs 5+4+4 = 13; 3+3+2 costs 14; 2·4 costs 16. Without
// boxes of 3: 16 each, 32 in all. With them: 13 + 13 + 2 = 28.
func twoSites() *mip.Model {
	m := &mip.Model{Name: "two sites"}
	shared := m.AddColumn(mip.Column{Name: "shared", Cost: 2, Upper: 1, Integer: true})
	m.Parts = []int{-1}
	for part := range 2 {
		three := m.AddColumn(mip.Column{Name: "three", Cost: 5, Upper: 3, Integer: true})
		two := m.AddColumn(mip.Column{Name: "two", Cost: 4, Upper: 4, Integer: true})
		m.Parts = append(m.Parts, part, part)
		m.AddRow(mip.Row{Name: "need", Rel: mip.AtLeast, RHS: 7, Terms: []mip.Term{{Col: three, Coef: 3}, {Col: two, Coef: 2}}})
		m.AddRow(mip.Row{Name: "share", Rel: mip.AtMost, Terms: []mip.Term{{Col: three, Coef: 1}, {Col: shared, Coef: -3}}})
	}
	return m
}

// From the answer without boxes of 3, the first part finds that it is worth the
// shared 2 (13 + 2 + 16 = 31), and then the second follows (28).
func TestImprovePartsReachesTheBest(t *testing.T) {
	m := twoSites()
	tr := &tree{ctx: context.Background(), m: m, gap: mip.DefaultGap, bestValue: math.Inf(1), cutOff: math.Inf(1)}
	require.NoError(t, tr.prepare(Solver{}))
	defer tr.lp.Close()
	tr.take([]float64{0, 0, 4, 0, 4})
	require.Equal(t, 32.0, tr.bestValue)
	require.NoError(t, tr.improveParts(tr.best))
	require.Equal(t, 28.0, tr.bestValue)
	require.Equal(t, []float64{1, 1, 2, 1, 2}, tr.best)
}

// A search that stops at its bound of linear programs still says what is known.
func TestMaxNodesStops(t *testing.T) {
	ans, err := Solver{maxNodes: 1}.Solve(context.Background(), twoSites(), mip.Options{Start: []float64{0, 0, 4, 0, 4}})
	require.NoError(t, err)
	require.Contains(t, []mip.Status{mip.Feasible, mip.Optimal}, ans.Status)
	require.LessOrEqual(t, ans.Bound, 28.0)
}

// The rows a search adds are its own: a model whose slice of rows has room to
// spare is not written over.
func TestRowsOfTheModelAreLeftAlone(t *testing.T) {
	m := twoSites()
	room := append(make([]mip.Row, 0, 64), m.Rows...)
	m.Rows = room
	_, err := Solver{}.Solve(context.Background(), m, mip.Options{})
	require.NoError(t, err)
	for _, r := range room[len(room):cap(room)] {
		require.Empty(t, r.Name)
	}
}

// With most = 10 million a hair of the gate, 1e-7, carries a whole bag, and the
// relaxation's answer counts as whole though it is not: bag 1, gate 1e-7. The
// true answer pays for the gate: 1 + 5 = 6.
func TestAHairOfAGateIsNotWhole(t *testing.T) {
	m := &mip.Model{Name: "hair"}
	bag := m.AddColumn(mip.Column{Name: "bag", Cost: 1, Lower: 1, Upper: 1e7, Integer: true})
	gate := m.AddColumn(mip.Column{Name: "gate", Cost: 5, Upper: 1, Integer: true})
	m.AddRow(mip.Row{Name: "gate", Rel: mip.AtMost, Terms: []mip.Term{{Col: bag, Coef: 1}, {Col: gate, Coef: -1e7}}})
	ans, err := Solver{NoCuts: true}.Solve(context.Background(), m, mip.Options{})
	require.NoError(t, err)
	require.Equal(t, mip.Optimal, ans.Status)
	require.Equal(t, 6.0, ans.Objective)
}

// blocks draws a model in two or three parts: each has a need, whole columns of its
// own and one continuous, and all use shared columns that make the others cheaper
// or are limited.
func blocks(t *rapid.T) *mip.Model {
	num := func(name string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, name)) }
	m := &mip.Model{Name: "blocks"}
	var shared []int
	for k := range rapid.IntRange(1, 2).Draw(t, "shared") {
		shared = append(shared, m.AddColumn(mip.Column{Name: fmt.Sprintf("shared%d", k), Cost: num("fee", 1, 12), Upper: 1, Integer: true}))
		m.Parts = append(m.Parts, -1)
	}
	pool := mip.Row{Name: "pool", Rel: mip.AtMost, RHS: num("stock", 2, 9)}
	for b := range rapid.IntRange(2, 3).Draw(t, "parts") {
		need := mip.Row{Name: fmt.Sprintf("need%d", b), Rel: mip.AtLeast, RHS: num("need", 3, 14)}
		for k, cols := 0, rapid.IntRange(2, 3).Draw(t, "columns"); k <= cols; k++ {
			c := mip.Column{Name: fmt.Sprintf("n%d.%d", b, k), Cost: num("cost", 1, 20) / 2, Upper: num("most", 1, 3), Integer: true}
			if k == cols {
				c = mip.Column{Name: fmt.Sprintf("short%d", b), Cost: num("penalty", 4, 9), Upper: 20}
			}
			j := m.AddColumn(c)
			m.Parts = append(m.Parts, b)
			per := num("per", 1, 5)
			need.Terms = append(need.Terms, mip.Term{Col: j, Coef: per})
			if c.Integer && k == 0 {
				m.AddRow(mip.Row{Name: "gate", Rel: mip.AtMost, Terms: []mip.Term{{Col: j, Coef: 1}, {Col: shared[b%len(shared)], Coef: -c.Upper}}})
			}
			if c.Integer && k == 1 {
				pool.Terms = append(pool.Terms, mip.Term{Col: j, Coef: 1})
			}
		}
		m.AddRow(need)
	}
	m.AddRow(pool)
	return m
}

// Beginning anew by parts right away comes to the same as never doing it.
func TestByPartsChangesNothing(t *testing.T) {
	again := 0
	rapid.Check(t, func(t *rapid.T) {
		m := blocks(t)
		whole := *m
		whole.Parts = nil
		want, err := Solver{NoCuts: true}.Solve(context.Background(), &whole, mip.Options{})
		require.NoError(t, err)
		s := Solver{NoCuts: true, partsAfter: 1}
		propose := func(x []float64, _ float64, _ bool, fits func([]float64) bool) error {
			up := slices.Clone(x)
			for j := range up {
				up[j] = math.Ceil(up[j] - 1e-6)
			}
			fits(up)
			return nil
		}
		got, err := s.Solve(context.Background(), m, mip.Options{Propose: propose})
		require.NoError(t, err)
		require.Equal(t, want.Status, got.Status)
		require.InDelta(t, want.Objective, got.Objective, 2*mip.DefaultGap)
		if got.Nodes > 4 {
			again++
		}
	})
	require.Positive(t, again, "no model was hard enough to begin anew")
}

// What a part costs at least holds for every answer of the whole: on twoSites at
// any prices, the rows of one pass keep the best answer, of 28, and lift the bound
// above the relaxation's.
func TestBoundPartsKeepsTheBest(t *testing.T) {
	m := twoSites()
	tr := &tree{ctx: context.Background(), m: m, gap: mip.DefaultGap, bestValue: math.Inf(1), cutOff: math.Inf(1), lost: math.Inf(1)}
	require.NoError(t, tr.prepare(Solver{}))
	defer tr.lp.Close()
	_, before, err := tr.relax()
	require.NoError(t, err)
	n := &node{bound: math.Inf(-1), branchCol: -1}
	joined, dead, err := tr.cutParts(n)
	require.NoError(t, err)
	require.False(t, dead)
	require.Len(t, joined, len(m.Cols))
	require.Greater(t, len(tr.rows), len(m.Rows), "a row was added")
	for _, r := range tr.rows[len(m.Rows):] {
		require.False(t, breaks(r, []float64{1, 1, 2, 1, 2}), "row %s", r.Name)
	}
	require.Greater(t, n.bound, before+0.1)
	require.LessOrEqual(t, n.bound, 28.0)
}
