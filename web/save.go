package web

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"slices"

	"mediabuy/disk"
	"mediabuy/quotes/files"
)

// rewrite is what stood in a file and what is to stand in it; nil for no file.
type rewrite struct {
	file          string
	before, after []byte
}

// edit is a file as somebody left it who saw the content that tag names.
type edit struct {
	file, tag string
	data      []byte
}

// errStale refuses to write over what somebody else wrote.
var errStale = &failure{http.StatusConflict, "the file was changed outside this page, so your change was not saved over it",
	"open the file again to see it as it is now, and make the change again if it is still wanted"}

// save puts the data of edits in place of the files' content, if that is still what their tags name: all of it or none,
// and one step to undo. words say what was done.
func (f *folder) save(words string, edits ...edit) (err error) {
	if f.readOnly {
		return errReadOnly
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	release, err := between(f.root.Name())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, release()) }()
	now, err := f.readLocked()
	if err != nil {
		return err
	}
	var list []rewrite
	for _, e := range edits {
		if now.tag(e.file) != e.tag {
			return errStale
		}
		if len(now[e.file]) > files.MaxFileBytes { // only its beginning was read
			return &failure{http.StatusRequestEntityTooLarge, fmt.Sprintf("%s is larger than %d MiB, so it is not changed here", e.file, files.MaxFileBytes>>20), "change it in a spreadsheet"}
		}
		if _, there := now[e.file]; !there || !bytes.Equal(now[e.file], e.data) {
			list = append(list, rewrite{e.file, now[e.file], e.data})
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
func (f *folder) write(list []rewrite) (err error) {
	var edits []disk.Edit
	for _, r := range list {
		if r.after == nil {
			edits = append(edits, disk.Edit{Name: r.file})
			continue
		}
		edits = append(edits, disk.Holding(r.file, r.after))
	}
	b, err := disk.Prepare(disk.Where{Root: f.root, Perm: 0o644, Keep: true}, edits...)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Drop()) }()
	// Writing beside the files took a moment: an editor that knows of no lock is still
	// seen here, and only in the instant from now to the last move it is not.
	now, err := f.readLocked()
	if err != nil {
		return err
	}
	for _, r := range list {
		if now.tag(r.file) != (texts{}).with(r.file, r.before).tag(r.file) {
			return errStale
		}
	}
	return b.Commit()
}

// undo takes the last change back, all of it or none, and says in words which. It is errStale if one of its files was
// changed outside since.
func (f *folder) undo() (words string, err error) {
	if f.readOnly {
		return "", errReadOnly
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.past) == 0 {
		return "", &failure{http.StatusConflict, "there is no change of this page left to undo", ""}
	}
	last := f.past[len(f.past)-1]
	release, err := between(f.root.Name())
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, release()) }()
	now, err := f.readLocked()
	if err != nil {
		return "", err
	}
	var list []rewrite
	for _, r := range slices.Backward(last.files) {
		if now.tag(r.file) != (texts{}).with(r.file, r.after).tag(r.file) {
			f.past = nil // what stands there now is not this page's
			return "", errStale
		}
		list = append(list, rewrite{r.file, r.after, r.before})
	}
	if err := f.write(list); err != nil {
		return "", err
	}
	f.past = f.past[:len(f.past)-1]
	return last.words, nil
}

// undoable says in words what undo would take back; "" if nothing.
func (f *folder) undoable() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.past) == 0 {
		return ""
	}
	return f.past[len(f.past)-1].words
}
