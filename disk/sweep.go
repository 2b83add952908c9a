package disk

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"time"
)

// stale is how long a file that is being written stands untouched before it counts as
// left behind. Writing one takes no more than seconds.
const stale = time.Minute

// Sweep takes away what a program that was killed left of files named in names: plain
// files that are named as only [Prepare] names them, and that nobody has touched for
// a while.
func Sweep(root *os.Root, now time.Time, names ...string) error {
	list, err := fs.ReadDir(root.FS(), ".")
	if err != nil {
		return refuse(reading, root.Name(), err)
	}
	var bad error
	for _, e := range list {
		if !e.Type().IsRegular() || !leftover(e.Name(), names) {
			continue
		}
		info, err := e.Info()
		if err != nil || now.Sub(info.ModTime()) <= stale {
			continue // gone already, or being written
		}
		if err := root.Remove(e.Name()); err != nil && !errors.Is(err, fs.ErrNotExist) {
			bad = errors.Join(bad, refuse(taking, e.Name(), err))
		}
	}
	return bad
}

// leftover reports whether an entry is named after one of names as a file that is
// being written is: hidden, with a long random number behind.
func leftover(entry string, names []string) bool {
	for _, name := range names {
		digits, ok := strings.CutPrefix(entry, "."+name)
		if ok && len(digits) >= leastDigits && len(digits) <= mostDigits && strings.Trim(digits, "0123456789") == "" {
			return true
		}
	}
	return false
}
