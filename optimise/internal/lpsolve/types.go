package lpsolve

import (
	"errors"
	"fmt"
	"time"
)

// Status says why a solve stopped. The zero value is not success.
type Status int

// The ways a solve can end.
const (
	NotSolved        Status = iota
	Optimal                 // the search ended; nothing is cheaper
	Feasible                // a limit came first; Result.X fits but may not be cheapest
	Limit                   // a limit came first and no solution was found yet
	Infeasible              // no solution
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
	Status     Status
	Objective  float64   // cost of X
	X          []float64 // one value a column; empty without a solution
	Limit      string    // what came first: "time", "work", "context"; "" if nothing
	Detail     string    // the C function and the code it returned
	Iterations int64     // simplex iterations
}

// Options are the settings of one Solve; the zero value works.
type Options struct {
	// TimeLimit ends the search; 0 means no limit. It is looked at between
	// simplex iterations, so it holds to a few milliseconds.
	TimeLimit time.Duration
	// WorkLimit ends the search after about so many simplex iterations; 0 means
	// no limit. Unlike a time it stops at the same place each time.
	WorkLimit int64
	// Pricing is how the simplex picks its next move.
	Pricing Pricing
}

// Pricing is a rule for the next move of the simplex (lp_solve 5.5 reference
// guide, set_pivoting.htm). One rule may go round in circles where another gets
// through.
type Pricing int

// The rules. The zero Pricing is the library's own choice.
const (
	PricingDevex      Pricing = iota // adaptive devex
	PricingSteepest                  // adaptive steepest edge
	PricingDantzig                   // largest reduced cost
	PricingFirstIndex                // lowest number: slow, and hard to make go in circles
)

// Infinity is lp_solve's infinite bound; anything at or beyond it is infinite.
const Infinity = 1e30

// ErrClosed is returned by every method of a Problem after Close.
var ErrClosed = errors.New("lp_solve: the problem is closed, want a new one from lpsolve.New")

// ErrNotBuilt is what a program built without the C library answers when it is to
// solve; everything that needs no linear program works.
var ErrNotBuilt = errors.New("this program was built without lp_solve, so it reads, checks and converts but cannot solve; build it where the C library is, with cgo on")

// Relation says how a row's left side stands to its right side.
type Relation int

// The relations of a row.
const (
	AtMost  Relation = iota + 1 // left side ≤ right side
	AtLeast                     // left side ≥ right side
	Equal                       // left side = right side
)

// String gives the sign of the relation.
func (r Relation) String() string {
	switch r {
	case AtMost:
		return "≤"
	case AtLeast:
		return "≥"
	case Equal:
		return "="
	}
	return fmt.Sprintf("Relation(%d)", int(r))
}

// Basis is the state a solve starts from, as lp_solve writes it; treat it as
// opaque. It fits only problems with the same numbers of rows and columns.
type Basis []int32

// Piece is the basis of a problem that has some of the rows and columns of another:
// its row i is row Rows[i] there and its column j column Cols[j].
type Piece struct {
	Basis      Basis
	Rows, Cols []int
}
