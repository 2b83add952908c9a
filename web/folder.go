package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"net/http"
	"os"
	"sync"

	"github.com/google/renameio/v2"

	"mediabuy/quotes"
)

// texts holds the bytes of a job's files by their usual names. A file that is not
// there is not in it.
type texts map[string][]byte

// tag names the content of one file: its hash, or a word for a file that is not
// there. It goes out with a form and comes back with it.
func (t texts) tag(name string) string {
	data, ok := t[name]
	if !ok {
		return "none"
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:16])
}

// key names the content of all files.
func (t texts) key() string {
	sum := sha256.New()
	for _, name := range quotes.FileNames {
		sum.Write([]byte(name + " " + t.tag(name) + "\n"))
	}
	return hex.EncodeToString(sum.Sum(nil)[:16])
}

// with is the texts with one file changed; nil takes it out.
func (t texts) with(name string, data []byte) texts {
	out := maps.Clone(t)
	if data == nil {
		delete(out, name)
	} else {
		out[name] = data
	}
	return out
}

// files are the texts as a job is read from.
func (t texts) files() quotes.Files {
	src := func(name string) quotes.Source {
		data, ok := t[name]
		if !ok {
			return quotes.Source{Name: name}
		}
		return quotes.Source{Name: name, R: bytes.NewReader(data)}
	}
	return quotes.Files{
		Quotes: src(quotes.QuotesFile), Beds: src(quotes.BedsFile), Delivery: src(quotes.DeliveryFile),
		Media: src(quotes.MediaFile), Settings: src(quotes.SettingsFile),
	}
}

// folder is the job's folder: five files that may be read and written, and
// nothing else. Its mutex makes looking at a file and writing it one step for the
// requests of this page.
type folder struct {
	root     *os.Root
	readOnly bool

	mu   sync.Mutex
	past []change // oldest first
}

// change is one save that can be undone: what stood in a file before and after;
// nil for no file.
type change struct {
	file          string
	before, after []byte
	words         string // what was done
}

// mostUndo is how many changes are remembered.
const mostUndo = 100

// read reads every file that is there.
func (f *folder) read() (texts, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.readLocked()
}

func (f *folder) readLocked() (texts, error) {
	out := texts{}
	for _, name := range quotes.FileNames {
		data, err := f.one(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return nil, fmt.Errorf("reading %s: %w", name, err)
		default:
			out[name] = data
		}
	}
	return out, nil
}

// one reads a file, a little more than [quotes.MaxFileBytes] at most: the reader
// then says that it is too large. Its kind is looked at before it is opened, as
// opening a pipe waits for whoever writes into it.
func (f *folder) one(name string) ([]byte, error) {
	info, err := f.root.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("this is not a file with content, want a text file")
	}
	file, err := f.root.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, quotes.MaxFileBytes+1))
}

// errStale refuses to write over what somebody else wrote.
var errStale = &failure{http.StatusConflict, "the file was changed outside this page, so your change was not saved over it",
	"open the file again to see it as it is now, and make the change again if it is still wanted"}

// save puts data in place of a file's content, if that is still what tag names.
func (f *folder) save(name, tag string, data []byte, words string) error {
	if f.readOnly {
		return errReadOnly
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	now, err := f.readLocked()
	if err != nil {
		return err
	}
	if now.tag(name) != tag {
		return errStale
	}
	if len(now[name]) > quotes.MaxFileBytes { // only its beginning was read
		return &failure{http.StatusRequestEntityTooLarge, fmt.Sprintf("%s is larger than %d MiB, so it is not changed here", name, quotes.MaxFileBytes>>20), "change it in a spreadsheet"}
	}
	if _, there := now[name]; there && bytes.Equal(now[name], data) {
		return nil
	}
	if err := f.write(name, data); err != nil {
		return err
	}
	f.past = append(f.past, change{name, now[name], data, words})
	if len(f.past) > mostUndo {
		f.past = f.past[1:]
	}
	return nil
}

// write replaces a file whole, or takes it away. A link stays one: it is refused,
// as replacing it would leave the file it leads to as it was.
func (f *folder) write(name string, data []byte) error {
	switch info, err := f.root.Lstat(name); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return fmt.Errorf("looking at %s before it is written: %w", name, err)
	case !info.Mode().IsRegular():
		return &failure{http.StatusForbidden, name + " is a link and not a file of this folder, so it is not written", "put the file itself into the folder"}
	}
	if data == nil {
		if err := f.root.Remove(name); err != nil {
			return fmt.Errorf("taking away %s: %w", name, err)
		}
		return nil
	}
	if err := renameio.WriteFile(name, data, 0o644, renameio.WithRoot(f.root), renameio.WithExistingPermissions()); err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	return nil
}

// undo takes the last change back and says in words which. It is errStale if the
// file was changed outside since.
func (f *folder) undo() (words string, err error) {
	if f.readOnly {
		return "", errReadOnly
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.past) == 0 {
		return "", &failure{http.StatusConflict, "there is no change of this page left to undo", ""}
	}
	last := f.past[len(f.past)-1]
	now, err := f.readLocked()
	if err != nil {
		return "", err
	}
	if now.tag(last.file) != (texts{}).with(last.file, last.after).tag(last.file) {
		f.past = nil // what stands there now is not this page's
		return "", errStale
	}
	if err := f.write(last.file, last.before); err != nil {
		return "", err
	}
	f.past = f.past[:len(f.past)-1]
	return last.words, nil
}

// undoable says in words what undo would take back; "" if nothing.
func (f *folder) undoable() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.past) == 0 {
		return ""
	}
	return f.past[len(f.past)-1].words
}
