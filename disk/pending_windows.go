package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"

	"github.com/natefinch/atomic"
)

// pending is a file being written beside the one it will replace: in one move, by
// Windows' own call for it, or not at all.
type pending struct {
	*os.File
	to string
}

// A file that is being written is named after the one it will replace, with nineteen
// digits and the up to ten of [os.CreateTemp] behind.
const (
	leastDigits = 20
	mostDigits  = 29
)

// newPending begins a file that will take the place of name. It stands beside it, or where
// there is a root in that.
func newPending(name string, w Where) (*pending, error) {
	beside := filepath.Dir(name)
	if w.Root != nil {
		if _, err := w.Root.Stat(beside); err != nil { // which leads out of it
			return nil, err
		}
		beside, name = w.Root.Name(), filepath.Join(w.Root.Name(), name)
	}
	f, err := os.CreateTemp(beside, fmt.Sprintf(".%s%019d", filepath.Base(name), rand.Int64()))
	if err != nil {
		return nil, err
	}
	return &pending{f, name}, nil
}

// replace puts the file in its place.
func (p *pending) replace() error {
	if err := errors.Join(p.Sync(), p.Close()); err != nil {
		return err
	}
	return atomic.ReplaceFile(p.Name(), p.to)
}

// drop forgets the file, if it is not in its place yet.
func (p *pending) drop() error {
	_ = p.Close() // it may be closed already
	if err := os.Remove(p.Name()); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
