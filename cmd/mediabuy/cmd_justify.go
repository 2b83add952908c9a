package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/beside"
	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/papers"
	"mediabuy/quotes"
	"mediabuy/units"
)

type justifyOptions struct {
	files  jobFiles
	paper  paperFlags
	outs   []string
	reader string
	tidy   tidyFlag
	limit  searchLimit
}

func newJustifyCommand(a *app) *cobra.Command {
	o := &justifyOptions{}
	c := &cobra.Command{
		Use:   "justify [JOB]",
		Short: "the report for a co-op or a client",
		Long: `Writes the report that explains the purchase to someone who never saw how it was
found. Its first page is the decision: what to buy from whom and by when, what it
costs, what plainer ways would cost and why, a picture of the beds, the margin on
weights and the sureness of filling, what is asked of the reader, and room to sign.
The pages behind it have the bill, the quotes compared, each bed, where another
choice would be cheaper, what more sureness costs, what was assumed, what to be
careful about, and sources. With --tidy it is about the purchase that order --tidy
orders, and says what that costs more than the cheapest and what it spares.

The ending of the file says the form: .html for one page that needs nothing beside
it, .pdf, .md, or .xlsx with formulas that work the bill out again. Give -o again for
a further form: all are written, or none. The same job gives the same bytes; a job
without a date is priced today.`,
		Example: `  mediabuy justify -o report.pdf
  mediabuy justify -o report.pdf -o report.xlsx
  mediabuy justify spring --for coop -o spring/report.xlsx`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runJustify(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *justifyOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.paper.addFlags(fs)
	fs.StringArrayVarP(&o.outs, "output", "o", nil, "write `FILE`, ending in .html, .pdf, .md or .xlsx, and may be given again; without it report.html within JOB")
	fs.StringVar(&o.reader, "for", "", "write it for the `READER` client or coop; coop adds each member's beds, litres and part of the bill, which solves an order for each group of members as share does")
	o.tidy.addFlag(fs)
	o.limit.addFlag(fs, "stop each search after `TIME`, such as 30s; the report then says on page one what is not proven")
}

func runJustify(ctx context.Context, a *app, o *justifyOptions, dir string) error {
	reader := papers.Audience(o.reader)
	if !slices.Contains([]papers.Audience{"", papers.Client, papers.Coop}, reader) {
		return &usageError{fmt.Sprintf("--for %q is not a choice", o.reader), "write client or coop"}
	}
	const elsewhere = "name another file with -o"
	outs := o.outs
	if len(outs) == 0 {
		outs = []string{filepath.Join(dir, "report.html")}
	}
	for i, out := range outs {
		if _, err := formOf(out); err != nil {
			return err
		}
		if slices.Contains(outs[:i], out) {
			return &usageError{fmt.Sprintf("-o %q is given twice", out), "name each file once"}
		}
	}
	if err := o.paper.unless(outs, elsewhere); err != nil { // before any work
		return err
	}
	chosen, in, err := a.planFor(ctx, dir, o.files, o.paper.answer, o.limit, o.tidy, func(s *quotes.Settings) error {
		_, err := o.paper.style(s)
		return err
	})
	if err != nil {
		return err
	}
	st, err := o.paper.style(&in.job.Settings)
	if err != nil {
		return err
	}
	spin := terminal.NewSpinner(a.stderr)
	defer spin.Done()
	report, err := beside.Report(ctx, chosen, in.job, in.rep.Warnings, st, optimise.Options{TimeLimit: o.limit.timeLimit, Progress: spin.Note}, a.patience)
	if err != nil {
		return err
	}
	spin.Done()
	report.For = reader
	if reader == papers.Coop {
		bar := terminal.NewGroupBar(a.stderr)
		defer bar.Done()
		if err := beside.Shares(ctx, report, o.limit.timeLimit, bar.Note); err != nil {
			return err
		}
		bar.Done()
	}
	pg, err := papers.Justify(*report, st)
	if err != nil {
		return err
	}
	isPDF := func(out string) bool { return strings.EqualFold(filepath.Ext(out), ".pdf") }
	if lacks := pg.Lacks(); lacks != "" && slices.ContainsFunc(outs, isPDF) {
		fmt.Fprintf(a.stderr, "mediabuy: a PDF has no letters for %q: they stand as boxes in it\nhint: write the report as .html, which has them all and prints from a browser\n", lacks)
	}
	var sets []paperSet
	for _, out := range outs {
		write, err := formOf(out)
		if err != nil {
			return err
		}
		file, err := paperOf(filepath.Base(out), func(w io.Writer) error { return write(pg, w) })
		if err != nil {
			return err
		}
		sets = append(sets, paperSet{filepath.Dir(out), elsewhere, []paper{file}})
	}
	if _, err := o.paper.write(ctx, in, sets...); err != nil {
		return err
	}
	plan := chosen.Plan
	doc := document.Justify{File: outs[0], Further: outs[1:], Currency: in.job.Settings.Currency, Total: plan.Bill.Total.Text(in.job.Settings.CurrencyDigits), Proof: "optimal"}
	if plan.Status != optimise.Optimal || chosen.Above().Sign() > 0 {
		doc.Proof = "bound"
	}
	if o.paper.answer.json {
		err = a.printJSON(doc)
	} else {
		err = a.print(fmt.Sprintf("The report is in %s: buy for %s in all.\n", units.Listed(outs), units.FormatMoney(plan.Bill.Total, in.job.Settings.Currency)))
	}
	if err != nil {
		return err
	}
	if report.Split != nil && !report.Split.Proven {
		return errUnproven
	}
	return planError(plan)
}
