package main

import (
	"errors"

	"github.com/spf13/cobra"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

type checkOptions struct {
	files  jobFiles
	answer answerFlags
}

func newCheckCommand(a *app) *cobra.Command {
	o := &checkOptions{}
	c := &cobra.Command{
		Use:   "check [JOB]",
		Short: "every problem and warning in the files, every refused quote with its reason",
		Long: `Reads every file of the job and shows each problem at its place with the way to
mend it, each warning, and each quote that some bed cannot take and why.`,
		Example: `  mediabuy check
  mediabuy check spring --json`,
		Args: atMost(1),
		RunE: func(_ *cobra.Command, args []string) error { return runCheck(a, o, first(args, ".")) },
	}
	o.files.addFlags(c.Flags())
	o.answer.addFlags(c.Flags())
	return c
}

func runCheck(a *app, o *checkOptions, dir string) error {
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	in, err := a.load(dir, o.files, files.Options{})
	var bad *filesError
	switch {
	case errors.As(err, &bad):
		bad.said = true
		in = &loaded{rep: bad.rep, texts: bad.texts}
	case err != nil:
		return err
	}
	var fit *suitability.Fit
	if in.job != nil {
		fit = suitability.New(in.job)
	}
	if o.answer.json {
		if printErr := a.printJSON(document.NewCheck(in.rep, fit)); printErr != nil {
			return printErr
		}
		return err
	}
	text := show.Problems(in.rep.Problems, in.texts, a.colour(a.stdout)) + show.Problems(in.rep.Warnings, in.texts, a.colour(a.stdout))
	if fit != nil {
		sys, sysErr := o.answer.system(&in.job.Settings)
		if sysErr != nil {
			return sysErr
		}
		if text != "" {
			text += "\n"
		}
		text += show.Refusals(fit, in.job, a.style(sys)) + "\n"
	}
	if printErr := a.print(text + show.CheckVerdict(in.job, in.rep) + "\n"); printErr != nil {
		return printErr
	}
	return err
}
