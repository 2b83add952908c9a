package web

import (
	"errors"
	"fmt"
	"io"
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
)

// proposal is pasted text as rows that may enter the job. Nothing of it is in the
// job.
type proposal struct {
	tables []*offerRows // rows for quotes.csv, and behind them those for delivery.csv, if there are any
	told   []spanView   // sentences, with what became of each word; empty for a table
	asked  []questionView
}

// offerRows is the rows of a proposal for one file.
type offerRows struct {
	file  string
	heads []string // a known heading for each column; "" leaves it out
	why   []string // why each column is thought to be that; "" where the text says so itself
	rows  [][]string
	take  []bool     // rows that are wanted
	notes [][]string // about each row, such as a required cell that is not there
}

// key begins the names of a table's fields in the form, so that those of two tables differ.
func (o *offerRows) key() string {
	if o.file == files.QuotesFile {
		return ""
	}
	return folder.FileKey(o.file) + "."
}

// field is the name of a field of the form that there is one of for each table.
func (o *offerRows) field(name string) string {
	if o.key() == "" {
		return name
	}
	return name + "." + folder.FileKey(o.file)
}

// empty says whether the proposal has no row at all.
func (p *proposal) empty() bool {
	return !slices.ContainsFunc(p.tables, func(o *offerRows) bool { return len(o.rows) > 0 })
}

// mostPasted bounds the rows of one paste.
const mostPasted = 500

// headed reads a table that has headings of its own; nil for text that has none.
// Two known headings, or one over several columns, make a heading line.
func headed(text string) (*proposal, error) {
	s, err := csvfile.Open([]byte(text), known[files.QuotesFile])
	if err != nil {
		return nil, err
	}
	n := 0
	for _, c := range s.Heads {
		if slices.Contains(known[files.QuotesFile], csvfile.HeadingKey(c.Text)) {
			n++
		}
	}
	if n < 2 {
		return nil, nil
	}
	p := &offerRows{file: files.QuotesFile}
	for _, c := range s.Heads {
		key := csvfile.HeadingKey(c.Text)
		if !slices.Contains(known[files.QuotesFile], key) || slices.Contains(p.heads, key) {
			key = ""
		}
		p.heads = append(p.heads, key)
		p.why = append(p.why, fmt.Sprintf("its heading is %q", c.Text))
	}
	for _, row := range s.Rows {
		if len(row.Cells) == 0 {
			continue
		}
		if len(p.rows) == mostPasted {
			return nil, tooManyRows
		}
		cells := make([]string, len(p.heads))
		for i, c := range row.Cells {
			if i < len(cells) {
				cells[i] = safe.Cell(strings.TrimSpace(c.Text))
			}
		}
		note := []string(nil)
		if len(row.Cells) != len(p.heads) {
			note = []string{fmt.Sprintf("the row has %s and the headings are %d: look whether they stand under the right ones", units.Several(len(row.Cells), "cell"), len(p.heads))}
		}
		p.rows, p.take, p.notes = append(p.rows, cells), append(p.take, true), append(p.notes, note)
	}
	return &proposal{tables: []*offerRows{p}}, nil
}

var tooManyRows = refusal.New(http.StatusRequestEntityTooLarge, fmt.Sprintf("more than %d rows were pasted", mostPasted), "paste fewer at a time, or put the file into the job's folder")

// pasteView is the box to paste into, and what was read from it.
type pasteView struct {
	frame
	Strip   strip
	Text    string
	Told    []spanView
	Asked   []questionView
	Answers string // given so far, to be sent along with the next
	Confirm *confirmView
	Lists   []listView // words that columns take
	Nothing bool       // nothing could be read
}

// confirmView is a proposal to say yes to.
type confirmView struct {
	Tables   []offerTable
	General  []string      // about the rows together
	Bad      []problemView // cells and rows to mend
	Yes      string        // what saying yes adds: "2 rows to quotes.csv"
	Supplier bool          // some row does not say who sells
	By       string
	Stale    bool // a file was changed since, and the rows were looked at again
	ReadOnly bool
}

// offerTable is the rows of a proposal for one file.
type offerTable struct {
	Key, Suffix, File, Tag string // Key begins the numbers of a field, Suffix ends the name of one by itself
	Heads                  []choiceView
	Rows                   []offerView
}

// choiceView is what a column is taken for.
type choiceView struct {
	Index   int
	Heading string
	Why     string
	All     []string
}

// Name names a column in the labels of its cells.
func (c choiceView) Name() string {
	if c.Heading == "" {
		return "column " + strconv.Itoa(c.Index+1)
	}
	return c.Heading
}

type offerView struct {
	Index int
	Name  string // row 1, delivery row 1
	Take  bool
	Cells []cellView
	Marks []markDoc
	Notes []string
}

func (h *Handler) pastePage(w http.ResponseWriter, r *http.Request) error {
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	v := pasteView{frame: h.frameOf(r, a, "Paste", "/paste"), Strip: h.strip(r, a, nil)}
	render(w, http.StatusOK, "paste", v)
	return nil
}

// pasteRead reads what was pasted, or a file, and proposes rows.
func (h *Handler) pasteRead(w http.ResponseWriter, r *http.Request) error {
	text, err := pastedText(r)
	if err != nil {
		return err
	}
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	answers, err := readAnswers(r.PostForm)
	if err != nil {
		return err
	}
	p, err := propose(text, a.Texts, answers)
	if err != nil {
		return err
	}
	v := pasteView{frame: h.frameOf(r, a, "Paste", "/paste"), Strip: h.strip(r, a, nil), Text: text, Told: p.told, Asked: p.asked, Answers: writeAnswers(answers)}
	v.Lists = lists(a)
	v.Nothing = p.empty() && len(p.asked) == 0
	if !p.empty() {
		if v.Confirm, err = h.confirm(p, "", a.Texts); err != nil {
			return err
		}
	}
	render(w, http.StatusOK, "paste", v)
	return nil
}

// pastedText is what a form of the paste view holds: a file, if there is one, else
// the text of the box.
func pastedText(r *http.Request) (string, error) {
	if err := readFiles(r); err != nil {
		return "", err
	}
	raw := []byte(r.PostForm.Get("text"))
	if r.MultipartForm != nil && len(r.MultipartForm.File["file"]) > 0 && r.MultipartForm.File["file"][0].Size > 0 {
		file, err := r.MultipartForm.File["file"][0].Open()
		if err != nil {
			return "", fmt.Errorf("opening the file that was sent: %w", err)
		}
		defer file.Close()
		if raw, err = io.ReadAll(file); err != nil {
			return "", fmt.Errorf("reading the file that was sent: %w", err)
		}
	}
	text, fault := csvfile.Decode(raw)
	if fault != nil {
		return "", refusal.New(http.StatusUnprocessableEntity, fault.Found+", want "+fault.Wanted, "copy the rows out of the program that shows them, and paste them here")
	}
	if strings.TrimSpace(text.String) == "" {
		return "", refusal.New(http.StatusBadRequest, "nothing was pasted", "copy rows or a message, and paste them into the box")
	}
	return text.String, nil
}

// pasteRows takes a proposal as the person left it: to look at its problems again,
// or to put its rows into the job.
func (h *Handler) pasteRows(w http.ResponseWriter, r *http.Request) error {
	p, err := readProposal(r)
	if err != nil {
		return err
	}
	by := strings.TrimSpace(r.PostForm.Get("supplier"))
	a, err := h.saved(r.Context(), patience)
	if err != nil {
		return err
	}
	status := http.StatusOK
	if r.PostForm.Get("op") == "add" {
		switch said, err := h.addPasted(p, by, a.Texts, r.PostForm); {
		case err == nil:
			http.Redirect(w, r, said, http.StatusSeeOther)
			return nil
		case !errors.Is(err, folder.ErrStale):
			return err
		}
		status = http.StatusConflict
	}
	c, err := h.confirm(p, by, a.Texts)
	if err != nil {
		return err
	}
	c.Stale = status == http.StatusConflict
	if wantsJSON(r) {
		html, err := fragment("part/confirm", c)
		if err != nil {
			return err
		}
		writeJSON(w, http.StatusOK, map[string]string{"confirm": html})
		return nil
	}
	v := pasteView{frame: h.frameOf(r, a, "Paste", "/paste"), Strip: h.strip(r, a, nil), Confirm: c, Lists: lists(a)}
	render(w, status, "paste", v)
	return nil
}

// addPasted puts the chosen rows of a proposal into the job's files, which are still to be as they were when they were
// looked at, and gives the address of the view to see them in.
func (h *Handler) addPasted(p *proposal, by string, t folder.Texts, form url.Values) (see string, err error) {
	if h.opt.ReadOnly {
		return "", folder.ErrReadOnly
	}
	j, err := p.joined(t, by)
	if err != nil {
		return "", err
	}
	if len(j) == 0 {
		return "", refusal.New(http.StatusBadRequest, "no row is chosen", "tick the rows that are to enter the job")
	}
	// Terms of delivery go first: should the machine stop between the two, they are for nobody and do no harm, where
	// quotes without them would seem to be delivered free.
	slices.SortFunc(j, func(a, b joined) int { return strings.Compare(a.file, b.file) })
	var edits []folder.Edit
	rows := 0
	for _, one := range j {
		tag := t.Tag(one.file)
		if tag != form.Get(one.field("tag")) {
			return "", folder.ErrStale
		}
		edits = append(edits, folder.Edit{File: one.file, Tag: tag, Data: one.data})
		rows += len(one.took)
	}
	if err := h.folder.Save(units.Several(rows, "pasted row"), edits...); err != nil {
		return "", err
	}
	last := j[len(j)-1]
	said := map[bool]string{false: "added-" + folder.FileKey(last.file), true: "added-both"}[len(j) > 1]
	return "/edit/" + folder.FileKey(last.file) + "?" + url.Values{"said": {said}}.Encode(), nil
}

// readProposal reads a proposal from its form.
func readProposal(r *http.Request) (*proposal, error) {
	if err := readPost(r); err != nil {
		return nil, err
	}
	p := &proposal{}
	for _, file := range []string{files.QuotesFile, files.DeliveryFile} {
		o := &offerRows{file: file}
		if o.key() != "" && !r.PostForm.Has(o.field("rows")) {
			continue
		}
		if err := o.read(r.PostForm); err != nil {
			return nil, err
		}
		p.tables = append(p.tables, o)
	}
	return p, nil
}

// read reads a table of a proposal from its form: h.COLUMN, v.ROW.COLUMN, take.ROW, the key of the table in front of the
// numbers.
func (o *offerRows) read(form url.Values) error {
	count := func(name string, most int) (int, error) {
		name = o.field(name)
		n, err := strconv.Atoi(form.Get(name))
		if err != nil || n < 0 || n > most {
			return 0, refusal.New(http.StatusBadRequest, fmt.Sprintf("%s is %q, want a number up to %d", name, form.Get(name), most), "paste the rows again")
		}
		return n, nil
	}
	cols, err := count("cols", mostColumns)
	if err != nil {
		return err
	}
	rows, err := count("rows", mostPasted)
	if err != nil {
		return err
	}
	for i := range cols {
		heading := form.Get(fmt.Sprintf("h.%s%d", o.key(), i))
		if heading != "" && !slices.Contains(known[o.file], heading) {
			return refusal.New(http.StatusBadRequest, fmt.Sprintf("%q is no heading of %s", heading, o.file), "")
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
