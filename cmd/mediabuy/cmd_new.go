package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"mediabuy/cmd/mediabuy/internal/firstjob"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

func newNewCommand(a *app) *cobra.Command {
	ask := false
	c := &cobra.Command{
		Use:   "new DIR",
		Short: "an empty job with headed, commented files",
		Long: `Writes the files of an empty job into DIR, each with its headings and a comment
on every column. A file that is there already is never touched: then nothing is
written.

--ask asks for the job and fills the files in: where you are, the beds by number and
size with their limits, then what each yard wrote, pasted. Answers may be piped in.`,
		Example: `  mediabuy new spring
  mediabuy new spring --ask`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"new needs the name of a folder", "mediabuy new spring"}
			}
			return atMost(1)(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return runNew(c.Context(), a, args[0], ask) },
	}
	c.Flags().BoolVar(&ask, "ask", false, "ask for places, beds, limits and quotes, and fill the files in")
	return c
}

func runNew(ctx context.Context, a *app, dir string, ask bool) error {
	if ask {
		return askNew(ctx, a, dir)
	}
	n, err := writeJob(ctx, dir, files.Templates(), false)
	if err != nil {
		return err
	}
	return a.print(fmt.Sprintf("%s holds %d files to fill in; %s and %s are needed, the others may stay as they are.\nThen mediabuy check %s says what is left to mend.\n", dir, n, files.QuotesFile, files.BedsFile, dir))
}

// askNew fills a new job in from answers. Its files are written whole or not at all.
func askNew(ctx context.Context, a *app, dir string) error {
	job, err := firstjob.Ask(a.stdin, a.stderr, a.now())
	if err != nil {
		return err
	}
	if _, err := writeJob(ctx, dir, job.Files, false); err != nil {
		return err
	}
	next := "mediabuy plan " + dir + " works out what to buy"
	if !job.Report.OK() {
		next = fmt.Sprintf("%s left to mend: mediabuy check %s says where", units.Several(len(job.Report.Problems), "problem"), dir)
	}
	if job.Left > 0 {
		next += fmt.Sprintf(".\nNot in it: %s of the messages, not understood or left open; put what is missing into %s or %s first", units.Several(job.Left, "part"), files.QuotesFile, files.DeliveryFile)
	}
	return a.print(fmt.Sprintf("%s holds the job. %s.\nA budget, the day of need, how sure it should be and who buys are in %s, and who pays for which bed is the column member of %s.\n",
		dir, next, files.SettingsFile, files.BedsFile))
}
