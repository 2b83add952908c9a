//go:build !windows

package main

import (
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
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

// Whatever stands in place of a file that is read is a problem of the files, told at
// its name with its remedy; nothing of it is waited for.
func TestWhatIsNoFileIsTold(t *testing.T) {
	base := t.TempDir()
	at := func(name string) string { return filepath.Join(base, name) }
	require.NoError(t, syscall.Mkfifo(at("pipe"), 0o600))
	require.NoError(t, os.Mkdir(at("folder"), 0o700))
	require.NoError(t, os.Symlink("loop", at("loop")))
	require.NoError(t, os.Symlink("none", at("dangling")))
	require.NoError(t, os.Symlink(os.DevNull, at("device")))
	require.NoError(t, os.WriteFile(at("secret"), []byte("x"), 0))
	found := map[string]string{"pipe": "a pipe or a device", "folder": "a folder", "loop": "round in a circle", "dangling": "leads to nothing", "device": "a pipe or a device"}
	if _, err := os.ReadFile(at("secret")); err != nil { // not so for root
		found["secret"] = "may not be read"
	}
	told := func(words, name string, args ...string) {
		t.Helper()
		var out, errs strings.Builder
		status := run(t.Context(), args, strings.NewReader(""), &out, &errs)
		assert.Equal(t, exitFiles, status, "%v %s", args, errs.String())
		assert.Contains(t, out.String()+errs.String(), name, args)
		assert.Contains(t, out.String()+errs.String(), words, args)
		assert.Contains(t, out.String()+errs.String(), "hint: ", args)
	}
	job := sampleJob(t)
	require.NoError(t, os.WriteFile(at("came.csv"), []byte("quote,packs\ngravel-ton,1\n"), 0o600))
	for kind, words := range found {
		for _, file := range files.FileNames {
			bad := sampleJob(t)
			require.NoError(t, os.RemoveAll(filepath.Join(bad, file)))
			require.NoError(t, os.Symlink(at(kind), filepath.Join(bad, file)))
			told(words, file, "plan", bad)
		}
		name := at(kind)
		told(words, name, "check", job, "--quotes", name)
		told(words, name, "plan", job, "--beds", name)
		told(words, name, "plan", job, "--delivery", name)
		told(words, name, "media", job, "--media", name)
		told(words, name, "read", name)
		told(words, name, "share", job, "--resume", name)
		told(words, name, "receive", job, "--order", name, "--arrived", at("came.csv"))
		if kind != "folder" {
			for _, verb := range []string{"plan", "check", "serve", "order"} {
				told("a folder with quotes.csv and beds.csv", name, verb, name)
			}
			told("a folder with quotes.csv and beds.csv", name, "read", at("came.csv"), "--job", name)
		}
	}
	told("a pipe or a device", at("pipe"), "receive", job, "--time-limit", "2s", "--arrived", at("pipe"))
	told("longer than the disk takes", "nnn", "plan", at(strings.Repeat("n", 300)))
	told("a file stands where a folder is wanted", "came.csv", "plan", at("came.csv/job"))

	// Nor is such a thing written over, and new and demo wait for nothing.
	for kind, words := range map[string]string{"pipe": "a pipe or a device", "dangling": "it is a link", "folder": "a folder"} {
		var errs strings.Builder
		assert.Equal(t, exitFailed, run(t.Context(), []string{"export", job, "--lp", at(kind)}, strings.NewReader(""), io.Discard, &errs), kind)
		assert.Contains(t, errs.String(), words)
		for _, verb := range []string{"new", "demo"} {
			dir := filepath.Join(t.TempDir(), "dir")
			require.NoError(t, os.Mkdir(dir, 0o700))
			require.NoError(t, os.Symlink(at(kind), filepath.Join(dir, "beds.csv")))
			errs.Reset()
			assert.Equal(t, exitFailed, run(t.Context(), []string{verb, dir}, strings.NewReader(""), io.Discard, &errs))
			assert.Contains(t, errs.String(), "already holds beds.csv", verb)
			assert.Equal(t, []string{"", "/beds.csv"}, entries(t, dir))
		}
	}
}
