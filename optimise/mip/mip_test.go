package mip_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/mip"
)

// small is a model with every kind of column and row:
//
//	minimise 10 + 3x + 2y − z
//	x + y      ≥ 3.5
//	x     − 2z ≤ 1
//	    y +  z = 4
//	0 ≤ x ≤ 5 whole, −1 ≤ y ≤ 6, 0 ≤ z ≤ 2 whole
//
// z = 2 gives y = 2, so x ≥ 1.5, whole: 2 ≤ 5. 10 + 6 + 4 − 2 = 18. z = 1 gives
// y = 3, x = 1: 10 + 3 + 6 − 1 = 18 too; z = 0, y = 4, x = 0: 10 + 0 + 8 = 18.
func small() *mip.Model {
	m := &mip.Model{Name: "small", Constant: 10}
	x := m.AddColumn(mip.Column{Name: "x", Cost: 3, Upper: 5, Integer: true})
	y := m.AddColumn(mip.Column{Name: "y", Cost: 2, Lower: -1, Upper: 6})
	z := m.AddColumn(mip.Column{Name: "z", Cost: -1, Upper: 2, Integer: true})
	m.AddRow(mip.Row{Name: "enough", Rel: mip.AtLeast, RHS: 3.5, Terms: []mip.Term{{Col: x, Coef: 1}, {Col: y, Coef: 1}}})
	m.AddRow(mip.Row{Name: "gate", Rel: mip.AtMost, RHS: 1, Terms: []mip.Term{{Col: x, Coef: 1}, {Col: z, Coef: -2}}})
	m.AddRow(mip.Row{Name: "four", Rel: mip.Equal, RHS: 4, Terms: []mip.Term{{Col: y, Coef: 1}, {Col: z, Coef: 1}}})
	return m
}

func TestCheck(t *testing.T) {
	for _, c := range []struct {
		name string
		x    []float64
		tol  float64
		want []string
	}{
		{"keeps everything", []float64{2, 2, 2}, 0, nil},
		{"the other answer", []float64{0, 4, 0}, 0, nil},
		{"too little", []float64{1, 2, 2}, 1e-6, []string{"row enough is broken by 0.5"}},
		{"gate shut", []float64{4, 3, 1}, 1e-6, []string{"row gate is broken by 1"}},
		{"not four", []float64{2, 2.5, 2}, 1e-6, []string{"row four is broken by 0.5"}},
		{"not four, below", []float64{3, 1.5, 2}, 1e-6, []string{"row four is broken by 0.5"}},
		{"half a pack", []float64{1.5, 2, 2}, 1e-6, []string{"whole number x is broken by 0.5"}},
		{"above a bound", []float64{2, 1, 3}, 1e-6, []string{"bound of z is broken by 1", "row enough is broken by 0.5"}},
		{"below a bound", []float64{-1, 4, 0}, 1e-6, []string{"bound of x is broken by 1", "row enough is broken by 0.5"}},
		{"within the tolerance", []float64{2 - 5e-7, 2, 2}, 1e-6, nil},
		{"outside the tolerance", []float64{2 - 5e-6, 2, 2}, 1e-6, []string{"whole number x is broken by 5"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, b := range small().Check(c.x, c.tol) {
				got = append(got, b.Error())
			}
			require.Len(t, got, len(c.want), "%v", got)
			for i := range got {
				assert.True(t, strings.HasPrefix(got[i], c.want[i]), "%s", got[i])
			}
		})
	}
}

// Not a number is never a good answer, whatever the tolerance.
func TestCheckOfNothing(t *testing.T) {
	for j := range 3 {
		x := []float64{2, 2, 2}
		x[j] = math.NaN()
		assert.NotEmpty(t, small().Check(x, 1), "column %d", j)
	}
}

// The tolerance is a share of the size of the row: of its right side or of its
// largest term.
func TestCheckScales(t *testing.T) {
	m := &mip.Model{}
	a := m.AddColumn(mip.Column{Name: "a", Upper: 1e7})
	b := m.AddColumn(mip.Column{Name: "b", Upper: 1e7})
	m.AddRow(mip.Row{Name: "equal", Rel: mip.Equal, Terms: []mip.Term{{Col: a, Coef: 1}, {Col: b, Coef: -1}}})
	assert.Empty(t, m.Check([]float64{1e6, 1e6 + 0.5}, 1e-6))
	assert.Len(t, m.Check([]float64{1e6, 1e6 + 2}, 1e-6), 1)
	assert.Len(t, m.Check([]float64{1, 1.5}, 1e-6), 1)
}

func TestValue(t *testing.T) {
	assert.InDelta(t, 18, small().Value([]float64{2, 2, 2}), 1e-12)
	assert.InDelta(t, 18, small().Value([]float64{0, 4, 0}), 1e-12)
	assert.InDelta(t, 10, small().Value([]float64{0, 0, 0}), 1e-12)
}

// Terms of one column are added up, and those that are nothing are left out.
func TestAddRowTidies(t *testing.T) {
	m := small()
	i := m.AddRow(mip.Row{Name: "again", Rel: mip.AtMost, RHS: 9, Terms: []mip.Term{{Col: 0, Coef: 1}, {Col: 2, Coef: 0}, {Col: 1, Coef: 4}, {Col: 0, Coef: 1.5}}})
	assert.Equal(t, 3, i)
	assert.Equal(t, []mip.Term{{Col: 0, Coef: 2.5}, {Col: 1, Coef: 4}}, m.Rows[i].Terms)
}

func TestWords(t *testing.T) {
	assert.Equal(t, "<= >= =", mip.AtMost.String()+" "+mip.AtLeast.String()+" "+mip.Equal.String())
	assert.Equal(t, "Rel(0)", mip.Rel(0).String())
	seen := map[string]bool{}
	for s := mip.NotSolved; s <= mip.Infeasible; s++ {
		assert.NotContains(t, s.String(), "Status")
		assert.False(t, seen[s.String()], "%v is said twice", s)
		seen[s.String()] = true
	}
	assert.Equal(t, "Status(9)", mip.Status(9).String())
	var zero mip.Status
	assert.Equal(t, mip.NotSolved, zero)
}
