package search

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/mip"
)

// relaxed is the first relaxation of a model, begun from its parts or from nothing.
func relaxed(t require.TestingT, m *mip.Model, fromParts bool) (lpsolve.Status, float64, int64) {
	tr := &tree{ctx: context.Background(), m: m, gap: mip.DefaultGap, bestValue: math.Inf(1), cutOff: math.Inf(1)}
	require.NoError(t, tr.prepare(Solver{}))
	defer tr.lp.Close()
	if fromParts {
		require.NoError(t, tr.crash())
	}
	status, bound, err := tr.relax()
	require.NoError(t, err)
	return status, bound, tr.res.Iterations
}

// Where nothing ties the parts together the start is the answer already: not one step
// of the simplex is left.
func TestCrashOfPartsApartIsTheAnswer(t *testing.T) {
	m := &mip.Model{Name: "three sites"}
	for part := range 3 {
		three := m.AddColumn(mip.Column{Name: "three", Cost: 5, Upper: 3, Integer: true})
		two := m.AddColumn(mip.Column{Name: "two", Cost: 3, Upper: 2, Integer: true})
		m.Parts = append(m.Parts, part, part)
		m.AddRow(mip.Row{Name: "need", Rel: mip.AtLeast, RHS: 7, Terms: []mip.Term{{Col: three, Coef: 3}, {Col: two, Coef: 2}}})
	}
	// A litre costs 3/2 in boxes of 2 and 5/3 in boxes of 3: 2 of the first and one of
	// the second, 3·(2·3 + 5) = 33.
	status, bound, _ := relaxed(t, m, false)
	require.Equal(t, lpsolve.Optimal, status)
	require.InDelta(t, 33, bound, 1e-9)
	status, bound, steps := relaxed(t, m, true)
	require.Equal(t, lpsolve.Optimal, status)
	require.InDelta(t, 33, bound, 1e-9)
	require.Zero(t, steps)
}

// Where the relaxation begins does not change what it comes to.
func TestCrashChangesNoBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := &mip.Model{Name: "sites"}
		shared := m.AddColumn(mip.Column{Name: "shared", Cost: float64(rapid.IntRange(0, 9).Draw(t, "cost")), Upper: 1, Integer: true})
		m.Parts = []int{-1}
		var all []mip.Term
		for part := range rapid.IntRange(2, 5).Draw(t, "parts") {
			var need []mip.Term
			for range rapid.IntRange(1, 4).Draw(t, "columns") {
				j := m.AddColumn(mip.Column{Name: "pack", Cost: float64(rapid.IntRange(1, 9).Draw(t, "price")), Upper: 6, Integer: true})
				m.Parts = append(m.Parts, part)
				need = append(need, mip.Term{Col: j, Coef: float64(rapid.IntRange(1, 5).Draw(t, "holds"))})
				all = append(all, mip.Term{Col: j, Coef: 1})
			}
			m.AddRow(mip.Row{Name: "need", Rel: mip.AtLeast, RHS: float64(rapid.IntRange(1, 40).Draw(t, "need")), Terms: need})
			m.AddRow(mip.Row{Name: "share", Rel: mip.AtMost, Terms: []mip.Term{{Col: need[0].Col, Coef: 1}, {Col: shared, Coef: -6}}})
		}
		m.AddRow(mip.Row{Name: "stock", Rel: mip.AtMost, RHS: float64(rapid.IntRange(3, 60).Draw(t, "stock")), Terms: all})
		want, bound, _ := relaxed(t, m, false)
		got, same, _ := relaxed(t, m, true)
		require.Equal(t, want, got)
		require.InDelta(t, bound, same, 1e-6)
	})
}

// Where lazy rows take long a proposal is asked for before the first of them, else after.
func TestEarlyProposalsComeBeforeLazyRows(t *testing.T) {
	for _, early := range []bool{false, true} {
		m := &mip.Model{}
		a := m.AddColumn(mip.Column{Name: "a", Cost: 3, Upper: 9, Integer: true})
		m.AddRow(mip.Row{Name: "some", Rel: mip.AtLeast, RHS: 1, Terms: []mip.Term{{Col: a, Coef: 2}}})
		var asked []string
		ans, err := Solver{}.Solve(context.Background(), m, mip.Options{
			Early: early,
			Lazy: func(x []float64) ([]mip.Row, error) {
				asked = append(asked, "rows")
				return []mip.Row{{Name: "more", Rel: mip.AtLeast, RHS: 5, Terms: []mip.Term{{Col: a, Coef: 2}}}}, nil
			},
			Propose: func([]float64, float64, bool, func([]float64) bool) error {
				asked = append(asked, "purchase")
				return nil
			},
		})
		require.NoError(t, err)
		require.Equal(t, mip.Optimal, ans.Status)
		assert.InDelta(t, 9, ans.Objective, 1e-9) // 2a ≥ 5: three of them
		require.GreaterOrEqual(t, len(asked), 2)
		assert.Equal(t, early, asked[0] == "purchase", "early %v: %v", early, asked)
	}
}
