// Package sheet edits a CSV file as it stands. Whatever is not edited stays byte
// for byte: comments, the order of columns, unknown columns, quote marks, line
// ends and the encoding.
//
// Open reads a file the way package quotes does, with the same heading line, the
// same separator and the same places of cells, so that a problem told by line and
// column is at home in one of its cells. A Sheet never changes: every edit gives
// another.
package sheet

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

// separators are the signs that may separate cells, likeliest first.
var separators = []rune{',', ';', '\t'}

// Open reads a file. known are the headings that its kind may have; they settle
// which sign separates cells. The error is for bytes that are no text.
func Open(raw []byte, known []string) (*Sheet, error) {
	text, form, err := decode(raw)
	if err != nil {
		return nil, err
	}
	return read(text, form, known)
}

// read finds the rows and cells of decoded text.
func read(text string, f form, known []string) (*Sheet, error) {
	s := &Sheet{text: text, form: f, known: known, comma: separators[0], eol: lineEnd(text)}
	starts, masked := s.lines()
	if s.HeadLine == 0 {
		return s, nil
	}
	cr := csv.NewReader(strings.NewReader(masked))
	cr.Comma, cr.Comment, cr.FieldsPerRecord = s.comma, '#', -1
	cr.LazyQuotes, cr.TrimLeadingSpace = true, s.comma != '\t'
	for {
		rec, err := cr.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("reading the rows: %w", err)
		}
		row := s.row(rec, cr, starts)
		switch {
		case s.Heads == nil:
			s.Heads = row.Cells
		case !blank(rec):
			s.Rows = append(s.Rows, row)
		}
	}
	s.comments(starts)
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

// lines finds the offset of each line, the heading line and its separator. masked
// is the text with whatever stands before the headings made a comment, byte for
// byte, and with "\n" where lines end in "\r" alone.
func (s *Sheet) lines() (starts []int, masked string) {
	text := s.text
	if s.eol == "\r" {
		text = strings.ReplaceAll(text, "\r", "\n")
	}
	b := []byte(text)
	for from := 0; from < len(text); {
		starts = append(starts, from)
		to := len(text)
		if i := strings.IndexByte(text[from:], '\n'); i >= 0 {
			to = from + i + 1
		}
		if line := text[from:to]; s.HeadLine == 0 && strings.TrimRight(line, "\r\n") != "" {
			if preamble(line) {
				b[from] = '#'
			} else {
				s.HeadLine = len(starts)
				s.comma = separatorOf(line, s.known)
			}
		}
		from = to
	}
	return starts, string(b)
}

// preamble reports whether a line before the headings holds none.
func preamble(line string) bool {
	t := strings.TrimSpace(line)
	if strings.Trim(line, " ,;\t\r\n\"") == "" || strings.HasPrefix(line, "#") || len(t) == 5 && strings.EqualFold(t[:4], "sep=") {
		return true
	}
	return slices.ContainsFunc(separators, func(r rune) bool { return remark(SplitRow(line, r)) })
}

// remark reports whether cells are a comment as a spreadsheet saves it: the first
// begins with # and no other has anything in it.
func remark(cells []string) bool {
	return strings.HasPrefix(cells[0], "#") && blank(cells[1:])
}

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

// HeadingKey is a heading as the job's files know it: lower case, "_" for spaces
// and hyphens.
func HeadingKey(s string) string {
	s = strings.Map(func(r rune) rune {
		if r == '_' || r == '-' {
			return ' '
		}
		return r
	}, strings.ToLower(s))
	return strings.Join(strings.Fields(s), "_")
}

// SplitRow is the cells of one row by itself; it always gives at least one.
func SplitRow(row string, comma rune) []string {
	cr := csv.NewReader(strings.NewReader(row))
	cr.Comma, cr.LazyQuotes, cr.TrimLeadingSpace = comma, true, comma != '\t'
	cells, err := cr.Read()
	if err != nil || len(cells) == 0 {
		return []string{""} // lazy reading of one row fails only at its end
	}
	return cells
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
	if remark(rec) {
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
