package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"mediabuy/papers/safe"
)

// Permissions of what is written, before the user's mask.
const (
	filePerm = 0o644
	dirPerm  = 0o755
)

// writeJob writes files by name into dir, which is made if it is not there, and
// returns how many there are. All are written or none: a file that stands there
// already stops it, unless same allows one with the very same content. It never
// writes over anything.
func writeJob(ctx context.Context, dir string, files map[string][]byte, same bool) (int, error) {
	var names, inWay []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	var fresh []string
	for _, name := range names {
		old, err := os.ReadFile(filepath.Join(dir, name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			fresh = append(fresh, name)
		case err != nil:
			return 0, fmt.Errorf("looking at what is in %s: %w", dir, err)
		case !same || !bytes.Equal(old, files[name]):
			inWay = append(inWay, name)
		}
	}
	if len(inWay) > 0 {
		return 0, fmt.Errorf("%s already holds %s, which is never written over; name another folder", dir, strings.Join(inWay, ", "))
	}
	if err := os.MkdirAll(dir, dirPerm); err != nil {
		return 0, fmt.Errorf("making the folder: %w", err)
	}
	for i, name := range fresh {
		err := ctx.Err()
		if err == nil {
			err = writeWhole(filepath.Join(dir, name), func(w io.Writer) error {
				_, err := w.Write(files[name])
				return err
			})
		}
		if err != nil {
			for _, done := range fresh[:i] { // all or none
				err = errors.Join(err, os.Remove(filepath.Join(dir, done)))
			}
			return 0, fmt.Errorf("writing %s: %w", filepath.Join(dir, name), err)
		}
	}
	return len(names), nil
}

// writeWhole writes a file by way of write; until it is complete the old file,
// if any, stays.
func writeWhole(name string, write func(io.Writer) error) error {
	f, err := safe.NewPending(name, safe.Where{Perm: filePerm})
	if err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	if err := write(f); err != nil {
		return errors.Join(fmt.Errorf("writing %s: %w", name, err), f.Drop())
	}
	if err := f.Replace(); err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	return nil
}
