package costgame

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// table makes a game from the costs of groups in order of their bits: A, B, AB,
// C, AC, BC, ABC.
func table(t *testing.T, n int, costs ...float64) *Game {
	t.Helper()
	require.Len(t, costs, 1<<n-1)
	g, err := New(n, func(s Group) float64 { return costs[s-1] })
	require.NoError(t, err)
	return g
}

// airport is the game of runways: a group needs that of its largest member.
func airport(t *testing.T, needs ...float64) *Game {
	t.Helper()
	g, err := New(len(needs), func(s Group) float64 {
		most := 0.0
		for _, i := range s.Players() {
			most = max(most, needs[i])
		}
		return most
	})
	require.NoError(t, err)
	return g
}

func nucleolus(t *testing.T, g *Game) *Fair {
	t.Helper()
	f, err := Nucleolus(context.Background(), g.Players(), g.Total(), g.Priced())
	require.NoError(t, err)
	return f
}

func TestPublishedShapleyValues(t *testing.T) {
	for _, c := range []struct {
		name string
		game *Game
		want []float64
	}{
		// S. C. Littlechild and G. Owen, Management Science 20 (1973) 370-372;
		// figures as on the encyclopedia page "Airport problem" (seen).
		// 8/4 = 2; 2 + 3/3 = 3; 3 + 2/2 = 4; 4 + 5 = 9.
		{"airport of four", airport(t, 8, 11, 13, 18), []float64{2, 3, 4, 9}},
		// Tennessee Valley: navigation, flood control, power, in thousands of
		// dollars. J. S. Ransmeier (1942); P. Straffin and J. P. Heaney (1981)
		// (memory), computed again in exact fractions.
		{"three purposes of a dam", table(t, 3, 163520, 140826, 301607, 250096, 378821, 367370, 412584), []float64{117829, 100756.5, 193998.5}},
		// Three riders share a taxi: data seen in a course handout on the axioms,
		// the value computed in exact fractions: 17/6, 16/3, 59/6.
		{"taxi", table(t, 3, 6, 11, 12, 15, 17, 17, 18), []float64{17.0 / 6, 16.0 / 3, 59.0 / 6}},
		// Three students share an apartment: savings of 160, 170, 140 for pairs and
		// 300 for all, as the manual page of an R package on games prints them
		// (seen); the value computed in exact fractions.
		{"apartment", table(t, 3, 300, 270, 410, 280, 410, 410, 550), []float64{575.0 / 3, 530.0 / 3, 545.0 / 3}},
		// One left glove, two right, a pair worth 1: 2/3, 1/6, 1/6 (L. S. Shapley
		// 1953, memory). Gains are costs below 0.
		{"gloves", table(t, 3, 0, 0, -1, 0, -1, 0, -1), []float64{-2.0 / 3, -1.0 / 6, -1.0 / 6}},
		// Any two of three gain 1: a third each (textbook, memory).
		{"majority of three", table(t, 3, 0, 0, -1, 0, -1, -1, -1), []float64{-1.0 / 3, -1.0 / 3, -1.0 / 3}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.InDeltaSlice(t, c.want, c.game.Shapley(), 1e-9*math.Max(1, math.Abs(c.game.Total())))
		})
	}
}

// Of the same games: the Shapley value is in the core or not.
func TestPublishedCores(t *testing.T) {
	for _, c := range []struct {
		name string
		game *Game
		in   bool
	}{
		{"airport of four", airport(t, 8, 11, 13, 18), true},
		{"three purposes of a dam", table(t, 3, 163520, 140826, 301607, 250096, 378821, 367370, 412584), true},
		{"taxi", table(t, 3, 6, 11, 12, 15, 17, 17, 18), true},
		{"apartment", table(t, 3, 300, 270, 410, 280, 410, 410, 550), true},
		// The owner of the left glove and one right would pay −1 and pay −5/6.
		{"gloves", table(t, 3, 0, 0, -1, 0, -1, 0, -1), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.in, worstOf(c.game.Priced(), c.game.Shapley()) <= 1e-9)
		})
	}
}

// The estates of three creditors with claims of 100, 200 and 300: the nucleolus
// of the game in which a group is sure of what the others' claims leave. R. J.
// Aumann and M. Maschler, J. Economic Theory 36 (1985) 195-213 (memory).
func TestNucleolusOfEstates(t *testing.T) {
	claims := []float64{100, 200, 300}
	for _, c := range []struct {
		estate float64
		want   []float64
	}{
		{100, []float64{100.0 / 3, 100.0 / 3, 100.0 / 3}},
		{200, []float64{50, 75, 75}},
		{300, []float64{50, 100, 150}},
	} {
		t.Run(fmt.Sprint(c.estate), func(t *testing.T) {
			g, err := New(3, func(s Group) float64 {
				return -max(0, c.estate-(All(3)&^s).Sum(claims))
			})
			require.NoError(t, err)
			got := nucleolus(t, g).Split
			for i := range got {
				assert.InDelta(t, c.want[i], -got[i], 1e-6)
			}
		})
	}
}

func TestNucleolusByHand(t *testing.T) {
	for _, c := range []struct {
		name   string
		game   *Game
		want   []float64
		excess float64
	}{
		// The core is the single point where the left glove takes all.
		{"gloves", table(t, 3, 0, 0, -1, 0, -1, 0, -1), []float64{-1, 0, 0}, 0},
		// Core empty: each pair pays −2/3 and would pay −1, an excess of 1/3.
		{"majority of three", table(t, 3, 0, 0, -1, 0, -1, -1, -1), []float64{-1.0 / 3, -1.0 / 3, -1.0 / 3}, 1.0 / 3},
		// Two players halve what they save: 10 + 20 − 24 = 6, so 7 and 17.
		{"two", table(t, 2, 10, 20, 24), []float64{7, 17}, -3},
		// The k with the shortest runways all pay the least of need_k/(k+1) for
		// k = 1, 2, 3: 8/2 = 4, 11/3, 13/4. It is 13/4 at k = 3, so A, B and C pay
		// that and D the rest, 18 − 39/4 = 33/4. {A, B, C} pays 39/4 − 13 = −13/4 above
		// its own cost, as does each single of them with all others (S. C.
		// Littlechild, Int. J. Game Theory 3 (1974) 21-29, memory of the method).
		{"airport of four", airport(t, 8, 11, 13, 18), []float64{13.0 / 4, 13.0 / 4, 13.0 / 4, 33.0 / 4}, -13.0 / 4},
		{"one", table(t, 1, 9), []float64{9}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := nucleolus(t, c.game)
			assert.InDeltaSlice(t, c.want, f.Split, 1e-6)
			assert.InDelta(t, c.excess, f.Excess, 1e-6)
		})
	}
}
