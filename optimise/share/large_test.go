package share

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/share/costgame"
	"mediabuy/quotes"
)

// plots is a job of n plots of rising size that share vans of 400 L at 30 each.
func plots(t testing.TB, n int) *quotes.Job {
	var beds strings.Builder
	beds.WriteString("bed,volume,member\n")
	for i := range n {
		fmt.Fprintf(&beds, "b%d,%d L,plot %02d\n", i, 60+17*i%110, i)
	}
	return read(t, litreQuotes, beds.String(), "supplier,order_fee,load_fee,load_volume\nTor Yard,12,30,400 L\n", "")
}

// With fewer groups solved the split is still tested against those known, adds
// up, and comes near the one from all groups.
func TestAboveExact(t *testing.T) {
	job := plots(t, 6)
	all := solve(t, job, Options{})
	some := solve(t, job, Options{Exact: 5})
	assert.True(t, all.Exact)
	assert.False(t, some.Exact)
	assert.Len(t, all.Groups, 62)
	assert.GreaterOrEqual(t, len(some.Groups), 6+6+15, "singles, all but one, pairs")
	known := map[string]string{}
	for _, g := range all.Groups {
		known[storeKey(g.Members)] = g.Cost.String()
	}
	for _, g := range some.Groups {
		assert.Equal(t, known[storeKey(g.Members)], g.Cost.String())
	}
	assert.Equal(t, all.Total, some.Total)
	for _, sp := range some.Splits {
		assert.NotEqual(t, Shapley, sp.Rule, "not asked for, so not sampled")
		assert.Equal(t, some.Total.String(), sum(sp.Pays).String())
		assertTested(t, some, sp)
	}
	if some.Chosen.Stable {
		assert.Contains(t, some.Chosen.Reason, fmt.Sprintf("none of the %d groups tested", len(some.Groups)))
	}
	assert.Nil(t, some.Apart)
	// What the most content split of all groups leaves is a bound for the few.
	assert.LessOrEqual(t, some.Chosen.Excess, all.Chosen.Excess+1e-6)
}

// The search finds a group of three that objects though no single and no pair
// does: only loads of three plots fill a van.
func TestFindsViolations(t *testing.T) {
	var beds strings.Builder
	beds.WriteString("bed,volume,member\n")
	for i := range 7 {
		fmt.Fprintf(&beds, "b%d,100 L,plot %d\n", i, i)
	}
	// Vans of 300 L at 90. Seven plots need 3: 700 + 270, 138.57 each by litres.
	// One alone: 190; two: 290, 145 each; three: 390, 130 each, so a group of three
	// would pay 25.71 less.
	job := read(t, litreQuotes, beds.String(), "supplier,load_fee,load_volume\nTor Yard,90,300 L\n", "")
	res := solve(t, job, Options{Exact: 5, Rule: ByLitres})
	require.False(t, res.Chosen.Stable)
	// Six pay 831.43 and would pay 780.
	assert.Equal(t, "51.43", res.Chosen.Objections[0].By.Text(2))
	assert.Len(t, res.Chosen.Objections[0].Members, 6)
	trios := 0
	for _, o := range res.Chosen.Objections {
		if len(o.Members) == 3 {
			trios++
		}
	}
	assert.Positive(t, trios, "no trio is among the groups solved first")
}

func TestSampledShapley(t *testing.T) {
	job := plots(t, 6)
	exact := by(t, solve(t, job, Options{Rule: Shapley}), Shapley)
	assert.Nil(t, exact.Error)
	res := solve(t, job, Options{Rule: Shapley, Exact: 5, Pairs: 20, Seed: 7})
	require.Len(t, res.Chosen.Error, 6)
	assert.Equal(t, res.Total.String(), sum(res.Chosen.Pays).String())
	for i, e := range res.Chosen.Error {
		assert.InDelta(t, exact.Pays[i].Float(), res.Chosen.Pays[i].Float(), 4*e+0.02)
		assert.Less(t, e, 10.0, "in money")
	}
	again := solve(t, job, Options{Rule: Shapley, Exact: 5, Pairs: 20, Seed: 7})
	assert.Equal(t, pays(res.Chosen), pays(again.Chosen))
}

func TestNeighbours(t *testing.T) {
	known := []costgame.Priced{{Group: 0b0001, Cost: 9}, {Group: 0b0010, Cost: 9}, {Group: 0b0100, Cost: 9}, {Group: 0b1000, Cost: 9},
		{Group: 0b0111, Cost: 20}, {Group: 0b1011, Cost: 20}, {Group: 0b1101, Cost: 20}, {Group: 0b1110, Cost: 20}}
	s := &splitter{
		club: &club{names: []string{"a", "b", "c", "d"}}, total: 28,
		g: &groups{known: map[costgame.Group]*solved{}}, game: known,
	}
	for _, p := range known {
		s.g.known[p.Group] = &solved{}
	}
	// d pays most above what it adds, (9 + 8)/2, and a least. Of the singles d has the
	// greatest excess: c, b and a join it in this order. Of the trios {b, c, d} has:
	// b leaves before c, but {c, d} is listed already, and {b, d} too; d leaves last.
	x := []float64{4, 6, 8, 10}
	assert.Equal(t, []costgame.Group{0b1100, 0b1010, 0b1001, 0b0110}, s.neighbours(x, 4))
	assert.Equal(t, []costgame.Group{0b1100, 0b1010}, s.neighbours(x, 2))
	assert.Len(t, s.neighbours(x, 99), 6, "every pair, once")
}
