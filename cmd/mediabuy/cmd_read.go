package main

import (
	"errors"
	"fmt"
	"io/fs"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/message"
)

type readOptions struct {
	supplier string
	job      string
	json     bool
	csv      bool
	delivery bool
	assume   string
}

func newReadCommand(a *app) *cobra.Command {
	o := &readOptions{}
	c := &cobra.Command{
		Use:   "read FILE | -",
		Short: "a supplier's message or pasted rows as proposed quotes, every word accounted for",
		Long: `Reads a message as suppliers write them, or rows copied from a sheet with or
without headings, and proposes rows for quotes.csv. Each cell says from which
words it was read; what reads two ways, or not at all, is listed with the reason.
Nothing enters a job: look the rows over, then put them into its files yourself.

What delivery costs stands under delivery and free_over of the quotes where these
two can hold it. Where a supplier charges by the load, by volume or by the kind of
pack, or has a least order, all of it stands in rows for delivery.csv instead.
--csv prints the one file, --delivery-csv the other; a supplier is never in both.

A part with two or three readings is asked, and in no row until it is answered: on
a terminal by its number, or by --assume cautious with the reading that costs the
buyer most. With --json each reading names the row (from 1) and the cells it would
set there; also lists rows that get the same cells, more what it sets in others.`,
		Example: `  mediabuy read message.txt
  mediabuy read - --supplier "Low Ford Quarry" < pasted.txt
  mediabuy read message.txt --csv > proposed-quotes.csv
  mediabuy read message.txt --assume cautious
  mediabuy read message.txt --delivery-csv > proposed-delivery.csv`,
		Args: atMost(1),
		RunE: func(_ *cobra.Command, args []string) error { return runRead(a, o, args) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *readOptions) addFlags(fs *pflag.FlagSet) {
	fs.StringVar(&o.supplier, "supplier", "", "whose message it is, as `NAME`; without it the message must say")
	fs.StringVar(&o.job, "job", "", "read with the media, currency and decimal mark of the job in `DIR`")
	fs.StringVar(&o.assume, "assume", "", "answer what is asked without asking, as `HOW`: cautious takes what costs most: doubtful fees and limits hold, doubtful prices and rebates do not")
	fs.BoolVar(&o.json, "json", false, "print one JSON document instead of text")
	fs.BoolVar(&o.csv, "csv", false, "print the rows for quotes.csv, and nothing else")
	fs.BoolVar(&o.delivery, "delivery-csv", false, "print the rows for delivery.csv, and nothing else")
}

func runRead(a *app, o *readOptions, args []string) error {
	switch {
	case len(args) == 0:
		return &usageError{"read needs the name of a file, or - for standard input", "mediabuy read message.txt"}
	case o.json && o.csv || o.json && o.delivery || o.csv && o.delivery:
		return &usageError{"--json, --csv and --delivery-csv are forms of one answer", "write one of them"}
	case o.assume != "" && o.assume != "cautious":
		return &usageError{fmt.Sprintf("--assume %q is not a choice", o.assume), "write cautious, or leave it out to be asked"}
	}
	p, note, err := a.readMessage(args[0], o)
	if err != nil {
		return err
	}
	switch {
	case o.assume != "":
		p, err = p.Cautious()
	case args[0] != "-" && !o.json:
		p, err = terminal.Answer(p, a.stdin, a.stderr)
	}
	if err != nil {
		return err
	}
	switch {
	case o.json:
		err = a.printJSON(document.Read{Proposal: p, Note: note, NotUnderstood: p.NotUnderstood(), SetAside: p.SetAside()})
	case o.csv:
		err = a.print(p.CSV())
		fmt.Fprint(a.stderr, show.ReadRemark(p, note, "--csv"), show.OtherFile(p))
	case o.delivery:
		err = a.print(p.DeliveryCSV())
		fmt.Fprint(a.stderr, show.ReadRemark(p, note, "--delivery-csv"), show.NoDelivery(p))
	default:
		err = a.print(show.Read(p, note, show.Style{Colour: terminal.Coloured(a.stdout)}))
	}
	sheet := o.csv || o.delivery
	if err != nil || len(p.Rows) > 0 || len(p.Asked) > 0 && !sheet {
		return err
	}
	bad := &quotes.Problem{Pos: quotes.Pos{File: args[0]}, Severity: quotes.Error, Found: "nothing in it reads as a quote",
		Wanted: "a medium with its price and pack", Hint: "write the row into quotes.csv by hand"}
	if len(p.Asked) > 0 {
		bad.Found, bad.Hint = "all that reads as a quote is asked about", "leave out --csv and --delivery-csv to see the questions; with a file instead of - they are asked"
	}
	return &filesError{rep: &quotes.Report{Problems: []*quotes.Problem{bad}}, said: !sheet}
}

// readMessage reads the message in a file, or on standard input for "-", with the job's files if one is named.
func (a *app) readMessage(name string, o *readOptions) (*message.Proposal, string, error) {
	opt := message.Options{Supplier: o.supplier, Delivery: true, Today: a.now()}
	if o.job != "" {
		err := jobFolder(o.job)
		if err != nil {
			return nil, "", err
		}
		if opt.Media, _, err = a.source(o.job, "", files.MediaFile); err != nil {
			return nil, "", err
		}
		if opt.Settings, _, err = a.source(o.job, "", files.SettingsFile); err != nil {
			return nil, "", err
		}
	}
	in := a.stdin
	if name == "-" {
		name = stdinName
	} else {
		file, err := openPlain(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil, "", missing(name, "there is no such file", "a text file with a message or rows", "- reads standard input")
		case err != nil:
			return nil, "", err
		}
		defer file.Close()
		in = file
	}
	p, note, err := message.ReadFrom(in, name, opt)
	var bad quotes.ProblemsError
	if errors.As(err, &bad) {
		return nil, "", &filesError{rep: &quotes.Report{Problems: bad}}
	}
	return p, note, err
}
