package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"

	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
	"mediabuy/web/internal/typing"
)

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

// formOf is the file that a request would change, and how.
func formOf(r *http.Request) (name string, f *typing.Form, err error) {
	if name, err = fileOf(r); err != nil {
		return "", nil, err
	}
	if err = readPost(r); err != nil {
		return "", nil, err
	}
	f, err = typing.ReadForm(r.PostForm)
	return name, f, err
}

// tried is what the script is told after an edit, saved or not.
type tried struct {
	Tag      string        `json:"tag"` // of the file as saved
	Undo     string        `json:"undo"`
	Strip    string        `json:"strip"`    // HTML
	Problems string        `json:"problems"` // HTML
	Files    string        `json:"files"`    // HTML
	State    string        `json:"state"`    // of all files as saved
	Marks    []typing.Mark `json:"marks"`
	Text     string        `json:"text"` // of the settings as saved; "" for a table
}

// tryEdit answers what a change would make of the job, and saves nothing. A newer
// try of the same page ends an older one.
func (h *Handler) tryEdit(w http.ResponseWriter, r *http.Request) error {
	name, f, err := formOf(r)
	if err != nil {
		return err
	}
	f.Op = "try"
	ctx, done := h.desk.Newest(r.Context(), lane(r, "edit"))
	defer done()
	t, err := h.folder.Read()
	if err != nil {
		return err
	}
	data, words, err := typing.Edited(t, name, f)
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
	words, m := h.strip(r, a, before), typing.MarksOf(a.Texts, rep, name)
	words.Draft = draft.Key() != now.Key()
	doc := tried{Tag: now.Tag(name), Undo: h.folder.Undoable(), Marks: m.Docs, State: now.Key()}
	if name == files.SettingsFile {
		doc.Text = string(now[name])
	}
	for _, part := range []struct {
		to   *string
		name string
		data any
	}{{&doc.Strip, "part/strip", words}, {&doc.Problems, "part/problems", m.General}, {&doc.Files, "part/files", tabs(a, name)}} {
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
	data, words, err := typing.Edited(t, name, f)
	if err != nil {
		return err
	}
	if words != "" {
		if err := h.folder.Save(words, folder.Edit{File: name, Tag: f.Tag, Data: data}); err != nil {
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
