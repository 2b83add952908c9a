package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/beside"
	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers/caution"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

type planOptions struct {
	files  jobFiles
	answer answerFlags
	limit  searchLimit
	tidy   tidyFlag
	ways   bool
	prove  string
}

func newPlanCommand(a *app) *cobra.Command {
	o := &planOptions{}
	c := &cobra.Command{
		Use:   "plan [JOB]",
		Short: "the cheapest mix, what to buy, where it goes, what each table weighs",
		Long: `Finds the cheapest purchase that fills every bed safely, and proves that there
is none ` + optimise.Cheaper + `. Shows what to buy, what goes into each
bed, what each table weighs when flooded, what is left over, and why each other
quote was left out.

The cheapest purchase can be a fiddly one. With --tidy a plainer one is taken
where it costs little more, one that is less plain in something only where there is
no other, and what it costs more and spares is said; order --tidy orders it.

Told beside it are other ways to buy with what each costs, and what a small change
of a weight limit, a top layer or a stock would save where that is worth more than
2 %; --json has them with --ways.`,
		Example: `  mediabuy plan
  mediabuy plan --tidy
  mediabuy plan spring --time-limit 30s
  mediabuy plan --quotes - --json < pasted.csv`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runPlan(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *planOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.answer.addFlags(fs)
	o.limit.addFlag(fs, "stop the search after `TIME`, such as 30s; the best found is shown as unproven")
	o.tidy.addFlag(fs)
	fs.BoolVar(&o.ways, "ways", false, "with --json, the other ways to buy and small changes as well; as text they always are")
	fs.StringVar(&o.prove, "prove", "", "write to `FILE` the model as LP text, the plan as an answer to it, the bound, and how to confirm both with any solver")
}

func runPlan(ctx context.Context, a *app, o *planOptions, dir string) error {
	if err := o.limit.check(); err != nil {
		return err
	}
	if _, _, err := o.tidy.share(); err != nil {
		return err
	}
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	begun := time.Now()
	in, err := a.load(dir, o.files, files.Options{Reader: o.answer.reader()})
	if err != nil {
		return err
	}
	if err := in.notOwn(o.prove); err != nil {
		return err
	}
	spin := terminal.NewSpinner(a.stderr)
	defer spin.Done()
	limit := cmp.Or(o.limit.timeLimit, in.job.Settings.TimeLimit)
	opt := optimise.Options{TimeLimit: max(limit/2, limit-time.Since(begun)), Progress: spin.Note}
	tidied, err := in.tidied(ctx, o.tidy, opt)
	if err != nil {
		return err
	}
	reached := tidied.Reached
	plan := reached.Plan
	if o.prove != "" && plan.Bill != nil {
		if err := writeWhole(o.prove, func(w io.Writer) error { return optimise.Prove(w, plan) }); err != nil {
			return fmt.Errorf("writing the proof: %w", err)
		}
	}
	var report *risk.Report
	if plan.Bill != nil {
		spin.Now("seeing how sure it fills the beds")
		if report, err = risk.Assessed(ctx, &risk.Reached{Job: tidied.OpenJob(), Plan: plan}, a.patience.SureLimit(limit, time.Since(begun))); err != nil {
			return err
		}
	}
	view := show.PlanView{Plan: plan, Tidied: tidied, Reached: reached, Risk: report, Warnings: in.rep.Warnings}
	if plan.Bill != nil && (o.ways || !o.answer.json) {
		spin.Now("comparing with plainer ways to buy")
		opt.TimeLimit = a.patience.OtherLimit(limit, time.Since(begun))
		if err := beside.CompareWays(ctx, &view, opt); err != nil {
			return err
		}
	}
	spin.Done()
	if o.answer.json {
		doc := document.NewPlan(view.Tidied, view.Risk, in.rep)
		doc.Warnings = append(doc.Warnings, caution.Warnings(plan, "quotes.csv")...)
		if o.ways && plan.Bill != nil {
			doc.Compared = document.NewCompared(plan, view.Others, view.Small)
		}
		if err := a.printJSON(doc); err != nil {
			return err
		}
		return planError(plan)
	}
	sys, err := o.answer.system(&in.job.Settings)
	if err != nil {
		return err
	}
	if err := a.print(show.Plan(view, a.style(sys))); err != nil {
		return err
	}
	return planError(plan)
}

// noPurchase ends a verb that has no answer as no mix fills the beds. Where a document was asked for it is that of plan, which says what
// stands in the way.
func (a *app) noPurchase(f answerFlags, p *optimise.Plan, in *loaded, because error) error {
	if f.json && p.Bill == nil {
		if err := a.printJSON(optimise.NewDocument(p, in.rep)); err != nil {
			return err
		}
	}
	return because
}

// planError is the exit status of a plan that was printed.
func planError(p *optimise.Plan) error {
	switch p.Status {
	case optimise.Optimal:
		return nil
	case optimise.TimeLimit:
		return errUnproven
	case optimise.Infeasible:
		return errInfeasible
	}
	return fmt.Errorf("the search ended with status %q, which is no answer", p.Status)
}
