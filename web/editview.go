package web

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/quotes/tomlfile"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/folder"
)

// editView is one file to type in.
type editView struct {
	frame
	Strip   strip
	Files   []tabView
	File    string // quotes.csv
	Key     string // quotes
	Tag     string
	There   bool
	Broken  string // why the file cannot be shown as a table; "" if it can
	General []problemView
	Heads   []headView
	Rows    []rowView
	Lacking []string // known headings that are not there
	Lists   []listView
	Text    string // of the settings
	Plain   bool   // it is the settings: fields and not a table
	Groups  []groupView
}

type tabView struct {
	Key, File string
	Here      bool
	Problems  int
}

type headView struct {
	Index int // of the column in the file
	Text  string
	Known bool
	List  string // name of the list of words for its cells; "" for none
	Size  int    // letters that its cells show
}

type rowView struct {
	Line    int
	Label   string
	Comment string
	Marks   []markDoc
	Cells   []cellView
}

type cellView struct {
	ID, Text, Label, Heading, List string
	Size                           int
	Marks                          []markDoc
	Bad                            bool
}

// Letters that a cell shows: enough for its column, within reason.
const (
	leastLetters = 6
	mostLetters  = 28
)

// letters is how many letters the longest of some texts has, within reason.
func letters(texts []string) int {
	n := leastLetters
	for _, t := range texts {
		n = max(n, min(len([]rune(t)), mostLetters))
	}
	return n
}

// listView is the words that a column takes.
type listView struct {
	Name  string
	Words []string
}

// marks are the problems and warnings of one file, by cell and by row, and those
// that stand above the table.
type marks struct {
	docs    []markDoc
	general []problemView
}

// marksOf finds the cell or row that each problem of a file is about. Problems of
// other files are told above the table, as they too keep the answer back.
func marksOf(a *desk.Answer, rep *quotes.Report, name string) *marks {
	m := &marks{docs: []markDoc{}}
	find := finder{texts: a.Texts}
	for _, p := range slices.Concat(rep.Problems, rep.Warnings) {
		warning := p.Severity == quotes.Warning
		if p.File != name {
			if !warning {
				m.general = append(m.general, problemOf(p, find.link(p)))
			}
			continue
		}
		id := find.id(p)
		if id != "" {
			m.docs = append(m.docs, markDoc{ID: id, Words: p.Message(), Hint: p.Hint, Warning: warning})
		}
		if id == "" || !warning {
			m.general = append(m.general, problemOf(p, find.link(p)))
		}
	}
	return m
}

func (h *Handler) editPage(w http.ResponseWriter, r *http.Request) error {
	name, err := fileOf(r)
	if err != nil {
		return err
	}
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	v := editView{
		frame: h.frameOf(r, a, name, "/edit/"+folder.FileKey(name)), Strip: h.strip(r, a, nil),
		File: name, Key: folder.FileKey(name), Tag: a.Texts.Tag(name), Plain: name == files.SettingsFile,
	}
	m := &marks{}
	if a.Done() {
		rep, _ := h.spoken(r.Context(), a, h.system(r, a))
		m = marksOf(a, rep, name)
	}
	v.General = m.general
	v.Files = tabs(a, name)
	_, v.There = a.Texts[name]
	switch {
	case !v.There:
	case v.Plain:
		v.Text = string(a.Texts[name])
		f, err := tomlfile.Open(a.Texts[name])
		if err != nil {
			v.Broken = err.Error()
			break
		}
		var job *quotes.Job
		if a.Done() {
			job = a.Job
		}
		v.Groups = settingsView(f, job, m.docs, v.Units == "metric")
	default:
		s, err := csvfile.Open(a.Texts[name], known[name])
		if err != nil {
			v.Broken = err.Error()
			break
		}
		v.table(s, m.docs)
		v.Lists = lists(a)
	}
	render(w, http.StatusOK, "edit", v)
	return nil
}

// tabs are the job's files, with how many problems each has.
func tabs(a *desk.Answer, here string) []tabView {
	var out []tabView
	for _, file := range files.FileNames {
		tab := tabView{Key: folder.FileKey(file), File: file, Here: file == here}
		if a.Done() {
			for _, p := range a.Rep.Problems {
				if p.File == file {
					tab.Problems++
				}
			}
		}
		out = append(out, tab)
	}
	return out
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

// table sets a sheet out with its marks.
func (v *editView) table(s *csvfile.Sheet, docs []markDoc) {
	for _, i := range shown(s, v.File) {
		head := headView{Index: i, Text: headingAt(s, i)}
		if i < len(s.Heads) {
			key := csvfile.HeadingKey(s.Heads[i].Text)
			head.Known = slices.Contains(known[v.File], key)
			if key != "carbonate" || v.File == files.QuotesFile { // a medium's words are others
				head.List = listOf[key]
			}
		}
		var column []string
		for _, row := range s.Rows {
			if i < len(row.Cells) {
				column = append(column, row.Cells[i].Text)
			}
		}
		head.Size = letters(column)
		v.Heads = append(v.Heads, head)
	}
	for _, heading := range known[v.File] {
		if s.Column(heading) < 0 {
			v.Lacking = append(v.Lacking, heading)
		}
	}
	at := byPlace(docs)
	for _, row := range s.Rows {
		rv := rowView{Line: row.Line, Comment: row.Comment}
		if len(row.Cells) > 0 {
			rv.Label = labelOf(s, row)
			rv.Marks = at[strconv.Itoa(row.Line)]
			for _, head := range v.Heads {
				i := head.Index
				c := cellView{ID: fmt.Sprintf("%d.%d", row.Line, i), Label: head.Text + " of " + rv.Label, Heading: head.Text, List: head.List, Size: head.Size}
				if i < len(row.Cells) {
					c.Text = row.Cells[i].Text
				}
				c.mark(at)
				rv.Cells = append(rv.Cells, c)
			}
		}
		v.Rows = append(v.Rows, rv)
	}
}

// byPlace sorts marks by the cell or row that they are about.
func byPlace(docs []markDoc) map[string][]markDoc {
	out := map[string][]markDoc{}
	for _, d := range docs {
		out[d.ID] = append(out[d.ID], d)
	}
	return out
}

// mark gives a cell its marks.
func (c *cellView) mark(at map[string][]markDoc) {
	c.Marks = at[c.ID]
	c.Bad = slices.ContainsFunc(c.Marks, func(d markDoc) bool { return !d.Warning })
}

// listOf names the list of words for the cells of a column.
var listOf = map[string]string{"medium": "media", "form": "forms", "break_kind": "breakkinds", "carbonate": "acidtests", "supplier": "suppliers"}

// lists are the words that columns take, to choose from or to ignore.
func lists(a *desk.Answer) []listView {
	table := files.BuiltinMedia()
	var suppliers []string
	if a.Done() && a.Job != nil {
		table, suppliers = a.Job.Media, quotes.Suppliers(a.Job)
	}
	var media, forms []string
	for _, m := range table.All() {
		media = append(media, m.Name)
	}
	for _, f := range quotes.Forms {
		forms = append(forms, string(f))
	}
	return []listView{
		{"media", media}, {"forms", forms}, {"suppliers", suppliers},
		{"breakkinds", []string{string(quotes.AllUnits), string(quotes.Incremental)}},
		{"acidtests", []string{string(quotes.NoFizz), string(quotes.Fizzed), string(quotes.Untested)}},
	}
}

// Wide reports whether a cell wants the whole width of a phone.
func (c cellView) Wide() bool { const half = 16; return len([]rune(c.Text)) > half || len(c.Marks) > 0 }
