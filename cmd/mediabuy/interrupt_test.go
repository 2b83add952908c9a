//go:build !windows

package main

import (
	"bufio"
	"context"
	"errors"
	"io"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever is asked, an interrupt ends it at once though more answers may come, and nothing is written.
func TestInterruptEndsAQuestion(t *testing.T) {
	first, beds := "uk\nmm\n\n", "2\n2400x900\n300\n50\n1000 kg\n\n\n\n"
	message := "Low Ford Quarry\nExpanded clay 8-16 mm, 50 L bags £12.90 each, delivery £60. Over 10 bags £11.50.\n"
	for _, c := range []struct{ name, answers, asked string }{
		{"place", "", "Where are you"},
		{"beds", first, "how many are alike"},
		{"limit", first + "2\n2400x900\n300\n50\n", "flooded"},
		{"yard", first + beds, "Whose is the next"},
		{"message", first + beds + message, "a line with a single point ends it"},
		{"reading", first + beds + message + ".\n", "which one"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "job")
			status, said := interrupted(t, c.answers, c.asked, "new", dir, "--ask")
			assert.Equal(t, exitFailed, status)
			assert.True(t, strings.HasSuffix(said, "\nmediabuy: stopped before an answer; no file was changed\n"), said)
			assert.NoDirExists(t, dir)
		})
	}
}

// unasked ends a program that never asks what it is waited for; no machine takes that long to ask.
const unasked = 5 * time.Minute

// interrupted runs the program, hands it answers and holds its input open, and interrupts it once it has asked.
func interrupted(t *testing.T, answers, asked string, args ...string) (int, string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), unasked)
	defer cancel()
	c := exec.CommandContext(ctx, "mediabuy", args...)
	in, err := c.StdinPipe()
	require.NoError(t, err)
	errs, err := c.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	_, err = io.WriteString(in, answers)
	require.NoError(t, err)
	var said strings.Builder
	for out := bufio.NewReader(errs); ; {
		if strings.Contains(said.String(), asked) {
			require.NoError(t, c.Process.Signal(syscall.SIGINT))
			rest, err := io.ReadAll(out)
			require.NoError(t, err)
			said.Write(rest)
			break
		}
		b, err := out.ReadByte()
		require.NoError(t, err, said.String())
		said.WriteByte(b)
	}
	var exit *exec.ExitError
	if err := c.Wait(); err != nil && !errors.As(err, &exit) {
		require.NoError(t, err)
	}
	return c.ProcessState.ExitCode(), said.String()
}
