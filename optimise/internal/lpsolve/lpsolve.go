// Package lpsolve is a thin binding to the linear programs of lp_solve 5.5.2, a C
// library. It is the only package that imports "C".
//
// A Problem is
//
//	minimise    Σ_j cost[j]·x[j]
//	subject to  Σ_j coef[i,j]·x[j]  rel[i]  rhs[i]   each row i, rel one of ≤ ≥ =
//	            lower[j] ≤ x[j] ≤ upper[j]           each column j
//
// Rows and columns count from 0 here and from 1 in C; the shift happens in this
// package and nowhere else. The sense is always minimise.
//
// A Problem is built in Go memory and handed to C in one piece, column by
// column, at the first Solve: lp_solve stores columns, and adding 20 000 rows
// one at a time would move the whole matrix for each. Rows and columns added
// later (cuts, new columns) go straight to C. Coefficients of 1e-11 and less
// count as none.
//
// Numbers of 1e30 and beyond are infinite, as they are in C; math.Inf is
// accepted for bounds. Tolerances are the library's own: 1e-10 on rows and bounds
// and 1e-9 on reduced costs of the scaled problem (lp_solve 5.5 reference guide,
// set_epsb.htm, set_epsd.htm). So check an answer against your own rows before
// using it.
//
// The first New sets glibc's malloc, which is the whole process's, to keep freed memory
// for the next problem (bridge.c, mb_keep).
//
// Different Problems may be solved at once. The library keeps no shared state
// that an ordinary solve writes, with one known exception, found by reading
// version 5.5.2.5: the rook pivoting of its factorisation (LU1MXR) has static
// variables. It is reached only after a Problem's factorisation has proved
// unstable several times over.
package lpsolve

/*
// Static archives where the linker can be told so (-l:), so that the program
// needs the C library alone at run time; elsewhere, or with -tags lpsolve_shared,
// what the system offers.
#cgo linux,!lpsolve_shared LDFLAGS: -l:liblpsolve55.a -l:libcolamd.a -l:libsuitesparseconfig.a -lm -ldl
#cgo !linux lpsolve_shared LDFLAGS: -llpsolve55 -lcolamd -lm
#include <stdlib.h>
#include "bridge.h"
*/
import "C"

import (
	"errors"
	"math"
	"sync"
	"unsafe"
)

type column struct {
	name               string
	cost, lower, upper float64
}

type row struct {
	name string
	rel  Relation
	rhs  float64
}

type entry struct {
	row, col int
	coef     float64
}

// Problem is one linear or mixed-integer program. It owns C memory: call Close
// when done. One Problem must not be used by two goroutines at once; different
// Problems may be.
type Problem struct {
	cols    []column
	rows    []row
	entries []entry // only until loaded
	lp      *C.lprec
	watch   *C.mb_watch
	closed  bool
	mark    []int // last row to use each column, to find doubles

	idx        []C.int // scratch for rows and columns added late
	coef       []C.double
	seen       []bool // scratch for checkBasis
	entriesInC int
	state      state
	out        C.mb_outcome
}

// state says whether the last solution still answers the problem as it stands.
type state int

const (
	unsolved    state = iota
	solved            // by the library
	solvedPlain       // by solvePlain
)

var start = sync.OnceValue(func() bool { return C.mb_start() != 0 })

// New returns a Problem without rows and columns.
func New() (*Problem, error) {
	if !start() {
		return nil, errors.New("lp_solve: make_lp found no memory for a new problem")
	}
	w := (*C.mb_watch)(C.calloc(1, C.size_t(unsafe.Sizeof(C.mb_watch{}))))
	if w == nil {
		return nil, errors.New("lp_solve: calloc found no memory for a new problem")
	}
	return &Problem{watch: w}, nil
}

// Close frees the C memory. It may be called again; any other method then
// returns ErrClosed.
func (p *Problem) Close() {
	if p == nil || p.closed {
		return
	}
	p.closed = true
	if p.lp != nil {
		C.delete_lp(p.lp)
		p.lp = nil
	}
	C.free(unsafe.Pointer(p.watch))
	p.watch = nil
}

// Rows is the number of rows.
func (p *Problem) Rows() int { return len(p.rows) }

// Columns is the number of columns.
func (p *Problem) Columns() int { return len(p.cols) }

func finite(v float64) bool { return math.Abs(v) < Infinity } // false for NaN too

func clampInf(v float64) float64 { return max(-Infinity, min(Infinity, v)) }
