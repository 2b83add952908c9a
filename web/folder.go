package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"sync"

	"mediabuy/disk"
	"mediabuy/quotes/files"
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
	for _, name := range files.FileNames {
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
func (t texts) files() files.Sources {
	src := func(name string) files.Source {
		data, ok := t[name]
		if !ok {
			return files.Source{Name: name}
		}
		return files.Source{Name: name, R: bytes.NewReader(data)}
	}
	return files.Sources{
		Quotes: src(files.QuotesFile), Beds: src(files.BedsFile), Delivery: src(files.DeliveryFile),
		Media: src(files.MediaFile), Settings: src(files.SettingsFile),
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

// change is one save that can be undone, of one file or of several together.
type change struct {
	files []rewrite
	words string // what was done
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
	for _, name := range files.FileNames {
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

// one reads a file, a little more than [quotes.MaxFileBytes] at most: the reader
// then says that it is too large.
func (f *folder) one(name string) ([]byte, error) {
	file, err := disk.Open(f.root, name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, files.MaxFileBytes+1))
}
