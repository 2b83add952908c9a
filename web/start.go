package web

import (
	"cmp"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/quotes/tomlfile"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
	"mediabuy/web/internal/typing"
)

// startView is the first view of a job that has neither beds nor quotes: it asks in the
// order in which a grower knows it.
type startView struct {
	frame
	Tags   []tagView // of the files that it writes
	Place  string    // a name of Where, or "other"
	Where  []units.Place
	Code   answerTyped // the currency, where it is of another place
	Length string
	Tax    answerTyped // on top of prices
	Kinds  []kindTyped
	NeedBy answerTyped
	Budget answerTyped
	Most   answerTyped // suppliers
	Bad    []string    // about the whole
}

// tagView is the tag of one file.
type tagView struct{ Name, Tag string }

// answerTyped is what was typed, and what is wrong with it.
type answerTyped struct {
	Text  string
	Marks []string
}

// kindTyped is some beds alike.
type kindTyped struct {
	Index                                       int
	Name, Count, Size, Depth, Top, Limit, Grain answerTyped
}

// filled reports whether anything of it was typed.
func (k kindTyped) filled() bool {
	return k.Name.Text+k.Count.Text+k.Size.Text+k.Depth.Text+k.Top.Text+k.Limit.Text+k.Grain.Text != ""
}

// of is the answer of a column of beds.csv; nil for any other.
func (k *kindTyped) of(heading string) *answerTyped {
	return map[string]*answerTyped{"bed": &k.Name, "count": &k.Count, "length": &k.Size, "width": &k.Size, "depth": &k.Depth, "volume": &k.Size,
		"top": &k.Top, "limit": &k.Limit, "min_size": &k.Grain}[heading]
}

// startKinds is how many kinds of bed there is room for; more are typed under Files.
const startKinds = 5

// startLengths are the units that a bare length may have.
var startLengths = []string{"ft", "in", "m", "cm", "mm"}

// empty reports whether a job has neither a bed nor a quote, as a new one.
func empty(t folder.Texts) bool {
	return rowless(t, files.BedsFile) && rowless(t, files.QuotesFile)
}

// rowless reports whether a file has no row yet, or is not there.
func rowless(t folder.Texts, name string) bool {
	data, there := t[name]
	if !there {
		return true
	}
	s, err := csvfile.Open(data, typing.Headings[name])
	return err == nil && !slices.ContainsFunc(s.Rows, func(r csvfile.Row) bool { return len(r.Cells) > 0 })
}

// startFiles are the files that the first view writes.
var startFiles = []string{files.SettingsFile, files.BedsFile}

// startPage asks for a first job.
func (h *Handler) startPage(w http.ResponseWriter, r *http.Request, t folder.Texts) {
	v := startView{Place: "US", Kinds: make([]kindTyped, startKinds)}
	h.showStart(w, r, t, v, http.StatusOK)
}

func (h *Handler) showStart(w http.ResponseWriter, r *http.Request, t folder.Texts, v startView, status int) {
	v.frame = h.frame(r, "A new job", "/")
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

// startExamples show what a bed's measures look like, in the reader's habit.
type startExamples struct{ Size, Depth, Top, Limit, Grain string }

// Examples are those of the reader's habit, for the template.
func (v startView) Examples() startExamples {
	if v.Units == "metric" {
		return startExamples{"2.4 x 1.2 m", "300 mm", "50 mm, or empty", "500 kg", "12 mm"}
	}
	return startExamples{"8 x 4 ft", "12 in", "2 in, or empty", "1200 lb", "1/2 in"}
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
	if !empty(t) {
		return refusal.New(http.StatusConflict, "the job has beds or quotes already", "change them under Files")
	}
	v := startTyped(r)
	if !slices.ContainsFunc(v.Kinds, kindTyped.filled) {
		v.Bad = append(v.Bad, "No bed was named: a job needs at least one. Say how many are alike, their length and width, and how deep the media lie.")
		h.showStart(w, r, t, v, http.StatusUnprocessableEntity)
		return nil
	}
	settings, err := v.settings(t)
	if err != nil {
		return typing.Cannot(files.SettingsFile, err)
	}
	beds, lines, err := v.beds(t)
	if err != nil {
		return typing.Cannot(files.BedsFile, err)
	}
	if !v.check(t.With(files.SettingsFile, settings).With(files.BedsFile, beds), lines, h.desk.Reading()) {
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

// startTyped is what a form of the first view holds.
func startTyped(r *http.Request) startView {
	get := func(name string) answerTyped {
		return answerTyped{Text: strings.TrimSpace(typing.Flat(r.PostForm.Get(name)))}
	}
	v := startView{Place: get("place").Text, Code: get("code"), Length: get("length").Text, Tax: get("tax"), NeedBy: get("need_by"), Budget: get("budget"), Most: get("max_suppliers")}
	for i := range startKinds {
		at := func(name string) answerTyped { return get(name + "." + strconv.Itoa(i)) }
		v.Kinds = append(v.Kinds, kindTyped{Name: at("bed"), Count: at("count"), Size: at("size"), Depth: at("depth"), Top: at("top"), Limit: at("limit"), Grain: at("grain")})
	}
	return v
}

// settings are the job's settings with the answers in them.
func (v *startView) settings(t folder.Texts) ([]byte, error) {
	text, there := t[files.SettingsFile]
	if !there {
		text = files.Templates()[files.SettingsFile]
	}
	f, err := tomlfile.Open(text)
	if err != nil {
		return nil, err
	}
	code := units.CurrencyOf(v.Place)
	if v.Place == "other" {
		code = cmp.Or(strings.ToUpper(v.Code.Text), "?")
	}
	for _, one := range []struct {
		key   tomlfile.Key
		value string
	}{{tomlfile.Key{"currency"}, code}, {tomlfile.Key{"units", "length"}, v.Length}, {tomlfile.Key{"tax"}, v.Tax.Text}, {tomlfile.Key{"need_by"}, v.NeedBy.Text},
		{tomlfile.Key{"budget"}, v.Budget.Text}, {tomlfile.Key{"max_suppliers"}, v.Most.Text}} {
		if one.value == "" {
			continue
		}
		if f, err = f.Set(one.key, one.value); err != nil {
			return nil, err
		}
	}
	return f.Bytes(), nil
}

// beds is beds.csv with a row for each kind, and the kind of each of its lines.
func (v *startView) beds(t folder.Texts) (data []byte, kinds map[int]int, err error) {
	text, there := t[files.BedsFile]
	if !there {
		text = files.Templates()[files.BedsFile]
	}
	s, err := csvfile.Open(text, typing.Headings[files.BedsFile])
	if err != nil {
		return nil, nil, err
	}
	var rows []map[string]string
	var of []int
	for i, k := range v.Kinds {
		if !k.filled() {
			continue
		}
		of = append(of, i)
		length, width := k.Size.Text, ""
		if sides := files.Sides(length, units.MarkUnknown); len(sides) == 2 {
			length, width = sides[0], sides[1]
		}
		rows = append(rows, map[string]string{"bed": cmp.Or(k.Name.Text, fmt.Sprintf("bed %d", i+1)), "count": k.Count.Text, "length": length, "width": width, "depth": k.Depth.Text,
			"top": k.Top.Text, "limit": k.Limit.Text, "min_size": k.Grain.Text})
	}
	if s, err = s.Append(rows); err != nil {
		return nil, nil, err
	}
	kinds = map[int]int{}
	for _, row := range s.Rows {
		if len(row.Cells) > 0 {
			kinds[row.Line] = of[len(kinds)]
		}
	}
	data, err = s.Bytes()
	return data, kinds, err
}

// check reads the files as they would be, and puts what is wrong with them beside the
// answers. What quotes lack is none of it.
func (v *startView) check(t folder.Texts, kinds map[int]int, opt files.Options) bool {
	_, rep, err := files.Read(t.Files(), opt)
	if err != nil {
		v.Bad = append(v.Bad, sentence(err.Error()))
		return false
	}
	sound := true
	for _, p := range rep.Problems {
		words := sentence(p.Message())
		if p.Hint != "" {
			words += " " + sentence(p.Hint)
		}
		var at *answerTyped
		switch p.File {
		case files.QuotesFile, files.DeliveryFile, files.MediaFile:
			continue
		case files.SettingsFile:
			at = map[string]*answerTyped{"currency": &v.Code, "tax": &v.Tax, "need_by": &v.NeedBy, "budget": &v.Budget, "max_suppliers": &v.Most}[p.Heading]
		case files.BedsFile:
			if i, ok := kinds[p.Line]; ok {
				if at = v.Kinds[i].of(p.Heading); at == nil {
					at = &v.Kinds[i].Name
				}
			}
		}
		sound = false
		if at == nil {
			v.Bad = append(v.Bad, p.Pos.String()+": "+words)
			continue
		}
		at.Marks = append(at.Marks, words)
	}
	return sound
}

// typedField is an answer with what its field needs, for the template.
type typedField struct {
	answerTyped
	Name, Label, Example string
	Size                 int
}

func answerField(name string, a answerTyped) typedField {
	return typedField{answerTyped: a, Name: name}
}

func kindField(i int, name, label string, a answerTyped, example string, size int) typedField {
	return typedField{a, name + "." + strconv.Itoa(i), fmt.Sprintf("%s of kind %d", label, i+1), example, size}
}
