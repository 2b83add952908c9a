package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
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
			return runManual(a, c.Root(), args[0])
		},
	}
}

func runManual(a *app, root *cobra.Command, dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("writing the manual: %w", err)
	}
	for _, c := range root.Commands() {
		if c.Long != "" {
			c.Long += "\n\n" + exitText
		}
	}
	root.DisableAutoGenTag = true
	header := &doc.GenManHeader{Section: "1", Source: "mediabuy " + version, Manual: "mediabuy"}
	if err := doc.GenManTree(root, header, dir); err != nil {
		return fmt.Errorf("writing the manual: %w", err)
	}
	pages, err := filepath.Glob(filepath.Join(dir, "mediabuy*.1"))
	if err != nil {
		return err
	}
	return a.print(fmt.Sprintf("%d manual pages are in %s; man %s reads the first.\n", len(pages), dir, filepath.Join(dir, "mediabuy.1")))
}
