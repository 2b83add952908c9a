package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/cmd/mediabuy/internal/beside"
	"mediabuy/cmd/mediabuy/internal/demo"
	"mediabuy/optimise"
)

func TestMain(m *testing.M) {
	testscript.Main(closing{m}, map[string]func(){"mediabuy": patient})
}

// long is patience for a slow machine: what scripts look for hangs on no clock.
var long = beside.Patience{Look: time.Hour, Sure: time.Hour, Other: time.Hour, Curve: time.Hour}

// patient is main with that patience.
func patient() {
	os.Exit(runWith(context.Background(), long, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// update says that scripts and documents are to be rewritten with what the
// program prints now, for review.
var update = os.Getenv("UPDATE") != ""

// TestScripts runs one script a topic. Each finds the sample job in its folder
// job.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		UpdateScripts:       update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			_, err := writeJob(context.Background(), filepath.Join(env.WorkDir, "job"), demo.Files(), false)
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "replace": replace, "sound": sound, "habit": habit, "sheet": sheet},
	})
}

// exits runs a command and wants this very exit status: "exits 3 mediabuy plan".
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND [ARG...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("%s: exit status %d, want %d", strings.Join(args[1:], " "), got, want)
	}
}

// replace changes every OLD in a file to NEW and wants at least one: "replace
// job/beds.csv OLD NEW".
func replace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: replace FILE OLD NEW")
	}
	text := ts.ReadFile(args[0])
	if !strings.Contains(text, args[1]) {
		ts.Fatalf("%s does not hold %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.ReplaceAll(text, args[1], args[2])), filePerm))
}

// runHere runs the program in-process with nothing on standard input.
func runHere(ctx context.Context, args ...string) (status int, stdout, stderr string) {
	var out, errs bytes.Buffer
	status = run(ctx, args, strings.NewReader(""), &out, &errs)
	return status, out.String(), errs.String()
}

func TestInterruptBeforeTheAnswer(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	dir := filepath.Join(t.TempDir(), "job")
	_, err := writeJob(context.Background(), dir, demo.Files(), false)
	require.NoError(t, err)

	status, stdout, stderr := runHere(ctx, "plan", dir)
	assert.Equal(t, exitFailed, status)
	assert.Empty(t, stdout)
	assert.Equal(t, "mediabuy: stopped before an answer; no file was changed\n", stderr)

	fresh := filepath.Join(t.TempDir(), "fresh")
	status, _, _ = runHere(ctx, "new", fresh)
	assert.Equal(t, exitFailed, status)
	assert.NoDirExists(t, fresh, "a stopped verb leaves no file and no folder behind")
}

func TestExitCodes(t *testing.T) {
	for _, c := range []struct {
		err  error
		want int
	}{
		{nil, 0},
		{errors.New("a disk is full"), 1},
		{context.Canceled, 1},
		{&usageError{"no", ""}, 2},
		{&filesError{}, 3},
		{errInfeasible, 4},
		{errUnproven, 5},
		{errors.Join(errors.New("more"), errUnproven), 5},
	} {
		assert.Equal(t, c.want, exitCode(c.err), "%v", c.err)
	}
}

// The same files stand in testdata/demo for other tools and tests.
func TestDemoFilesAreAlike(t *testing.T) {
	const other = "../../testdata/demo"
	files := demo.Files()
	entries, err := os.ReadDir(other)
	require.NoError(t, err)
	assert.Len(t, entries, len(files))
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join(other, name))
		require.NoError(t, err)
		assert.Equal(t, string(want), string(got), "copy cmd/mediabuy/internal/demo/files/%s to testdata/demo", name)
	}
}

func TestPlanError(t *testing.T) {
	for _, c := range []struct {
		status optimise.Status
		want   int
	}{
		{optimise.Optimal, exitDone},
		{optimise.TimeLimit, exitUnproven},
		{optimise.Infeasible, exitInfeasible},
		{"", exitFailed}, // the zero status is not success
	} {
		assert.Equal(t, c.want, exitCode(planError(&optimise.Plan{Status: c.status})), "%q", c.status)
	}
}
