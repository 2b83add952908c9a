// Package disk reads plain files and nothing else, writes files whole or not at all,
// several of them together where they belong together, and says in words what a disk
// refused and how to mend it.
//
// [Open] reads, [Write] writes, [Prepare] is for who has something to look at between
// writing beside the files and putting them in their places. What goes wrong comes
// back as a [*Refusal].
package disk

import (
	"errors"
	"io/fs"
)

// Kind is what a disk refused, or why.
type Kind int

// What a disk may refuse. The zero value is for whatever is not told apart here.
const (
	Other     Kind = iota
	Full           // no space left
	Quota          // the user's share of the disk is used up
	TooLarge       // larger than the disk or the user's limits take
	ReadOnly       // the disk may only be read
	Denied         // the user may not
	Busy           // another program has it open (Windows)
	Fault          // the device failed
	Gone           // nothing is there
	NotFolder      // a file stands where a folder is wanted
	LongName       // the name is longer than the disk takes
	Circle         // links lead round in a circle
	Nowhere        // a link leads to nothing
	Outside        // a link leads out of the folder
	Link           // a link, where a file is to be replaced
	Folder         // a folder, where a file is wanted
	Odd            // a pipe or a device
	Closed         // it was closed, or is not open for this
)

// words say what was found and how to mend it.
type words struct{ found, hint string }

const makeRoom = "free some space on it and try again"

// told are the words of each kind. On reading, those of reading come first.
var told = map[Kind]words{
	Full:      {"no space is left on the disk", makeRoom},
	Quota:     {"your share of the disk is used up", "delete what is no longer needed, or ask whoever runs the machine for a larger share, and try again"},
	TooLarge:  {"it grew larger than this disk or your limits allow", "choose another disk, or have the limit raised, and try again"},
	ReadOnly:  {"the disk may only be read", "choose a folder on another disk, or have this one opened for writing"},
	Denied:    {"you may not write there", mayWrite},
	Busy:      {"another program has it open", "close it there and try again"},
	Fault:     {"the disk failed", "copy what can still be read to another disk, and go on there"},
	Gone:      {"its folder is not there, or not any more", "make the folder, or name another"},
	NotFolder: {"a file stands where a folder is wanted", "name another folder, or move that file away"},
	LongName:  {"its name is longer than the disk takes", "choose a shorter one"},
	Circle:    {"its links lead round in a circle", "put the file itself there"},
	Nowhere:   {"it is a link that leads to nothing", "put the file itself there, or take the link away"},
	Outside:   {"it is a link that leads out of the folder", "put the file itself into the folder"},
	Link:      {"it is a link, and replacing it would leave the file it leads to as it was", "put the file itself there, or name another"},
	Folder:    {"this is a folder", "put a file there, or name another"},
	Odd:       {"this is a pipe or a device", "put a plain file there, or name another"},
	Closed:    {"it is closed", "leave it open, or have it go to a file or another program"},
}

var toldReading = map[Kind]words{
	Denied: {"it may not be read", mayRead},
	Gone:   {"it is not there", "see whether the name is right"},
}

// Refusal is what a disk would not do with one file or folder.
type Refusal struct {
	Kind  Kind
	Doing string // "reading", "writing", "making", "taking away"; "" for something else
	Name  string // of the file or folder
	Err   error  // as the system said it; nil where only looking told
	Kept  bool   // everything that was to be changed with it is as it was
}

func (r *Refusal) words() words {
	if w, ok := toldReading[r.Kind]; ok && r.Doing == reading {
		return w
	}
	return told[r.Kind]
}

// Found is what was found, without the name.
func (r *Refusal) Found() string {
	if w := r.words(); w.found != "" {
		return w.found
	}
	// The names in here may be those of a file beside the one that was asked for.
	var path *fs.PathError
	if errors.As(r.Err, &path) {
		return path.Err.Error()
	}
	return r.Err.Error()
}

// Hint is how to mend it; "" where nothing is known.
func (r *Refusal) Hint() string {
	hint := r.words().hint
	if r.Kept && hint != "" {
		return hint + "; nothing was changed"
	}
	return hint
}

func (r *Refusal) Error() string {
	at := r.Name + ": " + r.Found()
	if r.Doing == "" {
		return at
	}
	return r.Doing + " " + at
}

func (r *Refusal) Unwrap() error { return r.Err }

// What is done with a file or folder.
const (
	reading = "reading"
	writing = "writing"
	making  = "making the folder"
	taking  = "taking away"
)

// refuse tells err of one file or folder; a refusal told already stays as it is.
func refuse(doing, name string, err error) error {
	if r := (*Refusal)(nil); errors.As(err, &r) {
		return err
	}
	return &Refusal{Kind: kindOf(err), Doing: doing, Name: name, Err: err}
}

// Explain finds in err what a disk refused, also where the words of the system alone
// tell; nil where it was something else.
func Explain(err error) *Refusal {
	var r *Refusal
	if errors.As(err, &r) {
		return r
	}
	var path *fs.PathError
	if !errors.As(err, &path) {
		return nil
	}
	if kind := kindOf(path.Err); kind != Other && kind != Gone {
		return &Refusal{Kind: kind, Name: path.Path, Err: err}
	}
	return nil
}

// Words tell an error and, where a disk refused something, how to mend it.
func Words(err error) (words, hint string) {
	r := Explain(err)
	switch {
	case r == nil:
		return err.Error(), ""
	case errors.As(err, new(*Refusal)):
		return err.Error(), r.Hint() // with what was being done, and what went wrong besides
	}
	return r.Error(), r.Hint()
}

func kindOf(err error) Kind {
	for _, k := range systemKinds {
		if errors.Is(err, k.err) {
			return k.kind
		}
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Gone
	case errors.Is(err, fs.ErrPermission):
		return Denied
	}
	return Other
}

// systemKind is what one error of the system means.
type systemKind struct {
	err  error
	kind Kind
}
