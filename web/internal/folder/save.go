package folder

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"slices"

	"mediabuy/disk"
	"mediabuy/quotes/files"
	"mediabuy/web/internal/refusal"
)

// rewrite is what stood in a file and what is to stand in it; nil for no file.
type rewrite struct {
	file          string
	before, after []byte
}

// Edit is a file as somebody left it who saw the content that tag names: one of the job's
// own, or by its path an order that is to lie in a folder within the job's.
type Edit struct {
	File, Tag string
	Data      []byte
}

// ErrStale refuses to write over what somebody else wrote.
var ErrStale = refusal.New(http.StatusConflict, "the file was changed outside this page, so your change was not saved over it",
	"open the file again to see it as it is now, and make the change again if it is still wanted")

// ErrReadOnly refuses a change.
var ErrReadOnly = refusal.New(http.StatusForbidden, "the job is shown read-only, so nothing is changed", "start mediabuy serve without --read-only to change it")

// Save puts the data of edits in place of the files' content, if that is still what their tags name: all of it or none,
// and one step to undo. words say what was done.
func (f *Folder) Save(words string, edits ...Edit) (err error) {
	if f.readOnly {
		return ErrReadOnly
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	release, err := between(f.root.Name())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, release()) }()
	var names []string
	for _, e := range edits {
		names = append(names, e.File)
	}
	now, err := f.readLocked(names...)
	if err != nil {
		return err
	}
	var list []rewrite
	for _, e := range edits {
		if now.Tag(e.File) != e.Tag {
			return ErrStale
		}
		if len(now[e.File]) > files.MaxFileBytes { // only its beginning was read
			return refusal.New(http.StatusRequestEntityTooLarge, fmt.Sprintf("%s is larger than %d MiB, so it is not changed here", e.File, files.MaxFileBytes>>20), "change it in a spreadsheet")
		}
		if _, there := now[e.File]; !there || !bytes.Equal(now[e.File], e.Data) {
			list = append(list, rewrite{e.File, now[e.File], e.Data})
		}
	}
	if len(list) == 0 {
		return nil
	}
	if err := f.write(list); err != nil {
		return err
	}
	f.past = append(f.past, change{list, words})
	if len(f.past) > mostUndo {
		f.past = f.past[1:]
	}
	return nil
}

// write replaces files whole, or takes them away: all of them or none.
func (f *Folder) write(list []rewrite) (err error) {
	var edits []disk.Edit
	var names []string
	for _, r := range list {
		names = append(names, r.file)
		if r.after == nil {
			edits = append(edits, disk.Edit{Name: r.file})
			continue
		}
		edits = append(edits, disk.Holding(r.file, r.after))
	}
	b, err := disk.Prepare(disk.Where{Root: f.root, Perm: 0o644, Keep: true, Folders: true}, edits...)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Drop()) }()
	// Writing beside the files took a moment: an editor that knows of no lock is still
	// seen here, and only in the instant from now to the last move it is not.
	now, err := f.readLocked(names...)
	if err != nil {
		return err
	}
	for _, r := range list {
		if now.Tag(r.file) != (Texts{}).With(r.file, r.before).Tag(r.file) {
			return ErrStale
		}
	}
	return b.Commit()
}

// Undo takes the last change back, all of it or none, and says in words which. It is [ErrStale] if one of its files was
// changed outside since.
func (f *Folder) Undo() (words string, err error) {
	if f.readOnly {
		return "", ErrReadOnly
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.past) == 0 {
		return "", refusal.New(http.StatusConflict, "there is no change of this page left to undo", "")
	}
	last := f.past[len(f.past)-1]
	release, err := between(f.root.Name())
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, release()) }()
	var names []string
	for _, r := range last.files {
		names = append(names, r.file)
	}
	now, err := f.readLocked(names...)
	if err != nil {
		return "", err
	}
	var list []rewrite
	for _, r := range slices.Backward(last.files) {
		if now.Tag(r.file) != (Texts{}).With(r.file, r.after).Tag(r.file) {
			f.past = nil // what stands there now is not this page's
			return "", ErrStale
		}
		list = append(list, rewrite{r.file, r.after, r.before})
	}
	if err := f.write(list); err != nil {
		return "", err
	}
	f.past = f.past[:len(f.past)-1]
	return last.words, nil
}

// Undoable says in words what undo would take back; "" if nothing.
func (f *Folder) Undoable() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.past) == 0 {
		return ""
	}
	return f.past[len(f.past)-1].words
}
