package lpsolve

// #include "bridge.h"
import "C"

import (
	"fmt"
	"math"
	"slices"
	"unsafe"
)

// AddColumn adds a column and returns its index. The column enters rows that
// exist already by coef[k] in row rows[k]; both may be empty, and AddRow may
// name the column later. The name is for messages only.
func (p *Problem) AddColumn(name string, cost, lower, upper float64, rows []int, coef []float64) (int, error) {
	if p.closed {
		return 0, ErrClosed
	}
	if !finite(cost) {
		return 0, fmt.Errorf("lp_solve: column %q: cost is %g, want a number under 1e30", name, cost)
	}
	if err := checkBounds(name, lower, upper); err != nil {
		return 0, err
	}
	if err := checkEntries("column", name, "row", rows, coef, len(p.rows)); err != nil {
		return 0, err
	}
	seen := make(map[int]bool, len(rows))
	for _, i := range rows {
		if seen[i] {
			return 0, fmt.Errorf("lp_solve: column %q: row %q is given twice, want one coefficient for each row", name, p.rows[i].name)
		}
		seen[i] = true
	}
	rows, coef = keep(rows, coef)
	j := len(p.cols)
	c := column{name: name, cost: cost, lower: clampInf(lower), upper: clampInf(upper)}
	if p.lp == nil {
		for k, i := range rows {
			p.entries = append(p.entries, entry{i, j, coef[k]})
		}
	} else if err := p.appendColumn(c, j, rows, coef); err != nil {
		return 0, err
	}
	p.cols = append(p.cols, c)
	p.mark = append(p.mark, -1)
	p.state = unsolved
	return j, nil
}

// AddRow adds the row Σ coef[k]·x[cols[k]] rel rhs and returns its index. A row
// without entries is kept as it stands. The name is for messages only.
func (p *Problem) AddRow(name string, rel Relation, rhs float64, cols []int, coef []float64) (int, error) {
	if p.closed {
		return 0, ErrClosed
	}
	if rel < AtMost || rel > Equal {
		return 0, fmt.Errorf("lp_solve: row %q: relation is %v, want AtMost, AtLeast or Equal", name, rel)
	}
	if !finite(rhs) {
		return 0, fmt.Errorf("lp_solve: row %q: right side is %g, want a number under 1e30", name, rhs)
	}
	if err := checkEntries("row", name, "column", cols, coef, len(p.cols)); err != nil {
		return 0, err
	}
	i := len(p.rows)
	for _, j := range cols {
		if p.mark[j] == i {
			p.unmark(cols)
			return 0, fmt.Errorf("lp_solve: row %q: column %q is given twice, want one coefficient for each column", name, p.cols[j].name)
		}
		p.mark[j] = i
	}
	kept, coef := keep(cols, coef)
	if p.lp == nil {
		for k, j := range kept {
			p.entries = append(p.entries, entry{i, j, coef[k]})
		}
	} else if err := p.appendRow(name, rel, rhs, kept, coef); err != nil {
		p.unmark(cols)
		return 0, err
	}
	p.rows = append(p.rows, row{name, rel, rhs})
	p.state = unsolved
	return i, nil
}

func (p *Problem) unmark(cols []int) {
	for _, j := range cols {
		p.mark[j] = -1
	}
}

// tiny is the size at which a coefficient counts as none; the library drops
// those under 1e-12 itself (reference guide, set_epsel.htm), and a problem left
// with none at all must not reach it.
const tiny = 1e-11

// keep returns the entries that count, the same slices when all do.
func keep(at []int, coef []float64) ([]int, []float64) {
	small := func(v float64) bool { return math.Abs(v) <= tiny }
	if !slices.ContainsFunc(coef, small) {
		return at, coef
	}
	var at2 []int
	var coef2 []float64
	for k, v := range coef {
		if !small(v) {
			at2, coef2 = append(at2, at[k]), append(coef2, v)
		}
	}
	return at2, coef2
}

func checkBounds(name string, lower, upper float64) error {
	if math.IsNaN(lower) || math.IsNaN(upper) || lower >= Infinity {
		return fmt.Errorf("lp_solve: column %q: bounds are %g and %g, want numbers, the lower under 1e30", name, lower, upper)
	}
	if lower <= -Infinity {
		// The library turns such a column round or splits it in two for the
		// solve. The basis then means something else afterwards and the duals are
		// wrong, all without a word (seen with 5.5.2.5 against enumeration).
		return fmt.Errorf("lp_solve: column %q: lower bound is %g, want a finite one, or the difference of two columns that start at 0", name, lower)
	}
	if lower > upper {
		return fmt.Errorf("lp_solve: column %q: lower bound %g is above upper bound %g, want lower ≤ upper", name, lower, upper)
	}
	return nil
}

func checkEntries(kind, name, other string, at []int, coef []float64, n int) error {
	if len(at) != len(coef) {
		return fmt.Errorf("lp_solve: %s %q: %d indexes and %d coefficients, want as many of each", kind, name, len(at), len(coef))
	}
	for k, i := range at {
		if i < 0 || i >= n {
			return fmt.Errorf("lp_solve: %s %q: %s index %d is out of range, want 0 to %d", kind, name, other, i, n-1)
		}
		if !finite(coef[k]) {
			return fmt.Errorf("lp_solve: %s %q: coefficient of %s %d is %g, want a number under 1e30", kind, name, other, i, coef[k])
		}
	}
	return nil
}

// load hands the problem built so far to C, column by column.
func (p *Problem) load() error {
	if p.lp != nil {
		return nil
	}
	lp := C.mb_new(C.int(len(p.rows)), C.int(len(p.cols)))
	if lp == nil {
		return fmt.Errorf("lp_solve: make_lp found no memory for %d rows and %d columns", len(p.rows), len(p.cols))
	}
	if err := p.fill(lp); err != nil {
		C.delete_lp(lp)
		return err
	}
	p.lp, p.entriesInC, p.entries = lp, len(p.entries), nil
	return nil
}

func (p *Problem) fill(lp *C.lprec) error {
	// The type comes before the columns: changing it later would change the
	// sign of the row's entries one by one.
	for i, r := range p.rows {
		if C.set_constr_type(lp, C.int(i+1), r.rel.c()) == 0 {
			return fmt.Errorf("lp_solve: set_constr_type refused row %q", r.name)
		}
		if C.set_rh(lp, C.int(i+1), C.double(r.rhs)) == 0 {
			return fmt.Errorf("lp_solve: set_rh refused row %q", r.name)
		}
	}
	start, at, coef := p.byColumn()
	if len(p.cols) > 0 {
		if bad := C.mb_add_columns(lp, C.int(len(p.cols)), &start[0], &at[0], &coef[0]); bad != 0 {
			return fmt.Errorf("lp_solve: add_columnex refused column %q", p.cols[bad-1].name)
		}
	}
	for j, c := range p.cols {
		if err := setSpan(lp, j, c); err != nil {
			return err
		}
	}
	return nil
}

// byColumn sorts the entries by column, then row, the cost leading as row 0,
// by counting: no entry is compared with another.
func (p *Problem) byColumn() (start, at []C.int, coef []C.double) {
	start = make([]C.int, len(p.cols)+1)
	for j := range p.cols {
		start[j+1] = 1 // the cost
	}
	for _, e := range p.entries {
		start[e.col+1]++
	}
	for j := range p.cols {
		start[j+1] += start[j]
	}
	n := int(start[len(p.cols)])
	at, coef = make([]C.int, n+1), make([]C.double, n+1) // never empty
	next := make([]C.int, len(p.cols))
	for j, c := range p.cols {
		at[start[j]], coef[start[j]] = 0, C.double(c.cost)
		next[j] = start[j] + 1
	}
	// Entries come by row except for those of AddColumn, so sort by row first.
	byRow := make([]int, len(p.rows)+1)
	for _, e := range p.entries {
		byRow[e.row+1]++
	}
	for i := range p.rows {
		byRow[i+1] += byRow[i]
	}
	order := make([]int, len(p.entries))
	for k, e := range p.entries {
		order[byRow[e.row]] = k
		byRow[e.row]++
	}
	for _, k := range order {
		e := p.entries[k]
		at[next[e.col]], coef[next[e.col]] = C.int(e.row+1), C.double(e.coef)
		next[e.col]++
	}
	return start, at, coef
}

// setSpan gives column j its bounds.
func setSpan(lp *C.lprec, j int, c column) error {
	if C.set_bounds(lp, C.int(j+1), C.double(c.lower), C.double(c.upper)) == 0 {
		return fmt.Errorf("lp_solve: set_bounds refused column %q", c.name)
	}
	return nil
}

func (p *Problem) appendColumn(c column, j int, rows []int, coef []float64) error {
	p.scratch(len(rows) + 1)
	p.idx[0], p.coef[0] = 0, C.double(c.cost)
	for k, i := range rows {
		p.idx[k+1], p.coef[k+1] = C.int(i+1), C.double(coef[k])
	}
	if C.add_columnex(p.lp, C.int(len(rows)+1), &p.coef[0], &p.idx[0]) == 0 {
		return fmt.Errorf("lp_solve: add_columnex refused column %q", c.name)
	}
	if err := setSpan(p.lp, j, c); err != nil {
		C.del_column(p.lp, C.int(j+1))
		return err
	}
	p.entriesInC += len(rows)
	return nil
}

func (p *Problem) appendRow(name string, rel Relation, rhs float64, cols []int, coef []float64) error {
	p.scratch(len(cols))
	for k, j := range cols {
		p.idx[k], p.coef[k] = C.int(j+1), C.double(coef[k])
	}
	if C.add_constraintex(p.lp, C.int(len(cols)), unsafe.SliceData(p.coef), unsafe.SliceData(p.idx), rel.c(), C.double(rhs)) == 0 {
		return fmt.Errorf("lp_solve: add_constraintex refused row %q", name)
	}
	p.entriesInC += len(cols)
	return nil
}

// scratch makes room for n entries, and for one when n is 0, so that C never
// sees a null list: null means "all columns" there.
func (p *Problem) scratch(n int) {
	n = max(n, 1)
	if cap(p.idx) < n {
		p.idx, p.coef = make([]C.int, 2*n), make([]C.double, 2*n)
	}
	p.idx, p.coef = p.idx[:n], p.coef[:n]
}

func (r Relation) c() C.int {
	switch r {
	case AtMost:
		return C.LE
	case AtLeast:
		return C.GE
	default:
		return C.EQ
	}
}
