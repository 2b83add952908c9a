//go:build !cgo

package lpsolve

import "context"

// Problem cannot be had in a build without the C library: New says so, and nothing
// else is ever reached.
type Problem struct{}

// New answers with [ErrNotBuilt].
func New() (*Problem, error) { return nil, ErrNotBuilt }

// Close does nothing.
func (*Problem) Close() {}

// Rows is none.
func (*Problem) Rows() int { return 0 }

// Columns is none.
func (*Problem) Columns() int { return 0 }

// AddColumn answers with [ErrNotBuilt], as do all below.
func (*Problem) AddColumn(string, float64, float64, float64, []int, []float64) (int, error) {
	return 0, ErrNotBuilt
}

func (*Problem) AddRow(string, Relation, float64, []int, []float64) (int, error) {
	return 0, ErrNotBuilt
}
func (*Problem) SetBounds(int, float64, float64) error             { return ErrNotBuilt }
func (*Problem) SetCost(int, float64) error                        { return ErrNotBuilt }
func (*Problem) SetRHS(int, float64) error                         { return ErrNotBuilt }
func (*Problem) GetBasis(Basis) (Basis, error)                     { return nil, ErrNotBuilt }
func (*Problem) SetBasis(Basis) error                              { return ErrNotBuilt }
func (*Problem) Join([]Piece) Basis                                { return nil }
func (*Problem) ResetBasis() error                                 { return ErrNotBuilt }
func (*Problem) Duals([]float64) ([]float64, error)                { return nil, ErrNotBuilt }
func (*Problem) Solve(context.Context, Options) (Result, error)    { return Result{}, ErrNotBuilt }
func (*Problem) SolveInto(context.Context, Options, *Result) error { return ErrNotBuilt }
func (*Problem) SolveSteady(context.Context, Options, *Result) error {
	return ErrNotBuilt
}
