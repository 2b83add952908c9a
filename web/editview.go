package web

import (
	"net/http"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/quotes/tomlfile"
	"mediabuy/web/internal/desk"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/typing"
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
	General []typing.Problem
	typing.Table
	Lists  []typing.List
	Text   string // of the settings
	Plain  bool   // it is the settings: fields and not a table
	Groups []typing.Group
}

type tabView struct {
	Key, File string
	Here      bool
	Problems  int
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
	m := &typing.Marks{}
	if a.Done() {
		rep, _ := h.spoken(r.Context(), a, h.system(r, a))
		m = typing.MarksOf(a.Texts, rep, name)
	}
	v.General = m.General
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
		v.Groups = typing.Settings(f, jobOf(a), m.Docs, v.Units == "metric")
	default:
		s, err := csvfile.Open(a.Texts[name], typing.Headings[name])
		if err != nil {
			v.Broken = err.Error()
			break
		}
		v.Table = typing.TableOf(s, name, m.Docs)
		v.Lists = typing.Lists(jobOf(a))
	}
	render(w, http.StatusOK, "edit", v)
	return nil
}

// jobOf is the job of an answer; nil while there is none.
func jobOf(a *desk.Answer) *quotes.Job {
	if !a.Done() {
		return nil
	}
	return a.Job
}

// tabs are the job's files, with how many problems each has.
func tabs(a *desk.Answer, here string) []tabView {
	var out []tabView
	for _, file := range files.FileNames {
		tab := tabView{Key: folder.FileKey(file), File: file, Here: file == here}
		if a.Done() && !waiting(a) {
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
