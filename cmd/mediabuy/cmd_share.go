package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/optimise/share"
	"mediabuy/papers"
	"mediabuy/papers/sheaf"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

type shareOptions struct {
	files  jobFiles
	paper  paperFlags
	rule   string
	resume string
	out    string
	limit  searchLimit
	tidy   tidyFlag
}

func newShareCommand(a *app) *cobra.Command {
	o := &shareOptions{}
	c := &cobra.Command{
		Use:   "share [JOB]",
		Short: "the bill split among members",
		Long: `Splits the bill of one order among the members who pay for the beds, to the
cent, and tests the split against going alone for every group of members, by
solving each group's own order. The column member of beds.csv says who pays; a
bed may be shared by parts, such as "north plot: 2; school: 1". Where a table
carries beds of several members, whoever orders alone is priced with only its part
of the table's limit: what the table may carry beyond its frames is shared out by
the litres that stand on it.

With -o it writes a statement for each member and the treasurer's page, as PDF to
print and as CSV. With --tidy it splits the purchase that order --tidy orders.

RULES
  nucleolus  nobody, and no group, better off alone where there is such a split,
             and as near to that as possible where there is none (the default)
  shapley    what each adds to the bill, averaged over all orders of joining
  savings    the same share of what each would pay alone
  use        goods at the price the order reached, fees by use
  litres     by placed litres

Up to 12 members every group is solved. Above that the single members, the pairs
and all members but one are, and groups found to object; the Shapley value is
then estimated from random orders of joining, with its standard error.`,
		Example: `  mediabuy share
  mediabuy share allotments --rule use
  mediabuy share allotments --tidy -o statements
  mediabuy share allotments --resume groups.json -o statements`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runShare(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *shareOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.paper.addFlags(fs)
	fs.StringVar(&o.rule, "rule", string(share.Nucleolus), "split by `RULE`: nucleolus, shapley, savings, use or litres")
	fs.StringVar(&o.resume, "resume", "", "keep solved groups in `FILE` and go on from those in it")
	fs.StringVarP(&o.out, "output", "o", "", "write a statement for each member and the treasurer's page into folder `DIR`")
	o.tidy.addFlag(fs)
	o.limit.addFlag(fs, "stop the search for each group after `TIME`, such as 30s; the split then says what is not proven or not settled")
}

// check finds wrong use before anything is read.
func (o *shareOptions) check() error {
	if err := o.limit.check(); err != nil {
		return err
	}
	if !slices.Contains(share.Rules, share.Rule(o.rule)) {
		var names []string
		for _, r := range share.Rules {
			names = append(names, string(r))
		}
		return &usageError{fmt.Sprintf("--rule %q is not a choice", o.rule), "write one of " + strings.Join(names, ", ")}
	}
	if o.paper.force && o.out == "" {
		return &usageError{"--force says to write over files, and no folder is named to write to", "name one with -o"}
	}
	if _, _, err := o.tidy.share(); err != nil {
		return err
	}
	_, err := o.paper.style(&quotes.Settings{})
	return err
}

func runShare(ctx context.Context, a *app, o *shareOptions, dir string) error {
	if err := o.check(); err != nil {
		return err
	}
	in, st, err := o.paper.load(a, dir, o.files)
	if err != nil {
		return err
	}
	known, err := o.known(a, in.job)
	if err != nil {
		return err
	}
	bar := terminal.NewGroupBar(a.stderr)
	defer bar.Done()
	opt := share.Options{
		Rule:     share.Rule(o.rule),
		Solve:    optimise.Options{TimeLimit: cmp.Or(o.limit.timeLimit, in.job.Settings.TimeLimit)},
		Progress: bar.Note, Known: known,
	}
	if o.resume != "" {
		opt.Save = func(s *share.Store) error { return writeWhole(o.resume, s.Write) }
	}
	job := in.job
	if job.Settings.Sure > 0 || o.tidy != "" {
		chosen, err := in.tidied(ctx, o.tidy, opt.Solve)
		if err != nil {
			return err
		}
		opt.Plan, job = chosen.Plan, chosen.Cheapest.Job // alone nobody is held to the plainer way
	}
	res, err := share.Solve(ctx, job, opt)
	var nobody share.NoMembersError
	switch {
	case errors.As(err, &nobody):
		name := cmp.Or(o.files.beds, files.BedsFile)
		return missing(name, err.Error(), "who pays for each bed, in a column member", `a bed may be shared: north plot: 2; school: 1`)
	case errors.Is(err, context.Canceled) && o.resume != "":
		return fmt.Errorf("stopped before an answer; the groups solved so far are in %s, and the same command goes on from there", o.resume)
	case err != nil:
		return err
	}
	bar.Done()
	var written []string
	if o.out != "" && res.Plan.Bill != nil {
		if written, err = o.write(ctx, in, statement.Papers(res, st.Units), st); err != nil {
			return err
		}
	}
	switch {
	case o.paper.answer.json:
		err = a.printJSON(document.Share{Document: share.NewDocument(res, opt.Rule, in.rep), Files: written})
	case res.Plan.Bill == nil:
		err = a.print(show.Plan(show.PlanView{Plan: res.Plan, Warnings: in.rep.Warnings}, a.style(st.Units)))
	default:
		var words string
		if words, err = show.Share(res, st.Units, a.style(st.Units).Width, written); err == nil {
			err = a.print(words)
		}
	}
	if err != nil {
		return err
	}
	if res.Plan.Bill != nil && !res.Proven {
		return errUnproven
	}
	return planError(res.Plan)
}

// known reads the groups solved before. Those of another job are not used, which
// is said; a file that is something else is never written over.
func (o *shareOptions) known(a *app, job *quotes.Job) (*share.Store, error) {
	if o.resume == "" {
		return nil, nil
	}
	file, err := openPlain(o.resume)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	s, err := share.ReadStore(file, o.resume)
	if err != nil {
		return nil, err
	}
	fits, err := s.Fits(job)
	if err != nil {
		return nil, err
	}
	if !fits {
		fmt.Fprintf(a.stderr, "mediabuy: the groups in %s are of another job, or of these files before they were changed, and are solved anew\n", o.resume)
		return nil, nil
	}
	fmt.Fprintf(a.stderr, "mediabuy: %d groups are known from %s\n", s.Len(), o.resume)
	return s, nil
}

// write writes each paper as PDF and as CSV.
func (o *shareOptions) write(ctx context.Context, in *loaded, list []statement.Paper, st papers.Style) ([]string, error) {
	out, err := in.filed(sheaf.Statements(list, st))
	if err != nil {
		return nil, err
	}
	return o.paper.write(ctx, in, paperSet{o.out, "name another folder with -o", out})
}
