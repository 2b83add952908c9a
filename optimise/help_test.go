package optimise

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/randjob"
	"mediabuy/quotes"
)

// halfCent is how far apart two proven answers may be before rounding.
const halfCent = 0.005

// solved is the plan for a job; an answer that is not proven fails the test.
func solved(t require.TestingT, job *quotes.Job, opt Options) *Plan {
	plan, err := Solve(context.Background(), job, opt)
	require.NoError(t, err)
	require.Contains(t, []Status{Optimal, Infeasible}, plan.Status)
	return plan
}

// bought writes the purchases as "9 a; 2 b@north", by quote name and site.
func bought(p *Plan) string {
	var words []string
	for _, l := range p.Bill.Lines {
		w := l.Packs.String() + " " + l.Quote.Name
		if l.Site != "" {
			w += "@" + l.Site
		}
		words = append(words, w)
	}
	return strings.Join(words, "; ")
}

// rounding is the most by which the rounding of its lines can move a bill: half
// a cent for each line, drop and supplier's tax, and for rinsing.
func rounding(b *bill.Bill) float64 {
	return halfCent * float64(len(b.Lines)+len(b.Drops)+len(b.TaxOf)+1)
}

// sameCost holds two answers to one job against each other: both infeasible, or
// totals that agree but for the proof's half cent and the rounding of lines.
func sameCost(t require.TestingT, want, got *Plan, what string) {
	require.Equal(t, want.Status, got.Status, what)
	if want.Bill == nil {
		return
	}
	allow := halfCent + rounding(want.Bill) + rounding(got.Bill)
	require.InDelta(t, want.Bill.Total.Float(), got.Bill.Total.Float(), allow, "%s: %s against %s", what, bought(want), bought(got))
}

// exactly solves the job with so many digits of currency that rounding moves
// nothing, so that costs can be compared to the half cent of the proof.
func exactly(t require.TestingT, job *quotes.Job, opt Options) (float64, *Plan) {
	fine := *job
	fine.Settings.CurrencyDigits = exactDigits
	plan := solved(t, &fine, opt)
	if plan.Bill == nil {
		return math.Inf(1), plan
	}
	return plan.Bill.Total.Float(), plan
}

// exactDigits is a rounding far below half a cent.
const exactDigits = 9

// shapes are small jobs of every kind of term, alone and together.
func shapes() map[string]randjob.Shape {
	out := map[string]randjob.Shape{
		"bare":         {Sites: 1, Suppliers: 3, Quotes: 6, Beds: 4},
		"simple":       randjob.Simple(3, 8, 5),
		"all":          randjob.All(1, 3, 7, 4),
		"all, 2 sites": randjob.All(2, 2, 4, 3),
		"all, 3 sites": randjob.All(3, 2, 3, 3),
	}
	one := func(name string, set func(*randjob.Shape)) {
		s := randjob.Shape{Sites: 1, Suppliers: 3, Quotes: 7, Beds: 4}
		set(&s)
		out[name] = s
	}
	one("all-units breaks", func(s *randjob.Shape) { s.Breaks = true })
	one("incremental breaks", func(s *randjob.Shape) { s.Breaks, s.Incremental, s.Sites = true, true, 2 })
	one("break groups", func(s *randjob.Shape) { s.Breaks, s.Groups, s.Suppliers = true, true, 2 })
	one("loads", func(s *randjob.Shape) { s.Loads, s.FreeOver = true, true })
	one("trucks", func(s *randjob.Shape) { s.Loads, s.Trucks, s.FreeOver, s.Haul = true, true, true, true })
	one("trucks, several sites", func(s *randjob.Shape) { s.Loads, s.Trucks, s.Sites, s.Quotes, s.Alternatives = true, true, 2, 5, true })
	one("weights", func(s *randjob.Shape) { s.Tables, s.Shares, s.Spread, s.Beds = true, true, true, 6 })
	one("alternatives", func(s *randjob.Shape) { s.Alternatives, s.Loads, s.Quotes = true, true, 6 })
	one("smallest orders", func(s *randjob.Shape) { s.MinOrder, s.Handling, s.Haul, s.Sites = true, true, true, 2 })
	one("stock", func(s *randjob.Shape) { s.Stock = true })
	one("weights and shares", func(s *randjob.Shape) { s.Tables, s.Shares, s.Beds = true, true, 6 })
	one("tax and labour", func(s *randjob.Shape) { s.Tax, s.Labour = true, true })
	one("mixing", func(s *randjob.Shape) { s.Mixing, s.Tables, s.Stock, s.Breaks, s.Loads = true, true, true, true, true })
	one("mixing, several sites", func(s *randjob.Shape) {
		s.Mixing, s.Sites, s.Quotes, s.Trucks, s.Loads, s.Spread = true, 2, 5, true, true, true
	})
	one("counts", func(s *randjob.Shape) { s.Counts, s.Handling, s.Loads = true, true, true })
	return out
}

// shapeNames lists the shapes in order.
func shapeNames() []string {
	var out []string
	for name := range shapes() {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

// seedName names a case so that its job can be made again.
func seedName(shape string, seed uint64) string { return fmt.Sprintf("%s, seed %d", shape, seed) }
