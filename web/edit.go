package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
)

// known are the headings of each CSV file, and of no other file.
var known = func() map[string][]string {
	out := map[string][]string{}
	for name, text := range files.Templates() {
		if name != files.SettingsFile {
			out[name] = csvfile.Headings(text)
		}
	}
	return out
}()

// fileOf is the file that an address names. Nothing else in the folder can be
// named.
func fileOf(r *http.Request) (string, error) {
	for _, name := range files.FileNames {
		if folder.FileKey(name) == r.PathValue("file") {
			return name, nil
		}
	}
	return "", refusal.New(http.StatusNotFound, fmt.Sprintf("%q is not a file of a job", r.PathValue("file")), "the files are "+units.Listed(files.FileNames))
}

// form is what was sent to change a file.
type form struct {
	tag    string
	op     string // save, try, add, delete:LINE, column, start or text
	cells  map[csvfile.Place]string
	row    []string // a new row
	column string
	text   string
	typed  bool    // the text of the whole file was sent
	fields []field // settings, by their names
}

// field is a setting as it was sent.
type field struct{ name, value string }

// formOf is the file that a request would change, and how.
func formOf(r *http.Request) (name string, f *form, err error) {
	if name, err = fileOf(r); err != nil {
		return "", nil, err
	}
	f, err = readForm(r)
	return name, f, err
}

// readForm reads a form. Cells come as c.LINE.INDEX, those of a new row as n.INDEX.
func readForm(r *http.Request) (*form, error) {
	if err := readPost(r); err != nil {
		return nil, err
	}
	f := &form{tag: r.PostForm.Get("tag"), op: r.PostForm.Get("op"), cells: map[csvfile.Place]string{}, column: r.PostForm.Get("column"), text: r.PostForm.Get("text"), typed: r.PostForm.Has("text")}
	for name, values := range r.PostForm {
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
			if err != nil || i < 0 || i > mostColumns {
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

// mostColumns bounds the cells of a new row; a quote has some twenty.
const mostColumns = 1000

// flat is how a cell stands in a field of one line, which browsers give back.
func flat(text string) string {
	return strings.NewReplacer("\r\n", "", "\n", "", "\r", "").Replace(text)
}

// edited is a file as a form would leave it, and what that changes in words; both
// empty if nothing.
func edited(t folder.Texts, name string, f *form) (data []byte, words string, err error) {
	if t.Tag(name) != f.tag {
		return nil, "", folder.ErrStale
	}
	if f.op == "start" {
		if _, there := t[name]; there {
			return nil, "", refusal.New(http.StatusConflict, name+" is there already", "")
		}
		return files.Templates()[name], "start " + name, nil
	}
	if name == files.SettingsFile && f.op != "text" && !(f.op == "try" && f.typed) {
		if data, words, err = settingsSet(t[name], f); err != nil {
			return nil, "", cannot(name, err)
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
	s, err := csvfile.Open(t[name], known[name])
	if err != nil {
		return nil, "", cannot(name, err)
	}
	out, words, err := f.on(s, name)
	if err != nil {
		return nil, "", cannot(name, err)
	}
	if words == "" {
		return nil, "", nil
	}
	if data, err = out.Bytes(); err != nil {
		return nil, "", cannot(name, err)
	}
	return data, words, nil
}

func cannot(name string, err error) error {
	return refusal.New(http.StatusUnprocessableEntity, name+": "+err.Error(), "")
}

// on does a form's changes to a sheet and says in words what they are.
func (f *form) on(s *csvfile.Sheet, name string) (out *csvfile.Sheet, words string, err error) {
	changed := map[csvfile.Place]string{}
	var told []string
	for _, row := range s.Rows {
		for i := range s.Width() {
			text, sent := f.cells[csvfile.Place{Line: row.Line, Index: i}]
			old := ""
			if i < len(row.Cells) {
				old = row.Cells[i].Text
			}
			if !sent || flat(text) == flat(old) {
				continue
			}
			changed[csvfile.Place{Line: row.Line, Index: i}] = text
			told = append(told, fmt.Sprintf("%s of %s", headingAt(s, i), labelOf(s, row)))
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
	if len(f.row) > 0 && (f.op == "add" || f.op == "try") {
		if out, err = out.AppendCells([][]string{f.row}); err != nil {
			return nil, "", err
		}
		told = append(told, "a new row in "+name)
	}
	if line, ok := strings.CutPrefix(f.op, "delete:"); ok {
		n, err := strconv.Atoi(line)
		if err != nil {
			return nil, "", fmt.Errorf("%q is no line to take out", line)
		}
		i := slices.IndexFunc(s.Rows, func(r csvfile.Row) bool { return r.Line == n })
		if out, err = out.Delete(n); err != nil {
			return nil, "", err
		}
		told = append(told, "taking out "+labelOf(s, s.Rows[i]))
	}
	if f.op == "column" && f.column != "" {
		if !slices.Contains(known[name], f.column) {
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

// labelOf names a row by what its first cells say.
func labelOf(s *csvfile.Sheet, row csvfile.Row) string {
	for _, heading := range []string{"quote", "bed", "medium", "supplier"} {
		if i := s.Column(heading); i >= 0 && i < len(row.Cells) && row.Cells[i].Text != "" {
			return row.Cells[i].Text
		}
	}
	return "line " + strconv.Itoa(row.Line)
}

// tried is what the script is told after an edit, saved or not.
type tried struct {
	Tag      string    `json:"tag"` // of the file as saved
	Undo     string    `json:"undo"`
	Strip    string    `json:"strip"`    // HTML
	Problems string    `json:"problems"` // HTML
	Files    string    `json:"files"`    // HTML
	State    string    `json:"state"`    // of all files as saved
	Marks    []markDoc `json:"marks"`
	Text     string    `json:"text"` // of the settings as saved; "" for a table
}

// markDoc is a problem or warning at a cell or row of the file.
type markDoc struct {
	ID      string `json:"id"` // "5.7", or "5" for a row
	Words   string `json:"words"`
	Hint    string `json:"hint"`
	Warning bool   `json:"warning"`
}

// tryEdit answers what a change would make of the job, and saves nothing. A newer
// try of the same page ends an older one.
func (h *Handler) tryEdit(w http.ResponseWriter, r *http.Request) error {
	name, f, err := formOf(r)
	if err != nil {
		return err
	}
	f.op = "try"
	ctx, done := h.desk.Newest(r.Context(), lane(r, "edit"))
	defer done()
	t, err := h.folder.Read()
	if err != nil {
		return err
	}
	data, words, err := edited(t, name, f)
	if err != nil {
		return err
	}
	draft := t
	if words != "" {
		draft = t.With(name, data)
	}
	return h.tell(ctx, w, r, name, t, draft)
}

// tell answers the script after an edit of draft, when now is saved.
func (h *Handler) tell(ctx context.Context, w http.ResponseWriter, r *http.Request, name string, now, draft folder.Texts) error {
	a, err := h.desk.Ask(ctx, draft, draft.Key() == now.Key(), 0)
	if err != nil {
		return err
	}
	var before *desk.Answer
	if draft.Key() != now.Key() {
		before = h.desk.Peek(now)
	}
	rep, _ := h.spoken(r.Context(), a, h.system(r, a))
	words, m := h.strip(r, a, before), marksOf(a, rep, name)
	words.Draft = draft.Key() != now.Key()
	doc := tried{Tag: now.Tag(name), Undo: h.folder.Undoable(), Marks: m.docs, State: now.Key()}
	if name == files.SettingsFile {
		doc.Text = string(now[name])
	}
	for _, part := range []struct {
		to   *string
		name string
		data any
	}{{&doc.Strip, "part/strip", words}, {&doc.Problems, "part/problems", m.general}, {&doc.Files, "part/files", tabs(a, name)}} {
		if *part.to, err = fragment(part.name, part.data); err != nil {
			return err
		}
	}
	writeJSON(w, http.StatusOK, doc)
	return nil
}

// lane names what one open page asks for, so that its newer requests end its older
// ones. The script gives the page's name; a request without one has no lane.
func lane(r *http.Request, what string) string {
	const most = 64
	id := r.Header.Get("X-Page")
	if id == "" || len(id) > most {
		return ""
	}
	return id + "/" + what
}

// saveEdit saves a change and answers as tryEdit does, or with the view.
func (h *Handler) saveEdit(w http.ResponseWriter, r *http.Request) error {
	if h.opt.ReadOnly {
		return folder.ErrReadOnly
	}
	name, f, err := formOf(r)
	if err != nil {
		return err
	}
	t, err := h.folder.Read()
	if err != nil {
		return err
	}
	data, words, err := edited(t, name, f)
	if err != nil {
		return err
	}
	if words != "" {
		if err := h.folder.Save(words, folder.Edit{File: name, Tag: f.tag, Data: data}); err != nil {
			return err
		}
		t = t.With(name, data)
	}
	if wantsJSON(r) {
		ctx, done := h.desk.Newest(r.Context(), lane(r, "edit"))
		defer done()
		return h.tell(ctx, w, r, name, t, t)
	}
	note := "saved"
	if words == "" {
		note = "same"
	}
	http.Redirect(w, r, "/edit/"+folder.FileKey(name)+"?"+url.Values{"said": {note}}.Encode(), http.StatusSeeOther)
	return nil
}

// undo takes back the last change that this page saved.
func (h *Handler) undo(w http.ResponseWriter, r *http.Request) error {
	if err := readPost(r); err != nil {
		return err
	}
	if _, err := h.folder.Undo(); err != nil {
		return err
	}
	http.Redirect(w, r, back(r)+"?said=undone", http.StatusSeeOther)
	return nil
}
