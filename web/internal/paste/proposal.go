// Package paste makes rows for a job's files out of pasted text: what it reads as and what
// it leaves to be asked, the rows as a table to look through with the problems they would
// have in the job, and the files with the chosen rows at their ends. It saves nothing.
package paste

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"mediabuy/papers/safe"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
	"mediabuy/web/internal/typing"
)

// Proposal is pasted text as rows that may enter the job. Nothing of it is in the
// job.
type Proposal struct {
	tables []*Rows // rows for quotes.csv, and behind them those for delivery.csv, if there are any
	Told   []Span  // sentences, with what became of each word; empty for a table
	Asked  []Question
}

// Rows is the rows of a proposal for one file.
type Rows struct {
	File  string
	heads []string // a known heading for each column; "" leaves it out
	why   []string // why each column is thought to be that; "" where the text says so itself
	rows  [][]string
	take  []bool     // rows that are wanted
	notes [][]string // about each row, such as a required cell that is not there
}

// key begins the names of a table's fields in the form, so that those of two tables differ.
func (o *Rows) key() string {
	if o.File == files.QuotesFile {
		return ""
	}
	return folder.FileKey(o.File) + "."
}

// Field is the name of a field of the form that there is one of for each table.
func (o *Rows) Field(name string) string {
	if o.key() == "" {
		return name
	}
	return name + "." + folder.FileKey(o.File)
}

// Empty says whether the proposal has no row at all.
func (p *Proposal) Empty() bool {
	return !slices.ContainsFunc(p.tables, func(o *Rows) bool { return len(o.rows) > 0 })
}

// MostPasted bounds the rows of one paste.
const MostPasted = 500

// headed reads a table that has headings of its own; nil for text that has none.
// Two known headings, or one over several columns, make a heading line.
func headed(text string) (*Proposal, error) {
	s, err := csvfile.Open([]byte(text), typing.Headings[files.QuotesFile])
	if err != nil {
		return nil, err
	}
	n := 0
	for _, c := range s.Heads {
		if slices.Contains(typing.Headings[files.QuotesFile], csvfile.HeadingKey(c.Text)) {
			n++
		}
	}
	if n < 2 {
		return nil, nil
	}
	p := &Rows{File: files.QuotesFile}
	behind := make([]string, len(s.Heads))
	for i, c := range s.Heads {
		var key string
		key, behind[i] = csvfile.Heading(c.Text)
		if !slices.Contains(typing.Headings[files.QuotesFile], key) || slices.Contains(p.heads, key) {
			key = ""
		}
		p.heads = append(p.heads, key)
		p.why = append(p.why, fmt.Sprintf("its heading is %q", c.Text))
	}
	for _, row := range s.Rows {
		if len(row.Cells) == 0 {
			continue
		}
		if len(p.rows) == MostPasted {
			return nil, tooManyRows
		}
		cells := make([]string, len(p.heads))
		for i, c := range row.Cells {
			if i < len(cells) {
				cells[i] = safe.Cell(csvfile.WithUnit(strings.TrimSpace(c.Text), behind[i]))
			}
		}
		note := []string(nil)
		if len(row.Cells) != len(p.heads) {
			note = []string{fmt.Sprintf("the row has %s and the headings are %d: look whether they stand under the right ones", units.Several(len(row.Cells), "cell"), len(p.heads))}
		}
		p.rows, p.take, p.notes = append(p.rows, cells), append(p.take, true), append(p.notes, note)
	}
	return &Proposal{tables: []*Rows{p}}, nil
}

var tooManyRows = refusal.New(http.StatusRequestEntityTooLarge, fmt.Sprintf("more than %d rows were pasted", MostPasted), "paste fewer at a time, or put the file into the job's folder")

// Confirmation is a proposal to say yes to.
type Confirmation struct {
	Tables   []Table
	General  []string         // about the rows together
	Bad      []typing.Problem // cells and rows to mend
	Yes      string           // what saying yes adds, "2 rows to quotes.csv"; "" for nothing
	Supplier bool             // some row does not say who sells
	By       string
	Stale    bool // a file was changed since, and the rows were looked at again; set by the page
	ReadOnly bool // no row can be added; set by the page
}

// Table is the rows of a proposal for one file.
type Table struct {
	Key, Suffix, File, Tag string // Key begins the numbers of a field, Suffix ends the name of one by itself
	Heads                  []Column
	Rows                   []Row
}

// Column is what a column is taken for.
type Column struct {
	Index   int
	Heading string
	Why     string
	All     []string
}

// Name names a column in the labels of its cells.
func (c Column) Name() string {
	if c.Heading == "" {
		return "column " + strconv.Itoa(c.Index+1)
	}
	return c.Heading
}

// Row is a row to tick, and what is said of it.
type Row struct {
	Index int
	Name  string // row 1, delivery row 1
	Take  bool
	Cells []typing.Cell
	Marks []typing.Mark
	Notes []string
}

// ReadProposal reads a proposal from its form.
func ReadProposal(sent url.Values) (*Proposal, error) {
	p := &Proposal{}
	for _, file := range []string{files.QuotesFile, files.DeliveryFile} {
		o := &Rows{File: file}
		if o.key() != "" && !sent.Has(o.Field("rows")) {
			continue
		}
		if err := o.read(sent); err != nil {
			return nil, err
		}
		p.tables = append(p.tables, o)
	}
	return p, nil
}

// read reads a table of a proposal from its form: h.COLUMN, v.ROW.COLUMN, take.ROW, the key of the table in front of the
// numbers.
func (o *Rows) read(form url.Values) error {
	count := func(name string, most int) (int, error) {
		name = o.Field(name)
		n, err := strconv.Atoi(form.Get(name))
		if err != nil || n < 0 || n > most {
			return 0, refusal.New(http.StatusBadRequest, fmt.Sprintf("%s is %q, want a number up to %d", name, form.Get(name), most), "paste the rows again")
		}
		return n, nil
	}
	cols, err := count("cols", typing.MostColumns)
	if err != nil {
		return err
	}
	rows, err := count("rows", MostPasted)
	if err != nil {
		return err
	}
	for i := range cols {
		heading := form.Get(fmt.Sprintf("h.%s%d", o.key(), i))
		if heading != "" && !slices.Contains(typing.Headings[o.File], heading) {
			return refusal.New(http.StatusBadRequest, fmt.Sprintf("%q is no heading of %s", heading, o.File), "")
		}
		o.heads, o.why = append(o.heads, heading), append(o.why, "")
	}
	for i := range rows {
		cells := make([]string, cols)
		for j := range cols {
			cells[j] = strings.TrimSpace(form.Get(fmt.Sprintf("v.%s%d.%d", o.key(), i, j)))
		}
		o.rows = append(o.rows, cells)
		o.take = append(o.take, form.Get(fmt.Sprintf("take.%s%d", o.key(), i)) != "")
		o.notes = append(o.notes, nil)
	}
	return nil
}
