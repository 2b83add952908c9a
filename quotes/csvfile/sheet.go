// Package csvfile is the one layer that knows how a job's CSV files are written:
// encodings, the heading line, the sign that separates cells, comments, quote
// marks, and where every cell stands.
//
// [Decode] and [NewGrid] serve reading: a [Grid] gives rows to an encoding/csv
// reader and places to problems. [Open] serves editing: a [Sheet] leaves whatever
// is not edited byte for byte as it was, comments, the order of columns, unknown
// columns, quote marks, line ends and the encoding. Both go by the same grid, so a
// problem told by line and column is at home in one of a sheet's cells.
package csvfile

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Sheet is a CSV file of a job.
type Sheet struct {
	text  string // decoded
	form  form
	comma rune
	eol   string
	known []string

	// HeadLine is the line of the headings, from 1; 0 for a file without any.
	HeadLine int
	Heads    []Cell
	Rows     []Row // what comes after the headings, comments included
}

// Row is a row of cells, or a comment.
type Row struct {
	Line    int // where it begins, from 1
	Cells   []Cell
	Comment string // without the sign; Cells is then empty

	end int // offset after its line end
}

// Cell is one cell and its place.
type Cell struct {
	Line, Col int // from 1; Col counts bytes
	Text      string

	from, to int // offsets of what is written, quote marks included
}

// Open reads a file. known are the headings that its kind may have; they settle
// which sign separates cells. The error is for bytes that are no text.
func Open(raw []byte, known []string) (*Sheet, error) {
	text, fault := Decode(raw)
	if fault != nil {
		return nil, fault
	}
	return read(text.String, text.form, known)
}

// read finds the rows and cells of decoded text.
func read(text string, f form, known []string) (*Sheet, error) {
	g := NewGrid(text, known)
	s := &Sheet{text: text, form: f, known: known, comma: g.Comma, eol: lineEnd(text), HeadLine: g.HeadLine}
	if s.HeadLine == 0 {
		return s, nil
	}
	cr := g.Reader()
	cr.FieldsPerRecord = -1
	for {
		rec, err := cr.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("reading the rows: %w", err)
		}
		row := s.row(rec, cr, g.Starts)
		switch {
		case s.Heads == nil:
			s.Heads = row.Cells
		case !blank(rec):
			s.Rows = append(s.Rows, row)
		}
	}
	s.comments(g.Starts)
	return s, nil
}

func blank(rec []string) bool {
	return !slices.ContainsFunc(rec, func(c string) bool { return strings.TrimSpace(c) != "" })
}

// lineEnd is how the lines of a text end; a text of one line takes "\n".
func lineEnd(text string) string {
	switch {
	case strings.Contains(text, "\r\n"):
		return "\r\n"
	case !strings.Contains(text, "\n") && strings.Contains(text, "\r"):
		return "\r"
	}
	return "\n"
}

// row puts places to the cells of the record just read.
func (s *Sheet) row(rec []string, cr *csv.Reader, starts []int) Row {
	end := int(cr.InputOffset())
	row := Row{end: end}
	for i, text := range rec {
		line, col := cr.FieldPos(i)
		row.Cells = append(row.Cells, Cell{Line: line, Col: col, Text: text, from: starts[line-1] + col - 1})
	}
	row.Line = row.Cells[0].Line
	for i := range row.Cells {
		to := end
		if i+1 < len(row.Cells) {
			to = strings.LastIndexByte(s.text[:row.Cells[i+1].from], byte(s.comma))
		}
		for i+1 == len(row.Cells) && to > row.Cells[i].from && (s.text[to-1] == '\n' || s.text[to-1] == '\r') {
			to--
		}
		row.Cells[i].to = max(to, row.Cells[i].from)
	}
	if remarked(rec) {
		row.Comment = strings.TrimSpace(strings.TrimLeft(rec[0], "#"))
		row.Cells = nil
	}
	return row
}

// comments adds the comment lines between and after the rows, in their place.
func (s *Sheet) comments(starts []int) {
	taken := map[int]bool{s.HeadLine: true}
	for _, r := range s.Rows {
		last := r.Line + strings.Count(strings.TrimRight(s.text[starts[r.Line-1]:r.end], "\r\n"), "\n")
		for line := r.Line; line <= last; line++ {
			taken[line] = true
		}
	}
	for i, from := range starts {
		line := i + 1
		if line <= s.HeadLine || taken[line] || s.text[from] != '#' {
			continue
		}
		to := len(s.text)
		if i+1 < len(starts) {
			to = starts[i+1]
		}
		s.Rows = append(s.Rows, Row{Line: line, Comment: strings.TrimSpace(strings.TrimLeft(s.text[from:to], "#")), end: to})
	}
	slices.SortFunc(s.Rows, func(a, b Row) int { return a.Line - b.Line })
}

// At is the cell that a place of a problem is about, by the line of its row and
// its index there. ok is false where the place is not in a cell of a row.
func (s *Sheet) At(line, col int) (row, index int, ok bool) {
	for _, r := range s.Rows {
		for i, c := range r.Cells {
			if c.Line == line && c.Col == col {
				return r.Line, i, true
			}
		}
	}
	return 0, 0, false
}

// Column is the index of a known heading, or -1.
func (s *Sheet) Column(heading string) int {
	return slices.IndexFunc(s.Heads, func(c Cell) bool { return HeadingKey(c.Text) == heading })
}

// Width is the number of columns: of the headings, or of the longest row.
func (s *Sheet) Width() int {
	n := len(s.Heads)
	for _, r := range s.Rows {
		n = max(n, len(r.Cells))
	}
	return n
}

// Headings are the headings of a CSV file, such as the template of a job's file.
func Headings(raw []byte) []string {
	for line := range strings.Lines(string(raw)) {
		if strings.TrimSpace(line) != "" && !strings.HasPrefix(line, "#") {
			return SplitRow(line, ',')
		}
	}
	return nil
}
