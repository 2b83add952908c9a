package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise"
	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
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

// checkDocument is the machine-readable answer of check.
type checkDocument struct {
	OK       bool                         `json:"ok"`
	Problems []checkProblem               `json:"problems"`
	Warnings []optimise.DocumentComplaint `json:"warnings"`
	Refused  []optimise.DocumentRefusal   `json:"refused"`
}

// checkProblem is one problem; one about a whole file or folder stands at line 1,
// column 1.
type checkProblem struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Heading string `json:"heading"`
	Found   string `json:"found"`
	Wanted  string `json:"wanted"`
	Hint    string `json:"hint"`
}

func newCheckDocument(rep *quotes.Report, fit *suitability.Fit) checkDocument {
	d := checkDocument{OK: rep.OK(), Problems: []checkProblem{}, Warnings: optimise.DocumentWarnings(rep), Refused: []optimise.DocumentRefusal{}}
	for _, p := range rep.Problems {
		d.Problems = append(d.Problems, checkProblem{p.File, max(1, p.Line), max(1, p.Col), p.Heading, p.Found, p.Wanted, p.Hint})
	}
	if fit != nil {
		d.Refused = optimise.DocumentRefusals(fit)
	}
	return d
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
		if printErr := a.printJSON(newCheckDocument(in.rep, fit)); printErr != nil {
			return printErr
		}
		return err
	}
	text := problemText(in.rep.Problems, in.texts, a.colour(a.stdout)) + problemText(in.rep.Warnings, in.texts, a.colour(a.stdout))
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
	if printErr := a.print(text + checkVerdict(in) + "\n"); printErr != nil {
		return printErr
	}
	return err
}

// checkVerdict is the last line of check.
func checkVerdict(in *loaded) string {
	warned := units.Several(len(in.rep.Warnings), "warning")
	if n := len(in.rep.Problems); n > 0 {
		return fmt.Sprintf("Not ready: %s to mend, %s.", units.Several(n, "problem"), warned)
	}
	beds := 0
	for _, b := range in.job.Beds {
		beds += b.Count
	}
	return fmt.Sprintf("Ready: %s from %s for %s, %s.", units.Several(len(in.job.Quotes), "quote"), units.Several(len(quotes.Suppliers(in.job)), "supplier"),
		units.Several(beds, "bed"), warned)
}
