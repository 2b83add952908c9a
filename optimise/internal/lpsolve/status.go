package lpsolve

// #include "bridge.h"
import "C"

import "fmt"

// Status says why a solve stopped. The zero value is not success.
type Status int

// The ways a solve can end.
const (
	NotSolved        Status = iota
	Optimal                 // the search ended; nothing cheaper, or within the gaps asked for
	Feasible                // a limit came first; Result.X fits but may not be cheapest
	Limit                   // a limit came first and no solution was found yet
	Infeasible              // no solution, or with Options.CutOff none cheaper
	Unbounded               // the cost has no lower limit
	NumericalFailure        // the library gave up on the numbers
	Cancelled               // the context ended
	Unknown                 // a code this package does not know; Result.Detail holds it
)

// String names the status in words.
func (s Status) String() string {
	switch s {
	case NotSolved:
		return "not solved"
	case Optimal:
		return "optimal"
	case Feasible:
		return "feasible"
	case Limit:
		return "stopped by a limit"
	case Infeasible:
		return "infeasible"
	case Unbounded:
		return "unbounded"
	case NumericalFailure:
		return "numerical failure"
	case Cancelled:
		return "cancelled"
	case Unknown:
		return "unknown"
	}
	return fmt.Sprintf("Status(%d)", int(s))
}

// Result is what one Solve found.
type Result struct {
	Status    Status
	Objective float64   // cost of X
	X         []float64 // one value a column; empty without a solution
	// Bound is a lower limit that no solution can undercut: for Optimal the
	// objective (less 1e-9 of it, the simplex's own error, with whole columns);
	// when a limit came first, or a gap was asked for, the optimum of the
	// relaxation at the root. It is -Inf when the root was not finished and for
	// Unbounded, +Inf for Infeasible.
	Bound      float64
	Limit      string // what came first: "time", "depth", "gap", "context"; "" if nothing
	Detail     string // the C function and the code it returned
	Nodes      int64  // branches taken; 0 for a linear problem
	Iterations int64  // simplex iterations
}

// outcome maps what solve() returned. The codes are those of the lp_solve 5.5
// reference guide, solve.htm, and of lp_lib.h.
func outcome(code C.int) (Status, string) {
	switch code {
	case C.NOMEMORY:
		return NotSolved, "solve: NOMEMORY (-2)"
	case C.OPTIMAL:
		return Optimal, "solve: OPTIMAL (0)"
	case C.SUBOPTIMAL:
		return Feasible, "solve: SUBOPTIMAL (1)"
	case C.INFEASIBLE:
		return Infeasible, "solve: INFEASIBLE (2)"
	case C.UNBOUNDED:
		return Unbounded, "solve: UNBOUNDED (3)"
	case C.DEGENERATE:
		return NumericalFailure, "solve: DEGENERATE (4)"
	case C.NUMFAILURE:
		return NumericalFailure, "solve: NUMFAILURE (5)"
	case C.USERABORT:
		return Limit, "solve: USERABORT (6)"
	case C.TIMEOUT:
		return Limit, "solve: TIMEOUT (7)"
	case C.PROCFAIL:
		return NumericalFailure, "solve: PROCFAIL (10)"
	case C.PROCBREAK:
		return Limit, "solve: PROCBREAK (11)"
	case C.NOFEASFOUND:
		return Infeasible, "solve: NOFEASFOUND (13)"
	case C.ACCURACYERROR:
		return NumericalFailure, "solve: ACCURACYERROR (25)"
	}
	return Unknown, fmt.Sprintf("solve: unknown code %d", int(code))
}
