package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"mediabuy/quotes/files"
)

func newNewCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "new DIR",
		Short: "an empty job with headed, commented files",
		Long: `Writes the files of an empty job into DIR, each with its headings and a comment
on every column. A file that is there already is never touched: then nothing is
written.`,
		Example: `  mediabuy new spring`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"new needs the name of a folder", "mediabuy new spring"}
			}
			return atMost(1)(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error { return runNew(c.Context(), a, args[0]) },
	}
}

func runNew(ctx context.Context, a *app, dir string) error {
	n, err := writeJob(ctx, dir, files.Templates(), false)
	if err != nil {
		return err
	}
	return a.print(fmt.Sprintf("%s holds %d files to fill in; %s and %s are needed, the others may stay as they are.\n", dir, n, files.QuotesFile, files.BedsFile))
}
