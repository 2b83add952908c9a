// Package mip holds a mixed-integer linear program as plain data, apart from
// any solver: named columns and rows that can be written out, checked against
// an answer, and handed to a [Solver].
//
//	minimise    constant + Σ_j cost[j]·x[j]
//	subject to  Σ_j coef[i,j]·x[j]  {≤, ≥, =}  rhs[i]     each row i
//	            lower[j] ≤ x[j] ≤ upper[j]                each column j
//	            x[j] whole                                where Integer
package mip

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"
)

// Rel is the relation of a row's sum to its right-hand side.
type Rel int

// Relations. The zero Rel is invalid.
const (
	AtMost Rel = iota + 1
	AtLeast
	Equal
)

func (r Rel) String() string {
	switch r {
	case AtMost:
		return "<="
	case AtLeast:
		return ">="
	case Equal:
		return "="
	}
	return fmt.Sprintf("Rel(%d)", int(r))
}

// Column is one unknown. Every column must have finite bounds: they are what
// makes a bound on the optimum computable from any set of row prices.
type Column struct {
	Name         string
	Cost         float64
	Lower, Upper float64
	Integer      bool
	// Late marks a column that follows from others as a rule: an answer is proposed once all those are whole, and
	// it is branched on last.
	Late bool
}

// Term is one coefficient of a row.
type Term struct {
	Col  int
	Coef float64
}

// Row is one linear condition.
type Row struct {
	Name  string
	Rel   Rel
	RHS   float64
	Terms []Term
}

// Model is a whole program. Build it with AddColumn and AddRow.
type Model struct {
	Name     string
	Constant float64
	Cols     []Column
	Rows     []Row
	// Implied are rows that every whole answer satisfies because it satisfies
	// Rows. They are no part of the model and are not written out: a solver may
	// round them into cuts.
	Implied []Row
	// Parts tells, for each column, which part of the model it belongs to, -1 for
	// one that several share; nil where the model has no parts. A row of columns
	// of one part is that part's own. It is only a hint of structure.
	Parts []int
}

// AddColumn appends c and returns its index.
func (m *Model) AddColumn(c Column) int {
	m.Cols = append(m.Cols, c)
	return len(m.Cols) - 1
}

// AddRow appends r; terms with a zero coefficient are left out and terms of one
// column are added up. It returns the row's index.
func (m *Model) AddRow(r Row) int {
	terms := make([]Term, 0, len(r.Terms))
	at := make(map[int]int, len(r.Terms))
	for _, t := range r.Terms {
		if t.Coef == 0 {
			continue
		}
		if i, ok := at[t.Col]; ok {
			terms[i].Coef += t.Coef
			continue
		}
		at[t.Col] = len(terms)
		terms = append(terms, t)
	}
	r.Terms = terms
	m.Rows = append(m.Rows, r)
	return len(m.Rows) - 1
}

// Value is the objective at x.
func (m *Model) Value(x []float64) float64 {
	v := m.Constant
	for j, c := range m.Cols {
		v += c.Cost * x[j]
	}
	return v
}

// Breach is a row, bound or whole-number condition that an answer breaks.
type Breach struct {
	Name string
	By   float64 // how far outside, in the row's own units
}

func (b Breach) Error() string { return fmt.Sprintf("%s is broken by %g", b.Name, b.By) }

// Check lists what x breaks by more than tol, relative to the size of the row:
// a row passes when it is off by at most tol × max(1, |rhs|, largest |term|).
func (m *Model) Check(x []float64, tol float64) []Breach {
	var out []Breach
	for j, c := range m.Cols {
		scale := max(1, math.Abs(x[j]))
		if d := max(c.Lower-x[j], x[j]-c.Upper); d > tol*scale || math.IsNaN(x[j]) {
			out = append(out, Breach{"bound of " + c.Name, d})
		}
		if d := math.Abs(x[j] - math.Round(x[j])); c.Integer && d > tol*scale {
			out = append(out, Breach{"whole number " + c.Name, d})
		}
	}
	for _, r := range m.Rows {
		sum, size := 0.0, max(1, math.Abs(r.RHS))
		for _, t := range r.Terms {
			v := t.Coef * x[t.Col]
			sum += v
			size = max(size, math.Abs(v))
		}
		var d float64
		switch r.Rel {
		case AtMost:
			d = sum - r.RHS
		case AtLeast:
			d = r.RHS - sum
		case Equal:
			d = math.Abs(sum - r.RHS)
		}
		if d > tol*size {
			out = append(out, Breach{"row " + r.Name, d})
		}
	}
	return out
}

// Status says why a solver stopped. The zero Status is not success.
type Status int

// Statuses.
const (
	NotSolved  Status = iota
	Optimal           // proven within Options.Gap
	Feasible          // a limit came first; Answer.X is the best found
	NoAnswer          // a limit came first and nothing was found
	Infeasible        // proven: no x satisfies the rows
)

func (s Status) String() string {
	switch s {
	case NotSolved:
		return "not solved"
	case Optimal:
		return "optimal"
	case Feasible:
		return "feasible"
	case NoAnswer:
		return "no answer"
	case Infeasible:
		return "infeasible"
	}
	return fmt.Sprintf("Status(%d)", int(s))
}

// Options steer one solve; the zero value works.
type Options struct {
	// Gap is how far, in money, the answer may be above the proven bound and
	// still be called optimal; 0 means DefaultGap.
	Gap float64
	// TimeLimit stops the search; 0 means none.
	TimeLimit time.Duration
	// CutOff is a value known to be reachable: only answers below it are of
	// interest; 0 means none is known.
	CutOff float64
	// Start is an answer to begin with; nil means none.
	Start []float64
	// Propose may turn a relaxation's x into whole values for the whole columns
	// that cost less than best, and offer each to fits, which reports whether the
	// other columns can follow and keeps the answer if so. Thorough asks for more
	// effort. It may be nil.
	Propose func(x []float64, best float64, thorough bool, fits func([]float64) bool) error
	// Lazy rows belong to the model but are too many to write down: given the x
	// of a relaxation or of a whole answer, it answers with some AtLeast rows that
	// x breaks, none if it breaks none. It may be nil.
	Lazy func(x []float64) ([]Row, error)
	// Tighten says that lazy rows follow from the others for whole answers: they are looked for at every
	// node, and let go where they do not bind.
	Tighten bool
	// Early says that lazy rows take long to find: Propose is asked before the first.
	Early bool
	// Progress is told of the search about four times a second; may be nil.
	Progress func(Progress)
}

// ErrLimit is what Propose and Lazy answer when the time limit they were told of
// is over; the search then stops as if it had seen so itself.
var ErrLimit = errors.New("the time limit is over")

// DefaultGap is just under half a cent: what "proven cheapest" means.
const DefaultGap = 0.0049

// Progress is where a search stands.
type Progress struct {
	Why         bool // it is known that there is no answer, and looked for why
	Nodes       int
	Best, Bound float64 // Best is +Inf until an answer is found
}

// Answer is what a solver found.
type Answer struct {
	Status    Status
	X         []float64
	Objective float64 // Value(X)
	Bound     float64 // no x of the model costs less
	Nodes     int     // linear programs solved
}

// Solver finds a least-cost x for a model. The error is for failures of the
// machinery and for a cancelled context, not for infeasible models.
type Solver interface {
	Solve(ctx context.Context, m *Model, opt Options) (*Answer, error)
}
