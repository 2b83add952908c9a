package files

import (
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"github.com/gocarina/gocsv"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/quotes/internal/typed"
	"mediabuy/units"
)

// MaxRows is the most rows read of a file. A job has tens; the checks between rows
// are written for thousands.
const MaxRows = 10_000

// sheet is one CSV file, matched to its headings and not yet converted.
type sheet struct {
	name    string
	columns []column
	rows    []*row
	head    quotes.Pos // the first heading
	headEnd quotes.Pos // behind the last heading, where a missing one would stand
	// incomplete says that rows or columns were lost to problems already
	// reported, so that what is missing elsewhere may stand in them.
	incomplete bool
}

// column is one known heading, from the tags of a raw struct.
type column struct {
	heading  string
	required bool
	number   bool // holds numbers, so its decimal mark is settled over the column
	date     bool // holds days, so the order of day and month is settled over the column
}

// row is one line of a sheet; Col is 0.
type row struct {
	quotes.Pos
	cells map[string]*cell
}

// cell is one cell as text. An empty text may also mean that the column is not there.
type cell struct {
	quotes.Pos // of the cell, or behind the row's last cell if the column is not there
	heading    string
	text       string // white space trimmed at both ends
	mark       units.DecimalMark
	// off says that a problem of the whole column or cell is already reported:
	// nothing more is said about it and its value is not used.
	off    bool
	orders bool // the column proves another order of day and month than the job's
	absent bool // the file has no such column
}

func (c *cell) blank() bool { return c.text == "" }

// cell is the cell under a known heading. An unknown one is a mistake in this package.
func (r *row) cell(heading string) *cell {
	c, ok := r.cells[heading]
	if !ok {
		panic("no column " + heading)
	}
	return c
}

// columnsOf reads the headings of a raw struct from its tags: csv:"heading" and
// cell:"required,number".
func columnsOf[T any]() []column {
	var out []column
	for _, f := range reflect.VisibleFields(reflect.TypeFor[T]()) {
		flags := strings.Split(f.Tag.Get("cell"), ",")
		out = append(out, column{
			heading:  f.Tag.Get("csv"),
			required: slices.Contains(flags, "required"),
			number:   slices.Contains(flags, "number"),
			date:     slices.Contains(flags, "date"),
		})
	}
	return out
}

func headingsOf(cols []column) []string {
	out := make([]string, len(cols))
	for i, c := range cols {
		out[i] = c.heading
	}
	return out
}

// readSheet reads a CSV file whose headings are the csv tags of T, a struct of
// text fields. It returns nil if no heading line could be used.
func readSheet[T any](x *reader, src Source) (*sheet, error) {
	text, ok, err := x.decode(src)
	if err != nil || !ok {
		return nil, err
	}
	s := &sheet{name: src.Name, columns: columnsOf[T]()}
	g := csvfile.NewGrid(text, headingsOf(s.columns))
	if g.HeadLine == 0 {
		x.problem(quotes.Beginning(src.Name), "", "the file is empty", "a heading line with "+listedAll(required(s.columns)),
			"mediabuy new writes an empty file with every heading")
		return nil, nil
	}
	bad := g.QuoteFaults()
	for _, f := range bad {
		x.fault(src.Name, &f.Fault)
	}
	if csvfile.Spoiled(bad, g.HeadLine, g.HeadLine) {
		return nil, nil // what the headings are is not known
	}

	cr := g.Reader()
	var raw T
	um, err := gocsv.NewUnmarshaller(cr, raw)
	if err != nil {
		return nil, fmt.Errorf("reading the headings of %s: %w", src.Name, err)
	}
	var behind []string
	keys := func(in []string) (out []string) {
		out, behind = csvfile.HeadingLine(in)
		return out
	}
	if err := um.RenormalizeHeaders(keys); err != nil {
		return nil, fmt.Errorf("matching the headings of %s: %w", src.Name, err)
	}
	s.head = placeOf(cr, s.name, 0)
	s.headEnd = at(s.name, g.EndOf(g.HeadLine, g.RowText(g.HeadLine, cr.InputOffset())))
	h := x.headings(s, um.Headers, behind, cr)
	if h == nil {
		return nil, nil
	}
	if err := s.fill(x, um, cr, g, h, bad); err != nil {
		return nil, err
	}
	x.takeTotal(s)
	x.numberedComments(g, s.name, len(um.Headers))
	for _, r := range s.rows {
		for _, c := range s.columns {
			x.plainly(r.cell(c.heading), c.date)
		}
	}
	x.settleMarks(s)
	return s, nil
}

// heads says where each known heading stands.
type heads struct {
	file   string
	at     map[string]int    // index of the cell in a row
	unit   map[string]string // in brackets behind it, for numbers that bring none
	off    map[string]bool   // repeated, or required and not there: reported, so rows say nothing about it
	noName []int             // cells under no heading
}

// headings checks the heading line, whose cells are given as [csvfile.HeadingLine] writes
// them: known, there once, and all required ones there.
func (x *reader) headings(s *sheet, line, behind []string, cr *csv.Reader) *heads {
	known := headingsOf(s.columns)
	h := &heads{file: s.name, at: map[string]int{}, unit: map[string]string{}, off: map[string]bool{}}
	var unknown []int // indices in line
	for i, name := range line {
		first, repeated := h.at[name]
		switch {
		case name == "":
			h.noName = append(h.noName, i)
		case !slices.Contains(known, name):
			unknown = append(unknown, i)
		case repeated:
			x.problem(placeOf(cr, s.name, i), name, fmt.Sprintf("the heading %q stands twice, first at column %d", name, placeOf(cr, s.name, first).Col), "each heading once",
				"rename or take out one of them")
			h.off[name] = true
		default:
			h.at[name], h.unit[name] = i, behind[i]
			if name == "breaks" && behind[i] != "" {
				x.problem(placeOf(cr, s.name, i), name, fmt.Sprintf("the heading gives its breaks the unit %s", behind[i]), "the heading breaks", "packs are counted and prices are in the job's money; write a unit into the cells where it is another, such as 10 m3: 61")
			} else if behind[i] != "" {
				x.warning(placeOf(cr, s.name, i), name, fmt.Sprintf("numbers without a unit are read in %s, as the heading says", behind[i]), "", "write the unit into the cells if that is not meant")
			}
		}
	}
	if len(h.at) == 0 {
		x.problem(s.head, "", "this line holds no known heading", "a heading line with "+listedAll(required(s.columns)),
			typed.Renames(line, known))
		return nil
	}
	var strange []string
	for _, i := range unknown {
		strange = append(strange, line[i])
		x.warning(placeOf(cr, s.name, i), "", fmt.Sprintf("the heading %q is unknown and its column is not read", line[i]), "", typed.HeadingHint(line[i], known, func(k string) bool { _, ok := h.at[k]; return ok }))
	}
	for _, c := range s.columns {
		if _, ok := h.at[c.heading]; ok || !c.required {
			continue
		}
		h.off[c.heading] = true
		s.incomplete = true
		hint := "add the column"
		if n := cmp.Or(typed.Called(c.heading, strange), spelling.NearestHeading(c.heading, strange)); n != "" {
			hint = fmt.Sprintf("is %q meant to be it?", n)
		}
		x.problem(s.headEnd, c.heading, fmt.Sprintf("there is no heading %q", c.heading), "it in the heading line", hint)
	}
	return h
}

// noRowHint is for a file that has headings and nothing else.
const noRowHint = "write the rows below the headings; a line that begins with # is not read"

func required(cols []column) []string {
	var out []string
	for _, c := range cols {
		if c.required {
			out = append(out, c.heading)
		}
	}
	return out
}

func listedAll(words []string) string {
	if len(words) == 0 {
		return "headings"
	}
	return strings.Replace(listed(words), " or ", " and ", 1)
}

// fill reads the rows under the headings.
func (s *sheet) fill(x *reader, um *gocsv.Unmarshaller, cr *csv.Reader, g *csvfile.Grid, h *heads, bad []csvfile.QuoteFault) error {
	told := map[int]bool{} // cells under no heading are told of once a column
	for {
		rec, err := um.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		first := placeOf(cr, s.name, 0)
		line := first.Line
		if len(s.rows) == MaxRows {
			x.problem(first, "", fmt.Sprintf("there are more than %d rows", MaxRows), "one job's sheet", "split the job, or take out what is not needed")
			s.incomplete = true
			return nil
		}
		text := g.RowText(line, cr.InputOffset())
		if csvfile.BlankRow(text) || csvfile.Remark(text, g.Comma) {
			continue
		}
		if csvfile.Spoiled(bad, line, line+strings.Count(strings.TrimRight(text, "\r\n"), "\n")) {
			s.incomplete = true
			continue
		}
		var pe *csv.ParseError
		if errors.As(err, &pe) && errors.Is(pe.Err, csv.ErrFieldCount) {
			s.incomplete = true
			x.wrongLength(g, s.name, len(um.Headers), line, text)
			continue
		}
		if err != nil {
			return fmt.Errorf("reading line %d of %s: %w", line, s.name, err)
		}
		s.rows = append(s.rows, newRow(s, reflect.ValueOf(rec), cr, h, line, at(s.name, g.EndOf(line, text))))
		x.nameless(text, g, cr, h, told)
	}
}

// placeOf is the place of a cell of the record read last.
func placeOf(cr *csv.Reader, file string, i int) quotes.Pos {
	line, col := cr.FieldPos(i)
	return quotes.Pos{File: file, Line: line, Col: col}
}

// newRow puts places to the cells of a record; end is the place behind its last.
func newRow(s *sheet, rec reflect.Value, cr *csv.Reader, h *heads, line int, end quotes.Pos) *row {
	r := &row{Pos: quotes.Pos{File: s.name, Line: line}, cells: make(map[string]*cell, len(s.columns))}
	for i, c := range s.columns {
		cl := &cell{Pos: end, heading: c.heading, off: h.off[c.heading], absent: true}
		if at, ok := h.at[c.heading]; ok {
			cl.Pos, cl.absent = placeOf(cr, s.name, at), false
			cl.text = csvfile.WithUnit(strings.TrimSpace(rec.Field(i).String()), h.unit[c.heading])
		}
		r.cells[c.heading] = cl
	}
	return r
}

// wrongLength reports a row with too many or too few cells, at the first one too
// many or where the first missing one would stand.
func (x *reader) wrongLength(g *csvfile.Grid, file string, headings, line int, row string) {
	cells, spots := csvfile.PlacedCells(row, g.Comma)
	p, hint := at(file, g.EndOf(line, row)), fmt.Sprintf("empty cells need their %s too", csvfile.SeparatorName(g.Comma))
	if len(cells) > headings {
		p = quotes.Pos{File: file, Line: line - 1 + spots[headings].Line, Col: spots[headings].Col}
		hint = "a cell that holds the separator must stand in quote marks"
	}
	x.problem(p, "", fmt.Sprintf("the row has %s", units.Several(len(cells), "cell")), fmt.Sprintf("%d, one for each heading", headings), hint)
}
