package main

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A stop says where the solved groups are, and they can be gone on from.
func TestShareInterrupted(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "club")
	_, err := writeJob(context.Background(), dir, map[string][]byte{
		"quotes.csv": []byte("quote,supplier,medium,form,pack,price,size,carbonate\nclay,Tor Yard,expanded clay,bag,1 L,1.00,8-16 mm,none\n"),
		"beds.csv":   []byte("bed,volume,member\nb1,100 L,oak\nb2,200 L,pine\n"),
	}, false)
	require.NoError(t, err)
	kept := filepath.Join(dir, "groups.json")

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	status, stdout, stderr := runHere(ctx, "share", dir, "--resume", kept)
	assert.Equal(t, exitFailed, status)
	assert.Empty(t, stdout)
	assert.Equal(t, "mediabuy: stopped before an answer; the groups solved so far are in "+kept+", and the same command goes on from there\n", stderr)

	status, stdout, _ = runHere(context.Background(), "share", dir, "--resume", kept)
	assert.Equal(t, exitDone, status)
	assert.Contains(t, stdout, "WHO PAYS WHAT")
}
