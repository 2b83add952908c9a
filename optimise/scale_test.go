package optimise

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files/jobtest"
)

// farApart is a job whose beds are of sizes from 1 L to 10^most L, with one quote of
// no limit that suits every bed.
func farApart(seed uint64, most float64) jobtest.Files {
	r := rand.New(rand.NewPCG(seed, 7))
	pick := func(a ...string) string { return a[r.IntN(len(a))] }
	var q, b strings.Builder
	q.WriteString("quote,supplier,medium,pack,price,size,max_qty,step,min_qty,form\nall,Acre,grit," + pick("1 L", "50 L", "1 m3", "20 m3") + ",10,20-30 mm,," + pick("", "0.5", "0.1") + ",,bulk\n")
	for i := range r.IntN(6) {
		fmt.Fprintf(&q, "q%d,%s,%s,%s,%d,%s,%s,%s,%s,\n", i, pick("Acre", "Birch", "Cobb"), pick("grit", "rock", "fluff"), pick("0.5 L", "10 L", "50 L", "1 m3", "30 m3"),
			1+r.IntN(400), pick("20-30 mm", "20-40 mm"), pick("", "", "5", "100000"), pick("", "0.5"), pick("", "", "3"))
	}
	b.WriteString("bed,volume,min_size,max_size,limit,max_share,count\n")
	for i := range 1 + r.IntN(8) {
		v := math.Pow(10, r.Float64()*most)
		fmt.Fprintf(&b, "b%d,%.2f L,%s,%s,%s,%s,%s\n", i, v, pick("", "10 mm"), pick("", "30 mm", "35 mm"), pick("", "", fmt.Sprintf("%.1f kg", v*1.1)), pick("", "rock: 0.5", "fluff: 0.3; rock: 0.2"), pick("", "", "3", "10"))
	}
	return jobtest.Files{Quotes: q.String(), Beds: b.String(), Media: jobtest.PlainMedia, Settings: pick("", "", "layer_mix = \"one\"\n", "least_share = \"10%\"\n"),
		Delivery: pick("", "supplier,order_fee,load_fee,load_volume\nAcre,,50,10 m3\nBirch,40,,\n")}
}

// Numbers far apart can mislead a solver. However far, no job is called impossible
// without a reason, and an answer that does not hold is an error; what the reader lets
// through with beds of a litre beside those of 10,000 m³ is settled.
func TestNothingIsImpossibleWithoutAReason(t *testing.T) {
	jobtest.Long(t)
	seeds := jobtest.Seeds(80, 200)
	var refused uint64
	for _, most := range []float64{5, 6.5, 7} {
		for seed := range seeds {
			job, rep := farApart(seed, most).Try(t)
			if rep.Err() != nil {
				require.ErrorContains(t, rep.Err(), "of the largest row", "10^%g L, seed %d", most, seed)
				refused++
				continue
			}
			plan, err := Solve(context.Background(), job, Options{TimeLimit: time.Minute})
			require.NoError(t, err, "10^%g L, seed %d", most, seed)
			require.NotEqual(t, Infeasible, plan.Status, "10^%g L, seed %d: one quote without a limit suits every bed", most, seed)
		}
	}
	assert.Positive(t, refused, "the sizes are far enough apart to be refused")
	assert.Less(t, refused, jobtest.Seeds(65, 150))
}
