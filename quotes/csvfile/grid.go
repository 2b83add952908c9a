package csvfile

import (
	"encoding/csv"
	"slices"
	"strings"
)

// Grid is the text of a CSV file with what its heading line tells: where it is
// and which sign separates cells.
type Grid struct {
	Text     string // lines before the headings that hold no cell are turned into comments, byte for byte
	Starts   []int  // offset of each line
	HeadLine int    // counts from 1; 0: there is no line with a cell
	Comma    rune
}

// separators are the signs that may separate cells, likeliest first.
var separators = []rune{',', ';', '\t'}

// SeparatorName is what a person calls a separator.
func SeparatorName(r rune) string {
	switch r {
	case ';':
		return "semicolons"
	case '\t':
		return "tabs"
	}
	return "commas"
}

// NewGrid finds the heading line, which is the first with anything in it that
// is no comment, and the separator under which most known headings stand in it.
func NewGrid(text string, known []string) *Grid {
	if !strings.Contains(text, "\n") {
		text = strings.ReplaceAll(text, "\r", "\n") // lines ended by CR alone; no offset moves
	}
	g := &Grid{Comma: separators[0]}
	b := []byte(text)
	for from := 0; from < len(text); {
		g.Starts = append(g.Starts, from)
		to := from + len(text[from:])
		if i := strings.IndexByte(text[from:], '\n'); i >= 0 {
			to = from + i + 1
		}
		if line := text[from:to]; g.HeadLine == 0 && line != "\n" && line != "\r\n" {
			if preamble(line) {
				b[from] = '#'
			} else {
				g.HeadLine = len(g.Starts)
				g.Comma = separatorOf(line, known)
			}
		}
		from = to
	}
	g.Text = string(b)
	return g
}

// preamble reports whether a line before the headings holds none: a comment, a
// row of empty cells, or the sep=; line by which spreadsheets name the separator.
func preamble(line string) bool {
	t := strings.TrimSpace(line)
	if BlankRow(line) || strings.HasPrefix(line, "#") || len(t) == 5 && strings.EqualFold(t[:4], "sep=") {
		return true
	}
	return slices.ContainsFunc(separators, func(r rune) bool { return Remark(line, r) })
}

// BlankRow reports whether a row has no cell with anything in it.
func BlankRow(row string) bool { return strings.Trim(row, " ,;\t\r\n\"") == "" }

// Remark reports whether the first cell of a row begins with # and no other has
// anything in it: a comment as a spreadsheet saves it, in quote marks.
func Remark(row string, comma rune) bool {
	return remarked(SplitRow(row, comma))
}

func remarked(cells []string) bool { return strings.HasPrefix(cells[0], "#") && blank(cells[1:]) }

// separatorOf picks the separator that gives most known headings, then most cells.
func separatorOf(line string, known []string) rune {
	best, bestKnown, bestCells := separators[0], -1, -1
	for _, r := range separators {
		cells := SplitRow(line, r)
		n := 0
		for _, c := range cells {
			if slices.Contains(known, HeadingKey(c)) {
				n++
			}
		}
		if n > bestKnown || n == bestKnown && len(cells) > bestCells {
			best, bestKnown, bestCells = r, n, len(cells)
		}
	}
	return best
}

// SplitRow is the cells of one row by itself; it always gives at least one.
func SplitRow(row string, comma rune) []string {
	cells, _ := PlacedCells(row, comma)
	return cells
}

// PlacedCells is SplitRow with the place of each cell, whose lines count from the
// first of the row.
func PlacedCells(row string, comma rune) (cells []string, at []Spot) {
	cr := csv.NewReader(strings.NewReader(row))
	cr.Comma, cr.LazyQuotes, cr.TrimLeadingSpace = comma, true, comma != '\t'
	cells, err := cr.Read()
	if err != nil || len(cells) == 0 {
		return []string{""}, []Spot{{Line: 1, Col: 1}} // lazy reading of one row fails only at its end
	}
	for i := range cells {
		line, col := cr.FieldPos(i)
		at = append(at, Spot{Line: line, Col: col})
	}
	return cells, at
}

// RowText is the text of a row from its line, which counts from 1, to the offset
// behind it.
func (g *Grid) RowText(line int, to int64) string { return g.Text[g.Starts[line-1]:to] }

// EndOf is the place behind the last cell of a row, where a missing one would stand.
func (g *Grid) EndOf(line int, row string) Spot {
	p := spotAt(row, len(strings.TrimRight(row, "\r\n")))
	p.Line += line - 1
	return p
}

// Reader reads the cells of the grid, headings first, lazily: a bare 12" is a
// length, and [Grid.QuoteFaults] finds the quote marks that matter.
func (g *Grid) Reader() *csv.Reader {
	cr := csv.NewReader(strings.NewReader(g.Text))
	cr.Comma, cr.Comment, cr.LazyQuotes = g.Comma, '#', true
	cr.TrimLeadingSpace = g.Comma != '\t' // it would swallow empty cells between tabs
	return cr
}
