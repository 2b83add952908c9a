package search_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/internal/lpsolve"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/mip/miptest"
)

// tol is how far a row of an answer may be off, as the search promises.
const tol = 1e-6

// dice draws numbers, from rapid or from a seed.
type dice interface{ intN(n int) int }

type seeded struct{ *rand.Rand }

func (s seeded) intN(n int) int { return s.IntN(n) }

type drawn struct{ *rapid.T }

func (d drawn) intN(n int) int { return rapid.IntRange(0, n-1).Draw(d.T, "n") }

// random is a model of whole and continuous columns with rows of every relation,
// some of them gates like "packs ≤ most × order".
func random(r dice, whole, free, rows, most int) *mip.Model {
	m := &mip.Model{Name: "random", Constant: float64(r.intN(9))}
	for j := range whole + free {
		lower := float64(r.intN(3) - 1)
		m.AddColumn(mip.Column{
			Name: fmt.Sprintf("c%d", j), Cost: float64(r.intN(60)-10) / 4, Lower: lower, Upper: lower + float64(1+r.intN(most)), Integer: j < whole,
		})
	}
	for i := range rows {
		row := mip.Row{Name: fmt.Sprintf("r%d", i), Rel: []mip.Rel{mip.AtLeast, mip.AtLeast, mip.AtMost}[r.intN(3)]}
		sum := 0.0
		for j, c := range m.Cols {
			if r.intN(3) == 0 {
				continue
			}
			a := float64(r.intN(41)-8) / 4
			row.Terms = append(row.Terms, mip.Term{Col: j, Coef: a})
			sum += a * (c.Lower + c.Upper) / 2
		}
		row.RHS = math.Round(sum*4) / 4
		if row.Rel == mip.AtMost {
			row.RHS += 2
		}
		m.AddRow(row)
	}
	if free > 0 && r.intN(2) == 0 { // a gate and an equality
		m.AddRow(mip.Row{Name: "gate", Rel: mip.AtMost, Terms: []mip.Term{{Col: whole, Coef: 1}, {Col: 0, Coef: -3}}})
		m.AddRow(mip.Row{Name: "whole", Rel: mip.Equal, RHS: m.Cols[1].Lower + 1, Terms: []mip.Term{{Col: 1, Coef: 1}, {Col: whole, Coef: 0.5}}})
	}
	return m
}

// counted is the least value over all whole columns, each solved for the rest by
// a linear program; +Inf when nothing holds.
func counted(t require.TestingT, m *mip.Model) float64 {
	lp := load(t, m)
	defer lp.Close()
	var whole []int
	for j, c := range m.Cols {
		if c.Integer {
			whole = append(whole, j)
		}
	}
	best := math.Inf(1)
	var res lpsolve.Result
	var count func(k int)
	count = func(k int) {
		if k == len(whole) {
			require.NoError(t, lp.SolveInto(context.Background(), lpsolve.Options{}, &res))
			if res.Status == lpsolve.Optimal {
				best = min(best, res.Objective+m.Constant)
			}
			return
		}
		for v := m.Cols[whole[k]].Lower; v <= m.Cols[whole[k]].Upper; v++ {
			require.NoError(t, lp.SetBounds(whole[k], v, v))
			count(k + 1)
		}
	}
	count(0)
	return best
}

// load gives the model to lp_solve as a linear program.
func load(t require.TestingT, m *mip.Model) *lpsolve.Problem {
	lp, err := lpsolve.New()
	require.NoError(t, err)
	for _, c := range m.Cols {
		_, err := lp.AddColumn(c.Name, c.Cost, c.Lower, c.Upper, nil, nil)
		require.NoError(t, err)
	}
	rel := map[mip.Rel]lpsolve.Relation{mip.AtMost: lpsolve.AtMost, mip.AtLeast: lpsolve.AtLeast, mip.Equal: lpsolve.Equal}
	for _, r := range m.Rows {
		var cols []int
		var coef []float64
		for _, term := range r.Terms {
			cols, coef = append(cols, term.Col), append(coef, term.Coef)
		}
		_, err := lp.AddRow(r.Name, rel[r.Rel], r.RHS, cols, coef)
		require.NoError(t, err)
	}
	return lp
}

// holds wants an answer that keeps what its fields promise.
func holds(t require.TestingT, m *mip.Model, ans *mip.Answer) {
	switch ans.Status {
	case mip.Optimal, mip.Feasible:
		require.Len(t, ans.X, len(m.Cols))
		require.Empty(t, m.Check(ans.X, tol))
		require.InDelta(t, m.Value(ans.X), ans.Objective, 1e-9)
		require.LessOrEqual(t, ans.Bound, ans.Objective+1e-9)
	case mip.Infeasible, mip.NoAnswer:
		require.Nil(t, ans.X)
	default:
		require.Fail(t, "status", "%v", ans.Status)
	}
}

// The search comes to the least of all whole combinations, with and without cuts and
// whatever is late, and finds that there is none where there is none.
func TestAgainstCountingOut(t *testing.T) {
	none, some := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		m := random(drawn{t}, rapid.IntRange(2, 4).Draw(t, "whole"), rapid.IntRange(0, 2).Draw(t, "free"), rapid.IntRange(1, 4).Draw(t, "rows"), 3)
		for j := range m.Cols {
			m.Cols[j].Late = rapid.Bool().Draw(t, "late")
		}
		want := counted(t, m)
		for _, s := range []search.Solver{{}, {NoCuts: true}} {
			ans, err := s.Solve(context.Background(), m, mip.Options{})
			require.NoError(t, err)
			holds(t, m, ans)
			if math.IsInf(want, 1) {
				none++
				require.Equal(t, mip.Infeasible, ans.Status)
				continue
			}
			some++
			require.Equal(t, mip.Optimal, ans.Status)
			require.InDelta(t, want, ans.Objective, mip.DefaultGap+1e-6)
			require.LessOrEqual(t, ans.Bound, want+1e-6)
			require.GreaterOrEqual(t, ans.Bound, ans.Objective-mip.DefaultGap-1e-6)
		}
	})
	require.Positive(t, none)
	require.Positive(t, some)
}

// On larger models it comes to what another solver proves.
func TestAgainstAnotherSolver(t *testing.T) {
	some := 0
	for seed := range uint64(60) {
		m := random(seeded{rand.New(rand.NewPCG(seed, 1))}, 8, 5, 6, 6)
		theirs, found := miptest.Optimum(t, miptest.Solvers[seed%2], m, "mps")
		ours, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
		require.NoError(t, err)
		holds(t, m, ours)
		if !found {
			require.Equal(t, mip.Infeasible, ours.Status, "seed %d", seed)
			continue
		}
		some++
		require.Equal(t, mip.Optimal, ours.Status, "seed %d: the other finds %v", seed, theirs)
		require.InDelta(t, theirs, ours.Objective, mip.DefaultGap+1e-6, "seed %d", seed)
	}
	require.Greater(t, some, 40)
}

// gateModel is a location problem that takes some nodes: n sites to open, each
// place served by open ones.
func gateModel(seed uint64, n, places int) *mip.Model {
	r := rand.New(rand.NewPCG(seed, 2))
	m := &mip.Model{Name: "gates"}
	var open []int
	for i := range n {
		open = append(open, m.AddColumn(mip.Column{Name: fmt.Sprintf("open/%d", i), Cost: float64(200 + r.IntN(200)), Upper: 1, Integer: true}))
	}
	for p := range places {
		need := mip.Row{Name: fmt.Sprintf("need/%d", p), Rel: mip.Equal, RHS: 1}
		for i := range n {
			v := m.AddColumn(mip.Column{Name: fmt.Sprintf("serve/%d/%d", p, i), Cost: float64(r.IntN(150)), Upper: 1})
			need.Terms = append(need.Terms, mip.Term{Col: v, Coef: 1})
		}
		m.AddRow(need)
	}
	for i := range n { // one weak row for each site
		row := mip.Row{Name: fmt.Sprintf("gate/%d", i), Rel: mip.AtMost, Terms: []mip.Term{{Col: open[i], Coef: -float64(places)}}}
		for p := range places {
			row.Terms = append(row.Terms, mip.Term{Col: n + p*n + i, Coef: 1})
		}
		m.AddRow(row)
	}
	return m
}

// The same model gives the same answer, node for node.
func TestSameInputSameAnswer(t *testing.T) {
	m := gateModel(1, 9, 14)
	var first *mip.Answer
	for range 3 {
		ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
		require.NoError(t, err)
		if first == nil {
			first = ans
			require.Greater(t, ans.Nodes, 5, "the model takes a search")
		}
		assert.Equal(t, first, ans)
	}
}

// A limit gives the best so far with a bound, either side of the optimum.
func TestTimeLimit(t *testing.T) {
	m := gateModel(2, 14, 26)
	full, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
	require.NoError(t, err)
	require.Equal(t, mip.Optimal, full.Status)
	cut := 0
	for _, limit := range []time.Duration{time.Nanosecond, time.Millisecond, 5 * time.Millisecond, 20 * time.Millisecond, 50 * time.Millisecond} {
		ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{TimeLimit: limit})
		require.NoError(t, err)
		holds(t, m, ans)
		require.LessOrEqual(t, ans.Bound, full.Objective+1e-6, "%v", limit)
		switch ans.Status {
		case mip.Feasible:
			cut++
			require.GreaterOrEqual(t, ans.Objective, full.Objective-mip.DefaultGap)
		case mip.Optimal:
			require.InDelta(t, full.Objective, ans.Objective, mip.DefaultGap)
		case mip.NoAnswer:
			cut++
		default:
			require.Fail(t, "status", "%v after %v", ans.Status, limit)
		}
	}
	require.Positive(t, cut, "some search was cut short")
}

// A time limit with a start in hand is Feasible and keeps the start.
func TestStart(t *testing.T) {
	m := gateModel(3, 8, 12)
	full, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
	require.NoError(t, err)
	ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{TimeLimit: time.Nanosecond, Start: full.X})
	require.NoError(t, err)
	holds(t, m, ans)
	require.Equal(t, mip.Feasible, ans.Status)
	require.InDelta(t, full.Objective, ans.Objective, 1e-6)

	// A start that breaks a row is not believed.
	bad := append([]float64(nil), full.X...)
	bad[len(bad)-1] += 1
	ans, err = search.Solver{}.Solve(context.Background(), m, mip.Options{Start: bad})
	require.NoError(t, err)
	require.Equal(t, mip.Optimal, ans.Status)
	require.InDelta(t, full.Objective, ans.Objective, mip.DefaultGap)
}

// With a cut-off at the optimum nothing is left to find; above it the optimum is.
func TestCutOff(t *testing.T) {
	for seed := range uint64(8) {
		m := gateModel(seed, 6, 9)
		full, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
		require.NoError(t, err)
		for _, c := range []struct {
			by   float64
			want mip.Status
		}{{-0.02, mip.Infeasible}, {0.02, mip.Optimal}, {50, mip.Optimal}} {
			ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{CutOff: full.Objective + c.by})
			require.NoError(t, err)
			holds(t, m, ans)
			require.Equal(t, c.want, ans.Status, "seed %d, cut-off %+.2f from the optimum", seed, c.by)
			if ans.X != nil {
				require.InDelta(t, full.Objective, ans.Objective, mip.DefaultGap)
			}
		}
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	ans, err := search.Solver{}.Solve(ctx, gateModel(1, 8, 12), mip.Options{})
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, ans)

	// In the middle of a search, from its own progress.
	ctx, cancel = context.WithCancel(context.Background())
	defer cancel()
	ans, err = search.Solver{}.Solve(ctx, gateModel(2, 14, 26), mip.Options{Progress: func(mip.Progress) { cancel() }})
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, ans)
}

func TestProgress(t *testing.T) {
	told := 0
	_, err := search.Solver{}.Solve(context.Background(), gateModel(2, 14, 26), mip.Options{Progress: func(p mip.Progress) {
		told++
		assert.LessOrEqual(t, p.Bound, p.Best+1e-9)
	}})
	require.NoError(t, err)
	require.Positive(t, told)
}

func TestNoFiniteBounds(t *testing.T) {
	m := &mip.Model{}
	m.AddColumn(mip.Column{Name: "packs", Upper: math.Inf(1)})
	_, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
	require.ErrorContains(t, err, `column "packs" has no finite bounds`)
}

// Models at the edge: nothing to choose, nothing to do, nothing that holds.
func TestEdges(t *testing.T) {
	col := func(cost, lower, upper float64, whole bool) mip.Column {
		return mip.Column{Name: "x", Cost: cost, Lower: lower, Upper: upper, Integer: whole}
	}
	for _, c := range []struct {
		name string
		cols []mip.Column
		rows []mip.Row
		want float64
		none bool
	}{
		{name: "no columns"},
		{name: "no columns and a row that cannot hold", rows: []mip.Row{{Name: "r", Rel: mip.AtLeast, RHS: 1}}, none: true},
		{name: "no columns and a row that holds", rows: []mip.Row{{Name: "r", Rel: mip.AtLeast, RHS: -1}}},
		{name: "no rows", cols: []mip.Column{col(-2, 0, 3.5, true)}, want: -6},
		{name: "everything fixed", cols: []mip.Column{col(2, 3, 3, true), col(1, 0.5, 0.5, false)}, rows: []mip.Row{{Name: "r", Rel: mip.Equal, RHS: 3.5, Terms: []mip.Term{{Col: 0, Coef: 1}, {Col: 1, Coef: 1}}}}, want: 6.5},
		{name: "everything fixed and wrong", cols: []mip.Column{col(2, 3, 3, true)}, rows: []mip.Row{{Name: "r", Rel: mip.Equal, RHS: 4, Terms: []mip.Term{{Col: 0, Coef: 1}}}}, none: true},
		{name: "no whole number in range", cols: []mip.Column{col(1, 0.2, 0.8, true)}, none: true},
		{name: "an empty row that cannot hold", cols: []mip.Column{col(1, 0, 1, true)}, rows: []mip.Row{{Name: "r", Rel: mip.Equal, RHS: 5}}, none: true},
		{name: "bounds cross", cols: []mip.Column{col(1, 2, 1, false)}, none: true},
		// 3x = 7 has no whole x.
		{name: "whole numbers miss", cols: []mip.Column{col(1, 0, 9, true)}, rows: []mip.Row{{Name: "r", Rel: mip.Equal, RHS: 7, Terms: []mip.Term{{Col: 0, Coef: 3}}}}, none: true},
		{name: "negative whole numbers", cols: []mip.Column{col(1, -5, 5, true)}, rows: []mip.Row{{Name: "r", Rel: mip.AtLeast, RHS: -7, Terms: []mip.Term{{Col: 0, Coef: 2}}}}, want: -3},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := &mip.Model{Cols: c.cols, Rows: c.rows}
			ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
			require.NoError(t, err)
			holds(t, m, ans)
			if c.none {
				require.Equal(t, mip.Infeasible, ans.Status)
				return
			}
			require.Equal(t, mip.Optimal, ans.Status)
			require.InDelta(t, c.want, ans.Objective, 1e-6)
		})
	}
}
