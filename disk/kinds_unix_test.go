//go:build !windows

package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var someFailures = []struct {
	err  error
	kind Kind
}{{syscall.ENOSPC, Full}, {syscall.EDQUOT, Quota}, {syscall.EFBIG, TooLarge}, {syscall.EROFS, ReadOnly}, {syscall.EACCES, Denied}, {syscall.EIO, Fault}}

func pipe(t *testing.T, name string) bool {
	require.NoError(t, syscall.Mkfifo(name, 0o600))
	return true
}

func TestWords(t *testing.T) {
	for _, c := range []struct {
		err         error
		found, hint string
	}{
		{syscall.ENOSPC, "no space is left on the disk", "free some space on it and try again"},
		{syscall.EDQUOT, "your share of the disk is used up", "a larger share"},
		{syscall.EROFS, "the disk may only be read", "another disk"},
		{syscall.EACCES, "you may not write there", "chmod u+w"},
		{syscall.EPERM, "you may not write there", "chmod u+w"},
	} {
		for _, err := range []error{
			c.err, &fs.PathError{Op: "write", Path: "orders/.order.pdf123", Err: c.err}, &os.LinkError{Op: "rename", Old: "a", New: "b", Err: c.err},
		} {
			r := Explain(fmt.Errorf("the order: %w", refuse(writing, "orders/order.pdf", err)))
			require.NotNil(t, r)
			assert.Equal(t, "writing orders/order.pdf: "+c.found, r.Error())
			assert.Contains(t, r.Hint(), c.hint)
		}
		r := Explain(fmt.Errorf("looking round: %w", &fs.PathError{Op: "lstat", Path: "orders", Err: c.err}))
		require.NotNil(t, r, "the system's own words")
		assert.Equal(t, "orders: "+c.found, r.Error())
	}
	assert.Equal(t, "reading beds.csv: it may not be read", refuse(reading, "beds.csv", syscall.EACCES).Error())
	assert.Equal(t, "writing a: odd", refuse(writing, "a", &fs.PathError{Op: "open", Path: ".a1", Err: errors.New("odd")}).Error())
	assert.Equal(t, "writing a: odd", refuse(writing, "a", errors.New("odd")).Error())
	for kind := Full; kind <= Closed; kind++ {
		assert.NotEmpty(t, told[kind].found, kind)
		assert.NotEmpty(t, told[kind].hint, kind)
	}
}

func TestExplainKeepsToDisks(t *testing.T) {
	assert.Nil(t, Explain(nil))
	assert.Nil(t, Explain(io.EOF))
	assert.Nil(t, Explain(fs.ErrPermission))
	assert.Nil(t, Explain(&fs.PathError{Op: "stat", Path: "a", Err: syscall.ENOENT}))
	assert.Nil(t, Explain(&net.OpError{Op: "listen", Err: &os.SyscallError{Syscall: "bind", Err: syscall.EACCES}}))
}

// Whatever stands in place of a file is told, and nothing of it is waited for.
func TestOnlyPlainFilesAreRead(t *testing.T) {
	dir := t.TempDir()
	outside := filepath.Join(t.TempDir(), "outside")
	require.NoError(t, os.WriteFile(outside, []byte("secret"), 0o600))
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	at := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, syscall.Mkfifo(at("pipe"), 0o600))
	require.NoError(t, os.Mkdir(at("folder"), 0o700))
	require.NoError(t, os.Symlink("loop", at("loop")))
	require.NoError(t, os.Symlink("none", at("dangling")))
	require.NoError(t, os.Symlink("pipe", at("to the pipe")))
	require.NoError(t, os.Symlink(outside, at("out")))
	require.NoError(t, os.WriteFile(at("plain"), []byte("x"), 0o600))
	require.NoError(t, os.Symlink("plain", at("to the plain one")))
	long := strings.Repeat("n", 300)
	for name, kind := range map[string]Kind{
		"pipe": Odd, "to the pipe": Odd, "folder": Folder, "loop": Circle, "dangling": Nowhere, long: LongName, "plain/x": NotFolder,
	} {
		for _, open := range []func() (*os.File, error){
			func() (*os.File, error) { return Open(nil, at(name)) }, func() (*os.File, error) { return Open(root, name) },
		} {
			_, err := open()
			r := Explain(err)
			require.NotNil(t, r, "%s: %v", name, err)
			assert.Equal(t, kind, r.Kind, name)
			assert.NotEmpty(t, r.Hint(), name)
			assert.NotErrorIs(t, err, fs.ErrNotExist, name)
		}
	}
	_, err = Open(root, "out")
	require.NotNil(t, Explain(err))
	assert.Equal(t, Outside, Explain(err).Kind)
	_, err = Open(root, "none")
	assert.ErrorIs(t, err, fs.ErrNotExist)
	_, err = Open(nil, at("none"))
	assert.ErrorIs(t, err, fs.ErrNotExist)
	for _, name := range []string{"plain", "to the plain one"} {
		file, err := Open(root, name)
		require.NoError(t, err)
		require.NoError(t, file.Close())
	}
}

// On a disk that is truly full, where one can be had.
func TestWriteOnAFullDisk(t *testing.T) {
	dir := fullDisk(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "old"), []byte("before"), 0o600))
	before := tree(t, dir)
	big := []byte(strings.Repeat("x", 40<<10))
	err := Write(Where{Perm: 0o644, Folders: true}, Holding(filepath.Join(dir, "old"), []byte("after")),
		Holding(filepath.Join(dir, "new", "one"), big), Holding(filepath.Join(dir, "new", "two"), big))
	r := Explain(err)
	require.NotNil(t, r)
	assert.Equal(t, Full, r.Kind)
	assert.Equal(t, filepath.Join(dir, "new", "two"), r.Name)
	assert.True(t, r.Kept)
	assert.Equal(t, before, tree(t, dir))
	require.NoError(t, Write(Where{Perm: 0o644}, Holding(filepath.Join(dir, "one"), big)), "there is room again")
}
