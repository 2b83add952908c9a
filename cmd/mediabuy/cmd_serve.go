package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"mediabuy/cmd/mediabuy/internal/advice"
	"mediabuy/cmd/mediabuy/internal/beside"
	"mediabuy/optimise"
	"mediabuy/optimise/risk"
	"mediabuy/papers"
	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
	"mediabuy/web"
)

type serveOptions struct {
	listen   string
	readOnly bool
	units    string
	limit    searchLimit
	limits   connLimits
}

// serveListen is this machine alone, on a port that is free.
const serveListen = "127.0.0.1:0"

func newServeCommand(a *app) *cobra.Command {
	o := &serveOptions{limits: serveLimits()}
	c := &cobra.Command{
		Use:   "serve [JOB]",
		Short: "the same job as a local web page",
		Long: `Shows the job as a page on this machine: the answer to look at, the files to type
in, quotes to paste, prices to slide, papers to take away. Prints the address to
open, which is good once and for one browser; goes on until it is interrupted.

Changes made on the page are saved to the job's files, whole or not at all. A file
that is changed elsewhere meanwhile is not written over.`,
		Example: `  mediabuy serve
  mediabuy serve spring --read-only
  mediabuy serve spring --listen 127.0.0.1:8080`,
		Args: atMost(1),
		RunE: func(c *cobra.Command, args []string) error { return runServe(c.Context(), a, o, first(args, ".")) },
	}
	o.addFlags(c.Flags())
	return c
}

func (o *serveOptions) addFlags(fs *pflag.FlagSet) {
	fs.StringVar(&o.listen, "listen", serveListen, "listen at `ADDRESS`; port 0 is one that is free")
	fs.BoolVar(&o.readOnly, "read-only", false, "never write a file, as for a meeting")
	fs.StringVar(&o.units, "units", "", "show `UNITS`, us or metric, unless the browser chooses; without it us where the currency is USD")
	o.limit.addFlag(fs, fmt.Sprintf("stop each search after `TIME`; without it the job's own, or %v", web.SearchLimit))
}

// connLimits bound one connection.
type connLimits struct {
	head, read, write, idle time.Duration
	headBytes               int
}

// serveLimits are the limits of every connection. A report may take several searches, so there is room for these beyond
// the page's own limit; who sends a head slowly only holds a connection.
func serveLimits() connLimits {
	return connLimits{head: 10 * time.Second, read: 30 * time.Second, write: 5 * time.Minute, idle: 2 * time.Minute, headBytes: 64 << 10}
}

// serveLastWords is the time for requests under way at the end.
const serveLastWords = 5 * time.Second

// check refuses flags that cannot be followed.
func (o *serveOptions) check() (*units.System, error) {
	if err := o.limit.check(); err != nil {
		return nil, err
	}
	switch host, _, err := net.SplitHostPort(o.listen); {
	case err != nil:
		return nil, &usageError{fmt.Sprintf("--listen %q is not an address with a port", o.listen), "write one such as 127.0.0.1:8080, or leave it out"}
	case host == "" || net.ParseIP(host).IsUnspecified():
		return nil, o.everyNetwork()
	}
	if o.units == "" {
		return nil, nil
	}
	sys, err := (&answerFlags{units: o.units}).system(&quotes.Settings{})
	return &sys, err
}

func (o *serveOptions) everyNetwork() error {
	return &usageError{fmt.Sprintf("--listen %q is every network at once", o.listen), "name the one address that the page is to be reached by"}
}

func runServe(ctx context.Context, a *app, o *serveOptions, dir string) error {
	sys, err := o.check()
	if err != nil {
		return err
	}
	if err := jobFolder(dir); err != nil {
		return err
	}
	listener, err := net.Listen("tcp", o.listen)
	if err != nil {
		return fmt.Errorf("listening at %s: %w", o.listen, err)
	}
	defer listener.Close() // for the ways out before it is handed to the server, which closes it too
	host, _, err := net.SplitHostPort(listener.Addr().String())
	if err != nil {
		return fmt.Errorf("reading the address listened at: %w", err)
	}
	if net.ParseIP(host).IsUnspecified() { // by a name that stands for it
		return o.everyNetwork()
	}
	h, err := web.New(web.Options{
		Dir: dir, ReadOnly: o.readOnly, Units: sys, TimeLimit: o.limit.timeLimit, Hosts: []string{host}, Now: a.now,
		Report: pageReport(o.limit.timeLimit, a.patience), Advise: pageAdvice,
	})
	if err != nil {
		return err
	}
	server := &http.Server{
		Handler: h, ReadTimeout: o.limits.read, ReadHeaderTimeout: o.limits.head, WriteTimeout: o.limits.write,
		IdleTimeout: o.limits.idle, MaxHeaderBytes: o.limits.headBytes,
	}
	text := fmt.Sprintf("Open this address, which is good once:\n  %s\n", h.Link("http://"+listener.Addr().String()))
	if !net.ParseIP(host).IsLoopback() {
		text += "Anyone who can reach this machine and is given the address can use the page.\n"
	}
	if err := a.print(text + "Interrupt (Ctrl-C) to end.\n"); err != nil {
		return errors.Join(err, h.Close())
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err = <-ended:
		err = fmt.Errorf("serving the page: %w", err)
	case <-ctx.Done():
		last, cancel := context.WithTimeout(context.WithoutCancel(ctx), serveLastWords)
		defer cancel()
		if err = server.Shutdown(last); err != nil { // what is still under way is cut off
			err = server.Close()
		}
	}
	return errors.Join(err, h.Close())
}

// pageReport makes the page's report as justify makes its own; progress is the browser's
// to show.
func pageReport(limit time.Duration, wait beside.Patience) func(context.Context, web.ReportRequest) (*page.Page, error) {
	return func(ctx context.Context, r web.ReportRequest) (*page.Page, error) {
		report, err := beside.Report(ctx, &risk.Tidied{Reached: r.Reached, Cheapest: r.Reached}, r.Job, r.Warnings, r.Style, optimise.Options{TimeLimit: limit}, wait)
		if err != nil {
			return nil, err
		}
		report.For = r.For
		if r.For == papers.Coop {
			if err := beside.Shares(ctx, report, limit, nil); err != nil {
				return nil, err
			}
		}
		return papers.Justify(*report, r.Style)
	}
}

// pageAdvice is what plan says below its bill.
func pageAdvice(p *optimise.Plan, sys units.System) (more []string, cautions []caution.Caution) {
	return advice.More(p), caution.Of(p, sys)
}
