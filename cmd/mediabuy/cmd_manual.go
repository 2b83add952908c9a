package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/spf13/pflag"

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
			return manPage(w, c)
		}})
	}
	if err := writeAll(ctx, pages); err != nil {
		return fmt.Errorf("making the manual: %w", err)
	}
	return a.print(fmt.Sprintf("%d manual pages are in %s; man %s reads the first.\n", len(pages), dir, filepath.Join(dir, "mediabuy.1")))
}

// manFlag is a flag as a generated page shows it, with what it is without the flag:
// --tidy[=""].
var manFlag = regexp.MustCompile(`(?m)^(.*\\fB--)([a-z-]+)(\\fP)(\[?)=.*$`)

// manPage writes the page of a verb. Its flags name what they take, as the help does, and
// the exit statuses have a section of their own.
func manPage(w io.Writer, c *cobra.Command) error {
	var page bytes.Buffer
	if err := doc.GenMan(c, &doc.GenManHeader{Section: "1", Source: "mediabuy " + version, Manual: "mediabuy"}, &page); err != nil {
		return err
	}
	text := manFlag.ReplaceAllStringFunc(page.String(), func(line string) string {
		m := manFlag.FindStringSubmatch(line)
		f := c.Flags().Lookup(m[2])
		if f == nil {
			return line
		}
		head := m[1] + m[2] + m[3]
		takes, _ := pflag.UnquoteUsage(f)
		switch {
		case takes == "":
			return head
		case m[4] != "":
			return head + "[=" + takes + "]"
		case !slices.Contains([]string{"", "0", "0s", "[]"}, f.DefValue):
			return head + "=" + takes + " (without it " + f.DefValue + ")"
		}
		return head + "=" + takes
	})
	title, statuses, _ := strings.Cut(strings.TrimSpace(exitText), "\n")
	ends := "\n.SH " + title + "\n.nf\n" + statuses + "\n.fi\n\n"
	at := strings.Index(text, "\n.SH SEE ALSO")
	if at < 0 {
		at = len(text)
	}
	_, err := io.WriteString(w, text[:at]+ends+text[at:])
	return err
}
