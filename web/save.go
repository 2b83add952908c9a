package web

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"slices"

	"mediabuy/papers/safe"

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

// write replaces files whole, or takes them away: all of them or none. Whatever can fail is done before the first is
// replaced, and should one fail after that, those before it are put back.
func (f *folder) write(list []rewrite) error {
	var steps []step
	for _, r := range list {
		if err := f.writable(r.file); err != nil {
			return err
		}
		forth, drop, err := f.prepare(r.file, r.after)
		if err != nil {
			return err
		}
		defer drop()
		steps = append(steps, step{forth, func() error {
			back, drop, err := f.prepare(r.file, r.before)
			if err != nil {
				return err
			}
			defer drop()
			return back()
		}})
	}
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
	return allOrNone(steps)
}

// step is a part of what is to be done whole, and what takes it back.
type step struct{ forth, back func() error }

// allOrNone takes steps in order. One that fails is the error, after those before it were taken back, the last first;
// what cannot be taken back is told too.
func allOrNone(steps []step) error {
	for i, s := range steps {
		err := s.forth()
		if err == nil {
			continue
		}
		for _, done := range slices.Backward(steps[:i]) {
			if bad := done.back(); bad != nil {
				err = errors.Join(err, fmt.Errorf("taking back what was written before it: %w", bad))
			}
		}
		return err
	}
	return nil
}

// writable refuses a link: replacing it would leave the file it leads to as it was.
func (f *folder) writable(name string) error {
	switch info, err := f.root.Lstat(name); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return fmt.Errorf("looking at %s before it is written: %w", name, err)
	case !info.Mode().IsRegular():
		return &failure{http.StatusForbidden, name + " is a link and not a file of this folder, so it is not written", "put the file itself into the folder"}
	}
	return nil
}

// prepare writes data beside a file. forth then puts it in the file's place in one move, or takes the file away if data is
// nil; drop forgets what was not moved.
func (f *folder) prepare(name string, data []byte) (forth func() error, drop func(), err error) {
	if data == nil {
		return func() error {
			if err := f.root.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return fmt.Errorf("taking away %s: %w", name, err)
			}
			return nil
		}, func() {}, nil
	}
	p, err := safe.NewPending(name, safe.Where{Root: f.root, Perm: 0o644, Keep: true})
	if err != nil {
		return nil, nil, fmt.Errorf("writing %s: %w", name, err)
	}
	_, err = p.Write(data)
	if err == nil {
		err = p.Sync() // a full disk is told here, before any file is replaced
	}
	if err != nil {
		return nil, nil, fmt.Errorf("writing %s: %w", name, errors.Join(err, p.Drop()))
	}
	drop = func() { _ = p.Drop() } // a file beside the job's at worst, once the disk fails
	return func() error {
		if err := p.Replace(); err != nil {
			return fmt.Errorf("writing %s: %w", name, err)
		}
		return nil
	}, drop, nil
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
