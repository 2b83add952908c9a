package optimise

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/model"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes/files/jobtest"
)

// thin is a job of several sites and grain sizes whose stocks are mostly too small.
func thin(seed uint64, sites, quotes, beds int) jobtest.Files {
	r := rand.New(rand.NewPCG(seed, 3))
	var q, b strings.Builder
	q.WriteString("quote,supplier,medium,pack,price,size,max_qty\n")
	for i := range quotes {
		least := 5 + r.IntN(20)
		fmt.Fprintf(&q, "q%d,Yard %d,%s,50 L,%d,%d-%d mm,%d\n", i, i%5, []string{"grit", "rock", "fluff"}[r.IntN(3)], 5+r.IntN(20), least, least+5+r.IntN(15), r.IntN(40*beds/quotes+1))
	}
	b.WriteString("bed,volume,min_size,max_size,site\n")
	for i := range beds {
		least := 3 + r.IntN(12)
		fmt.Fprintf(&b, "b%d,%d L,%d mm,%d mm,s%d\n", i, 200+r.IntN(2000), least, least+20+r.IntN(25), i%sites)
	}
	return jobtest.Files{Quotes: q.String(), Beds: b.String(), Media: jobtest.PlainMedia}
}

// What the stocks leave short without a solve is what the linear program says that is
// left short at least.
func TestScarceIsTheLeastThatStaysShort(t *testing.T) {
	some, none := 0, 0
	for seed := range uint64(60) {
		job := thin(seed, 1+int(seed%4), 12, 10).Job(t)
		in := model.NewInstance(job, suitability.New(job), false)
		if model.Build(in, model.Options{}).Unsupplied() != nil {
			continue
		}
		e := elastic(in, give{short: true})
		for j := range e.Cols {
			e.Cols[j].Integer = false
		}
		ans, err := search.Solver{}.Solve(context.Background(), e.Model, mip.Options{})
		require.NoError(t, err)
		require.Equal(t, mip.Optimal, ans.Status)
		sum := 0.0
		for _, l := range e.Scarce() {
			sum += l.Litres
		}
		require.InDelta(t, ans.Objective, sum, 0.1, "seed %d", seed)
		if sum > 0 {
			some++
		} else {
			none++
		}
	}
	assert.Positive(t, some)
	assert.Positive(t, none)
}

// One quote has 40 bags of 50 L for thirty sites that take 100 L each: 1,000 L are not for sale. It is seen without
// any linear program, told before the reason is sought, and found as the reason even where no time is left to seek others.
func TestStocksAcrossSitesAreSeenAtOnce(t *testing.T) {
	var beds strings.Builder
	beds.WriteString("bed,volume,site\n")
	for i := range 30 {
		fmt.Fprintf(&beds, "b%d,100 L,s%d\n", i, i)
	}
	job := jobtest.Files{Quotes: "quote,supplier,medium,pack,price,max_qty\ng,Yard,grit,50 L,10,40\n", Beds: beds.String(), Media: jobtest.PlainMedia}.Job(t)
	for name, opt := range map[string]Options{"": {}, "nothing is found in time": {Solver: unlucky{}}} {
		var told []mip.Progress
		opt.Progress = func(p mip.Progress) { told = append(told, p) }
		plan, err := Solve(context.Background(), job, opt)
		require.NoError(t, err, name)
		require.Equal(t, Infeasible, plan.Status, name)
		require.Zero(t, plan.Nodes, name)
		require.True(t, told[0].Why, "%s: what is told first is that reasons are sought", name)
		sum := 0.0
		for _, o := range plan.Why {
			assert.Equal(t, RuleStock, o.Rule)
			sum += float64(o.Short)
		}
		assert.InDelta(t, 1000, sum, 0.1, "%s: %v", name, plan.Why)
	}
}

// unlucky finds nothing before its time is up.
type unlucky struct{}

func (unlucky) Solve(_ context.Context, m *mip.Model, opt mip.Options) (*mip.Answer, error) {
	if opt.TimeLimit <= 0 || opt.TimeLimit > time.Minute {
		return nil, fmt.Errorf("model of %d rows: no limit", len(m.Rows))
	}
	return &mip.Answer{Status: mip.NoAnswer}, nil
}
