package folder

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// opened is a folder of two files, as a page has it.
func opened(t *testing.T, dir string, readOnly bool) *Folder {
	t.Helper()
	f, err := Open(dir, readOnly)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, f.Close()) })
	return f
}

func begun(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{files.QuotesFile: "quote\n", files.BedsFile: "bed\n", "notes.txt": "mine\n"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	return dir
}

func read(t *testing.T, f *Folder) Texts {
	t.Helper()
	texts, err := f.Read()
	require.NoError(t, err)
	return texts
}

// A save of several files is one step, and undo takes all of it back; only the files
// of a job are read.
func TestSavesAreUndoneInOneStep(t *testing.T) {
	f := opened(t, begun(t), false)
	before := read(t, f)
	assert.Equal(t, Texts{files.QuotesFile: []byte("quote\n"), files.BedsFile: []byte("bed\n")}, before)
	assert.Empty(t, f.Undoable())

	require.NoError(t, f.Save("two files", Edit{files.QuotesFile, before.Tag(files.QuotesFile), []byte("quote\na\n")},
		Edit{files.DeliveryFile, before.Tag(files.DeliveryFile), []byte("supplier\n")}))
	after := read(t, f)
	assert.Equal(t, before.With(files.QuotesFile, []byte("quote\na\n")).With(files.DeliveryFile, []byte("supplier\n")), after)
	assert.NotEqual(t, before.Key(), after.Key())
	require.NoError(t, f.Save("nothing", Edit{files.BedsFile, after.Tag(files.BedsFile), []byte("bed\n")}))
	assert.Equal(t, "two files", f.Undoable(), "what changes nothing is no step")

	words, err := f.Undo()
	require.NoError(t, err)
	assert.Equal(t, "two files", words)
	assert.Equal(t, before, read(t, f), "the file that was not there is gone again")
	_, err = f.Undo()
	assert.ErrorContains(t, err, "no change of this page left")
}

// What somebody else wrote is neither saved over nor undone over, and of several files
// none is written where one has changed.
func TestStaleIsRefused(t *testing.T) {
	dir := begun(t)
	f := opened(t, dir, false)
	before := read(t, f)
	require.NoError(t, f.Save("a quote", Edit{files.QuotesFile, before.Tag(files.QuotesFile), []byte("quote\na\n")}))
	theirs := []byte("quote\ntheirs\n")
	require.NoError(t, os.WriteFile(filepath.Join(dir, files.QuotesFile), theirs, 0o644))
	assert.ErrorIs(t, f.Save("both", Edit{files.BedsFile, before.Tag(files.BedsFile), []byte("bed\nb\n")},
		Edit{files.QuotesFile, before.Tag(files.QuotesFile), []byte("quote\nb\n")}), ErrStale)
	_, err := f.Undo()
	assert.ErrorIs(t, err, ErrStale)
	assert.Equal(t, before.With(files.QuotesFile, theirs), read(t, f))
	assert.Empty(t, f.Undoable(), "what stands there now is not this page's")
}

// Orders are put into a folder within the job's, all or none, over none that lies there; undo takes them out again.
func TestOrdersAreAdded(t *testing.T) {
	dir := begun(t)
	f := opened(t, dir, false)
	none := Texts{}.Tag("orders/a.csv")
	require.NoError(t, f.Save("two orders", Edit{"orders/a.csv", none, []byte("a\n")}, Edit{"orders/b.csv", none, []byte("b\n")}))
	assert.ErrorIs(t, f.Save("others", Edit{"orders/c.csv", none, []byte("c\n")}, Edit{"orders/b.csv", none, []byte("other\n")}), ErrStale)
	list, err := f.Within("orders")
	require.NoError(t, err)
	require.Len(t, list, 2)
	assert.Equal(t, "orders/a.csv", list[0].Name)
	assert.NotContains(t, read(t, f), "orders/a.csv", "they are none of the job's own files")
	had, err := f.Has("orders/b.csv")
	require.NoError(t, err)
	assert.True(t, had)
	assert.Error(t, f.Save("out", Edit{"../a.csv", none, []byte("a\n")}))

	words, err := f.Undo()
	require.NoError(t, err)
	assert.Equal(t, "two orders", words)
	list, err = f.Within("orders")
	require.NoError(t, err)
	assert.Empty(t, list)
}

func TestReadOnlyChangesNothing(t *testing.T) {
	f := opened(t, begun(t), true)
	before := read(t, f)
	assert.ErrorIs(t, f.Save("a quote", Edit{files.QuotesFile, before.Tag(files.QuotesFile), []byte("x\n")}), ErrReadOnly)
	_, err := f.Undo()
	assert.ErrorIs(t, err, ErrReadOnly)
	assert.Equal(t, before, read(t, f))
}

// Two pages on one folder, as two processes would have them, each with a lock of its
// own within: of two saves over the same content one wins and the other is told.
func TestTwoPagesLoseNoSave(t *testing.T) {
	dir := begun(t)
	pages := []*Folder{opened(t, dir, false), opened(t, dir, false)}
	for round := range 25 {
		tag := read(t, pages[0]).Tag(files.QuotesFile)
		errs := make([]error, len(pages))
		var wait sync.WaitGroup
		for i, f := range pages {
			wait.Go(func() {
				errs[i] = f.Save("a price", Edit{files.QuotesFile, tag, fmt.Appendf(nil, "quote\n%d.%d\n", round, i)})
			})
		}
		wait.Wait()
		won := 0
		if errs[0] != nil {
			won = 1
		}
		require.NoError(t, errs[won], "round %d", round)
		require.ErrorIs(t, errs[1-won], ErrStale, "round %d", round)
		assert.Equal(t, fmt.Sprintf("quote\n%d.%d\n", round, won), string(read(t, pages[0])[files.QuotesFile]))
	}
}
