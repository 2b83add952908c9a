// Package begin is a first job as somebody types it who begins: the answers put into the
// settings and the beds, and what is wrong with each of them in words of the form. It saves
// nothing.
package begin

import (
	"cmp"
	"fmt"
	"net/url"
	"regexp"
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

// Answers are what is asked of a first job, in the order in which a grower knows it.
type Answers struct {
	Place  string // a name of units.Places, or "other"
	Code   Answer // the currency, where it is of another place
	Length string
	Tax    Answer // on top of prices
	Kinds  []Kind
	NeedBy Answer
	Budget Answer
	Most   Answer   // suppliers
	Bad    []string // about the whole
}

// Answer is what was typed, and what is wrong with it.
type Answer struct {
	Text  string
	Marks []string
}

// Kind is some beds alike.
type Kind struct {
	Index                                              int
	Name, Count, Size, Depth, Top, Table, Limit, Grain Answer
}

// Filled reports whether anything of it was typed.
func (k Kind) Filled() bool {
	return k.Name.Text+k.Count.Text+k.Size.Text+k.Depth.Text+k.Top.Text+k.Table.Text+k.Limit.Text+k.Grain.Text != ""
}

// of is the answer of a column of beds.csv; nil for any other.
func (k *Kind) of(heading string) *Answer {
	return map[string]*Answer{"bed": &k.Name, "count": &k.Count, "length": &k.Size, "width": &k.Size, "depth": &k.Depth, "volume": &k.Size,
		"top": &k.Top, "table": &k.Table, "limit": &k.Limit, "min_size": &k.Grain}[heading]
}

// MostKinds is how many kinds of bed there is room for; more are typed under Files.
const MostKinds = 5

// Empty reports whether a job has neither a bed nor a quote, as a new one.
func Empty(t folder.Texts) bool {
	return Rowless(t, files.BedsFile) && Rowless(t, files.QuotesFile)
}

// Rowless reports whether a file has no row yet, or is not there.
func Rowless(t folder.Texts, name string) bool {
	data, there := t[name]
	if !there {
		return true
	}
	s, err := csvfile.Open(data, typing.Headings[name])
	return err == nil && !slices.ContainsFunc(s.Rows, func(r csvfile.Row) bool { return len(r.Cells) > 0 })
}

// Examples show what a bed's measures look like, by the names of their fields.
type Examples struct {
	Size  string `json:"size"`
	Depth string `json:"depth"`
	Top   string `json:"top"`
	Limit string `json:"limit"`
	Grain string `json:"grain"`
	Bare  string `json:"bare"` // length and width without a unit
}

// ExamplesIn are those of a system of units.
func ExamplesIn(system string) Examples {
	if system == "metric" {
		return Examples{"2.4 x 1.2 m", "300 mm", "50 mm, or empty", "500 kg", "12 mm", "2.4 x 1.2"}
	}
	return Examples{"8 x 4 ft", "12 in", "2 in, or empty", "1200 lb", "1/2 in", "8 x 4"}
}

// Read is what a form of the first view holds.
func Read(form url.Values) Answers {
	get := func(name string) Answer {
		return Answer{Text: strings.TrimSpace(typing.Flat(form.Get(name)))}
	}
	v := Answers{Place: get("place").Text, Code: get("code"), Length: get("length").Text, Tax: get("tax"), NeedBy: get("need_by"), Budget: get("budget"), Most: get("max_suppliers")}
	for i := range MostKinds {
		at := func(name string) Answer { return get(name + "." + strconv.Itoa(i)) }
		v.Kinds = append(v.Kinds, Kind{Name: at("bed"), Count: at("count"), Size: at("size"), Depth: at("depth"), Top: at("top"), Table: at("table"), Limit: at("limit"), Grain: at("grain")})
	}
	return v
}

// Currency is that of the place, or the code typed where it is none of those named.
func (v *Answers) Currency() string {
	if v.Place == "other" {
		return cmp.Or(strings.ToUpper(v.Code.Text), "?")
	}
	return units.CurrencyOf(v.Place)
}

// Settings are the job's settings with the answers in them.
func (v *Answers) Settings(t folder.Texts) ([]byte, error) {
	text, there := t[files.SettingsFile]
	if !there {
		text = files.Templates()[files.SettingsFile]
	}
	f, err := tomlfile.Open(text)
	if err != nil {
		return nil, err
	}
	for _, one := range []struct {
		key   tomlfile.Key
		value string
	}{{tomlfile.Key{"currency"}, v.Currency()}, {tomlfile.Key{"units", "length"}, v.Length}, {tomlfile.Key{"tax"}, v.Tax.Text}, {tomlfile.Key{"need_by"}, v.NeedBy.Text},
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

// Beds is beds.csv with a row for each kind, and the kind of each of its lines.
func (v *Answers) Beds(t folder.Texts) (data []byte, kinds map[int]int, err error) {
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
		if !k.Filled() {
			continue
		}
		of = append(of, i)
		length, width := k.Size.Text, ""
		if sides := files.Sides(length, units.MarkUnknown); len(sides) == 2 {
			length, width = sides[0], sides[1]
		}
		rows = append(rows, map[string]string{"bed": cmp.Or(k.Name.Text, fmt.Sprintf("bed %d", i+1)), "count": k.Count.Text, "length": length, "width": width, "depth": k.Depth.Text,
			"top": k.Top.Text, "table": k.Table.Text, "limit": k.Limit.Text, "min_size": k.Grain.Text})
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

// Check reads the files as they would be, and puts what is wrong with them beside the
// answers. What quotes lack is none of it.
func (v *Answers) Check(t folder.Texts, kinds map[int]int, opt files.Options) bool {
	_, rep, err := files.Read(t.Files(), opt)
	if err != nil {
		v.Bad = append(v.Bad, refusal.Sentence(err.Error()))
		return false
	}
	sound := true
	for _, p := range rep.Problems {
		words := refusal.Sentence(p.Message())
		if p.Hint != "" {
			words += " " + refusal.Sentence(hintHere(p.Hint))
		}
		var at *Answer
		switch p.File {
		case files.QuotesFile, files.DeliveryFile, files.MediaFile:
			continue
		case files.SettingsFile:
			at = map[string]*Answer{"currency": &v.Code, "tax": &v.Tax, "need_by": &v.NeedBy, "budget": &v.Budget, "max_suppliers": &v.Most}[p.Heading]
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

// inFile finds what a hint says about settings in the file that the first view writes.
var inFile = []struct {
	words *regexp.Regexp
	here  string // what to do on the page
}{
	{regexp.MustCompile(`, or set length under \[units\] in job\.toml`), ", or choose under 1 what a length without a unit is in"},
	{regexp.MustCompile(`, or set [a-z ]+ under \[units\] in job\.toml`), ""},
	{regexp.MustCompile(`; decimal = .* in job\.toml settles the whole job`), ""},
	{regexp.MustCompile(`, or set currency in job\.toml if the whole job is in another`), ", or choose under 1 where you are"},
	{regexp.MustCompile(`leave the setting out`), "leave it empty"},
}

// hintHere is a hint in terms of the first view: its fields are named and not the file.
func hintHere(hint string) string {
	for _, one := range inFile {
		hint = one.words.ReplaceAllString(hint, one.here)
	}
	return hint
}
