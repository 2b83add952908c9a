package quotes

import (
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"mediabuy/units"
)

// grid is the text of a CSV file with what its heading line tells: where it is
// and which sign separates cells.
type grid struct {
	name     string
	text     string // lines before the headings that hold no cell are turned into comments, byte for byte
	starts   []int  // offset of each line
	headLine int    // counts from 1; 0: there is no line with a cell
	comma    rune
}

// separators are the signs that may separate cells, likeliest first.
var separators = []rune{',', ';', '\t'}

func separatorName(r rune) string {
	switch r {
	case ';':
		return "semicolons"
	case '\t':
		return "tabs"
	}
	return "commas"
}

// newGrid finds the heading line, which is the first with anything in it that
// is no comment, and the separator under which most known headings stand in it.
func newGrid(name, text string, known []string) *grid {
	if !strings.Contains(text, "\n") {
		text = strings.ReplaceAll(text, "\r", "\n") // lines ended by CR alone; no offset moves
	}
	g := &grid{name: name, comma: separators[0]}
	b := []byte(text)
	for from := 0; from < len(text); {
		g.starts = append(g.starts, from)
		to := from + len(text[from:])
		if i := strings.IndexByte(text[from:], '\n'); i >= 0 {
			to = from + i + 1
		}
		if line := text[from:to]; g.headLine == 0 && line != "\n" && line != "\r\n" {
			if preamble(line) {
				b[from] = '#'
			} else {
				g.headLine = len(g.starts)
				g.comma = separatorOf(line, known)
			}
		}
		from = to
	}
	g.text = string(b)
	return g
}

// preamble reports whether a line before the headings holds none: a comment, a
// row of empty cells, or the sep=; line by which spreadsheets name the separator.
func preamble(line string) bool {
	t := strings.TrimSpace(line)
	if blankRow(line) || strings.HasPrefix(line, "#") || len(t) == 5 && strings.EqualFold(t[:4], "sep=") {
		return true
	}
	return slices.ContainsFunc(separators, func(r rune) bool { return remark(line, r) })
}

// blankRow reports whether a row has no cell with anything in it.
func blankRow(row string) bool { return strings.Trim(row, " ,;\t\r\n\"") == "" }

// remark reports whether the first cell of a row begins with # and no other has
// anything in it: a comment as a spreadsheet saves it, in quote marks.
func remark(row string, comma rune) bool {
	cells := splitRow(row, comma)
	return strings.HasPrefix(cells[0], "#") &&
		!slices.ContainsFunc(cells[1:], func(c string) bool { return strings.TrimSpace(c) != "" })
}

// separatorOf picks the separator that gives most known headings, then most cells.
func separatorOf(line string, known []string) rune {
	best, bestKnown, bestCells := separators[0], -1, -1
	for _, r := range separators {
		cells := splitRow(line, r)
		n := 0
		for _, c := range cells {
			if slices.Contains(known, headingKey(c)) {
				n++
			}
		}
		if n > bestKnown || n == bestKnown && len(cells) > bestCells {
			best, bestKnown, bestCells = r, n, len(cells)
		}
	}
	return best
}

// splitRow is the cells of one row by itself; it always gives at least one.
func splitRow(row string, comma rune) []string {
	cells, _ := placedCells(row, comma)
	return cells
}

// placedCells is splitRow with the place of each cell, whose lines count from the
// first of the row.
func placedCells(row string, comma rune) (cells []string, at []Pos) {
	cr := csv.NewReader(strings.NewReader(row))
	cr.Comma, cr.LazyQuotes, cr.TrimLeadingSpace = comma, true, comma != '\t'
	cells, err := cr.Read()
	if err != nil || len(cells) == 0 {
		return []string{""}, []Pos{{Line: 1, Col: 1}} // lazy reading of one row fails only at its end
	}
	for i := range cells {
		line, col := cr.FieldPos(i)
		at = append(at, Pos{Line: line, Col: col})
	}
	return cells, at
}

// rowText is the text of a row from its line, which counts from 1, to the offset
// behind it.
func (g *grid) rowText(line int, to int64) string { return g.text[g.starts[line-1]:to] }

// endOf is the place behind the last cell of a row, where a missing one would stand.
func (g *grid) endOf(line int, row string) Pos {
	p := posAt(row, len(strings.TrimRight(row, "\r\n")), g.name)
	p.Line += line - 1
	return p
}

// lines is a run of lines, both ends included.
type lines struct{ from, to int }

func touches(bad []lines, from, to int) bool {
	return slices.ContainsFunc(bad, func(l lines) bool { return l.from <= to && from <= l.to })
}

// badQuotes reports the quote marks that make the cells of a file uncertain: a
// quoted cell never closed, or closed and followed by more text. The rows they
// stand in are not read. A quote mark inside an unquoted cell, as in 12", is fine.
func (x *reader) badQuotes(g *grid) []lines {
	var bad []lines
	s := quoteScan{g: g, line: 1}
	for s.at < len(g.text) {
		if s.atLineStart() && g.text[s.at] == '#' {
			s.skipLine()
			continue
		}
		from := s.line
		if found, wanted, hint, p := s.cell(); found != "" {
			x.problem(p, "", found, wanted, hint)
			bad = append(bad, lines{from, s.line})
		}
	}
	return bad
}

// quoteScan walks over a file cell by cell as csv.Reader does.
type quoteScan struct {
	g    *grid
	at   int
	line int  // of at, from 1
	from int  // where that line starts
	prev byte // the sign before at; 0 at the start
}

func (s *quoteScan) pos() Pos { return Pos{File: s.g.name, Line: s.line, Col: s.at - s.from + 1} }

func (s *quoteScan) atLineStart() bool { return s.prev == 0 || s.prev == '\n' }

func (s *quoteScan) step() {
	s.prev = s.g.text[s.at]
	s.at++
	if s.prev == '\n' {
		s.line++
		s.from = s.at
	}
}

func (s *quoteScan) skipLine() {
	for s.at < len(s.g.text) {
		s.step()
		if s.prev == '\n' {
			return
		}
	}
}

// cell walks over one cell and the separator after it.
func (s *quoteScan) cell() (found, wanted, hint string, p Pos) {
	text := s.g.text
	if s.g.comma != '\t' {
		rest := text[s.at:]
		if i := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsSpace(r) || r == '\n' }); i > 0 {
			s.at += i
			s.prev = text[s.at-1]
		}
	}
	if s.at >= len(text) || text[s.at] != '"' {
		for s.at < len(text) {
			s.step()
			if s.prev == '\n' || s.prev == byte(s.g.comma) {
				return
			}
		}
		return
	}
	open := s.pos()
	s.step()
	for s.at < len(text) {
		if text[s.at] != '"' {
			s.step()
			continue
		}
		rest := text[s.at+1:]
		switch {
		case strings.HasPrefix(rest, `"`):
			s.step()
		case rest == "", rest[0] == byte(s.g.comma), rest[0] == '\n', strings.HasPrefix(rest, "\r\n"), rest == "\r":
			s.step()
			// The line a cell ends on is the one its closing mark stands on, so stop before the line end.
			if s.at < len(text) && text[s.at] == byte(s.g.comma) {
				s.step()
			}
			return
		case found == "":
			p = s.pos()
			found, wanted = "a quoted cell goes on after its closing quote mark", "a separator or the end of the line there"
			hint = `a quote mark inside a quoted cell is written twice: "4'6"""`
		}
		s.step()
	}
	if found == "" {
		found, wanted, p = "a quoted cell is never closed", `a closing " at its end`, open
		hint = "every row from here on is swallowed by the cell; add the quote mark, or take out the one that opens it"
	}
	return
}

// numberedComments warns of skipped lines that look like rows about a size such
// as #57: leaving out a quote silently may cost money.
func (x *reader) numberedComments(g *grid, headings int) {
	for i, from := range g.starts {
		if i+1 <= g.headLine || headings < 2 || from+1 >= len(g.text) {
			continue
		}
		if g.text[from] != '#' || g.text[from+1] < '0' || g.text[from+1] > '9' {
			continue
		}
		to := len(g.text)
		if i+1 < len(g.starts) {
			to = g.starts[i+1]
		}
		if len(splitRow(g.text[from:to], g.comma)) == headings {
			x.warning(Pos{File: g.name, Line: i + 1, Col: 1}, "", "the line begins with # and is skipped as a comment, though it looks like a row", "",
				"put its first cell in quote marks if it is a row")
		}
	}
}

// nameless warns, once a column, of cells that stand under no heading.
func (x *reader) nameless(text string, g *grid, cr *csv.Reader, h *heads, told map[int]bool) {
	if len(h.noName) == 0 {
		return
	}
	cells := splitRow(text, g.comma)
	for _, i := range h.noName {
		if told[i] || i >= len(cells) || strings.TrimSpace(cells[i]) == "" {
			continue
		}
		told[i] = true
		x.warning(placeOf(cr, g.name, i), "", fmt.Sprintf("%s stands in a column with no heading and is not read", quoted(cells[i])), "",
			"give the column a heading")
	}
}

// settleMarks settles the decimal mark of each column of numbers: the job's, or
// the one its cells prove. Where some cells prove a point and some a comma, each
// is read by its own mark, said in a warning, and the column settles nothing for
// a number that reads two ways.
func (x *reader) settleMarks(s *sheet) {
	for _, col := range s.columns {
		if !col.number {
			continue
		}
		mark := x.mark
		if mark == units.MarkUnknown {
			mark = x.provenMark(s, col.heading)
		}
		for _, r := range s.rows {
			r.cell(col.heading).mark = mark
		}
	}
}

// provenMark is the one decimal mark that the cells of a column prove, if any. A
// cell may be a list, of which each part proves what it can.
func (x *reader) provenMark(s *sheet, heading string) units.DecimalMark {
	mark, proof, line, mixed := units.MarkUnknown, "", 0, false
	for _, r := range s.rows {
		c := r.cell(heading)
		if c.off {
			continue
		}
		for _, p := range parts(c.text) {
			m, _ := units.MarkOf(p)
			switch {
			case m == units.MarkUnknown || m == mark:
			case proof == "":
				mark, proof, line = m, p, c.Line
			default:
				mixed = true
				x.warn(c, fmt.Sprintf("%s has a decimal %s, but %s on line %d has a decimal %s; each is read by its own", quoted(p), markName(m),
					quoted(proof), line, markName(mark)), "check both, and write them alike")
			}
		}
	}
	if mixed {
		return units.MarkUnknown
	}
	return mark
}

func markName(m units.DecimalMark) string {
	if m == units.MarkComma {
		return "comma"
	}
	return "point"
}
