package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/orderbook"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers"
	"mediabuy/papers/sheaf"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

type orderOptions struct {
	files jobFiles
	paper paperFlags
	out   string
	limit searchLimit
	tidy  tidyFlag
}

func newOrderCommand(a *app) *cobra.Command {
	o := &orderOptions{}
	c := &cobra.Command{
		Use:   "order [JOB]",
		Short: "one purchase order for each supplier and site",
		Long: `Plans the job and writes a purchase order for each supplier and site, as PDF to
send and as CSV to keep. It says who orders, where goods are set down and how a
truck gets there, what is ordered in the supplier's own words, the price reached,
delivery, tax, total, how each stone is to come and what happens if something is
short. Name, phone, address and drop spots come from [buyer] in job.toml; what is
not there is left to be written in by hand. The orders add up to the plan's total
but for rinsing, which is your own time.

The CSVs are what receive counts deliveries against. A number that another order in
the folder has is not given again; with --force, an order of another content that is
written over goes to the folder replaced within, where it no longer counts. What to count, measure and test
when the goods come stands on the sheets of receive --gate, which stay with you.`,
		Example: `  mediabuy order
  mediabuy order spring -o spring/orders`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runOrder(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *orderOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.paper.addFlags(fs)
	fs.StringVarP(&o.out, "output", "o", "", "write into folder `DIR`; without it into orders within JOB")
	o.limit.addFlag(fs, "stop the search after `TIME`, such as 30s; the orders then say that the plan is not proven")
	o.tidy.addFlag(fs)
}

func runOrder(ctx context.Context, a *app, o *orderOptions, dir string) error {
	chosen, in, err := a.planFor(ctx, dir, o.files, o.paper.answer, o.limit, o.tidy, func(s *quotes.Settings) error {
		_, err := o.paper.style(s)
		return err
	})
	if err != nil {
		return err
	}
	plan := chosen.Plan
	st, err := o.paper.style(&in.job.Settings)
	if err != nil {
		return err
	}
	orders, err := papers.Orders(plan, st)
	if err != nil {
		return err
	}
	to := o.out
	if to == "" {
		to = orderbook.Own(dir)
	}
	lying, err := orderbook.Numbers(dir, to)
	if err != nil {
		return err
	}
	if err := papers.NumberOn(orders, lying, nil); err != nil {
		return err
	}
	list, err := in.filed(sheaf.Orders(orders, st))
	if err != nil {
		return err
	}
	var names []string
	for _, p := range list {
		names = append(names, p.name)
	}
	before, err := orderbook.SetAside(dir, to, names, orders)
	if err != nil {
		return err
	}
	sets := []paperSet{{to, "name another folder with -o", list}}
	if o.paper.force { // else they are not written over
		var kept []paper
		for _, f := range before.Keep {
			kept = append(kept, paper{f.Name, f.Data})
		}
		sets = append(sets, paperSet{to, "", kept})
	}
	paths, err := o.paper.write(ctx, in, sets...)
	if err != nil {
		return err
	}
	view := show.OrderView{Plan: plan, Orders: orders, Files: paths[:len(list)], Kept: paths[len(list):], Still: before.Still}
	if o.paper.answer.json {
		err = a.printJSON(document.NewOrder(view))
	} else {
		err = a.print(view.Text())
	}
	if err != nil {
		return err
	}
	return planError(plan)
}

// planFor reads and plans a job for a paper. check looks at the flags, first
// without the job's settings and before any work. A job that nothing can satisfy
// is an error, as there is nothing to put on paper.
func (a *app) planFor(ctx context.Context, dir string, chosen jobFiles, answer answerFlags, limit searchLimit, tidy tidyFlag, check func(*quotes.Settings) error) (*risk.Tidied, *loaded, error) {
	if err := limit.check(); err != nil {
		return nil, nil, err
	}
	if _, _, err := tidy.share(); err != nil {
		return nil, nil, err
	}
	if err := check(&quotes.Settings{}); err != nil {
		return nil, nil, err
	}
	in, err := a.load(dir, chosen, files.Options{Reader: answer.reader()})
	if err != nil {
		return nil, nil, err
	}
	spin := terminal.NewSpinner(a.stderr)
	defer spin.Done()
	t, err := in.tidied(ctx, tidy, optimise.Options{TimeLimit: limit.timeLimit, Progress: spin.Note})
	if err != nil {
		return nil, nil, err
	}
	if t.Plan.Bill == nil {
		return nil, nil, a.noPurchase(answer, t.Plan, in, fmt.Errorf("%w; nothing is written, and mediabuy plan says what stands in the way", errInfeasible))
	}
	return t, in, nil
}
