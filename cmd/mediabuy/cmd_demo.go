package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"mediabuy/cmd/mediabuy/internal/demo"
)

// demoDir is where the sample job goes if no folder is named.
const demoDir = "mediabuy-demo"

func newDemoCommand(a *app) *cobra.Command {
	o := &planOptions{}
	c := &cobra.Command{
		Use:   "demo [DIR]",
		Short: "write a sample job and plan it",
		Long: `Writes the sample job into DIR (` + demoDir + ` if none is named) and plans it.
Invented growers on Harrow Lane have twelve beds on four tables and quotes from
three suppliers. A file in DIR that is not the sample's own is never touched:
then nothing is written and nothing is planned.`,
		Example: `  mediabuy demo
  mediabuy demo somewhere --json`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runDemo(c.Context(), a, o, first(args, demoDir)) },
	}
	o.answer.addFlags(c.Flags())
	return c
}

func runDemo(ctx context.Context, a *app, o *planOptions, dir string) error {
	n, err := writeJob(ctx, dir, demo.Files(), true)
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(a.stderr, "The sample job is in %s (%d files); planning it.\n", dir, n); err != nil {
		return err
	}
	return runPlan(ctx, a, o, dir)
}
