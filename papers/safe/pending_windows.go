package safe

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/natefinch/atomic"
)

// Pending is a file being written beside the one it will replace: in one move, by
// Windows' own call for it, or not at all.
type Pending struct {
	*os.File
	to string
}

// NewPending begins a file that will take the place of name.
func NewPending(name string, w Where) (*Pending, error) {
	if w.Root != nil {
		name = filepath.Join(w.Root.Name(), filepath.Base(name))
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name))
	if err != nil {
		return nil, err
	}
	return &Pending{f, name}, nil
}

// Replace puts the file in its place.
func (p *Pending) Replace() error {
	if err := errors.Join(p.Sync(), p.Close()); err != nil {
		return err
	}
	return atomic.ReplaceFile(p.Name(), p.to)
}

// Drop forgets the file, if it is not in its place yet.
func (p *Pending) Drop() error {
	_ = p.Close() // it may be closed already
	if err := os.Remove(p.Name()); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
