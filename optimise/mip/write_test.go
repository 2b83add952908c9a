package mip_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/mip/miptest"
)

const smallLP = `\ small
\ least cost in money; add the constant 10 to the objective
Minimize
 cost: + 3 x_x + 2 x_y - 1 x_z
Subject To
 r_enough: + 1 x_x + 1 x_y >= 3.5
 r_gate: + 1 x_x - 2 x_z <= 1
 r_four: + 1 x_y + 1 x_z = 4
Bounds
 0 <= x_x <= 5
 -1 <= x_y <= 6
 0 <= x_z <= 2
Generals
 x_x
 x_z
End
`

// smallMPS says FREE after the name: without it cbc takes a file whose first
// column line is short for one in fixed columns.
const smallMPS = `* least cost in money; add the constant 10 to the objective
NAME mediabuy FREE
ROWS
 N cost
 G r_enough
 L r_gate
 E r_four
COLUMNS
 M0 'MARKER' 'INTORG'
 x_x cost 3
 x_x r_enough 1
 x_x r_gate 1
 M1 'MARKER' 'INTEND'
 x_y cost 2
 x_y r_enough 1
 x_y r_four 1
 M2 'MARKER' 'INTORG'
 x_z cost -1
 x_z r_gate -2
 x_z r_four 1
 M3 'MARKER' 'INTEND'
RHS
 RHS r_enough 3.5
 RHS r_gate 1
 RHS r_four 4
BOUNDS
 LO BND x_x 0
 UP BND x_x 5
 LO BND x_y -1
 UP BND x_y 6
 LO BND x_z 0
 UP BND x_z 2
ENDATA
`

func TestWriteByHand(t *testing.T) {
	var lp, mps bytes.Buffer
	require.NoError(t, small().WriteLP(&lp))
	require.NoError(t, small().WriteMPS(&mps))
	assert.Equal(t, smallLP, lp.String())
	assert.Equal(t, smallMPS, mps.String())
}

// failing takes so many bytes and then no more.
type failing struct{ left int }

func (f *failing) Write(p []byte) (int, error) {
	if len(p) > f.left {
		return 0, fmt.Errorf("disk full")
	}
	f.left -= len(p)
	return len(p), nil
}

func TestWriteReportsAFullDisk(t *testing.T) {
	for _, left := range []int{0, 100} {
		assert.ErrorContains(t, small().WriteLP(&failing{left}), "disk full")
		assert.ErrorContains(t, small().WriteMPS(&failing{left}), "disk full")
	}
}

// namesBetween reads the names between two headings of an LP text.
func namesBetween(t require.TestingT, text, from, to string, pick *regexp.Regexp) []string {
	_, rest, ok := strings.Cut(text, "\n"+from+"\n")
	require.True(t, ok)
	rest, _, ok = strings.Cut(rest, to+"\n")
	require.True(t, ok)
	var out []string
	for _, m := range pick.FindAllStringSubmatch(rest, -1) {
		out = append(out, m[1])
	}
	return out
}

// However things are named, the written names are letters, digits, "_" and ".",
// start with a letter, are no longer than 60 signs and are each there once.
func TestNamesAreSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "e1", "1e5", "free", "end", "cost", "a b", "a_b", "a/b", "Größe", "<=", "x", strings.Repeat("long", 40), strings.Repeat("long", 40) + "!"}))
		names := rapid.SliceOfN(word, 1, 12).Draw(t, "names")
		m := &mip.Model{Name: "names"}
		for i, n := range names {
			m.AddColumn(mip.Column{Name: n, Cost: float64(i), Upper: 1, Integer: true})
			m.AddRow(mip.Row{Name: n, Rel: mip.AtMost, RHS: 1, Terms: []mip.Term{{Col: i, Coef: 1}}})
		}
		var lp bytes.Buffer
		require.NoError(t, m.WriteLP(&lp))
		for _, list := range [][]string{
			namesBetween(t, lp.String(), "Generals", "End", regexp.MustCompile(`(?m)^ (\S+)$`)),
			namesBetween(t, lp.String(), "Subject To", "Bounds", regexp.MustCompile(`(?m)^ (\S+):`)),
		} {
			require.Len(t, list, len(names))
			seen := map[string]bool{"cost": true}
			for _, n := range list {
				require.Regexp(t, `^[A-Za-z][A-Za-z0-9_.]{0,59}$`, n)
				require.False(t, seen[n], "%q is there twice", n)
				seen[n] = true
			}
		}
	})
}

// Lines stay within the 255 signs that some readers stop at.
func TestLinesAreShort(t *testing.T) {
	m := &mip.Model{Name: "wide"}
	var terms []mip.Term
	for i := range 300 {
		terms = append(terms, mip.Term{Col: m.AddColumn(mip.Column{Name: fmt.Sprintf("%s %d", strings.Repeat("name", 20), i), Cost: 1.0 / 3, Upper: 1}), Coef: -1.0 / 7})
	}
	m.AddRow(mip.Row{Name: "all", Rel: mip.AtLeast, RHS: -20, Terms: terms})
	var lp bytes.Buffer
	require.NoError(t, m.WriteLP(&lp))
	for line := range strings.Lines(lp.String()) {
		require.Less(t, len(line), 255)
	}
}

// optimumOf asks another solver for the optimum of a written model, or "none".
func optimumOf(t *testing.T, solver string, m *mip.Model, form string) string {
	v, some := miptest.Optimum(t, solver, m, form)
	if !some {
		return "none"
	}
	return fmt.Sprintf("%.6f", v)
}

// Two other solvers read both formats and come to our optimum.
func TestOthersReadBack(t *testing.T) {
	models := map[string]*mip.Model{"small": small()}
	models["no cost"] = func() *mip.Model {
		m := small()
		for j := range m.Cols {
			m.Cols[j].Cost = 0
		}
		return m
	}()
	models["an empty row that holds"] = func() *mip.Model {
		m := small()
		m.AddRow(mip.Row{Name: "nothing", Rel: mip.AtLeast, RHS: -1})
		return m
	}()
	// A layer that nothing may fill: the row has no terms and cannot hold.
	models["an empty row that cannot hold"] = func() *mip.Model {
		m := small()
		m.AddRow(mip.Row{Name: "fill", Rel: mip.Equal, RHS: 5})
		return m
	}()
	models["a column in no row"] = func() *mip.Model {
		m := small()
		m.AddColumn(mip.Column{Name: "alone", Cost: 7, Lower: 1, Upper: 2, Integer: true})
		m.AddColumn(mip.Column{Name: "useless", Upper: 2})
		return m
	}()
	models["nothing fits"] = func() *mip.Model {
		m := small()
		m.AddRow(mip.Row{Name: "more", Rel: mip.AtLeast, RHS: 20, Terms: []mip.Term{{Col: 0, Coef: 1}, {Col: 1, Coef: 1}}})
		return m
	}()
	models["awkward names"] = func() *mip.Model {
		m := small()
		for j, n := range []string{"50 L bags @ Yard (1)", "50 L bags @ Yard [1]", "2e5 free"} {
			m.Cols[j].Name, m.Rows[j].Name = n, n
		}
		return m
	}()
	// The first line of the columns is a short one.
	models["a short first line"] = &mip.Model{
		Name: "short", Cols: []mip.Column{{Name: "steps/q1", Cost: 30, Upper: 9, Integer: true}, {Name: "y", Cost: 1, Upper: 9}},
		Rows: []mip.Row{{Name: "a", Rel: mip.AtLeast, RHS: 2.5, Terms: []mip.Term{{Col: 0, Coef: 1}, {Col: 1, Coef: 0.125}}}},
	}
	r := rand.New(rand.NewPCG(3, 14))
	for i := range 6 {
		models[fmt.Sprintf("random %d", i)] = random(r)
	}
	for name, m := range models {
		ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{Gap: 1e-9})
		require.NoError(t, err, name)
		want := "none"
		if ans.X != nil {
			require.Equal(t, mip.Optimal, ans.Status, name)
			want = fmt.Sprintf("%.6f", ans.Objective)
		} else {
			require.Equal(t, mip.Infeasible, ans.Status, name)
		}
		for _, solver := range miptest.Solvers {
			for _, form := range []string{"lp", "mps"} {
				t.Run(name+", "+solver+" "+form, func(t *testing.T) {
					assert.Equal(t, want, optimumOf(t, solver, m, form))
				})
			}
		}
	}
}

// random is a model with costs and coefficients of few digits.
func random(r *rand.Rand) *mip.Model {
	m := &mip.Model{Name: "random", Constant: float64(r.IntN(100)) / 4}
	for j := range 6 {
		m.AddColumn(mip.Column{Name: fmt.Sprintf("c%d", j), Cost: float64(r.IntN(41) - 10), Lower: float64(r.IntN(3) - 1), Upper: float64(3 + r.IntN(6)), Integer: j%2 == 0})
	}
	for i := range 4 {
		var terms []mip.Term
		for j := range 6 {
			if r.IntN(3) > 0 {
				terms = append(terms, mip.Term{Col: j, Coef: float64(1+r.IntN(90)) / 8})
			}
		}
		m.AddRow(mip.Row{Name: fmt.Sprintf("r%d", i), Rel: mip.AtLeast, RHS: float64(20 + r.IntN(60)), Terms: terms})
	}
	return m
}
