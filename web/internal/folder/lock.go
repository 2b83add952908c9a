package folder

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"mediabuy/web/internal/refusal"
)

// between keeps other pages of this user from saving into the same folder at once,
// in other processes too. The lock lies outside the folder, so that nothing but the
// job is in it; release must be called.
func between(dir string) (release func() error, err error) {
	whole, err := filepath.Abs(dir)
	if err == nil {
		whole, err = filepath.EvalSymlinks(whole)
	}
	if err != nil {
		return nil, fmt.Errorf("finding the folder to lock: %w", err)
	}
	name := fmt.Sprintf("%x.lock", sha256.Sum256([]byte(whole)))
	where, err := lockRoom()
	if err != nil {
		return nil, fmt.Errorf("making room for the lock of the folder: %w", err)
	}
	lock := flock.New(filepath.Join(where, name))
	ctx, cancel := context.WithTimeout(context.Background(), mostForLock)
	defer cancel()
	if _, err := lock.TryLockContext(ctx, lockEvery); ctx.Err() != nil {
		return nil, refusal.New(http.StatusServiceUnavailable, "another page is saving into this folder and does not end", "close the other page's program, and save again")
	} else if err != nil {
		return nil, fmt.Errorf("locking the folder: %w", err)
	}
	// The file stays: one taken away while another waits for it would lock nothing.
	return lock.Unlock, nil
}

// How long to wait for another page's save, and how often to look.
const (
	mostForLock = 10 * time.Second
	lockEvery   = 5 * time.Millisecond
)

// lockRoom is a folder for locks: the user's own, or where that cannot be written the
// one for temporary files.
func lockRoom() (string, error) {
	var errs []error
	own, err := os.UserCacheDir()
	for _, room := range []string{own, os.TempDir()} {
		if room == "" {
			errs = append(errs, err)
			continue
		}
		where := filepath.Join(room, "mediabuy", "locks")
		err := os.MkdirAll(where, 0o700)
		if err == nil {
			return where, nil
		}
		errs = append(errs, err)
	}
	return "", errors.Join(errs...)
}
