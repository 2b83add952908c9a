package main

import (
	"context"
	"errors"
	"fmt"
	"syscall"

	"mediabuy/cmd/mediabuy/internal/show"
	"mediabuy/cmd/mediabuy/internal/terminal"
	"mediabuy/disk"
	"mediabuy/quotes"
)

// Exit statuses.
const (
	exitDone       = 0
	exitFailed     = 1
	exitUsage      = 2
	exitFiles      = 3
	exitInfeasible = 4
	exitUnproven   = 5
)

// exitText ends every help text.
const exitText = `EXIT STATUS
  0  done
  1  something failed
  2  wrong use
  3  the files have problems
  4  no mix can satisfy the beds
  5  stopped at the time limit with an unproven answer
`

// What a verb may end with besides success. The answer itself, unproven or not,
// has been printed by then.
var (
	errInfeasible = errors.New("no mix of these quotes can satisfy the beds")
	errUnproven   = errors.New("the time limit came before the proof; a cheaper purchase may exist")
	errUnsettled  = errors.New("not every change was proven, as said with the answer; there may be others")
)

// usageError is a command line that cannot be followed.
type usageError struct{ msg, hint string }

func (e *usageError) Error() string { return e.msg }

// filesError says that a job's files have problems, so there is no answer.
type filesError struct {
	rep   *quotes.Report
	texts texts // what stood in the files
	said  bool  // the problems are part of the answer and have been printed
}

func (e *filesError) Error() string {
	if n := len(e.rep.Problems); n != 1 {
		return fmt.Sprintf("the files have %d problems, so there is no answer", n)
	}
	return "the files have 1 problem, so there is no answer"
}

// exitCode is the exit status of an error: the one place where they are told
// apart.
func exitCode(err error) int {
	var usage *usageError
	var files *filesError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &usage):
		return exitUsage
	case errors.As(err, &files):
		return exitFiles
	case errors.Is(err, errInfeasible):
		return exitInfeasible
	case errors.Is(err, errUnproven), errors.Is(err, errUnsettled):
		return exitUnproven
	}
	return exitFailed
}

// report says on standard error why a verb failed: lower case, no full stop, the
// cure on a line of its own.
func (a *app) report(err error) {
	if err == nil {
		return
	}
	if errors.Is(err, syscall.EPIPE) {
		return // whoever read the answer, such as head, has enough of it
	}
	var usage *usageError
	var files *filesError
	hint := ""
	switch {
	case errors.As(err, &usage):
		hint = usage.hint
	case errors.As(err, &files):
		if !files.said {
			fmt.Fprint(a.stderr, show.Problems(files.rep.Problems, files.texts, terminal.Coloured(a.stderr)))
		}
	case errors.Is(err, context.Canceled):
		err = errors.New("stopped before an answer; no file was changed")
	default:
		var words string
		words, hint = disk.Words(err)
		err = errors.New(words)
	}
	fmt.Fprintf(a.stderr, "mediabuy: %v\n", err)
	if hint != "" {
		fmt.Fprintf(a.stderr, "hint: %s\n", hint)
	}
}
