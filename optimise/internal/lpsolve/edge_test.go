package lpsolve

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	ctx := context.Background()
	for name, c := range map[string]struct {
		do   func(p *Problem) error
		want string
	}{
		"cost NaN":  {func(p *Problem) error { _, err := p.AddColumn("c", nan, 0, 1, nil, nil); return err }, `column "c": cost is NaN`},
		"cost inf":  {func(p *Problem) error { _, err := p.AddColumn("c", inf, 0, 1, nil, nil); return err }, `column "c": cost is +Inf`},
		"lower":     {func(p *Problem) error { _, err := p.AddColumn("c", 1, nan, 1, nil, nil); return err }, `column "c": bounds are NaN and 1`},
		"crossed":   {func(p *Problem) error { _, err := p.AddColumn("c", 1, 2, 1, nil, nil); return err }, `lower bound 2 is above upper bound 1`},
		"upper":     {func(p *Problem) error { _, err := p.AddColumn("c", 1, inf, inf, nil, nil); return err }, `bounds are +Inf and +Inf`},
		"far below": {func(p *Problem) error { return p.SetBounds(0, -inf, 1) }, `lower bound is -Inf, want a finite one`},
		"no row":    {func(p *Problem) error { _, err := p.AddColumn("c", 1, 0, 1, []int{1}, []float64{1}); return err }, `row index 1 is out of range, want 0 to 0`},
		"row twice": {func(p *Problem) error {
			_, err := p.AddColumn("c", 1, 0, 1, []int{0, 0}, []float64{1, 1})
			return err
		}, `column "c": row "r" is given twice`},
		"coef":      {func(p *Problem) error { _, err := p.AddRow("n", AtMost, 1, []int{0}, []float64{nan}); return err }, `row "n": coefficient of column 0 is NaN`},
		"coef inf":  {func(p *Problem) error { _, err := p.AddRow("n", AtMost, 1, []int{0}, []float64{-inf}); return err }, `row "n": coefficient of column 0 is -Inf`},
		"rhs":       {func(p *Problem) error { _, err := p.AddRow("n", AtMost, inf, nil, nil); return err }, `row "n": right side is +Inf`},
		"relation":  {func(p *Problem) error { _, err := p.AddRow("n", 0, 1, nil, nil); return err }, `relation is Relation(0), want AtMost`},
		"col twice": {func(p *Problem) error { _, err := p.AddRow("n", Equal, 1, []int{0, 0}, []float64{1, 2}); return err }, `column "x" is given twice`},
		"no col":    {func(p *Problem) error { _, err := p.AddRow("n", Equal, 1, []int{-1}, []float64{1}); return err }, `column index -1 is out of range`},
		"lengths":   {func(p *Problem) error { _, err := p.AddRow("n", Equal, 1, []int{0}, nil); return err }, `1 indexes and 0 coefficients`},
		"set cost":  {func(p *Problem) error { return p.SetCost(0, nan) }, `column "x": cost is NaN`},
		"set rhs":   {func(p *Problem) error { return p.SetRHS(0, nan) }, `row "r": right side is NaN`},
		"bounds":    {func(p *Problem) error { return p.SetBounds(0, 3, 2) }, `column "x": lower bound 3 is above`},
		"bound at":  {func(p *Problem) error { return p.SetBounds(1, 0, 1) }, `column index 1 is out of range, want 0 to 0`},
		"row at":    {func(p *Problem) error { return p.SetRHS(9, 1) }, `row index 9 is out of range`},
		"basis":     {func(p *Problem) error { return p.SetBasis(Basis{1}) }, `basis has 1 entries, want 3`},
		"no basis":  {func(p *Problem) error { return p.SetBasis(Basis{0, -1, -1}) }, `entry 2 is 1 again`},
		"unsolved":  {func(p *Problem) error { _, err := p.Duals(nil); return err }, `not solved as it stands`},
		"pricing":   {func(p *Problem) error { _, err := p.Solve(ctx, Options{Pricing: 9}); return err }, `Pricing is 9`},
		"work":      {func(p *Problem) error { _, err := p.Solve(ctx, Options{WorkLimit: -1}); return err }, `WorkLimit is -1`},
		"time":      {func(p *Problem) error { _, err := p.Solve(ctx, Options{TimeLimit: -1}); return err }, `TimeLimit is -1ns`},
	} {
		t.Run(name, func(t *testing.T) {
			p := open(t)
			col(t, p, "x", 1, 0, 5)
			row1(t, p, "r", AtLeast, 2, 1)
			err := c.do(p)
			require.ErrorContains(t, err, c.want)
			// What was refused has changed nothing, before C and after.
			for range 2 {
				r := solve(t, p, Options{})
				require.Equal(t, Optimal, r.Status)
				assert.Equal(t, []float64{2}, r.X)
				if name != "unsolved" {
					require.ErrorContains(t, c.do(p), c.want)
				}
			}
		})
	}
}

func TestClosed(t *testing.T) {
	for _, loaded := range []bool{false, true} {
		p := open(t)
		col(t, p, "x", 1, 0, 5)
		row1(t, p, "r", AtLeast, 2, 1)
		if loaded {
			solve(t, p, Options{})
		}
		p.Close()
		p.Close()
		_, err := p.AddColumn("y", 1, 0, 1, nil, nil)
		require.ErrorIs(t, err, ErrClosed)
		_, err = p.AddRow("y", Equal, 1, nil, nil)
		require.ErrorIs(t, err, ErrClosed)
		_, err = p.Solve(context.Background(), Options{})
		require.ErrorIs(t, err, ErrClosed)
		_, err = p.Duals(nil)
		require.ErrorIs(t, err, ErrClosed)
		_, err = p.GetBasis(nil)
		require.ErrorIs(t, err, ErrClosed)
		for _, err := range []error{
			p.SetBasis(nil), p.ResetBasis(), p.SetBounds(0, 0, 1), p.SetCost(0, 1),
			p.SetRHS(0, 1),
		} {
			require.ErrorIs(t, err, ErrClosed)
		}
	}
	var none *Problem
	none.Close()
}

// A row without entries stands as 0 rel rhs.
func TestEmptyRow(t *testing.T) {
	for _, c := range []struct {
		rel  Relation
		rhs  float64
		want Status
	}{
		{AtMost, 0, Optimal}, {AtMost, 1, Optimal}, {AtMost, -1, Infeasible},
		{AtLeast, 0, Optimal}, {AtLeast, -1, Optimal}, {AtLeast, 1, Infeasible},
		{Equal, 0, Optimal}, {Equal, 1, Infeasible}, {Equal, -1, Infeasible},
	} {
		for _, late := range []bool{false, true} {
			for _, coef := range [][]float64{nil, {0}, {1e-12}} {
				p := open(t)
				col(t, p, "x", 1, 0, 5)
				row1(t, p, "r", AtLeast, 2, 1)
				if late {
					solve(t, p, Options{})
				}
				row1(t, p, "empty", c.rel, c.rhs, coef...)
				r := solve(t, p, Options{})
				assert.Equal(t, c.want, r.Status, "0 %v %g, late %v, entries %v", c.rel, c.rhs, late, coef)
			}
		}
	}
}

// Problems whose rows have no entries never reach the library.
func TestPlain(t *testing.T) {
	for name, c := range map[string]struct {
		cost, lower, upper float64
		rhs                float64
		want               Status
		x                  float64
	}{
		"dear":         {cost: 2, lower: 1, upper: 3, want: Optimal, x: 1},
		"paid":         {cost: -2, lower: 1, upper: 3, want: Optimal, x: 3},
		"free of cost": {cost: 0, lower: 1, upper: 3, want: Optimal, x: 1},
		"no end":       {cost: 0, lower: -2, upper: Infinity, want: Optimal, x: -2},
		"unbounded":    {cost: -1, lower: 1, upper: Infinity, want: Unbounded},
		"row":          {cost: 1, lower: 0, upper: 1, rhs: -1, want: Infeasible},
	} {
		t.Run(name, func(t *testing.T) {
			p := open(t)
			col(t, p, "x", c.cost, c.lower, c.upper)
			row1(t, p, "r", AtMost, c.rhs)
			r := solve(t, p, Options{})
			require.Equal(t, c.want, r.Status)
			if c.want != Optimal {
				assert.Empty(t, r.X)
				return
			}
			assert.Equal(t, []float64{c.x}, r.X)
			assert.Equal(t, c.cost*c.x, r.Objective)
			rows, err := p.Duals(nil)
			require.NoError(t, err)
			assert.Equal(t, []float64{0}, rows)
		})
	}
	r := solve(t, open(t), Options{})
	assert.Equal(t, Optimal, r.Status)
	assert.Zero(t, r.Objective)
}

func TestWords(t *testing.T) {
	for s := NotSolved; s <= Unknown; s++ {
		assert.NotContains(t, s.String(), "Status(")
	}
	assert.Equal(t, "Status(99)", Status(99).String())
	assert.Equal(t, "≤ ≥ =", AtMost.String()+" "+AtLeast.String()+" "+Equal.String())
	// SUBOPTIMAL is what a time-out leaves behind: never Optimal.
	s, detail := outcome(1)
	assert.Equal(t, Feasible, s)
	assert.Equal(t, "solve: SUBOPTIMAL (1)", detail)
	s, detail = outcome(77)
	assert.Equal(t, Unknown, s)
	assert.Contains(t, detail, "77")
}
