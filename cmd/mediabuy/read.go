package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/quotes/message"
	"mediabuy/units"
)

type readOptions struct {
	supplier string
	job      string
	json     bool
	csv      bool
	delivery bool
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
--csv prints the one file, --delivery-csv the other; a supplier is never in both.`,
		Example: `  mediabuy read message.txt
  mediabuy read - --supplier "Low Ford Quarry" < pasted.txt
  mediabuy read message.txt --csv > proposed-quotes.csv
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
	fs.BoolVar(&o.json, "json", false, "print one JSON document instead of text")
	fs.BoolVar(&o.csv, "csv", false, "print the rows for quotes.csv, and nothing else")
	fs.BoolVar(&o.delivery, "delivery-csv", false, "print the rows for delivery.csv, and nothing else")
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
	case o.json && o.csv || o.json && o.delivery || o.csv && o.delivery:
		return &usageError{"--json, --csv and --delivery-csv are forms of one answer", "write one of them"}
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
		fmt.Fprint(a.stderr, readRemark(p, note, "--csv"), otherFile(p))
	case o.delivery:
		err = a.print(p.DeliveryCSV())
		fmt.Fprint(a.stderr, readRemark(p, note, "--delivery-csv"), noDelivery(p))
	default:
		err = a.print(readText(p, note, show.Style{Colour: a.colour(a.stdout)}))
	}
	if err != nil || len(p.Rows) > 0 {
		return err
	}
	bad := &quotes.Problem{Pos: quotes.Pos{File: args[0]}, Severity: quotes.Error, Found: "nothing in it reads as a quote",
		Wanted: "a medium with its price and pack", Hint: "write the row into quotes.csv by hand"}
	return &filesError{rep: &quotes.Report{Problems: []*quotes.Problem{bad}}, said: !o.csv && !o.delivery}
}

// readMessage reads the message in a file, or on standard input for "-", with the job's files if one is named.
func (a *app) readMessage(name string, o *readOptions) (*message.Proposal, string, error) {
	opt := message.Options{Supplier: o.supplier, Delivery: true}
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
		rowText(&b, p, fmt.Sprintf("row %d for quotes.csv", i+1), &p.Rows[i], message.Columns, st)
	}
	for i := range p.Delivery {
		rowText(&b, p, fmt.Sprintf("row %d for delivery.csv", i+1), &p.Delivery[i], message.DeliveryColumns, st)
	}
	spanText(&b, p, "not understood", p.NotUnderstood(), st)
	spanText(&b, p, "set aside", p.SetAside(), st)
	b.WriteString(readVerdict(p) + "\n")
	return b.String()
}

// spanText lists parts of the message with what became of them.
func spanText(b *strings.Builder, p *message.Proposal, title string, spans []message.Span, st show.Style) {
	if len(spans) == 0 {
		return
	}
	b.WriteString(st.Strong(title) + "\n")
	for _, s := range spans {
		fmt.Fprintf(b, "  line %d: %q: %s\n", p.Line(s.From), p.Words(s.Range), s.Why)
	}
	b.WriteByte('\n')
}

func rowText(b *strings.Builder, p *message.Proposal, title string, row *message.Row, columns []string, st show.Style) {
	b.WriteString(st.Strong(title) + "\n")
	for _, column := range columns {
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
		hint := ""
		if column == "supplier" {
			hint = "; --supplier NAME says whose message it is"
		}
		fmt.Fprintf(b, "  %-12s %s%s\n", column, st.Alarm("missing"), hint)
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
	out := units.Several(len(p.Rows), "row") + " proposed for quotes.csv"
	if len(p.Delivery) > 0 {
		out += fmt.Sprintf(" and %d for delivery.csv", len(p.Delivery))
	}
	short := 0
	for _, row := range slices.Concat(p.Rows, p.Delivery) {
		if !row.Complete() {
			short++
		}
	}
	if short > 0 {
		out += fmt.Sprintf(", %d with cells missing", short)
	}
	return out + "; " + units.Several(len(p.NotUnderstood()), "part") + " not understood; no job was changed"
}

// readRemark says on standard error what rows alone cannot.
func readRemark(p *message.Proposal, note, flag string) string {
	if note != "" {
		note = "note: " + note + "\n"
	}
	doubtful := func(r message.Row) bool { return !r.Complete() || len(r.Cautions) > 0 }
	if len(p.NotUnderstood()) > 0 || slices.ContainsFunc(slices.Concat(p.Rows, p.Delivery), doubtful) {
		return note + readVerdict(p) + "\nhint: without " + flag + " each cell says where it comes from\n"
	}
	return note
}

// otherFile says on standard error that rows of quotes are not all.
func otherFile(p *message.Proposal) string {
	if len(p.Delivery) == 0 {
		return ""
	}
	return "hint: what delivery costs is in " + units.Several(len(p.Delivery), "row") + " for delivery.csv, printed by --delivery-csv\n"
}

// noDelivery says on standard error why there is no row of delivery.csv.
func noDelivery(p *message.Proposal) string {
	if len(p.Delivery) > 0 {
		return ""
	}
	return "note: no terms need delivery.csv; what delivery and free_over can hold is in the rows of --csv\n"
}
