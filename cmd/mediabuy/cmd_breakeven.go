package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"golang.org/x/sync/errgroup"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/optimise"
	"mediabuy/optimise/breakeven"
	"mediabuy/optimise/risk"
	"mediabuy/optimise/suitability"
	"mediabuy/papers/chart"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
	"mediabuy/units"
)

type breakevenOptions struct {
	files     jobFiles
	answer    answerFlags
	quotes    []string
	suppliers []string
	fees      []string
	bulk      bool
	volume    string
	upTo      string
	site      string
	whatIf    bool
	size      bool
	oneMore   string
	nearest   bool
	every     bool
	out       string
	limit     searchLimit
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
a price only the changes next to today's are looked for, and for more than 40 quotes
at once only where each enters or leaves the plan, unless --every is given.`,
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
	fs.StringArrayVar(&o.quotes, "quote", nil, "the price of quote `NAME`; may be given again")
	fs.StringArrayVar(&o.suppliers, "supplier", nil, "all prices of supplier `NAME` together; may be given again")
	fs.StringArrayVar(&o.fees, "fee", nil, "the delivery fees of supplier `NAME`; may be given again")
	fs.BoolVar(&o.bulk, "bulk", false, "the prices of all that does not come in bags together")
	fs.StringVar(&o.volume, "volume", "", "set two quotes `A,B` against each other by volume; bags,bulk for the best of each")
	fs.StringVar(&o.upTo, "upto", "", "look at volumes up to `VOLUME`, such as 5000 or \"4 yd3\"; a bare number is litres")
	fs.StringVar(&o.site, "site", "", "the `SITE` that volumes are delivered to; without it the first by name")
	fs.BoolVar(&o.whatIf, "what-if", false, "the next best plan; what suppliers, rules and weight limits are worth")
	fs.BoolVar(&o.size, "size", false, "the whole job made smaller and larger")
	fs.StringVar(&o.oneMore, "one-more", "", "one more bed like `BED`")
	fs.BoolVar(&o.nearest, "nearest", false, "look only for where a quote enters or leaves the plan, which is quicker")
	fs.BoolVar(&o.every, "every", false, "look for every change, also where free delivery hangs on the price; may take minutes")
	fs.StringVarP(&o.out, "output", "o", "", "draw what is asked for into `FILE`, ending in .svg or .png")
	o.limit.addFlag(fs, "stop after `TIME`, such as 30s; what is not proven by then is said to be so")
}

// chosen reports whether something in particular is asked for.
func (o *breakevenOptions) chosen() bool {
	return len(o.quotes)+len(o.suppliers)+len(o.fees) > 0 || o.bulk || o.volume != "" || o.whatIf || o.size || o.oneMore != ""
}

// check refuses flags that cannot be followed, before any file is read.
func (o *breakevenOptions) check() error {
	if err := o.limit.check(); err != nil {
		return err
	}
	if o.nearest && o.every {
		return &usageError{"--nearest and --every ask for opposites", "leave one of them out"}
	}
	if o.volume != "" && strings.Count(o.volume, ",") != 1 {
		return &usageError{fmt.Sprintf("--volume %q does not name two quotes", o.volume), "write them with a comma between, such as pebbles-50,lava-yard, or bags,bulk"}
	}
	if o.out != "" {
		if _, err := chart.Format(o.out); err != nil {
			return &usageError{"-o: " + err.Error(), "SVG stays sharp at any size, PNG goes into any document"}
		}
	}
	if _, err := o.answer.system(&quotes.Settings{}); err != nil {
		return err
	}
	_, err := o.most(nil)
	return err
}

// most is the largest volume to look at: what --upto says, else three times the
// job's own.
func (o *breakevenOptions) most(job *quotes.Job) (units.Litres, error) {
	if o.upTo == "" {
		if job == nil {
			return 0, nil
		}
		return 3 * demand(job), nil
	}
	v, err := units.ParseVolume(o.upTo, units.Options{Mark: units.MarkPoint, Default: "L"})
	if err != nil {
		return 0, &usageError{"--upto: " + err.Error(), "write a volume such as 5000 or \"4 yd3\""}
	}
	if v.Value <= 0 {
		return 0, &usageError{fmt.Sprintf("--upto %q is nothing to fill", o.upTo), "write a volume above 0"}
	}
	return v.Value, nil
}

func (o *breakevenOptions) depth() breakeven.Depth {
	switch {
	case o.nearest:
		return breakeven.Nearest
	case o.every:
		return breakeven.Every
	}
	return breakeven.Auto
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
	targets, notes, err := o.targets(in.job)
	if err != nil {
		return breakevenError(err)
	}
	spin := a.newSpinner()
	defer spin.done()
	if in.job.Settings.Sure > 0 {
		if err := in.surer(ctx, optimise.Options{TimeLimit: o.limit.timeLimit, Progress: spin.note}); err != nil {
			return err
		}
		if targets, notes, err = o.targets(in.job); err != nil {
			return err
		}
	}
	plan, err := breakeven.Today(ctx, in.job, optimise.Options{TimeLimit: o.limit.timeLimit, Progress: spin.note})
	if err != nil {
		return err
	}
	if err := planError(plan); err != nil {
		return err
	}
	ans := &breakeven.Answer{Job: in.job, Total: plan.Bill.Total, Notes: notes}
	if b := in.job.Settings.Budget; b != nil && plan.Bill.Total.Cmp(*b) > 0 {
		ans.Notes = append(ans.Notes, fmt.Sprintf("today's cheapest buy is above the budget of %s; break-evens are worked out without a budget", units.FormatMoney(*b, in.job.Settings.Currency)))
	}
	if err := o.work(ctx, in.job, plan, targets, ans, spin); err != nil {
		return breakevenError(err)
	}
	spin.done()
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
		view := show.BreakevenView{Ans: ans, Plan: plan, Drawn: len(targets) == 1 || o.volume != "", Every: o.every, Style: a.style(sys)}
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

// surer makes the job the one whose cheapest purchase is as sure as it asks for,
// whatever the budget: break-evens are then those of the surer purchase.
func (in *loaded) surer(ctx context.Context, opt optimise.Options) error {
	if in.job.Settings.Sure == 0 {
		return nil
	}
	free := *in.job
	free.Settings.Budget = nil
	r, err := risk.Plan(ctx, &free, opt)
	if err != nil {
		return err
	}
	if err := planError(r.Plan); err != nil {
		return err
	}
	j := *r.Job
	j.Settings.Budget = in.job.Settings.Budget
	in.job = &j
	return nil
}

// targets are the numbers asked about; notes say in sentences what cannot be.
func (o *breakevenOptions) targets(job *quotes.Job) (out []breakeven.Target, notes []string, err error) {
	for _, name := range o.quotes {
		q, err := breakeven.FindQuote(job, name)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, breakeven.OfQuote(job, q))
	}
	if !o.chosen() {
		out = breakeven.Quotes(job)
	}
	for _, name := range o.suppliers {
		s, err := breakeven.FindSupplier(job, name)
		if err != nil {
			return nil, nil, err
		}
		out = append(out, breakeven.OfSupplier(s))
	}
	for _, name := range o.fees {
		s, err := breakeven.FindSupplier(job, name)
		if err != nil {
			return nil, nil, err
		}
		fees := breakeven.FeesOf(job, s)
		if len(fees) == 0 {
			notes = append(notes, s+" charges no order fee and no fee for a load")
		}
		out = append(out, fees...)
	}
	if o.bulk || !o.chosen() {
		t, err := breakeven.Bulk(job)
		switch {
		case err == nil:
			out = append(out, t)
		case o.chosen(): // else the volumes say so
			notes = append(notes, err.Error())
		}
	}
	return out, notes, nil
}

// work fills in the answer, its parts side by side.
func (o *breakevenOptions) work(ctx context.Context, job *quotes.Job, plan *optimise.Plan, targets []breakeven.Target, ans *breakeven.Answer, spin *spinner) error {
	opt := func() breakeven.Options {
		return breakeven.Options{Depth: o.depth(), TimeLimit: o.limit.timeLimit, Progress: spin.part()}
	}
	parts := []func(context.Context) error{func(ctx context.Context) (err error) {
		ans.ByPrice, err = breakeven.ByPrice(ctx, job, plan, targets, opt())
		return err
	}}
	if o.volume != "" || !o.chosen() {
		parts = append(parts, func(context.Context) error { return o.volumes(job, plan.Fit, ans) })
	}
	if o.whatIf || !o.chosen() {
		parts = append(parts, func(ctx context.Context) (err error) {
			near := opt()
			near.Depth = breakeven.Nearest
			added, err := breakeven.ByPrice(ctx, job, plan, breakeven.OtherSuppliers(job, plan), near)
			if err != nil {
				return err
			}
			ans.WhatIf, err = breakeven.LookElsewhere(ctx, job, plan, added, opt())
			return err
		})
	}
	if o.size {
		parts = append(parts, func(ctx context.Context) (err error) {
			ans.Sizes, err = breakeven.BySize(ctx, job, plan, opt())
			return err
		})
	}
	if o.oneMore != "" {
		parts = append(parts, func(ctx context.Context) (err error) {
			ans.OneMore, err = breakeven.OneMore(ctx, job, plan, o.oneMore, opt())
			return err
		})
	}
	return together(ctx, parts)
}

// together does the parts side by side, so that no processor idles while the last
// solve of one ends. The first error stops the others.
func together(ctx context.Context, parts []func(context.Context) error) error {
	g, ctx := errgroup.WithContext(ctx)
	for _, part := range parts {
		g.Go(func() error { return part(ctx) })
	}
	return g.Wait()
}

// volumes sets the two sides asked for against each other, or the bags of each
// medium against its bulk.
func (o *breakevenOptions) volumes(job *quotes.Job, fit *suitability.Fit, ans *breakeven.Answer) error {
	site := ""
	if sites := quotes.Sites(job); len(sites) > 0 {
		site = sites[0]
	}
	if o.site != "" {
		var err error
		if site, err = breakeven.FindSite(job, o.site); err != nil {
			return err
		}
	}
	most, err := o.most(job)
	if err != nil {
		return err
	}
	if o.volume == "" {
		both := breakeven.SoldBothWays(job, fit)
		if len(both) == 0 {
			ans.Notes = append(ans.Notes, "no medium that some bed takes is sold both in bags and in bulk, so bags are not set against bulk")
		}
		for _, b := range both {
			v, err := breakeven.OfMedium(job, b, site, most)
			if err != nil {
				return err
			}
			ans.ByVolume = append(ans.ByVolume, v)
		}
		return nil
	}
	names := strings.SplitN(o.volume, ",", 2)
	sides := make([]breakeven.Side, 2)
	for i, name := range names {
		switch name = strings.TrimSpace(name); name {
		case "bags", "bulk":
			left, right, err := breakeven.BagsAndBulk(job, fit)
			if err != nil {
				ans.Notes = append(ans.Notes, err.Error())
				return nil
			}
			sides[i] = left
			if name == "bulk" {
				sides[i] = right
			}
		default:
			q, err := breakeven.FindQuote(job, name)
			if err != nil {
				return err
			}
			sides[i] = breakeven.One(q)
		}
	}
	v, err := breakeven.ByVolume(job, sides[0], sides[1], site, most)
	if err != nil {
		return err
	}
	ans.ByVolume = append(ans.ByVolume, v)
	return nil
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
