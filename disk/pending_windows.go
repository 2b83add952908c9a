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

// newPending begins a file that will take the place of name.
func newPending(name string, w Where) (*pending, error) {
	if w.Root != nil {
		name = filepath.Join(w.Root.Name(), filepath.Base(name))
	}
	f, err := os.CreateTemp(filepath.Dir(name), fmt.Sprintf(".%s%019d", filepath.Base(name), rand.Int64()))
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
