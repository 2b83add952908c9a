package typing

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
)

// Headings are the headings of each CSV file, and of no other file.
var Headings = func() map[string][]string {
	out := map[string][]string{}
	for name, text := range files.Templates() {
		if name != files.SettingsFile {
			out[name] = csvfile.Headings(text)
		}
	}
	return out
}()

// Form is what was sent to change a file.
type Form struct {
	Tag    string
	Op     string // save, try, add, delete:LINE, column, start or text
	cells  map[csvfile.Place]string
	row    []string // a new row
	column string
	text   string
	typed  bool    // the text of the whole file was sent
	fields []field // settings, by their names
}

// field is a setting as it was sent.
type field struct{ name, value string }

// ReadForm reads a form. Cells come as c.LINE.INDEX, those of a new row as n.INDEX.
func ReadForm(sent url.Values) (*Form, error) {
	f := &Form{Tag: sent.Get("tag"), Op: sent.Get("op"), cells: map[csvfile.Place]string{}, column: sent.Get("column"), text: sent.Get("text"), typed: sent.Has("text")}
	for name, values := range sent {
		place, ok := strings.CutPrefix(name, "c.")
		if ok {
			line, index, found := strings.Cut(place, ".")
			l, err1 := strconv.Atoi(line)
			i, err2 := strconv.Atoi(index)
			if !found || err1 != nil || err2 != nil {
				return nil, refusal.New(http.StatusBadRequest, fmt.Sprintf("%q names no cell, want c.LINE.INDEX", name), "")
			}
			f.cells[csvfile.Place{Line: l, Index: i}] = values[0]
			continue
		}
		if key, ok := strings.CutPrefix(name, "s."); ok {
			f.fields = append(f.fields, field{key, values[0]})
			continue
		}
		if index, ok := strings.CutPrefix(name, "n."); ok && values[0] != "" {
			i, err := strconv.Atoi(index)
			if err != nil || i < 0 || i > MostColumns {
				return nil, refusal.New(http.StatusBadRequest, fmt.Sprintf("%q names no cell of a new row, want n.INDEX", name), "")
			}
			for len(f.row) <= i {
				f.row = append(f.row, "")
			}
			f.row[i] = values[0]
		}
	}
	slices.SortFunc(f.fields, func(a, b field) int { return strings.Compare(a.name, b.name) })
	return f, nil
}

// MostColumns bounds the cells of a new row; a quote has some twenty.
const MostColumns = 1000

// Flat is how a cell stands in a field of one line, which browsers give back.
func Flat(text string) string {
	return strings.NewReplacer("\r\n", "", "\n", "", "\r", "").Replace(text)
}

// Edited is a file as a form would leave it, and what that changes in words; both
// empty if nothing.
func Edited(t folder.Texts, name string, f *Form) (data []byte, words string, err error) {
	if t.Tag(name) != f.Tag {
		return nil, "", folder.ErrStale
	}
	if f.Op == "start" {
		if _, there := t[name]; there {
			return nil, "", refusal.New(http.StatusConflict, name+" is there already", "")
		}
		return files.Templates()[name], "start " + name, nil
	}
	if name == files.SettingsFile && f.Op != "text" && !(f.Op == "try" && f.typed) {
		if data, words, err = settingsSet(t[name], f); err != nil {
			return nil, "", Cannot(name, err)
		}
		return data, words, nil
	}
	if name == files.SettingsFile {
		text := f.text
		if !strings.Contains(string(t[name]), "\r\n") { // as forms send line ends
			text = strings.ReplaceAll(text, "\r\n", "\n")
		}
		if text == string(t[name]) {
			return nil, "", nil
		}
		return []byte(text), "the settings", nil
	}
	s, err := csvfile.Open(t[name], Headings[name])
	if err != nil {
		return nil, "", Cannot(name, err)
	}
	out, words, err := f.on(s, name)
	if err != nil {
		return nil, "", Cannot(name, err)
	}
	if words == "" {
		return nil, "", nil
	}
	if data, err = out.Bytes(); err != nil {
		return nil, "", Cannot(name, err)
	}
	return data, words, nil
}

// Cannot refuses what a file cannot be made to hold, or cannot be read for.
func Cannot(name string, err error) error {
	return refusal.New(http.StatusUnprocessableEntity, name+": "+err.Error(), "")
}

// on does a form's changes to a sheet and says in words what they are.
func (f *Form) on(s *csvfile.Sheet, name string) (out *csvfile.Sheet, words string, err error) {
	changed := map[csvfile.Place]string{}
	var told []string
	label := labels(s)
	for _, row := range s.Rows {
		for i := range s.Width() {
			text, sent := f.cells[csvfile.Place{Line: row.Line, Index: i}]
			old := ""
			if i < len(row.Cells) {
				old = row.Cells[i].Text
			}
			if !sent || Flat(text) == Flat(old) {
				continue
			}
			changed[csvfile.Place{Line: row.Line, Index: i}] = text
			told = append(told, fmt.Sprintf("%s of %s", headingAt(s, i), label[row.Line]))
		}
	}
	for place := range f.cells {
		if !slices.ContainsFunc(s.Rows, func(r csvfile.Row) bool { return r.Line == place.Line && len(r.Cells) > 0 }) {
			return nil, "", fmt.Errorf("no row begins on line %d, want the line of a row", place.Line)
		}
	}
	if out, err = s.Set(changed); err != nil {
		return nil, "", err
	}
	if len(told) > 2 {
		told = []string{units.Several(len(told), "cell") + " of " + name}
	}
	if len(f.row) > 0 && (f.Op == "add" || f.Op == "try") {
		if out, err = out.AppendCells([][]string{f.row}); err != nil {
			return nil, "", err
		}
		told = append(told, "a new row in "+name)
	}
	if line, ok := strings.CutPrefix(f.Op, "delete:"); ok {
		n, err := strconv.Atoi(line)
		if err != nil {
			return nil, "", fmt.Errorf("%q is no line to take out", line)
		}
		if out, err = out.Delete(n); err != nil {
			return nil, "", err
		}
		told = append(told, "taking out "+label[n])
	}
	if f.Op == "column" && f.column != "" {
		if !slices.Contains(Headings[name], f.column) {
			return nil, "", fmt.Errorf("%q is no heading of %s", f.column, name)
		}
		if out, err = out.AddColumn(f.column); err != nil {
			return nil, "", err
		}
		told = append(told, "a column "+f.column+" in "+name)
	}
	return out, units.Listed(told), nil
}

func headingAt(s *csvfile.Sheet, i int) string {
	if i < len(s.Heads) && s.Heads[i].Text != "" {
		return s.Heads[i].Text
	}
	return "column " + strconv.Itoa(i+1)
}
