// Package typing is a job's files as somebody types in them: the cells of each table and
// the fields of the settings, where each problem stands among them, and a file as a form
// of them would leave it. It reads and writes texts, and saves nothing.
package typing

import (
	"fmt"
	"slices"
	"strconv"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
)

// Table is one file as a table to type in.
type Table struct {
	Heads   []headView
	Rows    []rowView
	Lacking []string // known headings that are not there
	Means   []Meaning
}

type headView struct {
	Index int // of the column in the file
	Text  string
	Known bool
	Means string // what the column holds; "" where it is not read
	List  string // name of the list of words for its cells; "" for none
	Size  int    // letters that its cells show
}

type rowView struct {
	Line    int
	Label   string
	Comment string
	Marks   []Mark
	Cells   []Cell
}

// Cell is a field to type in, with what is wrong with its text.
type Cell struct {
	ID, Text, Label, Heading, List string
	Size                           int
	Marks                          []Mark
	Bad                            bool
}

// Letters that a cell shows: enough for its column, within reason.
const (
	leastLetters = 6
	mostLetters  = 28
)

// Letters is how many letters the longest of some texts has, within reason.
func Letters(texts []string) int {
	n := leastLetters
	for _, t := range texts {
		n = max(n, min(len([]rune(t)), mostLetters))
	}
	return n
}

// List is the words that a column takes.
type List struct {
	Name  string
	Words []string
}

// front are the columns that are shown before the others, whatever their order in the
// file: what decides a purchase is in sight on a desk without scrolling sideways. The
// row's label says which quote it is.
var front = map[string][]string{files.QuotesFile: {"supplier", "pack", "price", "breaks"}}

// shown is the order in which the columns of a sheet are shown.
func shown(s *csvfile.Sheet, name string) []int {
	var out []int
	for _, heading := range front[name] {
		if i := s.Column(heading); i >= 0 {
			out = append(out, i)
		}
	}
	for i := range s.Width() {
		if !slices.Contains(out, i) {
			out = append(out, i)
		}
	}
	return out
}

// TableOf sets the sheet of a file out with its marks.
func TableOf(s *csvfile.Sheet, file string, docs []Mark) Table {
	v := Table{Means: Meanings[file]}
	for _, i := range shown(s, file) {
		head := headView{Index: i, Text: headingAt(s, i)}
		if i < len(s.Heads) {
			key := csvfile.HeadingKey(s.Heads[i].Text)
			head.Known, head.Means = slices.Contains(Headings[file], key), meaningOf(file, key)
			if key != "carbonate" || file == files.QuotesFile { // a medium's words are others
				head.List = ListOf[key]
			}
		}
		var column []string
		for _, row := range s.Rows {
			if i < len(row.Cells) {
				column = append(column, row.Cells[i].Text)
			}
		}
		head.Size = Letters(column)
		v.Heads = append(v.Heads, head)
	}
	for _, heading := range Headings[file] {
		if s.Column(heading) < 0 {
			v.Lacking = append(v.Lacking, heading)
		}
	}
	at, label := ByPlace(docs), labels(s)
	for _, row := range s.Rows {
		rv := rowView{Line: row.Line, Comment: row.Comment}
		if len(row.Cells) > 0 {
			rv.Label = label[row.Line]
			rv.Marks = at[strconv.Itoa(row.Line)]
			for _, head := range v.Heads {
				i := head.Index
				c := Cell{ID: fmt.Sprintf("%d.%d", row.Line, i), Label: head.Text + " of " + rv.Label, Heading: head.Text, List: head.List, Size: head.Size}
				if i < len(row.Cells) {
					c.Text = row.Cells[i].Text
				}
				c.Mark(at)
				rv.Cells = append(rv.Cells, c)
			}
		}
		v.Rows = append(v.Rows, rv)
	}
	return v
}

// ByPlace sorts marks by the cell or row that they are about.
func ByPlace(docs []Mark) map[string][]Mark {
	out := map[string][]Mark{}
	for _, d := range docs {
		out[d.ID] = append(out[d.ID], d)
	}
	return out
}

// Mark gives a cell its marks.
func (c *Cell) Mark(at map[string][]Mark) {
	c.Marks = at[c.ID]
	c.Bad = slices.ContainsFunc(c.Marks, func(d Mark) bool { return !d.Warning })
}

// ListOf names the list of words for the cells of a column.
var ListOf = map[string]string{"medium": "media", "form": "forms", "break_kind": "breakkinds", "carbonate": "acidtests", "supplier": "suppliers"}

// Lists are the words that columns take, to choose from or to ignore; job may be nil.
func Lists(job *quotes.Job) []List {
	table := files.BuiltinMedia()
	var suppliers []string
	if job != nil {
		table, suppliers = job.Media, quotes.Suppliers(job)
	}
	var media, forms []string
	for _, m := range table.All() {
		media = append(media, m.Name)
	}
	for _, f := range quotes.Forms {
		forms = append(forms, string(f))
	}
	return []List{
		{"media", media}, {"forms", forms}, {"suppliers", suppliers},
		{"breakkinds", []string{string(quotes.AllUnits), string(quotes.Incremental)}},
		{"acidtests", []string{string(quotes.NoFizz), string(quotes.Fizzed), string(quotes.Untested)}},
	}
}

// Wide reports whether a cell wants the whole width of a phone.
func (c Cell) Wide() bool { const half = 16; return len([]rune(c.Text)) > half || len(c.Marks) > 0 }
