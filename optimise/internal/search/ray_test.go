package search

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/mip"
)

// One need of 10: boxes of 4 at 3, or of 5 at θ. Boxes of 4 alone cost 9. Two
// boxes of 5 cost 2θ, below 9 up to θ = 4.5; one and two of 4 cost θ + 6, up to 3.
func TestHighestByHand(t *testing.T) {
	m := &mip.Model{Name: "boxes"}
	four := m.AddColumn(mip.Column{Name: "four", Cost: 3, Upper: 3, Integer: true})
	five := m.AddColumn(mip.Column{Name: "five", Upper: 2, Integer: true})
	m.AddRow(mip.Row{Name: "need", Rel: mip.AtLeast, RHS: 10, Terms: []mip.Term{{Col: four, Coef: 4}, {Col: five, Coef: 5}}})
	var told []float64
	ans, theta, _, err := Solver{}.Highest(context.Background(), m, Ray{Slope: []float64{0, 1}, Limit: 9, Risen: func(v float64) { told = append(told, v) }}, mip.Options{})
	require.NoError(t, err)
	require.Equal(t, mip.Optimal, ans.Status)
	require.InDelta(t, 4.5, theta, 1e-9)
	require.Equal(t, []float64{0, 2}, ans.X)
	require.NotEmpty(t, told)
	require.InDelta(t, 4.5, told[len(told)-1], 1e-9)
	require.Equal(t, []float64{3, 0}, []float64{m.Cols[0].Cost, m.Cols[1].Cost}, "the caller's model stays as it is")

	// From 4.5 on none is below.
	ans, _, _, err = Solver{}.Highest(context.Background(), m, Ray{Slope: []float64{0, 1}, From: 4.5, Limit: 9}, mip.Options{})
	require.NoError(t, err)
	require.Equal(t, mip.Infeasible, ans.Status)
	require.Nil(t, ans.X)

	_, _, _, err = Solver{}.Highest(context.Background(), m, Ray{Slope: []float64{-1, 1}, Limit: 9}, mip.Options{})
	require.ErrorContains(t, err, `column "four"`)
}

// Of all whole answers, counted out, none is below the limit at a higher θ.
func TestHighestAgainstCountingOut(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		num := func(name string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, name)) }
		m := &mip.Model{Name: "drawn"}
		r := Ray{}
		for j := range rapid.IntRange(2, 5).Draw(t, "columns") {
			m.AddColumn(mip.Column{Name: fmt.Sprint("c", j), Cost: num("cost", 0, 20) / 2, Upper: num("most", 1, 3), Integer: true})
			r.Slope = append(r.Slope, max(0, num("slope", -3, 4)/2))
		}
		for i := range rapid.IntRange(1, 3).Draw(t, "rows") {
			row := mip.Row{Name: fmt.Sprint("r", i), Rel: mip.AtLeast, RHS: num("need", 1, 12)}
			for j := range m.Cols {
				row.Terms = append(row.Terms, mip.Term{Col: j, Coef: num("per", 0, 6)})
			}
			m.AddRow(row)
		}
		// The limit is the least cost without what rises, as for a quote that is not
		// bought today.
		least, high := math.Inf(1), math.Inf(-1)
		each := func(visit func(x []float64, base, slope float64)) {
			x := make([]float64, len(m.Cols))
			var count func(j int)
			count = func(j int) {
				if j < len(x) {
					for v := range int(m.Cols[j].Upper) + 1 {
						x[j] = float64(v)
						count(j + 1)
					}
					return
				}
				if len(m.Check(x, 1e-9)) > 0 {
					return
				}
				slope := 0.0
				for j, v := range x {
					slope += r.Slope[j] * v
				}
				visit(x, m.Value(x), slope)
			}
			count(0)
		}
		each(func(_ []float64, base, slope float64) {
			if slope == 0 {
				least = min(least, base)
			}
		})
		if math.IsInf(least, 1) {
			return
		}
		r.Limit = least
		each(func(_ []float64, base, slope float64) {
			if slope > 0 && base < least-mip.DefaultGap {
				high = max(high, (least-base)/slope)
			}
		})
		ans, theta, _, err := Solver{}.Highest(context.Background(), m, r, mip.Options{})
		require.NoError(t, err)
		if math.IsInf(high, -1) {
			require.Equal(t, mip.Infeasible, ans.Status)
			return
		}
		found++
		require.Equal(t, mip.Optimal, ans.Status)
		require.InDelta(t, high, theta, 2*mip.DefaultGap, "slopes are at least a half")
		require.Empty(t, m.Check(ans.X, 1e-6))
	})
	require.Positive(t, found)
}
