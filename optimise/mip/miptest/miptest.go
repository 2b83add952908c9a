// Package miptest asks solvers that share no code with ours for the optimum of a
// model, for tests: GLPK's glpsol and COIN-OR's cbc (Debian: glpk-utils, coinor-cbc).
package miptest

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/optimise/mip"
)

// Solvers are the other solvers.
var Solvers = []string{"glpsol", "cbc"}

// Installed is where another solver is installed. Without it the test is skipped,
// except where CI=true says that it must be there.
func Installed(t testing.TB, solver string) string {
	path, err := exec.LookPath(solver)
	if err != nil && os.Getenv("CI") != "true" {
		t.Skipf("%s is not installed (Debian: glpk-utils, coinor-cbc)", solver)
	}
	require.NoError(t, err)
	return path
}

// Write writes the model into dir as text of the form "lp" or "mps".
func Write(t testing.TB, m *mip.Model, dir, form string) string {
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

// Optimum is the least value of the model by another solver, constant included, which
// reads it from text of the form "lp" or "mps" without remarks; false when nothing
// holds.
func Optimum(t testing.TB, solver string, m *mip.Model, form string) (float64, bool) {
	if solver == "glpsol" {
		return byGLPK(t, m, form)
	}
	// The preprocessing of cbc 2.10.8 takes a feasible model for infeasible now and then
	// (seen on a merged model of three sites, which glpsol and cbc without it solve), so
	// it is asked again without.
	v, some := byCBC(t, m, form)
	if !some {
		v, some = byCBC(t, m, form, "-preprocess", "off")
	}
	return v, some
}

func byGLPK(t testing.TB, m *mip.Model, form string) (float64, bool) {
	dir := t.TempDir()
	read := map[string]string{"lp": "--lp", "mps": "--freemps"}[form]
	answer := filepath.Join(dir, "answer")
	out, text := run(t, answer, "glpsol", read, Write(t, m, dir, form), "--mipgap", "0", "--write", answer)
	// s mip rows columns status objective; o is optimal, n that there is none.
	f := regexp.MustCompile(`(?m)^s mip \d+ \d+ (\w) (\S+)`).FindStringSubmatch(text)
	require.NotNil(t, f, "glpsol: %s", text)
	if strings.Contains(out, "HAS NO") || f[1] == "n" || f[1] == "u" && strings.Contains(out, "infeasible") {
		return 0, false
	}
	require.Equal(t, "o", f[1], out)
	return number(t, f[2]) + m.Constant, true
}

func byCBC(t testing.TB, m *mip.Model, form string, more ...string) (float64, bool) {
	dir := t.TempDir()
	answer := filepath.Join(dir, "answer")
	args := append([]string{Write(t, m, dir, form), "-ratio", "0", "-allow", "0"}, more...)
	out, text := run(t, answer, "cbc", append(args, "-solve", "-solution", answer)...)
	require.NotContains(t, out, "Bad image")
	first, _, _ := strings.Cut(text, "\n")
	if strings.HasPrefix(first, "Infeasible") || strings.HasPrefix(first, "Integer infeasible") {
		return 0, false
	}
	f := regexp.MustCompile(`^Optimal - objective value (\S+)`).FindStringSubmatch(first)
	require.NotNil(t, f, "cbc: %q\n%s", first, out)
	return number(t, f[1]) + m.Constant, true
}

// run is what a solver prints, and what it writes into answer.
func run(t testing.TB, answer, solver string, args ...string) (out, text string) {
	printed, err := exec.Command(Installed(t, solver), args...).CombinedOutput()
	require.NoError(t, err, string(printed))
	require.NotContains(t, string(printed), "warning", "%s reads the text without remarks", solver)
	written, err := os.ReadFile(answer)
	require.NoError(t, err, string(printed))
	return string(printed), string(written)
}

func number(t testing.TB, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
