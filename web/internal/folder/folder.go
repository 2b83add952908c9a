// Package folder is a job's folder as a page has it: its five files read with tags that
// name their content, saved all or none where the tags still hold, undone one step after
// the other, and locked against other pages of this user meanwhile.
package folder

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"mediabuy/disk"
	"mediabuy/quotes/files"
)

// Texts holds the bytes of a job's files by their usual names. A file that is not
// there is not in it.
type Texts map[string][]byte

// Tag names the content of one file: its hash, or a word for a file that is not
// there. It goes out with a form and comes back with it.
func (t Texts) Tag(name string) string {
	data, ok := t[name]
	if !ok {
		return "none"
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:16])
}

// Key names the content of all files.
func (t Texts) Key() string {
	sum := sha256.New()
	for _, name := range files.FileNames {
		sum.Write([]byte(name + " " + t.Tag(name) + "\n"))
	}
	return hex.EncodeToString(sum.Sum(nil)[:16])
}

// With is the texts with one file changed; nil takes it out.
func (t Texts) With(name string, data []byte) Texts {
	out := maps.Clone(t)
	if data == nil {
		delete(out, name)
	} else {
		out[name] = data
	}
	return out
}

// Files are the texts as a job is read from.
func (t Texts) Files() files.Sources { return files.SourcesOf(t) }

// Folder is the job's folder: five files that may be read and written, orders that may
// be read and added to, and nothing else. Its mutex makes looking at a file and writing it one step for the
// requests of this page.
type Folder struct {
	root     *os.Root
	readOnly bool

	mu   sync.Mutex
	past []change // oldest first
}

// change is one save that can be undone, of one file or of several together.
type change struct {
	files []rewrite
	words string // what was done
}

// mostUndo is how many changes are remembered.
const mostUndo = 100

// Open opens the folder of a name. The error is for one that cannot be opened.
func Open(dir string, readOnly bool) (*Folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("opening the job's folder: %w", err)
	}
	if !readOnly {
		// What a page that was killed left is no harm, so neither is leaving it.
		_ = disk.Sweep(root, time.Now(), files.FileNames...)
	}
	return &Folder{root: root, readOnly: readOnly}, nil
}

// Close lets go of the folder.
func (f *Folder) Close() error { return f.root.Close() }

// Read reads every file that is there.
func (f *Folder) Read() (Texts, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.readLocked()
}

// readLocked reads the job's files, and further ones by name.
func (f *Folder) readLocked(further ...string) (Texts, error) {
	out := Texts{}
	for _, name := range append(slices.Clip(files.FileNames), further...) {
		data, err := f.one(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return nil, err
		default:
			out[name] = data
		}
	}
	return out, nil
}

// one reads a file, a little more than [files.MaxFileBytes] at most: the reader
// then says that it is too large.
func (f *Folder) one(name string) ([]byte, error) {
	file, err := disk.Open(f.root, name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, files.MaxFileBytes+1))
}

// mostOrders bounds how many files of a folder are looked at for orders.
const mostOrders = 500

// Within reads the CSVs that lie in a folder within the job's, by name; none where there
// is no such folder.
func (f *Folder) Within(dir string) ([]files.Source, error) {
	if info, err := f.root.Stat(dir); errors.Is(err, fs.ErrNotExist) || err == nil && !info.IsDir() {
		return nil, nil
	}
	list, err := fs.ReadDir(f.root.FS(), dir)
	if err != nil {
		return nil, err
	}
	var out []files.Source
	for _, one := range list {
		if !one.Type().IsRegular() || !strings.EqualFold(path.Ext(one.Name()), ".csv") || len(out) == mostOrders {
			continue
		}
		name := path.Join(dir, one.Name())
		text, err := f.one(name)
		if err != nil {
			return nil, err
		}
		out = append(out, files.Source{Name: name, R: bytes.NewReader(text)})
	}
	return out, nil
}

// Has tells whether something lies under a name within the folder.
func (f *Folder) Has(name string) (bool, error) {
	_, err := f.root.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}

// FileKey is a file in the address of its view: quotes for quotes.csv.
func FileKey(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }
