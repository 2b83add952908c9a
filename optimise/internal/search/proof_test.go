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

// boxes is one need of 10: boxes of 4 at 3 each, or of 5 at a price. At 4 a box of
// 5, two of them cost 8; three of 4 cost 9; one of each does not do.
func boxes(five float64) *mip.Model {
	m := &mip.Model{Name: "boxes"}
	a := m.AddColumn(mip.Column{Name: "four", Cost: 3, Upper: 3, Integer: true})
	b := m.AddColumn(mip.Column{Name: "five", Cost: five, Upper: 2, Integer: true})
	m.AddRow(mip.Row{Name: "need", Rel: mip.AtLeast, RHS: 10, Terms: []mip.Term{{Col: a, Coef: 4}, {Col: b, Coef: 5}}})
	return m
}

// prove solves a model and keeps the proof.
func prove(ctx context.Context, s Solver, m *mip.Model, opt mip.Options) (*mip.Answer, *Proof, error) {
	var kept *Proof
	s.Kept = func(p *Proof) { kept = p }
	ans, err := s.Solve(ctx, m, opt)
	return ans, kept, err
}

func TestProofByHand(t *testing.T) {
	ctx := context.Background()
	ans, proof, err := prove(ctx, Solver{}, boxes(4), mip.Options{})
	require.NoError(t, err)
	require.InDelta(t, 8, ans.Objective, 1e-9)
	require.NotNil(t, proof)

	// That nothing costs less than 8 holds at 4 and at any higher price without
	// one linear program.
	for _, price := range []float64{4, 4.2, 10} {
		ans, again, err := prove(ctx, Solver{From: proof}, boxes(price), mip.Options{CutOff: 8})
		require.NoError(t, err)
		require.Equal(t, mip.Infeasible, ans.Status)
		require.Zero(t, ans.Nodes)
		// What was held is a proof again.
		ans, err = Solver{From: again}.Solve(ctx, boxes(price), mip.Options{CutOff: 8})
		require.NoError(t, err)
		require.Zero(t, ans.Nodes)
	}
	// At 3 two boxes of 5 cost 6; at 5 three of 4 cost 9.
	for price, want := range map[float64]float64{3: 6, 5: 9} {
		ans, err := Solver{From: proof}.Solve(ctx, boxes(price), mip.Options{})
		require.NoError(t, err)
		require.InDelta(t, want, ans.Objective, 1e-9)
		require.Positive(t, ans.Nodes)
	}
	// A proof that is asked for is not kept of a search cut short.
	_, proof, err = prove(ctx, Solver{maxNodes: 1}, boxes(4), mip.Options{})
	require.NoError(t, err)
	require.Nil(t, proof)
}

// stock is a random model of packs to buy, their orders and what they must cover,
// some of it without an answer.
func stock(t *rapid.T) *mip.Model {
	num := func(name string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, name)) }
	m := &mip.Model{Name: "stock", Constant: num("constant", 0, 3)}
	packs := rapid.IntRange(2, 5).Draw(t, "packs")
	for j := range packs {
		m.AddColumn(mip.Column{Name: fmt.Sprint("packs", j), Cost: num("price", 1, 40) / 2, Upper: num("most", 1, 5), Integer: true})
	}
	for j := range packs {
		y := m.AddColumn(mip.Column{Name: fmt.Sprint("order", j), Cost: num("fee", 0, 30), Upper: 1, Integer: true})
		m.AddRow(mip.Row{Name: fmt.Sprint("carried", j), Rel: mip.AtMost, Terms: []mip.Term{{Col: j, Coef: 1}, {Col: y, Coef: -m.Cols[j].Upper}}})
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "needs") {
		need := mip.Row{Name: fmt.Sprint("fill", i), Rel: mip.Equal, RHS: num("litres", 2, 30)}
		for j := range packs {
			if rapid.Bool().Draw(t, "fits") {
				v := m.AddColumn(mip.Column{Name: fmt.Sprint("place", i, "/", j), Upper: need.RHS})
				need.Terms = append(need.Terms, mip.Term{Col: v, Coef: 1})
			}
		}
		m.AddRow(need)
	}
	for j := range packs {
		supply := mip.Row{Name: fmt.Sprint("supply", j), Rel: mip.AtMost, Terms: []mip.Term{{Col: j, Coef: -num("size", 1, 8)}}}
		for c := range m.Cols {
			var i, k int
			if n, _ := fmt.Sscanf(m.Cols[c].Name, "place%d/%d", &i, &k); n == 2 && k == j {
				supply.Terms = append(supply.Terms, mip.Term{Col: c, Coef: 1})
			}
		}
		m.AddRow(supply)
	}
	return m
}

// changed is m at other prices, with other pack sizes and bounds now and then.
func changed(t *rapid.T, m *mip.Model) *mip.Model {
	out := *m
	out.Cols, out.Rows = slices.Clone(m.Cols), slices.Clone(m.Rows)
	for j := range out.Cols {
		if rapid.IntRange(0, 2).Draw(t, "moves") == 0 {
			out.Cols[j].Cost = max(0, out.Cols[j].Cost+float64(rapid.IntRange(-20, 20).Draw(t, "by"))/4)
		}
		if rapid.IntRange(0, 5).Draw(t, "bound") == 0 {
			out.Cols[j].Upper = float64(rapid.IntRange(1, 6).Draw(t, "most"))
		}
	}
	for i := range out.Rows {
		if rapid.IntRange(0, 5).Draw(t, "row") == 0 {
			r := &out.Rows[i]
			r.Terms = slices.Clone(r.Terms)
			for k := range r.Terms {
				r.Terms[k].Coef *= float64(rapid.IntRange(2, 6).Draw(t, "times")) / 4
			}
		}
	}
	return &out
}

// What a proof is held against comes to the same answer as without it, at whatever
// prices; so do two in a row, and one that is nonsense.
func TestProofChangesNothing(t *testing.T) {
	none, some, free := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		ctx := context.Background()
		m := stock(t)
		_, proof, err := prove(ctx, Solver{}, m, mip.Options{})
		require.NoError(t, err)
		require.NotNil(t, proof)
		if rapid.IntRange(0, 3).Draw(t, "nonsense") == 0 {
			spoil(t, proof.root)
		}
		for range 2 {
			m = changed(t, m)
			want, err := Solver{}.Solve(ctx, m, mip.Options{})
			require.NoError(t, err)
			got, next, err := prove(ctx, Solver{From: proof}, m, mip.Options{})
			require.NoError(t, err)
			require.Equal(t, want.Status, got.Status)
			if want.Status == mip.Infeasible {
				none++
				proof = next
				continue
			}
			some++
			require.InDelta(t, want.Objective, got.Objective, mip.DefaultGap+1e-6)
			require.Empty(t, m.Check(got.X, feasTol))
			require.LessOrEqual(t, got.Bound, want.Objective+1e-6)

			// Nothing is cheaper by more than a cent, and something is cheaper than a
			// cent more, whichever proof it begins with.
			for _, p := range []*Proof{proof, next} {
				ans, err := Solver{From: p}.Solve(ctx, m, mip.Options{CutOff: want.Objective - 0.01})
				require.NoError(t, err)
				require.Equal(t, mip.Infeasible, ans.Status)
				if ans.Nodes == 0 {
					free++
				}
				ans, err = Solver{From: p}.Solve(ctx, m, mip.Options{CutOff: want.Objective + 0.01})
				require.NoError(t, err)
				require.Equal(t, mip.Optimal, ans.Status)
			}
			proof = next
		}
	})
	require.Positive(t, none)
	require.Positive(t, some)
	require.Positive(t, free, "no proof held by itself")
}

// spoil puts nonsense in a proof.
func spoil(t *rapid.T, s *step) {
	if s == nil {
		return
	}
	for i := range s.prices {
		if rapid.Bool().Draw(t, "spoilt") {
			s.prices[i].y = float64(rapid.IntRange(-50, 50).Draw(t, "price"))
		}
	}
	if s.col != leaf && rapid.Bool().Draw(t, "moved") {
		s.at += float64(rapid.IntRange(-2, 2).Draw(t, "to"))
	}
	spoil(t, s.below)
	spoil(t, s.above)
	spoil(t, s.then)
}

// The highest θ is the same from a proof as without it.
func TestHighestFromProof(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		ctx := context.Background()
		m := stock(t)
		j := 0
		m.Cols[j].Cost = 0
		r := Ray{Slope: make([]float64, len(m.Cols)), From: 0.01}
		r.Slope[j] = 1
		// What it costs without pack 0, and the proof of that.
		without := *m
		without.Cols = slices.Clone(m.Cols)
		without.Cols[j].Cost = 1e3
		ans, proof, err := prove(ctx, Solver{}, &without, mip.Options{})
		require.NoError(t, err)
		if ans.Status != mip.Optimal || ans.X[j] > 0 || ans.Objective < 0.1 {
			return
		}
		r.Limit = ans.Objective
		want, top, _, err := Solver{}.Highest(ctx, m, r, mip.Options{})
		require.NoError(t, err)
		for _, p := range []*Proof{proof, proof.Split(j, 0)} {
			got, theta, next, err := Solver{From: p}.Highest(ctx, m, r, mip.Options{})
			require.NoError(t, err)
			require.Equal(t, want.Status, got.Status)
			if want.Status == mip.Infeasible {
				continue
			}
			found++
			require.InDelta(t, top, theta, mip.DefaultGap+1e-6)
			// The proof holds a little above.
			above := *m
			above.Cols = slices.Clone(m.Cols)
			above.Cols[j].Cost = theta + 0.01
			ans, err := Solver{From: next}.Solve(ctx, &above, mip.Options{CutOff: r.Limit})
			require.NoError(t, err)
			require.Equal(t, mip.Infeasible, ans.Status)
		}
	})
	require.Positive(t, found)
}

// A proof of a model with other columns or rows is left alone.
func TestProofOfAnotherModel(t *testing.T) {
	_, proof, err := prove(context.Background(), Solver{}, boxes(4), mip.Options{})
	require.NoError(t, err)
	require.True(t, proof.fits(boxes(3)))
	renamed, fractional, longer := boxes(4), boxes(4), boxes(4)
	renamed.Cols[0].Name = "six"
	fractional.Cols[0].Integer = false
	longer.AddRow(mip.Row{Name: "more", Rel: mip.AtMost, RHS: 1, Terms: []mip.Term{{Col: 1, Coef: 1}}})
	for _, m := range []*mip.Model{renamed, fractional, longer} {
		require.False(t, proof.fits(m))
		want, err := Solver{}.Solve(context.Background(), m, mip.Options{})
		require.NoError(t, err)
		got, err := Solver{From: proof}.Solve(context.Background(), m, mip.Options{})
		require.NoError(t, err)
		require.InDelta(t, want.Objective, got.Objective, 1e-9)
	}
	require.Nil(t, (*Proof)(nil).Split(0, 0))
}

// A cut is taken over only while the row that it was rounded from stands as it did.
func TestCutsAreTakenOverWithTheirRow(t *testing.T) {
	m := boxes(4)
	cut := mip.Row{Name: "cut", Rel: mip.AtLeast, RHS: 1, Terms: []mip.Term{{Col: 0, Coef: 1}}}
	p := &Proof{cols: m.Cols, rows: []mip.Row{cut}, from: []source{{0, m.Rows[0]}}}
	taken := func(m *mip.Model, p *Proof) mip.Row {
		tr := &tree{m: m, rows: slices.Clip(m.Rows)}
		tr.takeRows(p)
		require.Len(t, tr.rows, 2, "the others keep their places")
		return tr.rows[1]
	}
	require.Equal(t, cut, taken(m, p))
	dearer := boxes(9)
	require.Equal(t, cut, taken(dearer, p))
	bigger, wider := boxes(4), boxes(4)
	bigger.Rows[0].Terms = []mip.Term{{Col: 0, Coef: 4}, {Col: 1, Coef: 6}}
	wider.Cols[0].Upper = 4
	for _, other := range []*mip.Model{bigger, wider} {
		require.Empty(t, taken(other, p).Terms)
	}
	p.from[0] = always
	require.Equal(t, cut, taken(bigger, p))
	p.from[0] = theseCosts
	require.Empty(t, taken(m, p).Terms)
}

// A model without an answer is called so where the shortfall makes up for what it
// lacks, and its proof holds without a linear program at other prices.
func TestShortfall(t *testing.T) {
	m := func(price float64) *mip.Model {
		m := boxes(price)
		m.Rows[0].RHS = 25 // three of 4 and two of 5 are 22
		v := m.AddColumn(mip.Column{Name: "own", Upper: 2.9, Cost: 1})
		m.Rows[0].Terms = append(m.Rows[0].Terms, mip.Term{Col: v, Coef: 1})
		y := m.AddColumn(mip.Column{Name: "order", Upper: 1, Integer: true})
		m.AddRow(mip.Row{Name: "gate", Rel: mip.AtMost, Terms: []mip.Term{{Col: v, Coef: 1}, {Col: y, Coef: -2.9}}})
		return m
	}
	for _, price := range []float64{1, 4} {
		ans, err := Solver{Kept: func(*Proof) {}}.Solve(context.Background(), m(price), mip.Options{})
		require.NoError(t, err)
		require.Equal(t, mip.Infeasible, ans.Status)
		require.True(t, math.IsInf(ans.Bound, 1))
	}
}
