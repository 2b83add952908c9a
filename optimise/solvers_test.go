package optimise

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/internal/randjob"
	"mediabuy/optimise/internal/search"
	"mediabuy/optimise/mip"
	"mediabuy/quotes/files/jobtest"
)

// installed is where another solver is installed: GLPK's glpsol or COIN-OR's cbc
// (Debian: glpk-utils, coinor-cbc). Without it the test is skipped, except where
// CI=true says that it must be there.
func installed(t testing.TB, name string) string {
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("CI") != "true" {
		t.Skipf("%s is not installed (Debian: glpk-utils, coinor-cbc)", name)
	}
	require.NoError(t, err)
	return path
}

// writeModel writes the model as LP or MPS text into dir.
func writeModel(t testing.TB, m *mip.Model, dir, form string) string {
	path := filepath.Join(dir, "model."+form)
	f, err := os.Create(path)
	require.NoError(t, err)
	if form == "lp" {
		require.NoError(t, m.WriteLP(f))
	} else {
		require.NoError(t, m.WriteMPS(f))
	}
	require.NoError(t, f.Close())
	return path
}

// byGLPK is glpsol's optimum of the model; false when it has none.
func byGLPK(t testing.TB, m *mip.Model, form string) (float64, bool) {
	dir := t.TempDir()
	read := map[string]string{"lp": "--lp", "mps": "--freemps"}[form]
	answer := filepath.Join(dir, "answer")
	out, err := exec.Command(installed(t, "glpsol"), read, writeModel(t, m, dir, form), "--mipgap", "0", "--write", answer).CombinedOutput()
	require.NoError(t, err, string(out))
	text, err := os.ReadFile(answer)
	require.NoError(t, err, string(out))
	// s mip rows columns status objective; o is optimal, n that there is none.
	f := regexp.MustCompile(`(?m)^s mip \d+ \d+ (\w) (\S+)`).FindStringSubmatch(string(text))
	require.NotNil(t, f, "glpsol: %s", text)
	if strings.Contains(string(out), "HAS NO") || f[1] == "n" || f[1] == "u" && strings.Contains(string(out), "infeasible") {
		return 0, false
	}
	require.Equal(t, "o", f[1], string(out))
	v, err := strconv.ParseFloat(f[2], 64)
	require.NoError(t, err)
	return v + m.Constant, true
}

// byCBC is cbc's optimum of the model; false when it has none. The preprocessing
// of cbc 2.10.8 takes a feasible model for infeasible now and then (seen on a
// merged model of three sites, which glpsol and cbc without it solve), so it is
// asked again without.
func byCBC(t testing.TB, m *mip.Model, form string) (float64, bool) {
	v, some := askCBC(t, m, form)
	if !some {
		v, some = askCBC(t, m, form, "-preprocess", "off")
	}
	return v, some
}

func askCBC(t testing.TB, m *mip.Model, form string, more ...string) (float64, bool) {
	dir := t.TempDir()
	answer := filepath.Join(dir, "answer")
	args := append([]string{writeModel(t, m, dir, form), "-ratio", "0", "-allow", "0"}, more...)
	out, err := exec.Command(installed(t, "cbc"), append(args, "-solve", "-solution", answer)...).CombinedOutput()
	require.NoError(t, err, string(out))
	text, err := os.ReadFile(answer)
	require.NoError(t, err, string(out))
	first, _, _ := strings.Cut(string(text), "\n")
	if strings.HasPrefix(first, "Infeasible") || strings.HasPrefix(first, "Integer infeasible") {
		return 0, false
	}
	f := regexp.MustCompile(`^Optimal - objective value (\S+)`).FindStringSubmatch(first)
	require.NotNil(t, f, "cbc: %q\n%s", first, out)
	v, err := strconv.ParseFloat(f[1], 64)
	require.NoError(t, err)
	return v + m.Constant, true
}

// otherSolverJobs is how many random jobs of each shape the other solvers are
// asked about: 60 in all, and 105 each night.
func otherSolverJobs() uint64 { return jobtest.Seeds(4, 7) }

// Two solvers that share no code with ours read the exported model of random jobs
// of every shape, as the files have them and merged, in both formats, and come to
// the same cost before rounding, or find like us that there is none.
func TestOtherSolversAgree(t *testing.T) {
	installed(t, "glpsol")
	installed(t, "cbc")
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
					for name, by := range map[string]func(testing.TB, *mip.Model, string) (float64, bool){"glpsol": byGLPK, "cbc": byCBC} {
						_, some := by(t, m, form)
						require.False(t, some, "%s finds a purchase: %s", name, what)
					}
					continue
				}
				ans, err := search.Solver{}.Solve(context.Background(), ExportModel(job, true), mip.Options{})
				require.NoError(t, err)
				require.Equal(t, mip.Optimal, ans.Status, what)
				require.InDelta(t, ans.Objective, plan.Bill.Total.Float(), halfCent+rounding(plan.Bill), what)
				for name, by := range map[string]func(testing.TB, *mip.Model, string) (float64, bool){"glpsol": byGLPK, "cbc": byCBC} {
					v, some := by(t, m, form)
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
