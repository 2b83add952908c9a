package lpsolve

import (
	"fmt"
	"strings"
)

func (w *twin) lptext() string {
	var b strings.Builder
	b.WriteString("Minimize\n obj: ")
	for j, c := range w.cols {
		fmt.Fprintf(&b, "%+.17g x%d ", c.cost, j)
	}
	b.WriteString("\nSubject To\n")
	for i, r := range w.rows {
		n := 0
		for _, e := range w.terms {
			if e.row == i && e.coef != 0 {
				if n == 0 {
					fmt.Fprintf(&b, " r%d: ", i)
				}
				fmt.Fprintf(&b, "%+.17g x%d ", e.coef, e.col)
				n++
			}
		}
		if n > 0 {
			fmt.Fprintf(&b, "%s %g\n", map[Relation]string{AtMost: "<=", AtLeast: ">=", Equal: "="}[r.rel], r.rhs)
		} else {
			fmt.Fprintf(&b, "\\ empty %v %g\n", r.rel, r.rhs)
		}
	}
	b.WriteString("Bounds\n")
	for j, c := range w.cols {
		lo, hi := fmt.Sprintf("%g", c.lower), fmt.Sprintf("%g", c.upper)
		if c.lower <= -Infinity {
			lo = "-inf"
		}
		if c.upper >= Infinity {
			hi = "+inf"
		}
		fmt.Fprintf(&b, " %s <= x%d <= %s\n", lo, j, hi)
	}
	b.WriteString("General\n")
	for j, c := range w.cols {
		if c.integer {
			fmt.Fprintf(&b, " x%d\n", j)
		}
	}
	b.WriteString("End\n")
	return b.String()
}
var _ = fmt.Sprint
