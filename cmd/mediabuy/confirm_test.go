package main

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/cmd/mediabuy/internal/demo"
)

// halfCent is how far from the bill another solver's optimum may be: the plan is
// proven to that much.
const halfCent = 0.005

// Two solvers that share no code with ours, GLPK's glpsol and COIN-OR's cbc,
// solve the exported model of the sample job and must come to the same total.
// Where they are not installed the test is skipped, except under CI.
func TestOtherSolversAgreeOnTheDemo(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "job")
	_, err := writeJob(context.Background(), dir, demo.Files(), false)
	require.NoError(t, err)
	status, stdout, stderr := runHere(context.Background(), "plan", dir, "--json")
	require.Equal(t, exitDone, status, stderr)
	var plan struct{ Total, Proof string }
	require.NoError(t, json.Unmarshal([]byte(stdout), &plan))
	require.Equal(t, "optimal", plan.Proof)
	total, err := strconv.ParseFloat(plan.Total, 64)
	require.NoError(t, err)

	for _, form := range []string{"plain", "merged"} {
		lp, mps := filepath.Join(dir, form+".lp"), filepath.Join(dir, form+".mps")
		args := []string{"export", dir, "--lp", lp, "--mps", mps}
		if form == "merged" {
			args = append(args, "--merged")
		}
		status, _, stderr = runHere(context.Background(), args...)
		require.Equal(t, exitDone, status, stderr)
		text, err := os.ReadFile(lp)
		require.NoError(t, err)
		constant := found(t, `add the constant (\S+) to the objective`, string(text))
		for name, command := range map[string][]string{
			"glpsol lp":  {"glpsol", "--lp", lp, "--write", filepath.Join(dir, "glpsol.txt")},
			"glpsol mps": {"glpsol", "--freemps", mps, "--write", filepath.Join(dir, "glpsol.txt")},
			"cbc lp":     {"cbc", lp, "-ratio", "0", "-solve"},
			"cbc mps":    {"cbc", mps, "-ratio", "0", "-solve"},
		} {
			t.Run(form+" "+name, func(t *testing.T) {
				path, err := exec.LookPath(command[0])
				if err != nil && os.Getenv("CI") != "true" {
					t.Skipf("%s is not installed (Debian: glpk-utils, coinor-cbc)", command[0])
				}
				require.NoError(t, err)
				out, err := exec.Command(path, command[1:]...).CombinedOutput()
				require.NoError(t, err, string(out))
				want := `(?m)^Objective value:\s+(\S+)`
				if command[0] == "glpsol" {
					require.Contains(t, string(out), "INTEGER OPTIMAL SOLUTION FOUND")
					out, err = os.ReadFile(filepath.Join(dir, "glpsol.txt"))
					require.NoError(t, err)
					want = `(?m)^s mip \d+ \d+ o (\S+)`
				}
				assert.InDelta(t, total, found(t, want, string(out))+constant, halfCent)
			})
		}
	}
}

// found is the number that a pattern's group matches.
func found(t *testing.T, pattern, text string) float64 {
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	require.NotNil(t, m, "%s in:\n%s", pattern, text)
	v, err := strconv.ParseFloat(m[1], 64)
	require.NoError(t, err)
	return v
}
