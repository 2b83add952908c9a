package optimise

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/optimise/mip/miptest"
	"mediabuy/quotes/files/jobtest"
)

// otherSolverJobs is how many random jobs of each shape the other solvers are
// asked about: 60 in all, and 105 each night.
func otherSolverJobs() uint64 { return jobtest.Seeds(4, 7) }

// Two solvers that share no code with ours read the exported model of random jobs
// of every shape, as the files have them and merged, in both formats, and come to
// the same cost before rounding, or find like us that there is none.
func TestOtherSolversAgree(t *testing.T) {
	for _, solver := range miptest.Solvers {
		miptest.Installed(t, solver)
	}
	for _, shape := range shapeNames() {
		t.Run(shape, func(t *testing.T) {
			t.Parallel()
			for seed := uint64(100); seed < 100+otherSolverJobs(); seed++ {
				job := randjob.Job(seed, shapes()[shape])
				plan := solved(t, job, Options{})
				merged := seed%2 == 1
				m := ExportModel(job, merged)
				form := []string{"lp", "mps"}[seed/2%2]
				what := fmt.Sprintf("%s, merged %v, %s", seedName(shape, seed), merged, form)
				if plan.Status == Infeasible {
					for _, name := range miptest.Solvers {
						_, some := miptest.Optimum(t, name, m, form)
						require.False(t, some, "%s finds a purchase: %s", name, what)
					}
					continue
				}
				ans, err := search.Solver{}.Solve(context.Background(), ExportModel(job, true), mip.Options{})
				require.NoError(t, err)
				require.Equal(t, mip.Optimal, ans.Status, what)
				require.InDelta(t, ans.Objective, plan.Bill.Total.Float(), halfCent+rounding(plan.Bill), what)
				for _, name := range miptest.Solvers {
					v, some := miptest.Optimum(t, name, m, form)
					require.True(t, some, "%s finds none: %s", name, what)
					require.InDelta(t, ans.Objective, v, halfCent, "%s: %s", name, what)
				}
			}
		})
	}
}

// 20 bags of 46.55 L placed at 10 make 200: a budget of 199.99 leaves the model without an answer,
// one of 200 does not bind.
func TestExportHoldsTheBudget(t *testing.T) {
	for budget, want := range map[string]mip.Status{"199.99": mip.Infeasible, "200": mip.Optimal} {
		f := jobtest.Files{Quotes: "quote,supplier,medium,pack,price\na,Yard,expanded clay,50 L,10\n", Beds: "bed,volume\none,930 L\n", Settings: "budget = " + budget}
		for _, merged := range []bool{true, false} {
			m := ExportModel(f.Job(t), merged)
			ans, err := search.Solver{}.Solve(context.Background(), m, mip.Options{})
			require.NoError(t, err)
			require.Equal(t, want, ans.Status, "budget %s, merged %v", budget, merged)
		}
	}
}
