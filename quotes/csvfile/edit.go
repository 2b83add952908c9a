package csvfile

import (
	"fmt"
	"slices"
	"strings"
)

// Place names a cell: the line on which its row begins, and its index from 0.
type Place struct{ Line, Index int }

// splice puts text in place of text[from:to].
type splice struct {
	from, to int
	text     string
}

// Bytes is the file as it is to be written. The error is for a sign that the
// encoding of the file does not have.
func (s *Sheet) Bytes() ([]byte, error) { return s.form.encode(s.text) }

// Set gives the sheet with the cells of some places changed. A row that is too
// short gets the cells it lacks. It is an error if there is no such row.
func (s *Sheet) Set(cells map[Place]string) (*Sheet, error) {
	var edits []splice
	width, rows := s.Width(), map[int]Row{} // looked up once: forms send every cell of a large sheet
	for _, row := range s.Rows {
		if len(row.Cells) > 0 {
			rows[row.Line] = row
		}
	}
	beyond := map[int][]int{} // by line, the columns of cells that its row does not have yet
	for place, text := range cells {
		row, ok := rows[place.Line]
		switch {
		case !ok:
			return nil, noRow(place.Line)
		case place.Index < 0 || place.Index >= width:
			return nil, fmt.Errorf("line %d has no cell %d, want one from 1 to %d", place.Line, place.Index+1, width)
		case place.Index < len(row.Cells):
			c := row.Cells[place.Index]
			edits = append(edits, splice{c.from, c.to, s.written(text, place.Index)})
		case text != "":
			beyond[place.Line] = append(beyond[place.Line], place.Index)
		}
	}
	// Missing cells of a row are added together, in order.
	for line, cols := range beyond {
		slices.Sort(cols)
		row, missing := rows[line], ""
		n := len(row.Cells)
		for _, i := range cols {
			missing += strings.Repeat(string(s.comma), i-n+1) + s.written(cells[Place{line, i}], i)
			n = i + 1
		}
		at := row.Cells[len(row.Cells)-1].to
		edits = append(edits, splice{at, at, missing})
	}
	return s.spliced(edits)
}

func (s *Sheet) rowAt(line int) (Row, error) {
	i := slices.IndexFunc(s.Rows, func(r Row) bool { return r.Line == line && len(r.Cells) > 0 })
	if i < 0 {
		return Row{}, noRow(line)
	}
	return s.Rows[i], nil
}

func noRow(line int) error {
	return fmt.Errorf("no row begins on line %d, want the line of a row; the file may have changed", line)
}

// Append gives the sheet with rows added at its end, each a text for a known
// heading. Headings that the file does not have yet are added.
func (s *Sheet) Append(rows []map[string]string) (*Sheet, error) {
	out := s
	for _, heading := range s.known {
		used := slices.ContainsFunc(rows, func(r map[string]string) bool { return r[heading] != "" })
		if !used || out.Column(heading) >= 0 {
			continue
		}
		var err error
		if out, err = out.AddColumn(heading); err != nil {
			return nil, err
		}
	}
	var list [][]string
	for _, row := range rows {
		cells := make([]string, len(out.Heads))
		for heading, text := range row {
			if i := out.Column(heading); i >= 0 {
				cells[i] = text
			}
		}
		list = append(list, cells)
	}
	return out.AppendCells(list)
}

// AppendCells gives the sheet with rows added at its end, each a text for each
// heading in order.
func (s *Sheet) AppendCells(rows [][]string) (*Sheet, error) {
	if s.HeadLine == 0 {
		return nil, fmt.Errorf("the file has no heading line to add a row under")
	}
	var b strings.Builder
	if !strings.HasSuffix(s.text, "\n") && !strings.HasSuffix(s.text, "\r") {
		b.WriteString(s.eol)
	}
	for _, row := range rows {
		for i := range s.Heads {
			if i > 0 {
				b.WriteRune(s.comma)
			}
			if i < len(row) {
				b.WriteString(s.written(row[i], i))
			}
		}
		b.WriteString(s.eol)
	}
	return s.spliced([]splice{{len(s.text), len(s.text), b.String()}})
}

// Delete gives the sheet without the row that begins on a line.
func (s *Sheet) Delete(line int) (*Sheet, error) {
	row, err := s.rowAt(line)
	if err != nil {
		return nil, err
	}
	from := row.Cells[0].from
	for from > 0 && s.text[from-1] != '\n' && s.text[from-1] != '\r' {
		from--
	}
	return s.spliced([]splice{{from, row.end, ""}})
}

// AddColumn gives the sheet with one more column, empty, at its right. Rows that
// are shorter or longer than the headings are left as they are: their problem is
// told apart.
func (s *Sheet) AddColumn(heading string) (*Sheet, error) {
	if s.HeadLine == 0 {
		return nil, fmt.Errorf("the file has no heading line to add %q to", heading)
	}
	if s.Column(HeadingKey(heading)) >= 0 {
		return nil, fmt.Errorf("the heading %q is there already", heading)
	}
	at := s.Heads[len(s.Heads)-1].to
	edits := []splice{{at, at, string(s.comma) + s.written(heading, len(s.Heads))}}
	for _, row := range s.Rows {
		if len(row.Cells) == len(s.Heads) {
			at := row.Cells[len(row.Cells)-1].to
			edits = append(edits, splice{at, at, string(s.comma)})
		}
	}
	return s.spliced(edits)
}

// spliced does edits that do not overlap and reads the text anew.
func (s *Sheet) spliced(edits []splice) (*Sheet, error) {
	slices.SortStableFunc(edits, func(a, b splice) int { return a.from - b.from })
	var b strings.Builder
	at := 0
	for _, e := range edits {
		b.WriteString(s.text[at:e.from])
		b.WriteString(e.text)
		at = e.to
	}
	b.WriteString(s.text[at:])
	out, err := read(b.String(), s.form, s.known)
	if err != nil {
		return nil, err
	}
	out.eol = s.eol // a file of one line has none to tell by
	return out, nil
}

// written is how a text stands in a file: in quote marks where it holds the
// separator, a quote mark, a line end or outer spaces, or would begin a row as a
// comment does.
func (s *Sheet) written(text string, index int) string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
	if s.eol != "\n" {
		text = strings.ReplaceAll(text, "\n", s.eol)
	}
	plain := !strings.ContainsAny(text, string(s.comma)+"\"\r\n") && strings.TrimSpace(text) == text && (index > 0 || !strings.HasPrefix(text, "#"))
	if plain {
		return text
	}
	return quoted(text)
}

// quoted is a cell in quote marks (RFC 4180, section 2; memory).
func quoted(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }
