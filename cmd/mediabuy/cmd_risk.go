package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

type riskOptions struct {
	files  jobFiles
	answer answerFlags
	limit  searchLimit
	out    string
}

func newRiskCommand(a *app) *cobra.Command {
	o := &riskOptions{}
	c := &cobra.Command{
		Use:   "risk [JOB]",
		Short: "how sure the plan fills every bed, and what more sureness costs",
		Long: `Tells how sure the plan fills every bed when packs, rinsing and settling are as
uncertain as they are, and sets cost against sureness: for each sureness the
cheapest purchase found that has it, with the plan's own place marked.

A sureness is chosen with sure in job.toml, such as sure = "90%".`,
		Example: `  mediabuy risk
  mediabuy risk spring -o sureness.svg`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runRisk(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *riskOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.answer.addFlags(fs)
	fs.StringVarP(&o.out, "output", "o", "", "draw the chart to `FILE`, ending in .svg or .png")
	o.limit.addFlag(fs, "stop after `TIME` in all, such as 30s; what was found until then is shown")
}

func runRisk(ctx context.Context, a *app, o *riskOptions, dir string) error {
	if err := o.limit.check(); err != nil {
		return err
	}
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	if o.out != "" {
		if _, err := chart.Format(o.out); err != nil {
			return &usageError{err.Error(), "end the name in .svg or .png"}
		}
	}
	begun := time.Now()
	in, err := a.load(dir, o.files, files.Options{Reader: o.answer.reader()})
	if err != nil {
		return err
	}
	if err := in.notOwn(o.out); err != nil {
		return err
	}
	spin := terminal.NewSpinner(a.stderr)
	defer spin.Done()
	limit := cmp.Or(o.limit.timeLimit, in.job.Settings.TimeLimit)
	reached, err := risk.Plan(ctx, in.job, optimise.Options{TimeLimit: limit / 2, Progress: spin.Note})
	if err != nil {
		return err
	}
	if reached.Plan.Bill == nil {
		sys, err := o.answer.system(&in.job.Settings)
		if err != nil {
			return err
		}
		spin.Done()
		return a.noPlan(o.answer, &risk.Tidied{Reached: reached, Cheapest: reached}, in, sys)
	}
	spin.Now("seeing how sure it fills the beds")
	report, err := risk.Assessed(ctx, reached, a.patience.SureLimit(limit, time.Since(begun)))
	if err != nil {
		return err
	}
	spin.Now("setting cost against sureness")
	curve, err := risk.NewCurve(ctx, in.job, reached.Plan, report, optimise.Options{TimeLimit: a.patience.CurveLimit(limit, time.Since(begun)), Progress: spin.Note})
	if err != nil {
		return err
	}
	spin.Done()
	if o.out != "" {
		if len(curve.Points) == 0 {
			return errors.New("time was up before there was a curve to draw: give it more with --time-limit")
		}
		format, err := chart.Format(o.out)
		if err != nil {
			return err
		}
		panel := chart.OfCurve(in.job.Settings.Currency, curve)
		if err := writeWhole(o.out, func(w io.Writer) error { return chart.Write(w, format, []chart.Panel{panel}) }); err != nil {
			return fmt.Errorf("drawing cost against sureness: %w", err)
		}
	}
	if o.answer.json {
		if err := a.printJSON(document.NewRisk(reached, report, curve)); err != nil {
			return err
		}
		return planError(reached.Plan)
	}
	sys, err := o.answer.system(&in.job.Settings)
	if err != nil {
		return err
	}
	if err := a.print(show.Risk(show.RiskView{Reached: reached, Report: report, Curve: curve}, a.style(sys))); err != nil {
		return err
	}
	return planError(reached.Plan)
}

// noPlan tells why there is no plan, as plan does.
func (a *app) noPlan(f answerFlags, t *risk.Tidied, in *loaded, sys units.System) error {
	var err error
	if f.json {
		err = a.printJSON(document.NewPlan(t, nil, in.rep))
	} else {
		err = a.print(show.Plan(show.PlanView{Plan: t.Plan, Tidied: t, Reached: t.Reached, Warnings: in.rep.Warnings}, a.style(sys)))
	}
	if err != nil {
		return err
	}
	return planError(t.Plan)
}
