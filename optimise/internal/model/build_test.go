package model_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/bill"
	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

// tiny is two quotes of one yard for two beds, of which one carries 500 kg: grit weighs
// 1 kg a litre and rock 2, and a load is 400 L.
func tiny(t *testing.T) *quotes.Job {
	return jobtest.Files{
		Quotes: "quote,supplier,medium,pack,price,breaks\na,Yard,grit,100 L,10,5: 9\nb,Yard,rock,100 L,8,\n", Beds: "bed,volume,limit\none,300 L,500 kg\ntwo,200 L,\n",
		Delivery: "supplier,order_fee,load_fee,load_volume\nYard,20,30,400 L\n", Media: jobtest.PlainMedia,
	}.Job(t)
}

func built(job *quotes.Job, plain bool) *model.Program {
	return model.Build(model.NewInstance(job, suitability.New(job), plain), model.Options{})
}

// Every row of the tiny job, worked out by hand from the formulas of the package comment.
func TestRowsByHand(t *testing.T) {
	for _, c := range []struct {
		name  string
		plain bool
		want  []string
	}{
		{"as in the files", true, []string{
			// Each bed is filled, from what is bought of each quote.
			"fill one base: + 1 place a one base + 1 place b one base = 300",
			"fill two base: + 1 place a two base + 1 place b two base = 200",
			"supply a: + 1 place a one base + 1 place a two base - 100 steps a <= 0",
			"supply b: + 1 place b one base + 1 place b two base - 100 steps b <= 0",
			// At the first price are up to 4 packs, from the break on up to the 5 that fill all.
			"levels steps a: - 1 steps a + 1 steps a from 0 + 1 steps a from 5 = 0",
			"upto a 0: + 1 steps a from 0 - 4 level a 0 <= 0",
			"upto a 5: + 1 steps a from 5 - 5 level a 5 <= 0",
			"reach a 5: + 1 steps a from 5 - 5 level a 5 >= 0",
			"one level a: + 1 level a 0 + 1 level a 5 <= 1",
			// Nothing comes without an order; 400 L go into a load, and 10 packs into 3.
			"carried order Yard delivered: + 0.2 steps a + 0.2 steps b - 2 order Yard delivered <= 0",
			"load volume loads Yard delivered: + 0.25 steps a + 0.25 steps b - 1 loads Yard delivered <= 0",
			"loads loads Yard delivered order Yard delivered: + 1 loads Yard delivered - 3 order Yard delivered <= 0",
			"weight one: + 1 place a one base + 2 place b one base <= 500",
		}},
		{"merged", false, []string{
			// What the same quotes may fill is one demand of 300 + 200; the bed with a limit has its part of it.
			"fill one base: + 1 place a one base + 1 place b one base = 500",
			"fill slot one base: + 1 fill a one base + 1 fill b one base = 300",
			"grade a one base: - 1 place a one base + 1 fill a one base <= 0",
			"grade b one base: - 1 place b one base + 1 fill b one base <= 0",
			"supply a: + 1 place a one base - 100 steps a <= 0",
			"supply b: + 1 place b one base - 100 steps b <= 0",
			"levels steps a: - 1 steps a + 1 steps a from 0 + 1 steps a from 5 = 0",
			"upto a 0: + 1 steps a from 0 - 4 level a 0 <= 0",
			"upto a 5: + 1 steps a from 5 - 5 level a 5 <= 0",
			"reach a 5: + 1 steps a from 5 - 5 level a 5 >= 0",
			"one level a: + 1 level a 0 + 1 level a 5 <= 1",
			"carried order Yard delivered: + 0.2 steps a + 0.2 steps b - 2 order Yard delivered <= 0",
			"load volume loads Yard delivered: + 0.25 steps a + 0.25 steps b - 1 loads Yard delivered <= 0",
			"loads loads Yard delivered order Yard delivered: + 1 loads Yard delivered - 3 order Yard delivered <= 0",
			"weight one: + 1 fill a one base + 2 fill b one base <= 500",
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := built(tiny(t), c.plain)
			plainly := strings.NewReplacer("/", " ", ":", " ")
			words := func(name string) string { return strings.Join(strings.Fields(plainly.Replace(name)), " ") }
			var got []string
			for _, r := range p.Rows {
				line := words(r.Name) + ":"
				for _, term := range r.Terms {
					sign := "+"
					if term.Coef < 0 {
						sign = "-"
					}
					line += fmt.Sprintf(" %s %g %s", sign, math.Abs(term.Coef), words(p.Cols[term.Col].Name))
				}
				got = append(got, fmt.Sprintf("%s %s %g", line, r.Rel, r.RHS))
			}
			assert.Equal(t, c.want, got)
		})
	}
}

// Every purchase of the tiny job counted out: the rows hold just those that fill both
// beds, each at its bill.
//
// Rock fills all 200 L of bed two and 200 L of bed one, where 200 × 2 + 100 × 1 kg are its
// 500, so it takes 5 packs in all and at least one of grit. Least is 1 × 10 + 4 × 8 + 20 +
// 2 × 30 = 122.
func TestCountedOut(t *testing.T) {
	job := tiny(t)
	p := built(job, true)
	at := map[string]int{}
	for i, c := range p.Cols {
		at[strings.Join(strings.Fields(strings.NewReplacer("/", " ", ":", " ").Replace(c.Name)), " ")] = i
	}
	least := math.Inf(1)
	for a := range 6 {
		for b := range 6 {
			if a+b == 0 {
				continue
			}
			x := make([]float64, len(p.Cols))
			set := func(name string, v float64) {
				i, ok := at[name]
				require.True(t, ok, "%s of %v", name, at)
				x[i] = v
			}
			set("steps a", float64(a))
			set("steps b", float64(b))
			level := "0"
			if a >= 5 {
				level = "5"
			}
			set("steps a from "+level, float64(a))
			set("level a "+level, 1)
			set("order Yard delivered", 1)
			set("loads Yard delivered", math.Ceil(float64(a+b)/4))
			rock := 100 * float64(b)
			two := min(rock, 200)
			one := min(rock-two, 200)
			set("place b two base", two)
			set("place a two base", 200-two)
			set("place b one base", one)
			set("place a one base", 300-one)
			fills := a+b >= 5 && a >= 1
			assert.Equal(t, fills, len(p.Check(x, 1e-9)) == 0, "%d a and %d b: %v", a, b, p.Check(x, 1e-9))

			priced, err := bill.Price(job, bill.Purchase{Items: []bill.Item{{Quote: job.Quotes[0], Steps: int64(a)}, {Quote: job.Quotes[1], Steps: int64(b)}}})
			require.NoError(t, err)
			assert.InDelta(t, priced.Total.Float(), p.Value(x), 1e-9, "%d a and %d b", a, b)
			if fills {
				least = min(least, p.Value(x))
			}
		}
	}
	assert.InDelta(t, 122, least, 1e-9)
}
