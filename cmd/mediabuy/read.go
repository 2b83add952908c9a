package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/quotes"
	"mediabuy/quotes/message"
)

type readOptions struct {
	supplier string
	job      string
	json     bool
	csv      bool
}

func newReadCommand(a *app) *cobra.Command {
	o := &readOptions{}
	c := &cobra.Command{
		Use:   "read FILE | -",
		Short: "a supplier's message or pasted rows as proposed quotes, every word accounted for",
		Long: `Reads a message as suppliers write them, or rows copied from a sheet with or
without headings, and proposes rows for quotes.csv. Each cell says from which
words it was read; what reads two ways, or not at all, is listed with the reason.
Nothing enters a job: look the rows over, then put them into quotes.csv yourself.`,
		Example: `  mediabuy read message.txt
  mediabuy read - --supplier "Low Ford Quarry" < pasted.txt
  mediabuy read message.txt --csv > quotes.csv`,
		Args: atMost(1),
		RunE: func(_ *cobra.Command, args []string) error { return runRead(a, o, args) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *readOptions) addFlags(fs *pflag.FlagSet) {
	fs.StringVar(&o.supplier, "supplier", "", "whose message it is, as `NAME`; without it the message must say")
	fs.StringVar(&o.job, "job", "", "read with the media, currency and decimal mark of the job in `DIR`")
	fs.BoolVar(&o.json, "json", false, "print one JSON document instead of text")
	fs.BoolVar(&o.csv, "csv", false, "print the rows as quotes.csv has them, and nothing else")
}

// readDocument is the machine-readable answer of read.
type readDocument struct {
	*message.Proposal
	Note          string         `json:"note"` // how the bytes were read, where that was a guess
	NotUnderstood []message.Span `json:"not_understood"`
	SetAside      []message.Span `json:"set_aside"`
}

func runRead(a *app, o *readOptions, args []string) error {
	switch {
	case len(args) == 0:
		return &usageError{"read needs the name of a file, or - for standard input", "mediabuy read message.txt"}
	case o.json && o.csv:
		return &usageError{"--json and --csv are two forms of one answer", "write one of them"}
	}
	p, note, err := a.readMessage(args[0], o)
	if err != nil {
		return err
	}
	switch {
	case o.json:
		err = a.printJSON(readDocument{p, note, p.NotUnderstood(), p.SetAside()})
	case o.csv:
		err = a.print(p.CSV())
		fmt.Fprint(a.stderr, readRemark(p, note))
	default:
		err = a.print(readText(p, note, show.Style{Colour: a.colour(a.stdout)}))
	}
	if err != nil || len(p.Rows) > 0 {
		return err
	}
	bad := &quotes.Problem{Pos: quotes.Pos{File: args[0]}, Severity: quotes.Error, Found: "nothing in it reads as a quote",
		Wanted: "a medium with its price and pack", Hint: "write the row into quotes.csv by hand"}
	return &filesError{rep: &quotes.Report{Problems: []*quotes.Problem{bad}}, said: !o.csv}
}

// readMessage reads the message in a file, or on standard input for "-", with the job's files if one is named.
func (a *app) readMessage(name string, o *readOptions) (*message.Proposal, string, error) {
	opt := message.Options{Supplier: o.supplier}
	if o.job != "" {
		info, err := os.Stat(o.job)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil, "", noJob(o.job, "there is no such folder")
		case err != nil:
			return nil, "", err
		case !info.IsDir():
			return nil, "", noJob(o.job, "this is a file")
		}
		if opt.Media, _, err = a.source(o.job, "", quotes.MediaFile); err != nil {
			return nil, "", err
		}
		if opt.Settings, _, err = a.source(o.job, "", quotes.SettingsFile); err != nil {
			return nil, "", err
		}
	}
	in := a.stdin
	if name == "-" {
		name = stdinName
	} else {
		file, err := os.Open(name)
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

// readText sets a proposal out: the rows with the words behind each cell, then all that made none.
func readText(p *message.Proposal, note string, st show.Style) string {
	var b strings.Builder
	if note != "" {
		fmt.Fprintf(&b, "note: %s\n\n", note)
	}
	if len(p.Columns) > 0 {
		b.WriteString(st.Strong("columns") + "\n")
		for _, c := range p.Columns {
			fmt.Fprintf(&b, "  %d  %-12s %s\n", c.Number, orDash(c.Heading), c.Why)
		}
		b.WriteByte('\n')
	}
	for i := range p.Rows {
		rowText(&b, p, i, st)
	}
	if left := p.NotUnderstood(); len(left) > 0 {
		b.WriteString(st.Strong("not understood") + "\n")
		for _, s := range left {
			fmt.Fprintf(&b, "  line %d: %q: %s\n", p.Line(s.From), p.Words(s.Range), s.Why)
		}
		b.WriteByte('\n')
	}
	if aside := p.SetAside(); len(aside) > 0 {
		b.WriteString(st.Strong("set aside") + "\n")
		for _, s := range aside {
			fmt.Fprintf(&b, "  line %d: %q: %s\n", p.Line(s.From), p.Words(s.Range), s.Why)
		}
		b.WriteByte('\n')
	}
	b.WriteString(readVerdict(p) + "\n")
	return b.String()
}

func rowText(b *strings.Builder, p *message.Proposal, i int, st show.Style) {
	row := &p.Rows[i]
	fmt.Fprintf(b, "%s\n", st.Strong(fmt.Sprintf("row %d", i+1)))
	for _, column := range message.Columns {
		c, ok := row.Cells[column]
		if !ok {
			continue
		}
		var words []string
		for _, r := range c.From {
			words = append(words, fmt.Sprintf("%q", p.Words(r)))
		}
		from := c.Why
		if len(words) > 0 {
			from = strings.Join(words, ", ")
		}
		fmt.Fprintf(b, "  %-12s %-24s from %s\n", column, c.Text, from)
	}
	for _, column := range row.Missing {
		fmt.Fprintf(b, "  %-12s %s\n", column, st.Alarm("missing"))
	}
	for _, c := range row.Cautions {
		fmt.Fprintf(b, "  beware: %s\n", c)
	}
	b.WriteByte('\n')
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// readVerdict is the last line of read.
func readVerdict(p *message.Proposal) string {
	short := 0
	for i := range p.Rows {
		if !p.Rows[i].Complete() {
			short++
		}
	}
	return fmt.Sprintf("%s proposed, %d of them not complete; %s not understood; no job was changed",
		several(len(p.Rows), "row"), short, several(len(p.NotUnderstood()), "part"))
}

func several(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// readRemark says on standard error what rows alone cannot.
func readRemark(p *message.Proposal, note string) string {
	if note != "" {
		note = "note: " + note + "\n"
	}
	for i := range p.Rows {
		if !p.Rows[i].Complete() || len(p.Rows[i].Cautions) > 0 {
			return note + readVerdict(p) + "\nhint: without --csv each cell says where it comes from\n"
		}
	}
	if len(p.NotUnderstood()) > 0 {
		return note + readVerdict(p) + "\nhint: without --csv each cell says where it comes from\n"
	}
	return note
}
