// Command mediabuy compares suppliers' quotes for hard growing media and works
// out the cheapest safe purchase for a set of planting beds.
//
// One file holds one verb: a function that wires it, one that declares its flags
// and one that does the work and never sees the flag library. [verbs] lists
// them. Everything below main takes its streams as arguments.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"mediabuy/cmd/mediabuy/internal/beside"
	"mediabuy/cmd/mediabuy/internal/terminal"
)

func main() { os.Exit(run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// run does what the arguments ask for and returns the exit status. An interrupt
// stops the work; files are written whole or not at all, so none is left half
// done.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	return runWith(ctx, beside.Usual(), args, stdin, stdout, stderr)
}

func runWith(ctx context.Context, patience beside.Patience, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
	defer stop()
	out := &terminal.Outlet{W: stdout}
	in := &terminal.Inlet{Context: ctx, R: stdin}
	a := &app{stdin: in, stdout: out, stderr: stderr, now: time.Now, patience: patience}
	root := newRoot(a)
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(terminal.ForHelp{Outlet: out})
	root.SetErr(stderr)
	err := root.ExecuteContext(ctx)
	if out.Err != nil {
		err = out.Err // an answer that did not arrive is no answer, whatever it was
	}
	a.report(err)
	return exitCode(err)
}

// app is what every verb may use of the world outside.
type app struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	now            func() time.Time
	patience       beside.Patience
}
