package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/orderbook"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers"
	"mediabuy/papers/received"
	"mediabuy/papers/sheaf"
	"mediabuy/quotes"
	"mediabuy/quotes/files"
)

type receiveOptions struct {
	files   jobFiles
	paper   paperFlags
	arrived []string
	orders  []string
	day     string
	notes   string
	letters string
	buy     string
	gate    string
	limit   searchLimit
}

func newReceiveCommand(a *app) *cobra.Command {
	o := &receiveOptions{}
	c := &cobra.Command{
		Use:   "receive [JOB] --arrived FILE",
		Short: "what arrived against what was ordered, and the cheapest way to finish",
		Long: `Counts what arrived against what was ordered, says what is short, over and
rejected, and finds the cheapest way to finish the beds with what is there counted
as paid for, from quotes that still hold, as surely as the job asks. Writes a short
note to each supplier whose delivery differs; with --letters, a letter of complaint
with the figures to each of whose order something is short.

What is ordered and no row of the arrivals tells of is under way while the day it is
needed by is not over, or where the order says none: it is counted on, listed with its
day, and not bought again. Where a row tells of a thing, what lacks is taken not to
come. So a row with 0 packs says that something is not coming any more; --on looks
from a later day. With -o what is bought to finish is ordered, its orders numbered on,
and counts like any order once they lie in the folder orders of the job or are named.

Before anything comes, --gate writes a sheet to tick at the gate for each supplier and
site, as PDF to print and as CSV to type the count into, which --arrived reads.

A file of arrivals has the columns quote and packs, or volume for a heap that was
measured, and where needed rejected (packs or a volume), site, date, note, order for
the number of the order that it came on, and billed for what the bill asks for one
pack before tax, which is held against the order. Name one file for each day; they
add up.

Orders are the CSVs that order wrote. Those that lie in the folder orders of the job
count as well, named or not. Where none is named and none lies there the job is
planned again, that plan stands for the order, and what no row tells of did not come.
No file of the job is changed.`,
		Example: `  mediabuy receive --arrived monday.csv
  mediabuy receive spring --arrived monday.csv --arrived thursday.csv --letters letters
  mediabuy receive --order sent/order-low-ford-quarry.csv --arrived monday.csv
  mediabuy receive spring --arrived monday.csv -o spring/orders
  mediabuy receive spring --gate gate`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runReceive(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *receiveOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.paper.addFlags(fs)
	fs.StringArrayVar(&o.arrived, "arrived", nil, "read what arrived from `FILE`; may be given again; - is standard input")
	fs.StringArrayVar(&o.orders, "order", nil, "read what was ordered from `FILE`, a CSV that order wrote; may be given again")
	fs.StringVar(&o.day, "on", "", "finish at the quotes that hold on `DAY`, such as 2026-05-03; without it the last day of the job and the arrivals")
	fs.StringVar(&o.notes, "notes", "", "write the notes to suppliers into folder `DIR`")
	fs.StringVar(&o.letters, "letters", "", "write letters to suppliers of whose order something is short into folder `DIR`")
	fs.StringVarP(&o.buy, "output", "o", "", "write the orders of what is still to buy into folder `DIR`, as order does")
	fs.StringVar(&o.gate, "gate", "", "write sheets to tick at the gate into folder `DIR`, before anything arrives")
	o.limit.addFlag(fs, "stop each search after `TIME`, such as 30s")
}

func runReceive(ctx context.Context, a *app, o *receiveOptions, dir string) error {
	if err := o.check(); err != nil {
		return err
	}
	in, err := a.load(dir, o.files, files.Options{Reader: o.paper.answer.reader()})
	if err != nil {
		return err
	}
	spin := terminal.NewSpinner(a.stderr)
	defer spin.Done()
	opt := optimise.Options{TimeLimit: o.limit.timeLimit, Progress: spin.Note}
	v := show.ReceiveView{Job: in.job}
	ordered, err := o.ordered(ctx, a, in, dir, opt, &v)
	if err != nil {
		return err
	}
	if o.gate != "" {
		spin.Done()
		return o.writeGate(ctx, a, in, ordered)
	}
	arrived, err := o.arrivals(a, in.job, ordered, &v)
	if err != nil {
		return err
	}
	day, err := o.settleDay(in.job, arrived)
	if err != nil {
		return err
	}
	st, err := o.paper.style(&in.job.Settings)
	if err != nil {
		return err
	}
	v.Style = st
	counted := received.Count(in.job, ordered, arrived, day)
	finish, err := risk.Finish(ctx, in.job, received.Stock(counted), day, opt)
	if err != nil {
		return err
	}
	v.Settled = received.Settled(in.job, counted, day, finish)
	v.Notes = papers.Notes(in.job, counted, st)
	if v.Orders, err = papers.FinishOrders(finish, st); err != nil {
		return err
	}
	if v.Files, err = o.writePapers(ctx, in, dir, &v, papers.Letters(in.job, counted, day)); err != nil {
		return err
	}
	spin.Done()
	if o.paper.answer.json {
		err = a.printJSON(document.NewReceive(&v))
	} else {
		err = a.print(v.Text())
	}
	if err != nil {
		return err
	}
	return planError(v.Settled.Plan)
}

// check refuses flags that cannot be followed, before any file is read.
func (o *receiveOptions) check() error {
	if o.gate != "" && (len(o.arrived) > 0 || o.notes != "" || o.letters != "" || o.buy != "" || o.day != "") {
		return &usageError{"--gate writes sheets for what has not come yet, and other flags tell of what has", "leave out --gate, or --arrived, --notes, --letters, -o and --on"}
	}
	if len(o.arrived) == 0 && o.gate == "" {
		return &usageError{"receive needs a file of what arrived", "add --arrived FILE with the columns quote and packs; - is standard input"}
	}
	if err := o.limit.check(); err != nil {
		return err
	}
	if o.day != "" {
		if _, err := time.Parse(time.DateOnly, o.day); err != nil {
			return &usageError{fmt.Sprintf("--on %q is not a day", o.day), "write a day such as 2026-05-03"}
		}
	}
	stdin := 0
	for _, list := range [][]string{o.arrived, o.orders, {o.files.quotes, o.files.beds, o.files.delivery, o.files.media}} {
		for _, name := range list {
			if name == "-" {
				stdin++
			}
		}
	}
	if stdin > 1 {
		return &usageError{fmt.Sprintf("%d files are to come from standard input, which holds one", stdin), "write - for one of them and name the others"}
	}
	_, err := o.paper.style(&quotes.Settings{})
	return err
}

// extra reads a file that is not of the job; one that is not there is a problem of
// the files.
func (a *app) extra(name, wanted, hint string) (files.Source, []byte, error) {
	if name != "-" {
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			return files.Source{}, nil, missing(name, "there is no such file", wanted, hint)
		}
	}
	return a.source("", name, "")
}

// ordered reads the orders: those that are named and those that lie in the job's folder,
// or plans the job where there is none.
func (o *receiveOptions) ordered(ctx context.Context, a *app, in *loaded, dir string, opt optimise.Options, v *show.ReceiveView) ([]received.Ordered, error) {
	named, err := o.named(a, in, v)
	if err != nil || o.gate != "" && len(named) > 0 {
		return named, err
	}
	folder := orderbook.Own(dir)
	there, err := orderbook.In(folder)
	if err != nil {
		return nil, err
	}
	lying, warned, err := received.Lying(there, named, in.job)
	if err != nil {
		return nil, err
	}
	v.Warnings = append(v.Warnings, warned...)
	if len(o.orders) > 0 || len(lying) > 0 {
		if len(o.orders) == 0 {
			v.Lying = folder
		}
		return append(named, lying...), nil
	}
	plan, err := in.plan(ctx, opt)
	if err != nil {
		return nil, err
	}
	if plan.Bill == nil {
		return nil, a.noPurchase(o.paper.answer, plan, in, fmt.Errorf("%w, so there is no plan to stand for the order; name the order with --order", errInfeasible))
	}
	v.Planned = true
	return papers.PlanOrder(plan)
}

// named reads the orders that are named.
func (o *receiveOptions) named(a *app, in *loaded, v *show.ReceiveView) ([]received.Ordered, error) {
	var list []files.Source
	seen := texts{}
	for _, name := range o.orders {
		src, text, err := a.extra(name, "the CSV of an order", "mediabuy order writes them")
		if err != nil {
			return nil, err
		}
		seen[src.Name] = text
		list = append(list, files.Source{Name: src.Name, R: bytes.NewReader(text)})
	}
	out, rep, err := received.ReadOrders(list, in.job)
	if err != nil {
		return nil, err
	}
	v.Warnings = append(v.Warnings, rep.Warnings...)
	if !rep.OK() {
		return nil, &filesError{rep: rep, texts: seen}
	}
	return out, nil
}

func (o *receiveOptions) arrivals(a *app, job *quotes.Job, ordered []received.Ordered, v *show.ReceiveView) ([]received.Arrival, error) {
	var out []received.Arrival
	rep := &quotes.Report{}
	seen := texts{}
	for _, name := range o.arrived {
		src, text, err := a.extra(name, "a CSV of what arrived", "its columns are "+strings.Join(received.ArrivalHeads, ", "))
		if err != nil {
			return nil, err
		}
		if _, again := seen[src.Name]; again {
			return nil, &usageError{fmt.Sprintf("--arrived %s is named twice and would count double", name), "name each file once"}
		}
		seen[src.Name] = text
		list, one, err := received.ReadArrivals(bytes.NewReader(text), src.Name, job, ordered)
		if err != nil {
			return nil, err
		}
		rep.Problems = append(rep.Problems, one.Problems...)
		v.Warnings = append(v.Warnings, one.Warnings...)
		out = append(out, list...)
	}
	if !rep.OK() {
		return nil, &filesError{rep: rep, texts: seen}
	}
	return out, nil
}

// settleDay is the pricing day of what is still to buy: what --on says, else the
// last of the job's own and those of the arrivals.
func (o *receiveOptions) settleDay(job *quotes.Job, arrived []received.Arrival) (quotes.Date, error) {
	if o.day != "" {
		t, err := time.Parse(time.DateOnly, o.day)
		return quotes.DateOf(t), err
	}
	return received.LastDay(job, arrived), nil
}

// writePapers writes the notes, letters and orders that were asked for.
func (o *receiveOptions) writePapers(ctx context.Context, in *loaded, dir string, v *show.ReceiveView, letters []*papers.Letter) ([]string, error) {
	further := []string{o.buy}
	if o.buy == "" {
		further = nil
	}
	for _, name := range o.orders {
		further = append(further, filepath.Dir(name))
	}
	lying, err := orderbook.Numbers(dir, further...)
	if err != nil {
		return nil, err
	}
	counted := func(number string) bool {
		return slices.ContainsFunc(v.Settled.Counted, func(c received.Counted) bool { return slices.Contains(c.Orders, number) })
	}
	if err := papers.NumberOn(v.Orders, lying, counted); err != nil {
		return nil, err
	}
	var sets []paperSet
	for _, one := range []struct {
		dir, flag string
		list      []sheaf.File
	}{{o.notes, "--notes", sheaf.Notes(v.Notes)}, {o.letters, "--letters", sheaf.Letters(letters, v.Style)}, {o.buy, "-o", sheaf.FinishOrders(v.Orders, v.Style)}} {
		if one.dir == "" {
			continue
		}
		list, err := in.filed(one.list)
		if err != nil {
			return nil, err
		}
		sets = append(sets, paperSet{one.dir, "name another folder with " + one.flag, list})
	}
	v.Ordered = o.buy != ""
	return o.paper.write(ctx, in, sets...)
}

// writeGate writes a sheet to tick for each supplier and site.
func (o *receiveOptions) writeGate(ctx context.Context, a *app, in *loaded, ordered []received.Ordered) error {
	st, err := o.paper.style(&in.job.Settings)
	if err != nil {
		return err
	}
	list, err := in.filed(sheaf.Gates(papers.Gates(in.job, ordered), st))
	if err != nil {
		return err
	}
	paths, err := o.paper.write(ctx, in, paperSet{o.gate, "name another folder with --gate", list})
	if err != nil {
		return err
	}
	if o.paper.answer.json {
		return a.printJSON(document.Gate{Files: paths})
	}
	return a.print(show.Gate(paths))
}
