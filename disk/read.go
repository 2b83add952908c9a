package disk

import (
	"errors"
	"io/fs"
	"os"
)

// Open opens a plain file: what a pipe or a device would give is never waited for,
// and a folder is no file. root is the folder that nothing may lead out of; nil for a
// name that is a path. Where nothing is there, and no link either, the error is
// [fs.ErrNotExist] and not a refusal.
func Open(root *os.Root, name string) (*os.File, error) {
	look, link, open := os.Stat, os.Lstat, os.Open
	if root != nil {
		look, link, open = root.Stat, root.Lstat, root.Open
	}
	info, err := look(name)
	if err != nil {
		return nil, unreadable(name, err, link)
	}
	if kind := oddness(info); kind != Other {
		return nil, &Refusal{Kind: kind, Doing: reading, Name: name}
	}
	file, err := open(name)
	if err != nil {
		return nil, orMissing(name, err)
	}
	return file, nil
}

// Look tells what a path leads to. The error is as that of [Open].
func Look(name string) (fs.FileInfo, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, unreadable(name, err, os.Lstat)
	}
	return info, nil
}

// unreadable tells what a link leads to apart from what is not there: files that may
// be missing must not be passed over for it.
func unreadable(name string, err error, link func(string) (fs.FileInfo, error)) error {
	if l, no := link(name); no == nil && l.Mode()&fs.ModeSymlink != 0 {
		switch kindOf(err) {
		case Gone:
			return &Refusal{Kind: Nowhere, Doing: reading, Name: name} // not fs.ErrNotExist
		case Other: // package os has no error to compare with
			return &Refusal{Kind: Outside, Doing: reading, Name: name, Err: err}
		}
	}
	return orMissing(name, err)
}

func orMissing(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return refuse(reading, name, err)
}

// oddness is what kind of no plain file it is; Other for a plain one.
func oddness(info fs.FileInfo) Kind {
	switch mode := info.Mode(); {
	case mode.IsDir():
		return Folder
	case mode&fs.ModeSymlink != 0:
		return Link
	case !mode.IsRegular():
		return Odd
	}
	return Other
}
