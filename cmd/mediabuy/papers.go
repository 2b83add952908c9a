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

	"github.com/spf13/pflag"

	"mediabuy/disk"
	"mediabuy/papers"
	"mediabuy/papers/page"
	"mediabuy/papers/sheaf"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

// paperFlags are the flags of every verb that writes papers.
type paperFlags struct {
	answer answerFlags
	sheet  string
	force  bool
}

func (f *paperFlags) addFlags(fs *pflag.FlagSet) {
	f.answer.addFlags(fs)
	fs.StringVar(&f.sheet, "sheet", "", "print on `SIZE` a4 or letter; without it letter where the currency is USD")
	fs.BoolVar(&f.force, "force", false, "write over files that are there")
}

// style is how papers show numbers. A bad word is wrong use.
func (f *paperFlags) style(s *quotes.Settings) (papers.Style, error) {
	sys, err := f.answer.system(s)
	if err != nil {
		return papers.Style{}, err
	}
	st := papers.Style{Units: sys}
	switch f.sheet {
	case "":
		st.Letter = papers.LetterFor(s.Currency)
	case "letter":
		st.Letter = true
	case "a4":
	default:
		return papers.Style{}, &usageError{fmt.Sprintf("--sheet %q is not a choice", f.sheet), "write a4 or letter"}
	}
	return st, nil
}

// load reads the job in dir, and how its papers show numbers.
func (f *paperFlags) load(a *app, dir string, named jobFiles) (*loaded, papers.Style, error) {
	in, err := a.load(dir, named, files.Options{Reader: f.answer.reader()})
	if err != nil {
		return nil, papers.Style{}, err
	}
	st, err := f.style(&in.job.Settings)
	return in, st, err
}

// paper is one file to be written.
type paper struct {
	name string // of the file
	data []byte
}

// forms writes a page in a form, by the ending of a file's name.
var forms = map[string]func(*page.Page, io.Writer) error{
	".html": (*page.Page).HTML, ".pdf": (*page.Page).PDF, ".md": (*page.Page).Markdown, ".xlsx": (*page.Page).XLSX,
}

// formOf is the form that a file's name asks for.
func formOf(name string) (func(*page.Page, io.Writer) error, error) {
	write, ok := forms[strings.ToLower(filepath.Ext(name))]
	if !ok {
		return nil, &usageError{fmt.Sprintf("-o %q has no ending that says which form to write", name), "end the name in .html, .pdf, .md or .xlsx"}
	}
	return write, nil
}

// paperOf makes a file of what write writes.
func paperOf(name string, write func(io.Writer) error) (paper, error) {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return paper{}, fmt.Errorf("making %s: %w", name, err)
	}
	return paper{name, b.Bytes()}, nil
}

// filed makes the files of papers of the job, with pages beside PDFs that lack letters.
func (in *loaded) filed(list []sheaf.File) ([]paper, error) {
	var out []paper
	for _, f := range sheaf.ForJob(in.job, list) {
		p, err := paperOf(f.Name, f.Write)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// unless refuses to write over what is there; elsewhere says how to name another
// place.
func (f *paperFlags) unless(names []string, elsewhere string) error {
	if f.force {
		return nil
	}
	var there []string
	for _, name := range names {
		_, err := os.Lstat(name)
		switch {
		case err == nil:
			there = append(there, name)
		case !errors.Is(err, fs.ErrNotExist):
			return fmt.Errorf("looking whether %s is there: %w", name, err)
		}
	}
	if len(there) == 0 {
		return nil
	}
	verb := "is"
	if len(there) > 1 {
		verb = "are"
	}
	return fmt.Errorf("%s %s there already and not written over; %s, or add --force", strings.Join(there, ", "), verb, elsewhere)
}

// paperSet is the papers that go into one folder.
type paperSet struct {
	dir       string
	elsewhere string // how to name another folder, as for unless
	list      []paper
}

// write writes every paper of the job into its folder, which is made if it is not
// there, and returns their paths. All are written or none, of all folders: without
// --force nothing is if any is there already, and never is a file that the job was
// read from written over.
func (f *paperFlags) write(ctx context.Context, in *loaded, sets ...paperSet) ([]string, error) {
	var all []string
	var edits []disk.Edit
	for _, set := range sets {
		var paths []string
		for _, p := range set.list {
			path := filepath.Join(set.dir, p.name)
			if err := in.notOwn(path); err != nil {
				return nil, err
			}
			paths = append(paths, path)
			edits = append(edits, disk.Holding(path, p.data))
		}
		if err := f.unless(paths, set.elsewhere); err != nil {
			return nil, err
		}
		slices.Sort(paths)
		all = append(all, paths...)
	}
	return all, writeAll(ctx, edits)
}
