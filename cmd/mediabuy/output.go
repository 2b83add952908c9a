package main

import (
	"fmt"
	"io"
	"os"

	"github.com/spf13/pflag"
	"golang.org/x/term"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/quotes"
	"mediabuy/units"
)

// answerFlags are the flags of every verb that answers.
type answerFlags struct {
	json  bool
	units string
}

func (f *answerFlags) addFlags(fs *pflag.FlagSet) {
	fs.BoolVar(&f.json, "json", false, "print one JSON document instead of text")
	fs.StringVar(&f.units, "units", "", "show `UNITS`, us or metric; without it us where the currency is USD")
}

// system is the units to show. A bad word is wrong use, also when the answer is
// JSON and has no choice of units.
func (f *answerFlags) system(s *quotes.Settings) (units.System, error) {
	switch f.units {
	case "us":
		return units.US, nil
	case "metric":
		return units.Metric, nil
	case "":
		return s.System(), nil
	}
	return 0, &usageError{fmt.Sprintf("--units %q is not a choice", f.units), "write us or metric"}
}

// reader is the system asked for; nil where none was, or a bad one, which system refuses.
func (f *answerFlags) reader() *units.System {
	if f.units == "" {
		return nil
	}
	sys, err := f.system(&quotes.Settings{})
	if err != nil {
		return nil
	}
	return &sys
}

// plainWidth is the width of text that does not go to a terminal.
const plainWidth = 100

// style is how text to standard output looks.
func (a *app) style(sys units.System) show.Style {
	st := show.Style{Colour: a.colour(a.stdout), Width: plainWidth, Units: sys}
	if fd, ok := terminal(a.stdout); ok {
		if w, _, err := term.GetSize(fd); err == nil && w > 0 {
			st.Width = w
		}
	}
	return st
}

// colour reports whether w may be given colour: a terminal, unless NO_COLOR
// (https://no-color.org, memory) is set or the terminal is said to be dumb.
func (a *app) colour(w io.Writer) bool {
	_, ok := terminal(w)
	return ok && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}

func terminal(w io.Writer) (fd int, ok bool) {
	if o, ok := w.(*outlet); ok {
		w = o.w
	}
	f, isFile := w.(*os.File)
	if !isFile {
		return 0, false
	}
	return int(f.Fd()), term.IsTerminal(int(f.Fd()))
}

// printJSON writes one document to standard output.
func (a *app) printJSON(doc any) error {
	if err := document.Write(a.stdout, doc); err != nil {
		return fmt.Errorf("printing the answer: %w", err)
	}
	return nil
}

// print writes text to standard output.
func (a *app) print(text string) error {
	if _, err := io.WriteString(a.stdout, text); err != nil {
		return fmt.Errorf("printing the answer: %w", err)
	}
	return nil
}
