package plaintext

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/lazy"
)

// Column is one column of a table that sets several beside one another, with its heading.
type Column struct {
	Head [2]int
	Text string // as long as the whole, with blanks in place of the other columns
}

// Beside takes the first table in a text apart whose columns, but for the first, are all headed by names; none where there is no such
// table of three lines or more. Rest is the text without it.
func Beside(text string, name func(from, to int) bool) (columns []Column, rest string) {
	lines := Lines(text)
	for i, l := range lines {
		for _, sep := range []byte{'\t', '|', Gap} {
			head := Cells(text, l[0], l[1], sep)
			if len(head) < 3 || slices.ContainsFunc(head[1:], func(c [2]int) bool { return c[0] == c[1] || !name(c[0], c[1]) }) {
				continue
			}
			rows := [][][2]int{head}
			to := l[1]
			for _, below := range lines[i+1:] {
				row := under(text, head, Cells(text, below[0], below[1], sep))
				if row == nil {
					break
				}
				rows, to = append(rows, row), below[1]
			}
			if len(rows) < 3 || !filled(text, rows[1:]) {
				continue
			}
			for j := range head[1:] {
				columns = append(columns, Column{head[j+1], alone(text, l[0], to, rows, j+1, sep)})
			}
			return columns, text[:l[0]] + text[to:]
		}
	}
	return nil, text
}

// under are the cells of a row, each below its heading: in their order where it has as many, else by where they stand; nil for a line
// that is none of the table.
func under(text string, head, row [][2]int) [][2]int {
	if len(row) < 2 || len(row) > len(head) {
		return nil
	}
	if len(row) == len(head) {
		return row
	}
	middle := func(c [2]int) int { return c[0] + c[1] - 2*(strings.LastIndexByte(text[:c[0]], '\n')+1) }
	out := make([][2]int, len(head))
	out[0] = row[0]
	last := 0
	for _, c := range row[1:] {
		best := slices.Index(head, slices.MinFunc(head[1:], func(a, b [2]int) int {
			return max(middle(a)-middle(c), middle(c)-middle(a)) - max(middle(b)-middle(c), middle(c)-middle(b))
		}))
		if best <= last {
			return nil
		}
		out[best], last = c, best
	}
	return out
}

// filled says whether one row has a number in every column.
func filled(text string, rows [][][2]int) bool {
	return slices.ContainsFunc(rows, func(row [][2]int) bool {
		return !slices.ContainsFunc(row[1:], func(c [2]int) bool { return !strings.ContainsAny(text[c[0]:c[1]], "0123456789") })
	})
}

// alone is a text with all of a table between two bytes blank but for the labels of its rows and one column.
func alone(text string, from, to int, rows [][][2]int, column int, sep byte) string {
	b := []byte(text)
	for i := from; i < to; i++ {
		if sep != Gap && b[i] == sep || !strings.ContainsRune("\r\n", rune(b[i])) && ruled.MatchString(lineAt(text, i)) {
			b[i] = ' '
		}
	}
	for _, row := range rows {
		for j, c := range row {
			if j != column && j > 0 {
				copy(b[c[0]:c[1]], strings.Repeat(" ", c[1]-c[0]))
			}
		}
	}
	return string(b)
}

// ruled is a line of a table that holds nothing.
var ruled = lazy.Compile(`^[-:=+| \t]*$`)

func lineAt(text string, at int) string {
	line, _, _ := strings.Cut(text[strings.LastIndexByte(text[:at], '\n')+1:], "\n")
	return strings.TrimRight(line, "\r")
}
