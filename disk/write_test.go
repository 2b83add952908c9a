package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tree is everything below a folder: names with what they hold.
func tree(t *testing.T, dir string) map[string]string {
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || name == dir {
			return err
		}
		rel, err := filepath.Rel(dir, name)
		if err != nil {
			return err
		}
		out[rel] = d.Type().String()
		if d.Type().IsRegular() {
			data, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			out[rel] = string(data)
		}
		return nil
	}))
	return out
}

// failing writes some of a file before the disk fails.
func failing(name string, err error) Edit {
	return Edit{name, func(w io.Writer) error {
		if _, err := io.WriteString(w, strings.Repeat("x", 1000)); err != nil {
			return err
		}
		return &fs.PathError{Op: "write", Path: filepath.Join(filepath.Dir(name), ".beside123"), Err: err}
	}}
}

func TestWritePutsEveryFileInItsPlace(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.WriteFile(at("old"), []byte("before"), 0o600))
	require.NoError(t, os.WriteFile(at("gone"), []byte("before"), 0o600))
	require.NoError(t, Write(Where{Perm: 0o644, Folders: true}, Holding(at("old"), []byte("after")), Holding(at("far/away/new"), nil), Edit{Name: at("gone")}))
	assert.Equal(t, map[string]string{"old": "after", "far": "d---------", "far/away": "d---------", "far/away/new": ""}, tree(t, dir))
	info, err := os.Stat(at("far/away/new"))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm()&0o700)
	require.NoError(t, Write(Where{}))
}

// A disk that is full at the last of several files has changed nothing, and no file
// and no folder is left of it.
func TestWriteLeavesNothingBehindOnAFullDisk(t *testing.T) {
	for _, c := range someFailures {
		dir := t.TempDir()
		at := func(name string) string { return filepath.Join(dir, name) }
		require.NoError(t, os.WriteFile(at("old"), []byte("before"), 0o600))
		before := tree(t, dir)
		err := Write(Where{Perm: 0o644, Folders: true}, Holding(at("old"), []byte("after")), Holding(at("a/b/one"), []byte("1")), failing(at("a/two"), c.err))
		assert.Equal(t, before, tree(t, dir), c.err)
		r := Explain(fmt.Errorf("making the papers: %w", err))
		require.NotNil(t, r, c.err)
		assert.Equal(t, at("a/two"), r.Name, "not the file beside it")
		assert.Equal(t, c.kind, r.Kind)
		assert.Contains(t, r.Error(), "writing "+at("a/two")+": "+told[c.kind].found)
		assert.Contains(t, r.Hint(), "; nothing was changed")
		assert.ErrorIs(t, err, c.err)
	}
}

// A move that fails after others were made has these taken back.
func TestCommitPutsBackWhatItMoved(t *testing.T) {
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	for _, w := range []Where{{Perm: 0o644}, {Perm: 0o644, Root: root, Keep: true}} {
		at := func(name string) string {
			if w.Root != nil {
				return name
			}
			return filepath.Join(dir, name)
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, "old"), []byte("before"), 0o640))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "gone"), []byte("was here"), 0o640))
		b, err := Prepare(w, Holding(at("old"), []byte("after")), Edit{Name: at("gone")}, Holding(at("new"), []byte("1")), Holding(at("last"), []byte("2")))
		require.NoError(t, err)
		require.NoError(t, os.MkdirAll(filepath.Join(dir, "last", "full"), 0o700)) // in the way of the last
		err = b.Commit()
		require.NoError(t, b.Drop())
		require.Error(t, err)
		var r *Refusal
		require.ErrorAs(t, err, &r)
		assert.True(t, r.Kept)
		assert.Equal(t, at("last"), r.Name)
		assert.Equal(t, map[string]string{"old": "before", "gone": "was here", "last": "d---------", "last/full": "d---------"}, tree(t, dir))
		info, err := os.Stat(filepath.Join(dir, "old"))
		require.NoError(t, err)
		assert.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
		require.NoError(t, os.RemoveAll(filepath.Join(dir, "last")))
	}
}

// What cannot be put back is told, and not that nothing was changed.
func TestWhatCouldNotBePutBackIsTold(t *testing.T) {
	err := kept(refuse(writing, "b", &fs.PathError{Op: "write", Path: ".b1", Err: someFailures[0].err}), errors.New("a stays new"))
	require.ErrorContains(t, err, "taking back what was written before it: a stays new")
	assert.NotContains(t, Explain(err).Hint(), "nothing was changed")
}

// Replacing a link or a device would take away more than a file.
func TestOnlyPlainFilesAreReplaced(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	require.NoError(t, os.Mkdir(at("folder"), 0o700))
	require.NoError(t, os.WriteFile(at("file"), []byte("mine"), 0o600))
	err := os.Symlink("file", at("link"))
	if err != nil && runtime.GOOS == "windows" {
		t.Skip("links cannot be made by this user: ", err)
	}
	require.NoError(t, err)
	want := map[string]Kind{"folder": Folder, "link": Link}
	if pipe(t, at("pipe")) {
		want["pipe"] = Odd
	}
	before := tree(t, dir)
	for name, kind := range want {
		err := Write(Where{Perm: 0o644}, Holding(at("another"), []byte("1")), Holding(at(name), []byte("2")))
		r := Explain(err)
		require.NotNil(t, r, name)
		assert.Equal(t, kind, r.Kind, name)
		assert.NotEmpty(t, r.Hint(), name)
		assert.Equal(t, before, tree(t, dir), name)
	}
}

// Within a root folders are made too, none of which leads out of it, and none is left of a disk that is full.
func TestFoldersWithinARoot(t *testing.T) {
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	within := Where{Root: root, Perm: 0o644, Folders: true}
	for _, c := range someFailures {
		require.ErrorIs(t, Write(within, Holding("a/b/one", []byte("1")), failing("a/two", c.err)), c.err)
		assert.Empty(t, tree(t, dir), c.err)
	}
	require.Error(t, Write(within, Holding("../one", []byte("1"))))
	require.NoError(t, Write(within, Holding("a/b/one", []byte("1"))))
	assert.Equal(t, map[string]string{"a": "d---------", "a/b": "d---------", "a/b/one": "1"}, tree(t, dir))
	b, err := Prepare(within, Holding("a/c/two", nil))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a", "c", "theirs"), nil, 0o600))
	require.NoError(t, b.Drop())
	assert.Equal(t, map[string]string{"a": "d---------", "a/b": "d---------", "a/b/one": "1", "a/c": "d---------", "a/c/theirs": ""}, tree(t, dir))
}

// The folder of a file may not be one at all.
func TestFoldersThatCannotBeMade(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "file"), nil, 0o600))
	err := Write(Where{Perm: 0o644, Folders: true}, Holding(filepath.Join(dir, "new", "one"), nil), Holding(filepath.Join(dir, "file", "in", "two"), []byte("2")))
	r := Explain(err)
	require.NotNil(t, r)
	assert.Equal(t, NotFolder, r.Kind)
	assert.Equal(t, map[string]string{"file": ""}, tree(t, dir))

	err = Write(Where{Perm: 0o644}, Holding(filepath.Join(dir, "none", "one"), []byte("1")))
	require.NotNil(t, Explain(err))
	assert.Equal(t, Gone, Explain(err).Kind)
	assert.Equal(t, "writing "+filepath.Join(dir, "none", "one")+": its folder is not there, or not any more", err.Error())
}

// What a killed program left is of this very form: made here by what makes it.
func TestSweepKnowsWhatIsLeftBehind(t *testing.T) {
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	for range 50 {
		for _, w := range []Where{{Perm: 0o644}, {Perm: 0o644, Root: root, Keep: true}} {
			name := "quotes.csv"
			if w.Root == nil {
				name = filepath.Join(dir, name)
			}
			p, err := newPending(name, w)
			require.NoError(t, err)
			require.NoError(t, p.File.Close())
		}
	}
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, list, 100)
	for _, e := range list {
		assert.True(t, leftover(e.Name(), []string{"beds.csv", "quotes.csv"}), e.Name())
		assert.False(t, leftover(e.Name(), []string{"beds.csv", "quotes.cs", "quotes"}), e.Name())
	}
	require.NoError(t, Sweep(root, time.Now(), "quotes.csv"))
	assert.Len(t, tree(t, dir), 100, "another program may be writing them")
	require.NoError(t, Sweep(root, time.Now().Add(stale+2*time.Second), "beds.csv"))
	assert.Len(t, tree(t, dir), 100, "of another file")
	require.NoError(t, Sweep(root, time.Now().Add(stale+2*time.Second), "quotes.csv"))
	assert.Empty(t, tree(t, dir))
}

// Nothing that somebody could have named is taken away, however old.
func TestSweepLeavesWhatIsNotItsOwn(t *testing.T) {
	dir := t.TempDir()
	old := time.Now().Add(-24 * time.Hour)
	number := strings.Repeat("7", leastDigits)
	mine := []string{
		"quotes.csv", ".quotes.csv", ".quotes.csv2", ".quotes.csv20260503", ".quotes.csv20260503120000", "quotes.csv" + number, ".quotes.csv" + number + "a",
		".quotes.csv-" + number, ".quotes.csv" + number + ".bak", ".other.csv" + number, ".quotes.csv" + strings.Repeat("7", mostDigits+1),
	}
	for _, name := range mine {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("mine"), 0o600))
		require.NoError(t, os.Chtimes(filepath.Join(dir, name), old, old))
	}
	folder := filepath.Join(dir, ".quotes.csv"+number)
	require.NoError(t, os.Mkdir(folder, 0o700))
	require.NoError(t, os.Chtimes(folder, old, old))
	left := filepath.Join(dir, ".quotes.csv1"+number)
	require.NoError(t, os.WriteFile(left, []byte("left behind"), 0o600))
	require.NoError(t, os.Chtimes(left, old, old))
	before := tree(t, dir)
	require.NoError(t, Write(Where{Perm: 0o644}, Holding(filepath.Join(dir, "quotes.csv"), []byte("mine"))))
	delete(before, filepath.Base(left))
	assert.Equal(t, before, tree(t, dir), "the next write sweeps, and only what is its own")
}
