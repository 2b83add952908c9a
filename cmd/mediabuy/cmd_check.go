package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
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
mend it, each warning, and each quote that some bed cannot take and why. Where the
files read well it looks for a second whether any mix can fill the beds, and says
what stands in the way if none can. Its exit status is that of the files, 0 where
they read well; that no mix can fill the beds is the status of plan.`,
		Example: `  mediabuy check
  mediabuy check spring --json`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runCheck(c.Context(), a, o, first(args, ".")) },
	}
	o.files.addFlags(c.Flags())
	o.answer.addFlags(c.Flags())
	return c
}

func runCheck(ctx context.Context, a *app, o *checkOptions, dir string) error {
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	in, err := a.load(dir, o.files, files.Options{Reader: o.answer.reader()})
	var bad *filesError
	switch {
	case errors.As(err, &bad):
		bad.said = true
		in = &loaded{rep: bad.rep, texts: bad.texts}
	case err != nil:
		return err
	}
	var fit *suitability.Fit
	var mix optimise.Possibility
	var why []optimise.Obstacle
	if in.job != nil {
		fit = suitability.New(in.job)
		var lookErr error
		if mix, why, lookErr = optimise.Possible(ctx, in.job, a.patience.Look); lookErr != nil {
			return fmt.Errorf("looking for a mix that fills the beds: %w", lookErr)
		}
	}
	if o.answer.json {
		if printErr := a.printJSON(document.NewCheck(in.rep, fit, mix, why)); printErr != nil {
			return printErr
		}
		return err
	}
	text := show.Problems(in.rep.Problems, in.texts, terminal.Coloured(a.stdout)) + show.Problems(in.rep.Warnings, in.texts, terminal.Coloured(a.stdout))
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
	if mix == optimise.NoMix {
		sys, sysErr := o.answer.system(&in.job.Settings)
		if sysErr != nil {
			return sysErr
		}
		text += show.Obstacles(why, a.style(sys)) + "\n"
	}
	if printErr := a.print(text + show.CheckVerdict(in.job, in.rep, mix) + "\n"); printErr != nil {
		return printErr
	}
	return err
}
