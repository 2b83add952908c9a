package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"
)

// Edit says what a file is to hold.
type Edit struct {
	Name  string                // a path, or a name within [Where.Root]
	Write func(io.Writer) error // writes what it is to hold; nil takes the file away
}

// Holding is an edit to bytes that are there already.
func Holding(name string, data []byte) Edit {
	return Edit{name, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}}
}

// Write carries edits out: all of them or none. Until then the old files stay.
func Write(w Where, edits ...Edit) error {
	b, err := Prepare(w, edits...)
	if err != nil {
		return err
	}
	return errors.Join(b.Commit(), b.Drop())
}

// Batch is some edits that are written beside the files they will replace. Commit
// puts them in their places; Drop must be called in the end.
type Batch struct {
	where Where
	parts []*part
	made  []string // folders, the innermost last
	moved bool     // everything is in its place
}

// part is one edit of a batch.
type part struct {
	name string
	file *pending // nil where the file is to be taken away
}

// Prepare writes edits beside the files they will replace, so that whatever is likely
// to fail, such as a full disk, fails before any of these is touched. Nothing is left
// of it after an error. What an interrupted program left of such files is swept.
func Prepare(w Where, edits ...Edit) (*Batch, error) {
	b := &Batch{where: w}
	if err := b.prepare(edits); err != nil {
		return nil, kept(err, b.Drop())
	}
	return b, nil
}

func (b *Batch) prepare(edits []Edit) error {
	for _, e := range edits {
		if err := b.replaceable(e.Name); err != nil {
			return err
		}
		if b.where.Folders && e.Write != nil {
			if err := b.folder(filepath.Dir(e.Name)); err != nil {
				return err
			}
		}
	}
	b.sweep(edits)
	for _, e := range edits {
		p := &part{name: e.Name}
		if e.Write != nil {
			file, err := newPending(e.Name, b.where)
			if err != nil {
				return refuse(writing, e.Name, err)
			}
			p.file = file
			b.parts = append(b.parts, p)
			if err := e.Write(file); err != nil {
				return refuse(writing, e.Name, err)
			}
			if err := file.Sync(); err != nil { // some disks say only now that they are full
				return refuse(writing, e.Name, err)
			}
			continue
		}
		b.parts = append(b.parts, p)
	}
	return nil
}

// replaceable refuses what is no plain file: a link, as replacing it would leave the
// file it leads to as it was, and a device, which is more than a name.
func (b *Batch) replaceable(name string) error {
	look := os.Lstat
	if b.where.Root != nil {
		look = b.where.Root.Lstat
	}
	info, err := look(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return refuse(writing, name, err)
	}
	if kind := oddness(info); kind != Other {
		return &Refusal{Kind: kind, Doing: writing, Name: name}
	}
	return nil
}

// folder makes a folder that is not there, and those around it.
func (b *Batch) folder(dir string) error {
	look, mkdir := os.Stat, os.MkdirAll
	if b.where.Root != nil {
		look, mkdir = b.where.Root.Stat, b.where.Root.MkdirAll
	}
	var missing []string
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		if _, err := look(at); !errors.Is(err, fs.ErrNotExist) || at == filepath.Dir(at) {
			break // there, or MkdirAll will say what is wrong
		}
		missing = append(missing, at)
	}
	err := mkdir(dir, folderPerm)
	for _, at := range slices.Backward(missing) {
		if info, no := look(at); no == nil && info.IsDir() {
			b.made = append(b.made, at)
		}
	}
	if err != nil {
		return refuse(making, dir, err)
	}
	return nil
}

// folderPerm are the permissions of new folders, before the user's mask.
const folderPerm = 0o755

// sweep takes away what interrupted programs left of these files. It is no harm if
// that fails: what is wrong with the folder shows on writing.
func (b *Batch) sweep(edits []Edit) {
	if b.where.Root != nil {
		var names []string
		for _, e := range edits {
			names = append(names, filepath.Base(e.Name)) // they are written in the root itself
		}
		_ = Sweep(b.where.Root, time.Now(), names...)
		return
	}
	byFolder := map[string][]string{}
	for _, e := range edits {
		dir, name := filepath.Dir(e.Name), filepath.Base(e.Name)
		byFolder[dir] = append(byFolder[dir], name)
	}
	for dir, names := range byFolder {
		if root, err := os.OpenRoot(dir); err == nil {
			_ = Sweep(root, time.Now(), names...)
			_ = root.Close()
		}
	}
}

// Commit puts every file in its place. Should one fail, those before it are put back,
// the last first; what cannot be put back is told too.
func (b *Batch) Commit() error {
	var back []func() error
	for i, p := range b.parts {
		last := i == len(b.parts)-1
		undo, err := b.place(p, last)
		if err == nil {
			back = append(back, undo)
			continue
		}
		var bad error
		for _, one := range slices.Backward(back) {
			bad = errors.Join(bad, one())
		}
		return kept(err, bad)
	}
	b.moved = true
	return nil
}

// place puts one file in its place and gives back what undoes it; of the last there
// is nothing to undo.
func (b *Batch) place(p *part, last bool) (undo func() error, err error) {
	if !last {
		if undo, err = b.remember(p.name); err != nil {
			return nil, err
		}
	}
	if p.file == nil {
		if err := b.remove(p.name); err != nil {
			return nil, refuse(taking, p.name, err)
		}
		return undo, nil
	}
	if err := p.file.replace(); err != nil {
		return nil, refuse(writing, p.name, err)
	}
	return undo, nil
}

// remember reads what stands in a file and gives back what writes it there again.
func (b *Batch) remember(name string) (undo func() error, err error) {
	file, err := Open(b.where.Root, name)
	if errors.Is(err, fs.ErrNotExist) {
		return func() error { return b.remove(name) }, nil
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, refuse(reading, name, err)
	}
	data, err := io.ReadAll(file)
	if err != nil {
		return nil, refuse(reading, name, err)
	}
	return func() error {
		return Write(Where{Root: b.where.Root, Perm: info.Mode().Perm()}, Holding(name, data))
	}, nil
}

func (b *Batch) remove(name string) error {
	remove := os.Remove
	if b.where.Root != nil {
		remove = b.where.Root.Remove
	}
	if err := remove(name); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// Drop forgets every file that is not in its place, and unless all are the folders
// that were made for them.
func (b *Batch) Drop() error {
	var bad error
	for _, p := range b.parts {
		if p.file != nil {
			bad = errors.Join(bad, p.file.drop())
		}
	}
	b.parts = nil
	if b.moved {
		return bad
	}
	for _, dir := range slices.Backward(b.made) {
		// One that somebody else has put something into meanwhile stays.
		if err := b.remove(dir); err != nil && !b.hasEntries(dir) {
			bad = errors.Join(bad, err)
		}
	}
	b.made = nil
	return bad
}

func (b *Batch) hasEntries(dir string) bool {
	read := os.ReadDir
	if b.where.Root != nil {
		read = func(dir string) ([]os.DirEntry, error) { return fs.ReadDir(b.where.Root.FS(), filepath.ToSlash(dir)) }
	}
	list, err := read(dir)
	return err == nil && len(list) > 0
}

// kept notes in a refusal that everything is as it was, or tells besides what went
// wrong with that.
func kept(err, bad error) error {
	if bad != nil {
		return errors.Join(err, fmt.Errorf("taking back what was written before it: %w", bad))
	}
	if r := (*Refusal)(nil); errors.As(err, &r) {
		r.Kept = true
	}
	return err
}
