package web

import (
	"bytes"
	"embed"
	"encoding/json"
	"html/template"
	"io/fs"
	"net/http"
	"strings"
	"sync"

	"mediabuy/units"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/refusal"
)

//go:embed views static
var embedded embed.FS

// views are the templates: a view's page, and under "part/NAME" its fragments. They are read at first use: most commands need none.
var views = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{"plural": units.Several, "sentence": refusal.Sentence, "inc": func(n int) int { return n + 1 }, "answer": answerField, "kind": kindField}).ParseFS(embedded, "views/*.gohtml"))
})

// frame is what stands around every view.
type frame struct {
	Job      string // the folder's name
	Title    string
	Here     string // the path of the view, to mark it in the navigation
	Units    string // "us" or "metric"
	ReadOnly bool
	Undo     string // what could be undone; "" for nothing
	Said     string // what was just done; "" for nothing
	State    string // names the files as they are shown; "" where none are
	Typed    bool   // it holds what someone types or asks, and is not to be shown anew by itself
	// Busy says that an answer is not there yet, so that a browser without scripts
	// asks again by itself.
	Busy bool
}

func (h *Handler) frame(r *http.Request, title, here string) frame {
	return frame{
		Job: h.name(), Title: title, Here: here, Units: h.unitsWord(r, ""), ReadOnly: h.opt.ReadOnly,
		Undo: h.folder.Undoable(), Said: said[r.URL.Query().Get("said")],
	}
}

// frameOf is the frame of a view that shows an answer.
func (h *Handler) frameOf(r *http.Request, a *desk.Answer, title, here string) frame {
	f := h.frame(r, title, here)
	f.State, f.Typed = a.Key, here != "/" && here != "/papers"
	if a.Done() && a.Currency != "" {
		f.Units = h.unitsWord(r, a.Currency)
	}
	return f
}

// said are the sentences that a view may open with after a change; the address
// carries only their names, so that a link cannot put words on the page.
var said = map[string]string{
	"saved": "Saved.", "same": "Nothing was changed, so nothing was saved.", "undone": "Undone.",
	"added-quotes": "The rows are in quotes.csv.", "added-delivery": "The rows are in delivery.csv.",
	"kept":       "The orders lie in the folder “orders” of the job. What they order is under way, and Receive counts what comes against them.",
	"kept-more":  "The orders that finish the beds lie in the folder “orders” of the job. What they order is under way. Of what came nothing is kept here: when more comes, write all that came so far.",
	"started":    "The beds and settings are saved. Now paste what each yard wrote, one message after the other.",
	"added-both": "The rows are in quotes.csv and delivery.csv. Undo takes all of them back.",
}

// render writes a page, or a fragment for a name that begins with "part/".
func render(w http.ResponseWriter, status int, name string, data any) {
	var b bytes.Buffer
	if err := views().ExecuteTemplate(&b, name, data); err != nil {
		http.Error(w, "mediabuy: setting out the page: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	// A browser that has gone away is nobody to tell.
	_, _ = w.Write(b.Bytes())
}

// fragment is a part of a page as text, for an answer in JSON.
func fragment(name string, data any) (string, error) {
	var b strings.Builder
	err := views().ExecuteTemplate(&b, name, data)
	return b.String(), err
}

// wantsJSON reports whether the script asks, which says so.
func wantsJSON(r *http.Request) bool { return r.Header.Get("Accept") == "application/json" }

func writeJSON(w http.ResponseWriter, status int, doc any) {
	b, err := json.Marshal(doc)
	if err != nil {
		http.Error(w, "mediabuy: writing the answer: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = w.Write(b) // as in render
}

// static serves the script and the style.
func (h *Handler) static() http.Handler {
	sub, err := fs.Sub(embedded, "static")
	if err != nil {
		panic("web: " + err.Error()) // the files are part of the program
	}
	files := http.StripPrefix("/static/", http.FileServerFS(sub))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/") {
			http.NotFound(w, r) // no list of files
			return
		}
		files.ServeHTTP(w, r)
	})
}
