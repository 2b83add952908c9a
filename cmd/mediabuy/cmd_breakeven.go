package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/overtake"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/risk"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

type breakevenOptions struct {
	files   jobFiles
	answer  answerFlags
	ask     overtake.Question
	upTo    string
	nearest bool
	every   bool
	out     string
	limit   searchLimit
}

func newBreakevenCommand(a *app) *cobra.Command {
	o := &breakevenOptions{}
	c := &cobra.Command{
		Use:   "breakeven [JOB]",
		Short: "where one way of buying overtakes another, by price and by volume",
		Long: `Finds every price of a quote at which the cheapest buy of the whole job changes:
what to ask a yard for, or how far a price may rise before something else is
cheaper. Sets bags against bulk over the volume. Shows the next best plan and what
each supplier, each rule and each weight limit is worth.

A quote's price is its pack price before breaks; its breaks move in proportion.
Without a choice below, all quotes, all bulk together, bags against bulk and what
would change the answer are shown. Where free delivery or a smallest order hang on
a price only the changes next to today's are looked for. For more than 40 quotes at
once, or where the plan itself takes a second or more, only where each enters or
leaves the plan is, unless --every is given; --quote shows all changes of one.`,
		Example: `  mediabuy breakeven
  mediabuy breakeven --quote lava-yard -o lava.svg
  mediabuy breakeven --supplier "Low Ford Quarry" --fee "Low Ford Quarry"
  mediabuy breakeven --volume pebbles-50,pebbles-sack --upto "4 yd3"
  mediabuy breakeven --size --one-more "alder 1"`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error {
			return runBreakeven(c.Context(), a, o, first(args, "."))
		},
	}
	o.addFlags(c.Flags())
	return c
}

func (o *breakevenOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.answer.addFlags(fs)
	fs.StringArrayVar(&o.ask.Quotes, "quote", nil, "the price of quote `NAME`; may be given again")
	fs.StringArrayVar(&o.ask.Suppliers, "supplier", nil, "all prices of supplier `NAME` together; may be given again")
	fs.StringArrayVar(&o.ask.Fees, "fee", nil, "the delivery fees of supplier `NAME`; may be given again")
	fs.BoolVar(&o.ask.Bulk, "bulk", false, "the prices of all that does not come in bags together")
	fs.StringVar(&o.ask.Volume, "volume", "", "set two quotes `A,B` against each other by volume; bags,bulk for the best of each")
	fs.StringVar(&o.upTo, "upto", "", "look at volumes up to `VOLUME`, such as 5000 or \"4 yd3\"; a bare number is litres")
	fs.StringVar(&o.ask.Site, "site", "", "the `SITE` that volumes are delivered to; without it the first by name")
	fs.BoolVar(&o.ask.WhatIf, "what-if", false, "the next best plan; what suppliers, rules and weight limits are worth")
	fs.BoolVar(&o.ask.Size, "size", false, "the whole job made smaller and larger")
	fs.StringVar(&o.ask.OneMore, "one-more", "", "one more bed like `BED`")
	fs.BoolVar(&o.nearest, "nearest", false, "look only for where a quote enters or leaves the plan, which is quicker")
	fs.BoolVar(&o.every, "every", false, "look for every change, also where free delivery hangs on the price; may take minutes")
	fs.StringVarP(&o.out, "output", "o", "", "draw what is asked for into `FILE`, ending in .svg or .png")
	o.limit.addFlag(fs, "stop after `TIME`, such as 30s; what is not proven by then is said to be so")
}

// check refuses flags that cannot be followed, before any file is read, and reads the
// others into the question.
func (o *breakevenOptions) check() error {
	if err := o.limit.check(); err != nil {
		return err
	}
	if o.nearest && o.every {
		return &usageError{"--nearest and --every ask for opposites", "leave one of them out"}
	}
	if o.ask.Volume != "" && strings.Count(o.ask.Volume, ",") != 1 {
		return &usageError{fmt.Sprintf("--volume %q does not name two quotes", o.ask.Volume), "write them with a comma between, such as pebbles-50,lava-yard, or bags,bulk"}
	}
	if o.out != "" {
		if _, err := chart.Format(o.out); err != nil {
			return &usageError{"-o: " + err.Error(), "SVG stays sharp at any size, PNG goes into any document"}
		}
	}
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	switch {
	case o.nearest:
		o.ask.Depth = breakeven.Nearest
	case o.every:
		o.ask.Depth = breakeven.Every
	}
	o.ask.TimeLimit = o.limit.timeLimit
	return o.readUpTo()
}

// readUpTo reads the largest volume to look at, where one is given.
func (o *breakevenOptions) readUpTo() error {
	if o.upTo == "" {
		return nil
	}
	v, err := units.ParseVolume(o.upTo, units.Options{Mark: units.MarkPoint, Default: "L"})
	if err != nil {
		return &usageError{"--upto: " + err.Error(), "write a volume such as 5000 or \"4 yd3\""}
	}
	if v.Value <= 0 {
		return &usageError{fmt.Sprintf("--upto %q is nothing to fill", o.upTo), "write a volume above 0"}
	}
	o.ask.UpTo = v.Value
	return nil
}

func runBreakeven(ctx context.Context, a *app, o *breakevenOptions, dir string) error {
	if err := o.check(); err != nil {
		return err
	}
	in, err := a.load(dir, o.files, files.Options{Reader: o.answer.reader()})
	if err != nil {
		return err
	}
	if err := in.notOwn(o.out); err != nil {
		return err
	}
	if _, _, err := o.ask.Targets(in.job); err != nil { // before any work
		return breakevenError(err)
	}
	spin := terminal.NewSpinner(a.stderr)
	defer spin.Done()
	plan, err := a.today(ctx, in, o.answer, optimise.Options{TimeLimit: o.limit.timeLimit, Progress: spin.Note})
	if err != nil {
		return err
	}
	targets, notes, err := o.ask.Targets(in.job)
	if err != nil {
		return breakevenError(err)
	}
	ans := &breakeven.Answer{Job: in.job, Total: plan.Bill.Total, Notes: notes}
	if optimise.OverBudget(in.job, plan.Bill.Total) {
		ans.Notes = append(ans.Notes, fmt.Sprintf("today's cheapest buy is above the budget of %s; break-evens are worked out without a budget", units.FormatMoney(*in.job.Settings.Budget, in.job.Settings.Currency)))
	}
	if err := o.ask.Answer(ctx, in.job, plan, targets, ans, spin.Part); err != nil {
		return breakevenError(err)
	}
	spin.Done()
	sys, err := o.answer.system(&in.job.Settings)
	if err != nil {
		return err
	}
	if o.out != "" {
		if err := o.draw(in.job, ans, sys); err != nil {
			return err
		}
	}
	if o.answer.json {
		err = a.printJSON(breakeven.NewDocument(ans))
	} else {
		view := show.BreakevenView{Ans: ans, Plan: plan, Drawn: len(targets) == 1 || o.ask.Volume != "", Every: o.every, Style: a.style(sys)}
		err = a.print(view.Text())
	}
	if err != nil {
		return err
	}
	for _, s := range ans.ByPrice {
		if s.Unproven != "" {
			return errUnsettled
		}
	}
	if ans.WhatIf != nil && !ans.WhatIf.Proven() {
		return errUnproven
	}
	return nil
}

// today is the cheapest purchase at today's prices, whatever the budget. Where the job asks for a sureness it becomes the one whose
// cheapest purchase is as sure: break-evens are then those of the surer purchase.
func (a *app) today(ctx context.Context, in *loaded, answer answerFlags, opt optimise.Options) (*optimise.Plan, error) {
	if in.job.Settings.Sure > 0 {
		free := *in.job
		free.Settings.Budget = nil
		r, err := risk.Plan(ctx, &free, opt)
		if err != nil {
			return nil, err
		}
		if err := planError(r.Plan); err != nil {
			return nil, a.noPurchase(answer, r.Plan, in, err)
		}
		j := *r.Job
		j.Settings.Budget = in.job.Settings.Budget
		in.job = &j
	}
	plan, err := breakeven.Today(ctx, in.job, opt)
	if err != nil {
		return nil, err
	}
	if err := planError(plan); err != nil {
		return nil, a.noPurchase(answer, plan, in, err)
	}
	return plan, nil
}

// breakevenError gives errors of the package the exit status they have here.
func breakevenError(err error) error {
	var unknown *breakeven.UnknownError
	switch {
	case errors.As(err, &unknown):
		return &usageError{unknown.Error(), unknown.Hint()}
	case errors.Is(err, breakeven.ErrInfeasible):
		return errInfeasible
	}
	return err
}
