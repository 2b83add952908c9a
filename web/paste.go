package web

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/web/internal/sheet"
)

// proposal is pasted text as rows that may become quotes. Nothing of it is in the
// job.
type proposal struct {
	heads []string // a known heading for each column; "" leaves it out
	why   []string // why each column is thought to be that; "" where the text says so itself
	rows  [][]string
	take  []bool     // rows that are wanted
	notes [][]string // about each row, such as a required cell that is not there
	told  []spanView // sentences, with what became of each word; empty for a table
}

// mostPasted bounds the rows of one paste.
const mostPasted = 500

// headed reads a table that has headings of its own; nil for text that has none.
// Two known headings, or one over several columns, make a heading line.
func headed(text string) (*proposal, error) {
	s, err := sheet.Open([]byte(text), known[quotes.QuotesFile])
	if err != nil {
		return nil, err
	}
	n := 0
	for _, c := range s.Heads {
		if slices.Contains(known[quotes.QuotesFile], sheet.HeadingKey(c.Text)) {
			n++
		}
	}
	if n < 2 {
		return nil, nil
	}
	p := &proposal{}
	for _, c := range s.Heads {
		key := sheet.HeadingKey(c.Text)
		if !slices.Contains(known[quotes.QuotesFile], key) || slices.Contains(p.heads, key) {
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
			note = []string{fmt.Sprintf("the row has %s and the headings are %d: look whether they stand under the right ones", plural(len(row.Cells), "cell"), len(p.heads))}
		}
		p.rows, p.take, p.notes = append(p.rows, cells), append(p.take, true), append(p.notes, note)
	}
	return p, nil
}

var tooManyRows = &failure{http.StatusRequestEntityTooLarge, fmt.Sprintf("more than %d rows were pasted", mostPasted), "paste fewer at a time, or put the file into the job's folder"}

// pasteView is the box to paste into, and what was read from it.
type pasteView struct {
	frame
	Strip   strip
	Text    string
	Told    []spanView
	Confirm *confirmView
	Lists   []listView // words that columns take
	Nothing bool       // nothing could be read
}

// confirmView is a proposal to say yes to.
type confirmView struct {
	Tag      string
	Heads    []choiceView
	Rows     []offerView
	General  []string      // about the rows together
	Bad      []problemView // cells and rows to mend
	Taken    int
	Supplier bool // some row does not say who sells
	By       string
	Stale    bool // quotes.csv was changed since, and the rows were looked at again
	ReadOnly bool
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
	p, err := propose(text, a.texts)
	if err != nil {
		return err
	}
	v := pasteView{frame: h.frameOf(r, a, "Paste", "/paste"), Strip: h.strip(r, a, nil), Text: text, Told: p.told}
	v.Lists = lists(a)
	v.Nothing = len(p.rows) == 0
	if !v.Nothing {
		if v.Confirm, err = h.confirm(p, "", a.texts); err != nil {
			return err
		}
	}
	render(w, http.StatusOK, "paste", v)
	return nil
}

// pastedText is what a form of the paste view holds: a file, if there is one, else
// the text of the box.
func pastedText(r *http.Request) (string, error) {
	if err := r.ParseMultipartForm(MaxBody); err != nil {
		return "", badForm(err)
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
	text, err := sheet.Decode(raw)
	if err != nil {
		return "", &failure{http.StatusUnprocessableEntity, err.Error(), "copy the rows out of the program that shows them, and paste them here"}
	}
	if strings.TrimSpace(text) == "" {
		return "", &failure{http.StatusBadRequest, "nothing was pasted", "copy rows or a message, and paste them into the box"}
	}
	return text, nil
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
		if h.opt.ReadOnly {
			return errReadOnly
		}
		n := len(p.chosen(by))
		if n == 0 {
			return &failure{http.StatusBadRequest, "no row is chosen", "tick the rows that are to become quotes"}
		}
		data, _, err := p.joined(a.texts, by)
		if err != nil {
			return err
		}
		err = errStale
		if tag := a.texts.tag(quotes.QuotesFile); tag == r.PostForm.Get("tag") {
			err = h.folder.save(quotes.QuotesFile, tag, data, plural(n, "pasted row"))
		}
		switch {
		case err == nil:
			http.Redirect(w, r, "/edit/quotes?said=added", http.StatusSeeOther)
			return nil
		case !errors.Is(err, errStale):
			return err
		}
		status = http.StatusConflict
	}
	c, err := h.confirm(p, by, a.texts)
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

// readProposal reads a proposal from its form: h.COLUMN, v.ROW.COLUMN, take.ROW.
func readProposal(r *http.Request) (*proposal, error) {
	if err := readPost(r); err != nil {
		return nil, err
	}
	count := func(name string, most int) (int, error) {
		n, err := strconv.Atoi(r.PostForm.Get(name))
		if err != nil || n < 0 || n > most {
			return 0, &failure{http.StatusBadRequest, fmt.Sprintf("%s is %q, want a number up to %d", name, r.PostForm.Get(name), most), "paste the rows again"}
		}
		return n, nil
	}
	cols, err := count("cols", mostColumns)
	if err != nil {
		return nil, err
	}
	rows, err := count("rows", mostPasted)
	if err != nil {
		return nil, err
	}
	p := &proposal{}
	for i := range cols {
		heading := r.PostForm.Get(fmt.Sprintf("h.%d", i))
		if heading != "" && !slices.Contains(known[quotes.QuotesFile], heading) {
			return nil, &failure{http.StatusBadRequest, fmt.Sprintf("%q is no heading of quotes.csv", heading), ""}
		}
		p.heads, p.why = append(p.heads, heading), append(p.why, "")
	}
	for i := range rows {
		cells := make([]string, cols)
		for j := range cols {
			cells[j] = strings.TrimSpace(r.PostForm.Get(fmt.Sprintf("v.%d.%d", i, j)))
		}
		p.rows = append(p.rows, cells)
		p.take = append(p.take, r.PostForm.Get(fmt.Sprintf("take.%d", i)) != "")
		p.notes = append(p.notes, nil)
	}
	return p, nil
}
