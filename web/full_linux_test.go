package web

import (
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// A disk that is truly full, where one can be had: a save is told on the page, and
// every file and the folder are as they were.
func TestSaveOnAFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("none", dir, "tmpfs", 0, "size=128k"); err != nil {
		t.Skip("no disk can be mounted here: ", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, 0)) })
	job := jobFolder(t)
	for _, name := range files.FileNames {
		if data, err := os.ReadFile(filepath.Join(job, name)); err == nil {
			require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o644))
		}
	}
	v := opened(t, Options{Dir: dir})
	filled, err := os.Create(filepath.Join(dir, "filled"))
	require.NoError(t, err)
	for err == nil {
		_, err = filled.WriteString(strings.Repeat("x", 4096))
	}
	require.ErrorIs(t, err, syscall.ENOSPC)
	require.NoError(t, filled.Close())
	before := v.texts()
	w := v.post("/edit/quotes", v.priced("1.00"), false)
	assert.Equal(t, http.StatusInsufficientStorage, w.Code)
	assert.Contains(t, w.Body.String(), "Writing quotes.csv: no space is left on the disk.")
	assert.Contains(t, w.Body.String(), "Free some space on it and try again; nothing was changed.")
	assert.True(t, maps.EqualFunc(before, v.texts(), func(a, b []byte) bool { return string(a) == string(b) }))
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, list, len(before)+1, "nothing beside them")
	require.NoError(t, os.Remove(filepath.Join(dir, "filled")))
	assert.Equal(t, http.StatusSeeOther, v.post("/edit/quotes", v.priced("1.00"), false).Code)
}
