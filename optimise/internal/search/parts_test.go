package search

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

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
	require.NoError(t, tr.improveParts())
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
