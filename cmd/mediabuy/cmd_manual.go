package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"mediabuy/cmd/mediabuy/internal/manpage"
	"mediabuy/disk"
)

// newManualCommand is for whoever packs the program up, so the list of verbs leaves
// it out: a grower reads --help.
func newManualCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:    "manual DIR",
		Short:  "writes the manual pages, one for each verb, out of the same help texts",
		Hidden: true,
		Args:   atMost(1),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"manual: no folder is given", "name one to write the pages into"}
			}
			return runManual(c.Context(), a, c.Root(), args[0])
		},
	}
}

func runManual(ctx context.Context, a *app, root *cobra.Command, dir string) error {
	root.DisableAutoGenTag = true
	var pages []disk.Edit
	for _, c := range append([]*cobra.Command{root}, root.Commands()...) {
		if c != root && (!c.IsAvailableCommand() || c.IsAdditionalHelpTopicCommand()) {
			continue
		}
		name := filepath.Join(dir, strings.ReplaceAll(c.CommandPath(), " ", "-")+".1")
		pages = append(pages, disk.Edit{Name: name, Write: func(w io.Writer) error {
			return manpage.Write(w, c, "mediabuy "+version, exitText)
		}})
	}
	if err := writeAll(ctx, pages); err != nil {
		return fmt.Errorf("making the manual: %w", err)
	}
	return a.print(fmt.Sprintf("%d manual pages are in %s; man %s reads the first.\n", len(pages), dir, filepath.Join(dir, "mediabuy.1")))
}
