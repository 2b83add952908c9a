package web

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"mediabuy/quotes/csvfile"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/paste"
	"mediabuy/web/internal/refusal"
	"mediabuy/web/internal/typing"
)

// pasteView is the box to paste into, and what was read from it.
type pasteView struct {
	frame
	Strip   strip
	Text    string
	Told    []paste.Span
	Asked   []paste.Question
	Answers string              // given so far, to be sent along with the next
	Confirm *paste.Confirmation // nil where nothing is proposed
	Lists   []typing.List       // words that columns take
	Nothing bool                // nothing could be read
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
	answers, err := paste.ReadAnswers(r.PostForm)
	if err != nil {
		return err
	}
	p, err := paste.Read(text, a.Texts, answers, h.desk.Reading().Today)
	if err != nil {
		return err
	}
	v := pasteView{frame: h.frameOf(r, a, "Paste", "/paste"), Strip: h.strip(r, a, nil), Text: text, Told: p.Told, Asked: p.Asked, Answers: paste.WriteAnswers(answers)}
	v.Lists = typing.Lists(jobOf(a))
	v.Nothing = p.Empty() && len(p.Asked) == 0
	if !p.Empty() {
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

// confirm sets a proposal out to say yes to.
func (h *Handler) confirm(p *paste.Proposal, by string, t folder.Texts) (*paste.Confirmation, error) {
	c, err := p.Confirm(by, t, h.desk.Reading())
	if err != nil {
		return nil, err
	}
	c.ReadOnly = h.opt.ReadOnly
	return c, nil
}

// pasteRows takes a proposal as the person left it: to look at its problems again,
// or to put its rows into the job.
func (h *Handler) pasteRows(w http.ResponseWriter, r *http.Request) error {
	if err := readPost(r); err != nil {
		return err
	}
	p, err := paste.ReadProposal(r.PostForm)
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
	v := pasteView{frame: h.frameOf(r, a, "Paste", "/paste"), Strip: h.strip(r, a, nil), Confirm: c, Lists: typing.Lists(jobOf(a))}
	render(w, status, "paste", v)
	return nil
}

// addPasted puts the chosen rows of a proposal into the job's files, which are still to be as they were when they were
// looked at, and gives the address of the view to see them in.
func (h *Handler) addPasted(p *paste.Proposal, by string, t folder.Texts, form url.Values) (see string, err error) {
	if h.opt.ReadOnly {
		return "", folder.ErrReadOnly
	}
	j, err := p.Joined(t, by)
	if err != nil {
		return "", err
	}
	if len(j) == 0 {
		return "", refusal.New(http.StatusBadRequest, "no row is chosen", "tick the rows that are to enter the job")
	}
	// Terms of delivery go first: should the machine stop between the two, they are for nobody and do no harm, where
	// quotes without them would seem to be delivered free.
	slices.SortFunc(j, func(a, b paste.Joined) int { return strings.Compare(a.File, b.File) })
	var edits []folder.Edit
	rows := 0
	for _, one := range j {
		tag := t.Tag(one.File)
		if tag != form.Get(one.Field("tag")) {
			return "", folder.ErrStale
		}
		edits = append(edits, folder.Edit{File: one.File, Tag: tag, Data: one.Data})
		rows += len(one.Took)
	}
	if err := h.folder.Save(units.Several(rows, "pasted row"), edits...); err != nil {
		return "", err
	}
	last := j[len(j)-1]
	said := map[bool]string{false: "added-" + folder.FileKey(last.File), true: "added-both"}[len(j) > 1]
	return "/edit/" + folder.FileKey(last.File) + "?" + url.Values{"said": {said}}.Encode(), nil
}
