//go:build !windows

package safe

import "github.com/google/renameio/v2"

// Pending is a file being written beside the one it will replace: in one move, or
// not at all.
type Pending struct{ *renameio.PendingFile }

// NewPending begins a file that will take the place of name.
func NewPending(name string, w Where) (*Pending, error) {
	opt := []renameio.Option{renameio.WithPermissions(w.Perm)}
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
	return &Pending{f}, nil
}

// Replace puts the file in its place.
func (p *Pending) Replace() error { return p.CloseAtomicallyReplace() }

// Drop forgets the file, if it is not in its place yet.
func (p *Pending) Drop() error { return p.Cleanup() }
