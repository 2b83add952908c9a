package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"mediabuy/disk"
)

// filePerm are the permissions of what is written, before the user's mask.
const filePerm = 0o644

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
	var fresh []disk.Edit
	for _, name := range names {
		path := filepath.Join(dir, name)
		alike, err := holds(path, files[name])
		switch {
		case errors.Is(err, fs.ErrNotExist):
			fresh = append(fresh, disk.Holding(path, files[name]))
		case err != nil:
			return 0, fmt.Errorf("looking at what is in %s: %w", dir, err)
		case !same || !alike:
			inWay = append(inWay, name)
		}
	}
	if len(inWay) > 0 {
		return 0, fmt.Errorf("%s already holds %s, which is never written over; name another folder", dir, strings.Join(inWay, ", "))
	}
	return len(names), writeAll(ctx, fresh)
}

// holds reports whether a file holds data. What is no file, such as a pipe, holds
// nothing alike.
func holds(path string, data []byte) (bool, error) {
	file, err := disk.Open(nil, path)
	if err != nil {
		if r := disk.Explain(err); r != nil && r.Err == nil { // only looking told
			return false, nil
		}
		return false, err
	}
	defer file.Close()
	old, err := io.ReadAll(io.LimitReader(file, int64(len(data))+1))
	return bytes.Equal(old, data), err
}

// writeAll writes files, in folders that are made where they are not there: all of
// them or none, and none if the work was stopped before.
func writeAll(ctx context.Context, edits []disk.Edit) (err error) {
	if err := ctx.Err(); err != nil {
		return err
	}
	b, err := disk.Prepare(disk.Where{Perm: filePerm, Folders: true}, edits...)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Drop()) }()
	if err := ctx.Err(); err != nil {
		return err
	}
	return b.Commit()
}

// writeWhole writes a file by way of write; until it is complete the old file,
// if any, stays.
func writeWhole(name string, write func(io.Writer) error) error {
	return disk.Write(disk.Where{Perm: filePerm}, disk.Edit{Name: name, Write: write})
}
