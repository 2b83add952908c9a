// Package page is one model of a printed paper and the ways it is written: HTML
// that needs nothing beside it, PDF, Markdown, a spreadsheet, and plain text for a
// terminal.
//
// A writer draws what the model holds and adds no words of its own, so the forms of
// a paper cannot say different things. The same page gives the same bytes
// every time: its day comes with it, and nothing looks at a clock.
package page

import (
	"slices"
	"time"

	"mediabuy/papers/ink"
)

// Page is a whole paper.
type Page struct {
	Title    string
	Subtitle string
	Day      time.Time // the day it is dated; also the date inside PDF and XLSX
	Alarm    string    // stands in a frame at the very top; "" for none
	Sections []Section
	Foot     string // at the foot of each sheet, after the page number
	Letter   bool   // US Letter in place of A4, where sheets have a size
}

// Section is a part of a paper under a heading.
type Section struct {
	Heading string // "" for none
	Sheet   string // name of its sheet in a spreadsheet; "" keeps it with the section before
	Blocks  []Block
	// SheetOnly leaves the section out everywhere but in the spreadsheet.
	SheetOnly bool
	// NewSheet begins it on a new sheet, where sheets have a size.
	NewSheet bool
	// OneSheet keeps it on the first sheet: rows of its tables are left out down to
	// those that are kept as long as may be, then pictures show less, then more rows go.
	OneSheet bool
}

// Block is one of [*Para], [*List], [*Table], [*Picture], [*Chart] and [*Fields].
type Block interface{ block() }

// Para is a paragraph.
type Para struct {
	Text   string
	Strong bool
	Leads  bool // stays on the sheet of what comes behind it
}

// List is points, one below the other.
type List struct{ Items []string }

// Table is rows under headings.
type Table struct {
	Caption string // says what the table is; "" for none
	Cols    []Col
	Rows    []Row
	Write   bool // leaves room to write in its empty cells by hand
	Cut     *Cut // how rows may be left out on a sheet that must hold it; nil: they may not
	label   string
	leaves  int  // the first row that a browser leaves out in print, where there is a rest
	rest    *Row // stands for the rows left out in print; nil: none are
}

// Cut says how a table is made shorter where it must stay on one sheet. All its rows
// are in the forms without sheets.
type Cut struct {
	To   int                // behind the last row that may be left out
	Keep int                // rows that go only when nothing else can
	Row  func(from int) Row // stands for the rows from this one up to To
}

// leastRows are the rows that are left of a table that is cut.
const leastRows = 2

// shorter is the table without n of the rows that may be left out.
func (t *Table) shorter(n int) *Table {
	from, out := t.Cut.To-n, *t
	rest := t.Cut.Row(from)
	rest.runs = true
	out.Rows = slices.Concat(t.Rows[:from], []Row{rest}, t.Rows[t.Cut.To:])
	return &out
}

// Col is one column.
type Col struct {
	Name  string
	Right bool // numbers
	// SheetOnly leaves the column out everywhere but in the spreadsheet.
	SheetOnly bool
	// Narrow keeps the column from being folded.
	Narrow bool
}

// Row is one row of a table. Cells may be fewer than columns; the rest are empty.
type Row struct {
	Cells []Cell
	Kind  RowKind
	runs  bool // the first cell runs on into the room of empty ones behind it
}

// RowKind is how a row stands out.
type RowKind int

// Kinds of row.
const (
	Plain RowKind = iota
	Sub           // a part of the row before
	Total         // a sum, under a rule
)

// Cell is one cell. Text is what people read; Number and Formula are for the
// spreadsheet, which shows Text where neither is set.
type Cell struct {
	Text   string
	Number *float64
	Digits int // decimals shown by the spreadsheet
	// Formula gives the spreadsheet's formula, without "=", for a cell whose
	// neighbours' names at gives by row and column of the table, both from 0. With a
	// Number beside it, a formula that comes to anything else is an error.
	Formula func(at func(row, col int) string) string
	// Label names the cell, so that a formula of any table can mean it by its name:
	// letters, digits and underscores, a letter first, two letters of it behind one
	// another never a column's. Each stands once on a page.
	Label string
	// Input marks a number that is there to be changed.
	Input bool
	// Bar is a length from 0 to 1 drawn in the cell; negative: none.
	Bar *float64
}

// Picture is a drawing with its caption and the same in words.
type Picture struct {
	Caption string
	Drawing *ink.Drawing
	Lines   []string // what the drawing shows, in words
	// Smaller shows less, for a sheet that has no room for it; nil: there is no such
	// picture. Words are never set smaller to make room.
	Smaller *Picture
	// Narrow shows the same for a screen that is too narrow for Drawing; nil: its words are shown there beside it.
	Narrow *Picture
}

// Chart is a picture drawn elsewhere; either form may be missing.
type Chart struct {
	Caption string
	SVG     []byte
	PNG     []byte
}

// Fields is room to write in by hand, one line each.
type Fields struct{ Names []string }

func (*Para) block()    {}
func (*List) block()    {}
func (*Table) block()   {}
func (*Picture) block() {}
func (*Chart) block()   {}
func (*Fields) block()  {}

// Printed are the sections that stand on paper.
func (p *Page) Printed() []Section {
	var out []Section
	for _, s := range p.Sections {
		if !s.SheetOnly {
			out = append(out, s)
		}
	}
	return out
}

// Text is a cell of words.
func Text(s string) Cell { return Cell{Text: s} }

// Num is a cell with a number, shown to people as text.
func Num(text string, v float64, digits int) Cell {
	return Cell{Text: text, Number: &v, Digits: digits}
}

// cell is the j-th cell of a row, empty past its end.
func (r Row) cell(j int) Cell {
	if j < len(r.Cells) {
		return r.Cells[j]
	}
	return Cell{}
}

// shown lists the columns that people are shown on paper.
func (t *Table) shown() []int {
	var out []int
	for j, c := range t.Cols {
		if !c.SheetOnly {
			out = append(out, j)
		}
	}
	return out
}
