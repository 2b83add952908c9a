package costgame

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/optimise/internal/lpsolve"
)

// drawGame draws a game of 2 to 6 players with whole costs, half of the time of
// a kind whose core is often not empty.
func drawGame(t *rapid.T, n int) *Game {
	one := rapid.SliceOfN(rapid.IntRange(1, 1000), n, n).Draw(t, "alone")
	fee := rapid.IntRange(0, 800).Draw(t, "fee")
	loose := rapid.Bool().Draw(t, "loose")
	g, err := New(n, func(s Group) float64 {
		sum := fee
		for _, i := range s.Players() {
			sum += one[i]
		}
		if loose {
			sum += rapid.IntRange(-300, 300).Draw(t, "more")
		}
		return float64(sum)
	})
	require.NoError(t, err)
	return g
}

func players(t *rapid.T) int { return rapid.IntRange(2, 6).Draw(t, "players") }

func add(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum
}

// The axioms of L. S. Shapley (1953): the parts add up to the cost of all;
// players who add the same to every group pay the same; one who adds nothing
// pays nothing; the value of a sum of games is the sum of their values.
func TestShapleyAxioms(t *testing.T) {
	t.Run("efficiency", rapid.MakeCheck(func(t *rapid.T) {
		g := drawGame(t, players(t))
		assert.InDelta(t, g.Total(), add(g.Shapley()), 1e-6)
	}))
	t.Run("symmetry", rapid.MakeCheck(func(t *rapid.T) {
		n := players(t)
		g := drawGame(t, n)
		swap := func(s Group) Group {
			out := s &^ 3
			return out | (s&1)<<1 | (s&2)>>1
		}
		same, err := New(n, func(s Group) float64 { return g.Cost(s) + g.Cost(swap(s)) })
		require.NoError(t, err)
		x := same.Shapley()
		assert.InDelta(t, x[0], x[1], 1e-6)
	}))
	t.Run("null member", rapid.MakeCheck(func(t *rapid.T) {
		n := players(t)
		g := drawGame(t, n)
		idle, err := New(n+1, func(s Group) float64 { return g.Cost(s & All(n)) })
		require.NoError(t, err)
		assert.InDelta(t, 0, idle.Shapley()[n], 1e-6)
	}))
	t.Run("additivity", rapid.MakeCheck(func(t *rapid.T) {
		n := players(t)
		g, h := drawGame(t, n), drawGame(t, n)
		both, err := New(n, func(s Group) float64 { return g.Cost(s) + h.Cost(s) })
		require.NoError(t, err)
		x, y, z := g.Shapley(), h.Shapley(), both.Shapley()
		for i := range z {
			assert.InDelta(t, x[i]+y[i], z[i], 1e-6)
		}
	}))
}

// A split is the prenucleolus when, for every level, the groups with at least
// that excess are balanced: some positive weights make them cover every player
// just once (E. Kohlberg, SIAM J. Applied Mathematics 20 (1971) 62-66, memory).
func TestNucleolusIsBalancedAtEveryLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := players(t)
		g := drawGame(t, n)
		f, err := Nucleolus(context.Background(), n, g.Total(), g.Priced())
		require.NoError(t, err)
		require.InDelta(t, g.Total(), add(f.Split), 1e-6)
		require.InDelta(t, worstOf(g.Priced(), f.Split), f.Excess, 1e-5)
		groups := g.Priced()
		slices.SortFunc(groups, func(a, b Priced) int { return cmp.Compare(b.Excess(f.Split), a.Excess(f.Split)) })
		for k := range groups {
			if k+1 < len(groups) && groups[k].Excess(f.Split)-groups[k+1].Excess(f.Split) < 1e-4 {
				continue // the level goes on
			}
			require.Greater(t, leastWeight(t, n, groups[:k+1]), 1e-7, "level %g", groups[k].Excess(f.Split))
		}
	})
}

// leastWeight is the largest possible least weight of a balanced cover; not
// above 0 when there is none.
func leastWeight(t *rapid.T, n int, groups []Priced) float64 {
	lp, err := lpsolve.New()
	require.NoError(t, err)
	defer lp.Close()
	_, err = lp.AddColumn("least", -1, -1, 1, nil, nil)
	require.NoError(t, err)
	cover := make([][]int, n)
	for k, p := range groups {
		_, err = lp.AddColumn("", 0, -1, 2, nil, nil)
		require.NoError(t, err)
		for _, i := range p.Group.Players() {
			cover[i] = append(cover[i], k+1)
		}
	}
	for _, cols := range cover {
		coef := slices.Repeat([]float64{1}, len(cols))
		_, err = lp.AddRow("", lpsolve.Equal, 1, cols, coef)
		require.NoError(t, err)
	}
	for k := range groups {
		_, err = lp.AddRow("", lpsolve.AtMost, 0, []int{0, k + 1}, []float64{1, -1})
		require.NoError(t, err)
	}
	res, err := lp.Solve(context.Background(), lpsolve.Options{})
	require.NoError(t, err)
	if res.Status != lpsolve.Optimal {
		return -1
	}
	return res.X[0]
}

// The nucleolus is in the core whenever the core is not empty, and its greatest
// excess is that of the least core.
func TestNucleolusIsInTheLeastCore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGame(t, players(t))
		f, err := Nucleolus(context.Background(), g.Players(), g.Total(), g.Priced())
		require.NoError(t, err)
		least, err := leastCore(context.Background(), g.Players(), g.Total(), g.Priced())
		require.NoError(t, err)
		assert.InDelta(t, least.Excess, f.Excess, 1e-5)
		for _, x := range [][]float64{g.Shapley(), least.Split} {
			assert.LessOrEqual(t, f.Excess, worstOf(g.Priced(), x)+1e-5, "another split does better")
		}
	})
}

// Twelve players: 4094 groups, of which the programs hold a few.
func TestNucleolusOfTwelve(t *testing.T) {
	g, err := New(12, func(s Group) float64 {
		sum := 0.0
		for _, i := range s.Players() {
			sum += float64(100 + 37*i%90)
		}
		return math.Ceil(sum/250)*90 + sum
	})
	require.NoError(t, err)
	f := nucleolus(t, g)
	assert.InDelta(t, g.Total(), add(f.Split), 1e-6)
	assert.InDelta(t, f.Excess, worstOf(g.Priced(), f.Split), 1e-5)
}

func TestSample(t *testing.T) {
	g := airport(t, 8, 11, 13, 18)
	cost := func(s Group) (float64, error) { return g.Cost(s), nil }
	s, err := Sample(4, 400, 1, cost)
	require.NoError(t, err)
	assert.InDelta(t, 18, add(s.Value), 1e-9, "each order adds up to the cost of all")
	for i, want := range []float64{2, 3, 4, 9} {
		assert.Positive(t, s.Error[i])
		assert.InDelta(t, want, s.Value[i], 4*s.Error[i])
	}
	again, err := Sample(4, 400, 1, cost)
	require.NoError(t, err)
	assert.Equal(t, s, again, "the same seed, the same orders")
	other, err := Sample(4, 400, 2, cost)
	require.NoError(t, err)
	assert.NotEqual(t, s.Value, other.Value)

	heads, err := Orders(4, 3, 1)
	require.NoError(t, err)
	asked := map[Group]bool{}
	_, err = Sample(4, 3, 1, func(s Group) (float64, error) {
		asked[s] = true
		return 0, nil
	})
	require.NoError(t, err)
	assert.Len(t, heads, len(asked))
	for _, h := range heads {
		assert.True(t, asked[h])
	}

	broken := errors.New("no cost")
	_, err = Sample(4, 3, 1, func(Group) (float64, error) { return 0, broken })
	assert.ErrorIs(t, err, broken)
}

func TestRefused(t *testing.T) {
	ctx := context.Background()
	free := func(Group) float64 { return 0 }
	for name, f := range map[string]func() error{
		"no players":         func() error { _, err := New(0, free); return err },
		"too many":           func() error { _, err := New(MaxTable+1, free); return err },
		"not a number":       func() error { _, err := New(2, func(Group) float64 { return math.NaN() }); return err },
		"infinite":           func() error { _, err := New(2, func(Group) float64 { return math.Inf(1) }); return err },
		"one pair":           func() error { _, err := Sample(2, 1, 0, nil); return err },
		"nobody to sample":   func() error { _, err := Sample(0, 2, 0, nil); return err },
		"a player unpriced":  func() error { _, err := Nucleolus(ctx, 2, 3, []Priced{{1, 2}}); return err },
		"a group twice":      func() error { _, err := leastCore(ctx, 2, 3, []Priced{{1, 2}, {2, 2}, {1, 2}}); return err },
		"everybody as group": func() error { _, err := Nucleolus(ctx, 2, 3, []Priced{{1, 2}, {2, 2}, {3, 2}}); return err },
	} {
		assert.Error(t, f(), name)
	}
	stopped, cancel := context.WithCancel(ctx)
	cancel()
	_, err := Nucleolus(stopped, 2, 3, []Priced{{1, 2}, {2, 2}})
	assert.ErrorIs(t, err, context.Canceled)
}

// worstOf is the greatest excess of the groups under split x; -Inf without groups.
func worstOf(groups []Priced, x []float64) float64 {
	worst := math.Inf(-1)
	for _, p := range groups {
		worst = max(worst, p.Excess(x))
	}
	return worst
}

// leastCore finds a split that makes the greatest excess of the groups given as
// small as possible. Any of many such splits may come back.
func leastCore(ctx context.Context, n int, total float64, groups []Priced) (*Fair, error) {
	s, err := newStages(n, total, groups)
	if err != nil || n == 1 {
		return &Fair{Split: []float64{total}}, err
	}
	if err := s.next(ctx); err != nil {
		return nil, err
	}
	return &Fair{s.x, s.level}, nil
}
