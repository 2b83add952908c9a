//go:build !windows

package web

import (
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/disk"
)

// What a disk refuses is told with its remedy, on the page and to the script.
func TestRefusalsOfTheDiskAreTold(t *testing.T) {
	v := opened(t, Options{})
	var err error
	v.h.handle("GET /refused", func(http.ResponseWriter, *http.Request) error { return err })
	for _, c := range []struct {
		err         error
		status      int
		words, hint string
	}{
		{syscall.ENOSPC, http.StatusInsufficientStorage, "no space is left on the disk", "free some space on it and try again; nothing was changed"},
		{syscall.EROFS, http.StatusForbidden, "the disk may only be read", "choose a folder on another disk"},
		{syscall.EACCES, http.StatusForbidden, "you may not write there", "give yourself leave"},
		{errors.New("odd"), http.StatusInternalServerError, "odd", ""},
	} {
		root, openErr := os.OpenRoot(t.TempDir())
		require.NoError(t, openErr)
		err = disk.Write(disk.Where{Root: root, Perm: 0o644}, disk.Edit{Name: "beds.csv", Write: func(io.Writer) error {
			return &fs.PathError{Op: "write", Path: ".beds.csv1", Err: c.err}
		}})
		require.NoError(t, root.Close())
		w := v.do(v.request("GET", "/refused", nil))
		assert.Equal(t, c.status, w.Code)
		assert.Contains(t, w.Body.String(), "Writing beds.csv: "+c.words+".")
		assert.Contains(t, strings.ToLower(w.Body.String()), c.hint)
		r := v.request("GET", "/refused", nil)
		r.Header.Set("Accept", "application/json")
		w = v.do(r)
		assert.Equal(t, c.status, w.Code)
		var told failed
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &told))
		assert.Equal(t, "writing beds.csv: "+c.words, told.Error)
		assert.Contains(t, told.Hint, c.hint)
	}
}

// A page that was killed while it saved leaves a hidden file, which the next one takes
// away, and the next save: this page's own, and nothing else.
func TestLeftoversAreSwept(t *testing.T) {
	dir := jobFolder(t)
	old := time.Now().Add(-time.Hour)
	leave := func(name string) string {
		file := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(file, []byte("half a li"), 0o600))
		require.NoError(t, os.Chtimes(file, old, old))
		return file
	}
	left, mine := leave(".quotes.csv4611686018427387904"), leave(".notes.csv4611686018427387904")
	opened(t, Options{Dir: dir, ReadOnly: true})
	assert.FileExists(t, left, "read-only")
	v := opened(t, Options{Dir: dir})
	assert.NoFileExists(t, left)
	left = leave(".quotes.csv4611686018427387905")
	require.Equal(t, http.StatusSeeOther, v.post("/edit/quotes", v.priced("1.00"), false).Code)
	assert.NoFileExists(t, left)
	assert.FileExists(t, mine)
}
