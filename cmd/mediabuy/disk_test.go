//go:build !windows

package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shell runs a line of shell in a folder and gives what the program in it said.
func shell(t *testing.T, dir, line string) (status int, stdout, stderr string) {
	c := exec.CommandContext(t.Context(), "sh", "-c", line)
	c.Dir = dir
	var out, errs strings.Builder
	c.Stdout, c.Stderr = &out, &errs
	err := c.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		require.NoError(t, err)
	}
	return c.ProcessState.ExitCode(), out.String(), errs.String()
}

// entries are the names of all that is below a folder.
func entries(t *testing.T, dir string) []string {
	var out []string
	require.NoError(t, filepath.WalkDir(dir, func(name string, _ os.DirEntry, err error) error {
		out = append(out, strings.TrimPrefix(name, dir))
		return err
	}))
	return out
}

// A limit on the size of files (ulimit -f, in blocks of 512 bytes at least) stands for
// a full disk, which not every system can make: every verb that writes several files
// stops in the middle of one, and leaves neither file nor folder behind.
func TestVerbsLeaveNothingBehindOnAFullDisk(t *testing.T) {
	for _, c := range []struct{ limit, line string }{
		{"4", "mediabuy order job -o new/orders"},
		{"4", "mediabuy request job -o new/requests"},
		{"1", "mediabuy new new"},
		{"1", "mediabuy demo new"},
		{"8", "mediabuy justify job -o new/report.pdf"},
		{"4", "mediabuy export job --lp model.lp --mps model.mps"},
		{"1", "mediabuy receive job --arrived short.csv --notes new/notes --letters new/letters"},
		{"1", "mediabuy manual new"},
		{"1", "mediabuy plan job --prove proof"},
		{"1", "mediabuy breakeven job --volume bags,bulk -o chart.svg"},
	} {
		dir := filepath.Dir(sampleJob(t))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "short.csv"), []byte("quote,packs\ngravel-ton,1\n"), 0o600))
		before := entries(t, dir)
		status, stdout, stderr := shell(t, dir, "ulimit -f "+c.limit+"; exec "+c.line)
		assert.Equal(t, exitFailed, status, "%s: %s", c.line, stderr)
		assert.Empty(t, stdout, c.line)
		assert.Regexp(t, `(?m)^mediabuy: .*writing \S+: it grew larger than this disk or your limits allow\nhint: .*; nothing was changed\n`, stderr, c.line)
		assert.Equal(t, before, entries(t, dir), c.line)
	}
}
