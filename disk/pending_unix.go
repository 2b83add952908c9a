//go:build !windows

package disk

import (
	"path/filepath"

	"github.com/google/renameio/v2"
)

// pending is a file being written beside the one it will replace: in one move, or
// not at all.
type pending struct{ *renameio.PendingFile }

// The library names a file that is being written after the one it will replace, with
// a random number of 63 bits behind. One in ten thousand is shorter than this, which
// is then never swept.
const (
	leastDigits = 15
	mostDigits  = 19
)

// newPending begins a file that will take the place of name. It stands beside it, or
// where there is a root in that: the library's own choice for paths, the folder for temporary files where that is on the same
// disk, would be out of reach of [Sweep].
func newPending(name string, w Where) (*pending, error) {
	opt := []renameio.Option{renameio.WithPermissions(w.Perm), renameio.WithTempDir(filepath.Dir(name))}
	if w.Root != nil {
		opt = append(opt, renameio.WithRoot(w.Root))
	}
	if w.Keep {
		opt = append(opt, renameio.WithExistingPermissions())
	}
	f, err := renameio.NewPendingFile(name, opt...)
	if err != nil {
		return nil, err
	}
	return &pending{f}, nil
}

// replace puts the file in its place.
func (p *pending) replace() error { return p.CloseAtomicallyReplace() }

// drop forgets the file, if it is not in its place yet.
func (p *pending) drop() error { return p.Cleanup() }
