package main

import (
	"github.com/spf13/cobra"

	"mediabuy/cmd/mediabuy/internal/bedsheet"
	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

type bedsOptions struct {
	files  jobFiles
	answer answerFlags
}

func newBedsCommand(a *app) *cobra.Command {
	o := &bedsOptions{}
	c := &cobra.Command{
		Use:   "beds [JOB]",
		Short: "each bed's litres by layer, as bags and yards, and its flooded weights",
		Long: `Shows what each bed takes by layer in litres, cubic yards and bags, how deep
fewer bags would fill it, and what beds and tables weigh flooded in each medium
that the quotes can bring, against their limits.`,
		Example: `  mediabuy beds
  mediabuy beds spring --units metric`,
		Args: atMost(1),
		RunE: func(_ *cobra.Command, args []string) error { return runBeds(a, o, first(args, ".")) },
	}
	o.files.addFlags(c.Flags())
	o.answer.addFlags(c.Flags())
	return c
}

func runBeds(a *app, o *bedsOptions, dir string) error {
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	in, err := a.load(dir, o.files, files.Options{Reader: o.answer.reader()})
	if err != nil {
		return err
	}
	sheet := bedsheet.New(in.job)
	if o.answer.json {
		return a.printJSON(document.Beds{Sheet: sheet, Warnings: optimise.DocumentWarnings(in.rep)})
	}
	sys, err := o.answer.system(&in.job.Settings)
	if err != nil {
		return err
	}
	return a.print(show.Beds(sheet, in.rep.Warnings, a.style(sys)))
}
