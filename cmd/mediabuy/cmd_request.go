package main

import (
	"context"
	"path/filepath"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/document"
	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/papers"
	"mediabuy/papers/sheaf"
	"mediabuy/quotes"
)

type requestOptions struct {
	files     jobFiles
	paper     paperFlags
	suppliers []string
	out       string
	talk      bool
	limit     searchLimit
}

func newRequestCommand(a *app) *cobra.Command {
	o := &requestOptions{}
	c := &cobra.Command{
		Use:   "request [JOB]",
		Short: "a sheet for each supplier to send out for quotes",
		Long: `Writes a sheet for each supplier that lists what the beds need, in volumes and
grain sizes, and asks for what decides the comparison: pack, price, breaks, sieves,
density, acid drop, truck sizes and fees, how long it holds. As PDF to print and
write on, and as two CSVs to fill in: the goods, which read straight back as
quotes.csv, and the trucks, which read back as delivery.csv. A row that was left
open is a problem when it is read, so delete what is not offered. Who asks comes
from [buyer] in job.toml; what is not there is left to be written in by hand.

With --again it plans the job and writes a sheet for the next talk with each supplier
who has quoted: at which lower prices we would take more of what, and what free
delivery or a smaller step would be worth. It names no other supplier and no price of
one, so it can be left with the yard.`,
		Example: `  mediabuy request
  mediabuy request spring --supplier "Hollow Lane Stone" -o asking
  mediabuy request --again --supplier "Low Ford Quarry"`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runRequest(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *requestOptions) addFlags(fs *pflag.FlagSet) {
	o.files.addFlags(fs)
	o.paper.addFlags(fs)
	fs.StringArrayVar(&o.suppliers, "supplier", nil, "ask supplier `NAME`, known or new; may be given again; without it every supplier of the job")
	fs.BoolVar(&o.talk, "again", false, "write a sheet for the next talk with each supplier instead, into talks within JOB")
	o.limit.addFlag(fs, "with --again, stop each search after `TIME`, such as 30s; what is then not settled is said")
	fs.StringVarP(&o.out, "output", "o", "", "write into folder `DIR`; without it into requests within JOB")
}

func runRequest(ctx context.Context, a *app, o *requestOptions, dir string) error {
	if err := o.limit.check(); err != nil {
		return err
	}
	if o.limit.timeLimit > 0 && !o.talk {
		return &usageError{"--time-limit without --again has nothing to limit", "leave it out, or add --again"}
	}
	if _, err := o.paper.style(&quotes.Settings{}); err != nil {
		return err
	}
	in, st, err := o.paper.load(a, dir, o.files)
	if err != nil {
		return err
	}
	if o.talk {
		return o.runAgain(ctx, a, in, dir, st)
	}
	requests, err := papers.Requests(in.job, o.suppliers, st)
	if err != nil {
		return err
	}
	doc := document.NewRequest(requests)
	list, err := in.filed(sheaf.Requests(requests, st))
	if err != nil {
		return err
	}
	to := o.out
	if to == "" {
		to = filepath.Join(dir, "requests")
	}
	if doc.Files, err = o.paper.write(ctx, in, paperSet{to, "name another folder with -o", list}); err != nil {
		return err
	}
	if o.paper.answer.json {
		return a.printJSON(doc)
	}
	return a.print(show.Request(doc.Suppliers, doc.Files))
}
