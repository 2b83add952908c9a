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

	"mediabuy/papers"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// paperFlags are the flags of every verb that writes papers.
type paperFlags struct {
	answer answerFlags
	sheet  string
	force  bool
}

func (f *paperFlags) addFlags(fs *pflag.FlagSet) {
	f.answer.addFlags(fs)
	fs.StringVar(&f.sheet, "sheet", "", "print on `SIZE` a4 or letter; without it letter where units are us")
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
		st.Letter = sys == units.US
	case "letter":
		st.Letter = true
	case "a4":
	default:
		return papers.Style{}, &usageError{fmt.Sprintf("--sheet %q is not a choice", f.sheet), "write a4 or letter"}
	}
	return st, nil
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

// unless refuses to write over what is there.
func (f *paperFlags) unless(names []string) error {
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
	return fmt.Errorf("%s %s there already and not written over; name another with -o, or add --force", strings.Join(there, ", "), verb)
}

// write writes every paper into dir, which is made if it is not there, and returns
// their paths. Without --force nothing is written if any is there already.
func (f *paperFlags) write(ctx context.Context, dir string, list []paper) ([]string, error) {
	var paths []string
	for _, p := range list {
		paths = append(paths, filepath.Join(dir, p.name))
	}
	if err := f.unless(paths); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, dirPerm); err != nil {
		return nil, fmt.Errorf("making the folder: %w", err)
	}
	for i, p := range list {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := writeWhole(paths[i], func(w io.Writer) error {
			_, err := w.Write(p.data)
			return err
		}); err != nil {
			return nil, err
		}
	}
	slices.Sort(paths)
	return paths, nil
}
