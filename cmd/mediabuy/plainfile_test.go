package main

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever stands in place of a file is told, and nothing of it is waited for.
func TestOnlyPlainFilesAreRead(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, syscall.Mkfifo(at("pipe"), 0o600))
	require.NoError(t, os.Mkdir(at("folder"), 0o700))
	require.NoError(t, os.Symlink(at("loop"), at("loop")))
	for name, found := range map[string]string{"pipe": "a pipe or a device", "folder": "a folder", "loop": "round in a circle"} {
		_, err := openPlain(at(name))
		var odd *notPlainError
		require.ErrorAs(t, err, &odd, name)
		assert.Contains(t, odd.found, found)
		assert.NotEmpty(t, odd.hint)
	}
	_, err := openPlain(at("none"))
	assert.ErrorIs(t, err, os.ErrNotExist)
	require.NoError(t, os.WriteFile(at("plain"), []byte("x"), 0o600))
	file, err := openPlain(at("plain"))
	require.NoError(t, err)
	require.NoError(t, file.Close())
}
