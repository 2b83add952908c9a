package search

import (
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/mip"
)

// Two layers of 4 L each, of which one is filled from bags of 10 L: 4·v + 4·w ≤ 10·n at v = 1, w = 0, n = 0.4. From
// 10·n + 4·(1−v) − 4·w ≥ 4 and d = 10, f = 0.4, each coefficient is 1, min(1, 0.4/0.4) = 1 and −1 + min(1, 0.6/0.4) = 0:
// n + (1−v) ≥ 1, so n ≥ v, broken by 0.6. With w turned round as well it is 10·n + 4·(1−v) + 4·(1−w) ≥ 8, f = 0.8, and
// n + 0.5·(1−v) + 0.5·(1−w) ≥ 1, of which n ≥ 0.5·v + 0.5·w is left and 0.1 broken.
func TestLateColumnsAreRoundedFromTheNearerBound(t *testing.T) {
	for _, late := range []bool{false, true} {
		m := &mip.Model{}
		v := m.AddColumn(mip.Column{Name: "v", Upper: 1, Integer: true, Late: late})
		w := m.AddColumn(mip.Column{Name: "w", Upper: 1, Integer: true, Late: late})
		n := m.AddColumn(mip.Column{Name: "n", Upper: 9, Integer: true})
		m.AddRow(mip.Row{Name: "supply", Rel: mip.AtMost, Terms: []mip.Term{{Col: v, Coef: 4}, {Col: w, Coef: 4}, {Col: n, Coef: -10}}})
		tr := &tree{m: m, firmLo: []float64{0, 0, 0}, firmHi: []float64{1, 1, 9}, x: []float64{1, 0, 0.4}}
		cut, ok := tr.mir(m.Rows[0], -1)
		require.True(t, ok)
		want := map[int]float64{v: -0.5, w: -0.5, n: 1}
		if late {
			want = map[int]float64{v: -1, w: 0, n: 1}
		}
		for _, term := range cut.Terms {
			require.InDelta(t, want[term.Col], term.Coef, 1e-9, m.Cols[term.Col].Name)
		}
		require.InDelta(t, 0, cut.RHS, 1e-6)
	}
}
