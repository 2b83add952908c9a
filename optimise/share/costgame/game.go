// Package costgame splits the cost of serving a set of players among them, and
// finds the groups of players who would pay less by themselves. It knows nothing
// of beds or suppliers: costs may be in any unit, of any sign.
//
// A game of n players gives every group S a stand-alone cost c(S). For a split
// x, which adds up to c(N), the excess of S is
//
//	e(S, x) = Σ_{i in S} x[i] − c(S)
//
// what S pays more than it would by itself. The core is the set of splits with
// no excess above 0. The least core makes the greatest excess as small as
// possible, and the nucleolus goes on to make the second greatest as small as
// possible, and so on (D. Schmeidler, SIAM J. Applied Mathematics 17 (1969)
// 1163–1170, memory). It lies in the core whenever the core is not empty. Where
// it is empty, no player is promised to pay at most its own cost: a single player
// counts as any other group (the prenucleolus of the literature).
package costgame

import (
	"fmt"
	"math"
	"math/bits"
)

// Group is a set of players: player i is in it when bit i is set.
type Group uint64

// MaxPlayers is how many players a Group can tell apart, one bit spared.
const MaxPlayers = 63

// MaxTable is the most players a [Game] holds the cost of every group for:
// 2^20 groups are a million numbers.
const MaxTable = 20

// All is the group of n players.
func All(n int) Group { return 1<<n - 1 }

// One is the group of player i alone.
func One(i int) Group { return 1 << i }

// Has reports whether player i is in g.
func (g Group) Has(i int) bool { return g>>i&1 == 1 }

// Size is the number of players in g.
func (g Group) Size() int { return bits.OnesCount64(uint64(g)) }

// Players lists the players of g, rising.
func (g Group) Players() []int {
	out := make([]int, 0, g.Size())
	for h := uint64(g); h != 0; h &= h - 1 {
		out = append(out, bits.TrailingZeros64(h))
	}
	return out
}

// Sum adds up what the players of g pay under split x.
func (g Group) Sum(x []float64) float64 {
	sum := 0.0
	for h := uint64(g); h != 0; h &= h - 1 {
		sum += x[bits.TrailingZeros64(h)]
	}
	return sum
}

// Game holds the cost of every group of n players.
type Game struct {
	n    int
	cost []float64 // by Group; cost[0] is 0
}

// New makes the game of n players with the cost of every group but the empty
// one, which costs nothing. Every cost must be a finite number: a group that
// cannot act by itself is for the caller to price.
func New(n int, cost func(Group) float64) (*Game, error) {
	if n < 1 || n > MaxTable {
		return nil, fmt.Errorf("a game of %d players, want 1 to %d", n, MaxTable)
	}
	g := &Game{n: n, cost: make([]float64, 1<<n)}
	for s := Group(1); s <= All(n); s++ {
		v := cost(s)
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("the cost of group %b is %v, want a finite number", s, v)
		}
		g.cost[s] = v
	}
	return g, nil
}

// Players is the number of players.
func (g *Game) Players() int { return g.n }

// Cost is the stand-alone cost of s.
func (g *Game) Cost(s Group) float64 { return g.cost[s] }

// Total is the cost of all players together.
func (g *Game) Total() float64 { return g.cost[All(g.n)] }

// Priced lists every group but the empty one and that of all players, with its
// cost, in order of its bits.
func (g *Game) Priced() []Priced {
	out := make([]Priced, 0, len(g.cost))
	for s := Group(1); s < All(g.n); s++ {
		out = append(out, Priced{s, g.cost[s]})
	}
	return out
}

// Priced is a group and its stand-alone cost.
type Priced struct {
	Group Group
	Cost  float64
}

// Excess is what the group pays more than by itself under split x.
func (p Priced) Excess(x []float64) float64 { return p.Group.Sum(x) - p.Cost }
