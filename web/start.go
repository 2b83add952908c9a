package web

import (
	"cmp"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strconv"

	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/begin"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
	"mediabuy/web/internal/typing"
)

// startView is the first view of a job that has neither beds nor quotes: it asks in the
// order in which a grower knows it.
type startView struct {
	frame
	begin.Answers
	Tags   []tagView // of the files that it writes
	Where  []units.Place
	Chosen string // units that this browser chose; "" for none
}

// tagView is the tag of one file.
type tagView struct{ Name, Tag string }

// startLengths are the units that a bare length may have.
var startLengths = []string{"ft", "in", "m", "cm", "mm"}

// startFiles are the files that the first view writes.
var startFiles = []string{files.SettingsFile, files.BedsFile}

// startPage asks for a first job.
func (h *Handler) startPage(w http.ResponseWriter, r *http.Request, t folder.Texts) {
	v := startView{Answers: begin.Answers{Place: "US", Kinds: make([]begin.Kind, begin.MostKinds)}}
	h.showStart(w, r, t, v, http.StatusOK)
}

func (h *Handler) showStart(w http.ResponseWriter, r *http.Request, t folder.Texts, v startView, status int) {
	v.frame = h.frame(r, "A new job", "/")
	v.Chosen, v.Units = chosenUnits(r), h.unitsWord(r, v.Currency())
	if h.opt.Units != nil {
		v.Chosen = v.Units
	}
	v.Typed, v.State = true, t.Key()
	v.Where = units.Places
	for _, name := range startFiles {
		v.Tags = append(v.Tags, tagView{folder.FileKey(name), t.Tag(name)})
	}
	for i := range v.Kinds {
		v.Kinds[i].Index = i
	}
	render(w, status, "start", v)
}

// Lengths are the choices of a unit, for the template.
func (startView) Lengths() []string { return startLengths }

// Examples are those of the reader's habit, for the template.
func (v startView) Examples() begin.Examples { return begin.ExamplesIn(v.Units) }

// Such are the examples for whoever chooses a place of a habit of units, for the script;
// those of the system that was chosen stay.
func (v startView) Such(system string) (string, error) {
	b, err := json.Marshal(begin.ExamplesIn(cmp.Or(v.Chosen, system)))
	return string(b), err
}

// startSave puts a first job's settings and beds into its files, if they can be read;
// else it asks again with what is wrong beside what was typed.
func (h *Handler) startSave(w http.ResponseWriter, r *http.Request) error {
	if h.opt.ReadOnly {
		return folder.ErrReadOnly
	}
	if err := readPost(r); err != nil {
		return err
	}
	t, err := h.folder.Read()
	if err != nil {
		return err
	}
	if !begin.Empty(t) {
		return refusal.New(http.StatusConflict, "the job has beds or quotes already", "change them under Files")
	}
	v := startView{Answers: begin.Read(r.PostForm)}
	if !slices.ContainsFunc(v.Kinds, begin.Kind.Filled) {
		v.Bad = append(v.Bad, "No bed was named: a job needs at least one. Say how many are alike, their length and width, and how deep the media lie.")
		h.showStart(w, r, t, v, http.StatusUnprocessableEntity)
		return nil
	}
	settings, err := v.Settings(t)
	if err != nil {
		return typing.Cannot(files.SettingsFile, err)
	}
	beds, lines, err := v.Beds(t)
	if err != nil {
		return typing.Cannot(files.BedsFile, err)
	}
	if !v.Check(t.With(files.SettingsFile, settings).With(files.BedsFile, beds), lines, h.desk.Reading()) {
		h.showStart(w, r, t, v, http.StatusUnprocessableEntity)
		return nil
	}
	err = h.folder.Save("the first settings and beds", folder.Edit{File: files.SettingsFile, Tag: r.PostForm.Get("tag." + folder.FileKey(files.SettingsFile)), Data: settings},
		folder.Edit{File: files.BedsFile, Tag: r.PostForm.Get("tag." + folder.FileKey(files.BedsFile)), Data: beds})
	if err != nil {
		return err
	}
	http.Redirect(w, r, "/paste?said=started", http.StatusSeeOther)
	return nil
}

// typedField is an answer with what its field needs, for the template.
type typedField struct {
	begin.Answer
	Name, Label, Example string
	Size                 int
}

func answerField(name string, a begin.Answer) typedField {
	return typedField{Answer: a, Name: name}
}

func kindField(i int, name, label string, a begin.Answer, example string, size int) typedField {
	return typedField{a, name + "." + strconv.Itoa(i), fmt.Sprintf("%s of kind %d", label, i+1), example, size}
}
