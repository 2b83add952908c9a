package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"mediabuy/optimise/share"
)

// verbs lists every verb in the order of the help text.
var verbs = []func(*app) *cobra.Command{
	newDemoCommand,
	newNewCommand,
	newReadCommand,
	newCheckCommand,
	newBedsCommand,
	newCompareCommand,
	newPlanCommand,
	newRiskCommand,
	newBreakevenCommand,
	newJustifyCommand,
	newOrderCommand,
	newRequestCommand,
	newReceiveCommand,
	newShareCommand,
	newMediaCommand,
	newExportCommand,
	newServeCommand,
	newManualCommand,
}

const rootLong = `Works out what to buy to fill planting beds with hard growing media: which
quotes, from which suppliers, how many packs, into which beds, at the least
total cost that is safe for plants, fish and frames.

A JOB is a folder of plain files: quotes.csv and beds.csv, and where needed
delivery.csv, media.csv and job.toml. Without a JOB the current folder is used.`

// helpTemplate is the help of every verb; it ends with the exit statuses.
const helpTemplate = `{{with (or .Long .Short)}}{{. | trimTrailingWhitespaces}}

{{end}}USAGE
  {{.UseLine}}
{{if .HasAvailableSubCommands}}  {{.CommandPath}} VERB --help

VERBS
{{range .Commands}}{{if .IsAvailableCommand}}  {{rpad .Name 10}} {{.Short}}
{{end}}{{end}}{{end}}{{if not .HasParent}}
ALSO
  mediabuy help VERB         the help of a verb
  mediabuy completion SHELL  completion for bash, zsh, fish or powershell
  mediabuy manual DIR        writes manual pages of all verbs
{{end}}{{if .HasExample}}
EXAMPLES
{{.Example}}
{{end}}{{if .HasAvailableLocalFlags}}
FLAGS
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}
{{end}}
` + exitText

// version is stamped by make release; a build of one's own calls itself that.
var version = "unreleased"

func newRoot(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:           "mediabuy VERB [JOB]",
		Short:         "the cheapest safe purchase of growing media for planting beds",
		Long:          rootLong,
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			hint := "mediabuy --help lists the verbs"
			if near := c.SuggestionsFor(args[0]); len(near) > 0 {
				hint = "did you mean " + strings.Join(near, " or ")
			}
			return &usageError{fmt.Sprintf("%q is not a verb", args[0]), hint}
		},
		RunE: func(*cobra.Command, []string) error {
			return &usageError{"no verb is given", "mediabuy demo shows what it does; mediabuy --help lists the verbs"}
		},
	}
	root.SuggestionsMinimumDistance = 2
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetHelpTemplate(helpTemplate)
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return &usageError{err.Error(), c.CommandPath() + " --help lists the flags"}
	})
	cobra.EnableCommandSorting = false
	for _, verb := range verbs {
		c := verb(a)
		c.DisableFlagsInUseLine = true
		completeChoices(c)
		root.AddCommand(c)
	}
	hideHelpVerb(root)
	return root
}

// choices are the values of flags that take one of a few.
var choices = map[string][]string{
	"units": {"us", "metric"}, "rule": ruleNames(), "sheet": {"a4", "letter"},
}

// completeChoices has a shell offer those values, and no files, behind their flags.
func completeChoices(c *cobra.Command) {
	for name, values := range choices {
		if c.Flags().Lookup(name) != nil {
			// It fails only for a flag that is not there, or a second time.
			_ = c.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
		}
	}
}

func ruleNames() []string {
	var out []string
	for _, r := range share.Rules {
		out = append(out, string(r))
	}
	return out
}

// hideHelpVerb leaves "mediabuy help VERB" working and out of the list of verbs,
// which is of verbs that do something.
func hideHelpVerb(root *cobra.Command) {
	root.InitDefaultHelpCmd()
	for _, c := range root.Commands() {
		if c.Name() == "help" {
			c.Hidden, c.Short, c.Long = true, "help for any verb", "Shows the help of a verb, as the verb with --help does."
		}
	}
}

// atMost refuses more than n arguments as wrong use.
func atMost(n int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) > n {
			return &usageError{fmt.Sprintf("%s: %q is one word too many", c.Name(), args[n]), "a folder whose name has spaces needs quotes around it"}
		}
		return nil
	}
}

// first is the first argument, or instead without one.
func first(args []string, instead string) string {
	if len(args) == 0 {
		return instead
	}
	return args[0]
}
