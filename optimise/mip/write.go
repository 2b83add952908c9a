package mip

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// WriteLP writes the model as LP text, which most solvers read. Names are
// made safe for the format.
func (m *Model) WriteLP(w io.Writer) error {
	b := bufio.NewWriter(w)
	cols, rows := m.safeNames()
	fmt.Fprintf(b, "\\ %s\n\\ least cost in money; add the constant %s to the objective\n", m.Name, num(m.Constant))
	b.WriteString("Minimize\n cost:")
	line := newWrapper(b)
	for j, c := range m.Cols {
		if c.Cost != 0 {
			line.term(c.Cost, cols[j])
		}
	}
	if line.n == 0 && len(m.Cols) > 0 {
		line.term(0, cols[0])
	}
	b.WriteString("\nSubject To\n")
	for i, r := range m.Rows {
		fmt.Fprintf(b, " %s:", rows[i])
		line := newWrapper(b)
		if len(r.Terms) == 0 { // a layer that nothing may fill: keep the row, so that readers see it cannot hold
			line.term(0, cols[0])
		}
		for _, t := range r.Terms {
			line.term(t.Coef, cols[t.Col])
		}
		fmt.Fprintf(b, " %s %s\n", r.Rel, num(r.RHS))
	}
	b.WriteString("Bounds\n")
	for j, c := range m.Cols {
		fmt.Fprintf(b, " %s <= %s <= %s\n", num(c.Lower), cols[j], num(c.Upper))
	}
	b.WriteString("Generals\n")
	for j, c := range m.Cols {
		if c.Integer {
			fmt.Fprintf(b, " %s\n", cols[j])
		}
	}
	b.WriteString("End\n")
	return b.Flush()
}

// WriteAnswer writes x as comments of LP text, one column a line under the name
// that WriteLP gives it; columns at 0 are left out.
func (m *Model) WriteAnswer(w io.Writer, x []float64) error {
	b := bufio.NewWriter(w)
	cols, _ := m.safeNames()
	for j, v := range x {
		if v != 0 {
			fmt.Fprintf(b, "\\   %s = %s\n", cols[j], num(v))
		}
	}
	return b.Flush()
}

// WriteMPS writes the model as free-format MPS. The word FREE after the name is
// for readers that otherwise guess the format from the first short line.
func (m *Model) WriteMPS(w io.Writer) error {
	b := bufio.NewWriter(w)
	cols, rows := m.safeNames()
	fmt.Fprintf(b, "* least cost in money; add the constant %s to the objective\nNAME mediabuy FREE\nROWS\n N cost\n", num(m.Constant))
	perCol := make([][]Term, len(m.Cols)) // Term.Col is the row here
	for i, r := range m.Rows {
		kind := map[Rel]string{AtMost: "L", AtLeast: "G", Equal: "E"}[r.Rel]
		fmt.Fprintf(b, " %s %s\n", kind, rows[i])
		for _, t := range r.Terms {
			perCol[t.Col] = append(perCol[t.Col], Term{i, t.Coef})
		}
	}
	// A column that costs nothing and stands in no row would be lost by readers
	// that keep no zeros: it gets a row that never binds.
	spare, lone := 0.0, false
	for j, c := range m.Cols {
		if c.Cost == 0 && len(perCol[j]) == 0 {
			spare, lone = spare+max(0, c.Upper), true
		}
	}
	if lone {
		b.WriteString(" L r_spare\n")
	}
	b.WriteString("COLUMNS\n")
	whole, markers := false, 0
	mark := func(want bool) {
		if want != whole {
			kind := "'INTORG'"
			if whole {
				kind = "'INTEND'"
			}
			fmt.Fprintf(b, " M%d 'MARKER' %s\n", markers, kind)
			markers++
			whole = want
		}
	}
	for j, c := range m.Cols {
		mark(c.Integer)
		if c.Cost != 0 {
			fmt.Fprintf(b, " %s cost %s\n", cols[j], num(c.Cost))
		} else if len(perCol[j]) == 0 {
			fmt.Fprintf(b, " %s r_spare 1\n", cols[j])
		}
		for _, t := range perCol[j] {
			fmt.Fprintf(b, " %s %s %s\n", cols[j], rows[t.Col], num(t.Coef))
		}
	}
	mark(false)
	b.WriteString("RHS\n")
	for i, r := range m.Rows {
		if r.RHS != 0 {
			fmt.Fprintf(b, " RHS %s %s\n", rows[i], num(r.RHS))
		}
	}
	if lone {
		fmt.Fprintf(b, " RHS r_spare %s\n", num(spare))
	}
	b.WriteString("BOUNDS\n")
	for j, c := range m.Cols {
		fmt.Fprintf(b, " LO BND %s %s\n UP BND %s %s\n", cols[j], num(c.Lower), cols[j], num(c.Upper))
	}
	b.WriteString("ENDATA\n")
	return b.Flush()
}

func num(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }

// wrapper breaks long sums: some readers stop at 255 signs a line.
type wrapper struct {
	w   *bufio.Writer
	n   int
	len int
}

func newWrapper(w *bufio.Writer) *wrapper { return &wrapper{w: w} }

func (l *wrapper) term(coef float64, name string) {
	s := " + " + num(coef) + " " + name
	if coef < 0 {
		s = " - " + num(-coef) + " " + name
	}
	if l.len > 0 && l.len+len(s) > 200 {
		l.w.WriteString("\n  ")
		l.len = 0
	}
	l.w.WriteString(s)
	l.len += len(s)
	l.n++
}

// safeNames gives every column and row a name that LP and MPS readers take:
// letters, digits and _ . only, at most 60 signs, unique, not starting with a
// digit, a dot or the letter e (which would read as a number).
func (m *Model) safeNames() (cols, rows []string) {
	used := map[string]bool{"cost": true, "r_spare": true}
	safe := func(prefix, name string) string {
		clean := strings.Map(func(r rune) rune {
			switch {
			case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '.':
				return r
			}
			return '_'
		}, name)
		clean = prefix + clean
		if len(clean) > 60 {
			clean = clean[:60]
		}
		out := clean
		for n := 2; used[out]; n++ {
			tail := "." + strconv.Itoa(n)
			out = clean[:min(len(clean), 60-len(tail))] + tail
		}
		used[out] = true
		return out
	}
	for _, c := range m.Cols {
		cols = append(cols, safe("x_", c.Name))
	}
	for _, r := range m.Rows {
		rows = append(rows, safe("r_", r.Name))
	}
	return cols, rows
}
