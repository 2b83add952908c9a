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
	"mediabuy/papers/safe"
	"mediabuy/quotes"
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

// pdfAndCSV makes the two files of a paper that is printed and kept.
func pdfAndCSV(base string, pdf, csv func(io.Writer) error) ([]paper, error) {
	var out []paper
	for _, form := range []struct {
		end   string
		write func(io.Writer) error
	}{{".pdf", pdf}, {".csv", csv}} {
		p, err := paperOf(base+form.end, form.write)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// bytesOf writes what is made already.
func bytesOf(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
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

// write writes every paper of the job into dir, which is made if it is not there,
// and returns their paths. All are written or none: without --force nothing is if
// any is there already, and never is a file that the job was read from written
// over. elsewhere is as for unless.
func (f *paperFlags) write(ctx context.Context, in *loaded, dir, elsewhere string, list []paper) ([]string, error) {
	var paths []string
	for _, p := range list {
		path := filepath.Join(dir, p.name)
		if err := in.notOwn(path); err != nil {
			return nil, err
		}
		paths = append(paths, path)
	}
	if err := f.unless(paths, elsewhere); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, dirPerm); err != nil {
		return nil, fmt.Errorf("making the folder: %w", err)
	}
	if err := writeAll(ctx, paths, list); err != nil {
		return nil, err
	}
	slices.Sort(paths)
	return paths, nil
}

// writeAll puts every paper beside its place before the first is moved there, so
// that what is likely to fail, such as a full disk, fails before anything is seen.
func writeAll(ctx context.Context, paths []string, list []paper) (err error) {
	var waiting []*safe.Pending
	defer func() {
		for _, file := range waiting {
			err = errors.Join(err, file.Drop()) // does nothing for one that is in its place
		}
	}()
	for i, p := range list {
		if err := ctx.Err(); err != nil {
			return err
		}
		file, err := safe.NewPending(paths[i], safe.Where{Perm: filePerm})
		if err != nil {
			return fmt.Errorf("writing %s: %w", paths[i], err)
		}
		waiting = append(waiting, file)
		if _, err := file.Write(p.data); err != nil {
			return fmt.Errorf("writing %s: %w", paths[i], err)
		}
	}
	for i, file := range waiting {
		_, before := os.Lstat(paths[i])
		if err := file.Replace(); err != nil {
			return fmt.Errorf("writing %s: %w", paths[i], err)
		}
		if errors.Is(before, fs.ErrNotExist) {
			defer func() {
				if err != nil { // a later one failed
					err = errors.Join(err, os.Remove(paths[i]))
				}
			}()
		}
	}
	return nil
}
