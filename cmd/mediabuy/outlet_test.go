//go:build !windows

package main

import (
	"io/fs"
	"mediabuy/quotes/files"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fullOutput takes nothing, as a file on a full disk does.
type fullOutput struct{}

func (fullOutput) Write([]byte) (int, error) {
	return 0, &fs.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.ENOSPC}
}

// An answer that did not arrive is no success, whichever verb gave it and in whichever
// form.
func TestNoVerbLosesItsAnswer(t *testing.T) {
	// A small job: which answer it is does not matter.
	job := filepath.Join(t.TempDir(), "job")
	_, err := writeJob(t.Context(), job, map[string][]byte{
		files.QuotesFile: []byte("quote,supplier,medium,form,pack,price,size,carbonate\ngravel-ton,Low Ford Quarry,expanded clay,bulk,500 L,95,8-16 mm,none\nbags,Tansy Hill Supply,expanded clay,bag,50 L,20,8-16 mm,none\n"),
		files.BedsFile:   []byte("bed,volume,limit\ntub,1000 L,2000 kg\n"),
	}, false)
	require.NoError(t, err)
	at := func(name string) string { return filepath.Join(filepath.Dir(job), name) }
	require.NoError(t, os.WriteFile(at("message.txt"), []byte("Red lava rock, 1/2-1 in, $132 a yard, no fizz. Regards, Tam at Low Ford Quarry\n"), 0o600))
	require.NoError(t, os.WriteFile(at("came.csv"), []byte("quote,packs\ngravel-ton,1\n"), 0o600))
	require.NoError(t, os.WriteFile(at("shared.csv"), []byte("bed,volume,limit,member\ntub,100 L,500 kg,Ada\nbox,100 L,500 kg,Tam\n"), 0o600))
	tried := map[string]bool{"serve": true} // which goes on where it does not fail
	for _, line := range []string{
		"plan JOB", "plan JOB --json", "compare JOB", "compare JOB --json", "check JOB", "check JOB --json", "beds JOB", "beds JOB --json",
		"media JOB", "media JOB --json", "risk JOB --time-limit 2s", "risk JOB --time-limit 2s --json", "breakeven JOB --bulk --time-limit 2s", "breakeven JOB --bulk --time-limit 2s --json",
		"read DIR/message.txt", "read DIR/message.txt --json", "read DIR/message.txt --csv", "read DIR/message.txt --delivery-csv",
		"order JOB -o DIR/o1", "order JOB -o DIR/o2 --json", "request JOB -o DIR/r1", "request JOB -o DIR/r2 --json",
		"justify JOB -o DIR/j1.md --time-limit 2s", "justify JOB -o DIR/j2.md --json --time-limit 2s",
		"receive JOB --arrived DIR/came.csv", "receive JOB --arrived DIR/came.csv --json", "receive JOB --gate DIR/gate",
		"share JOB --beds DIR/shared.csv --rule litres", "share JOB --beds DIR/shared.csv --rule litres --json",
		"export JOB --lp -", "export JOB --mps -", "new DIR/new", "demo DIR/demo", "demo DIR/demo2 --json", "manual DIR/man",
		"--help", "plan --help", "help plan", "--version", "completion bash", "serve JOB",
	} {
		args := strings.Fields(strings.NewReplacer("JOB", job, "DIR", filepath.Dir(job)).Replace(line))
		var errs strings.Builder
		status := run(t.Context(), args, strings.NewReader(""), fullOutput{}, &errs)
		assert.Equal(t, exitFailed, status, line)
		assert.Contains(t, errs.String(), "writing to standard output: no space is left on the disk\nhint: free some space on it and try again\n", line)
		assert.Equal(t, 1, strings.Count(errs.String(), "no space"), "%s is told once: %s", line, errs.String())
		tried[args[0]] = true
	}
	for _, c := range newRoot(&app{}).Commands() {
		assert.True(t, tried[c.Name()], "%s is not tried", c.Name())
	}
}

// What whoever starts the program can do to its standard output.
func TestOutputThatIsClosedOrFull(t *testing.T) {
	dir := filepath.Dir(sampleJob(t))
	for _, line := range []string{"mediabuy media --json", "mediabuy beds job", "mediabuy --help", "mediabuy --version"} {
		status, _, stderr := shell(t, dir, line+" >&-")
		assert.Equal(t, exitFailed, status, line)
		assert.Contains(t, stderr, "mediabuy: writing to standard output: it is closed\nhint: leave it open", line)
		status, _, stderr = shell(t, dir, line+" >/dev/null")
		assert.Equal(t, exitDone, status, line)
		assert.Empty(t, stderr, line)
		if _, err := os.Stat("/dev/full"); err == nil {
			status, _, stderr = shell(t, dir, line+" >/dev/full")
			assert.Equal(t, exitFailed, status, line)
			assert.Contains(t, stderr, "writing to standard output: no space is left on the disk", line)
		}
	}
}

// Whoever reads the answer may stop reading, as head does, and is told nothing.
func TestOutputThatNobodyReads(t *testing.T) {
	for _, line := range []string{"exec mediabuy media", "trap '' PIPE; exec mediabuy media --json"} {
		r, w, err := os.Pipe()
		require.NoError(t, err)
		require.NoError(t, r.Close())
		var errs strings.Builder
		c := exec.CommandContext(t.Context(), "sh", "-c", line)
		c.Stdout, c.Stderr = w, &errs
		assert.Error(t, c.Run(), line)
		require.NoError(t, w.Close())
		assert.Empty(t, errs.String(), line)
	}
}
