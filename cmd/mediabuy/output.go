package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
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

// style is how text to standard output looks.
func (a *app) style(sys units.System) show.Style { return terminal.StyleOf(a.stdout, sys) }

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
