package web

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"mediabuy/optimise/suitability"
	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/quotes/tomlfile"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
)

// problemView is a problem or a warning in the words of check.
type problemView struct {
	Place   string // file:line:column
	Link    string // the view that shows it
	Heading string
	Words   string
	Hint    string
}

func problemViews(t folder.Texts, list []*quotes.Problem) []problemView {
	find := finder{texts: t}
	var out []problemView
	for _, p := range list {
		out = append(out, problemOf(p, find.link(p)))
	}
	return out
}

func problemOf(p *quotes.Problem, link string) problemView {
	return problemView{Place: p.Pos.String(), Link: link, Heading: p.Heading, Words: p.Message(), Hint: p.Hint}
}

// finder finds the cells that problems are about. It opens each file once.
type finder struct {
	texts  folder.Texts
	sheets map[string]*csvfile.Sheet // nil for a file that is no table
	toml   *tomlfile.File            // the settings; nil where they cannot be read
}

// id names the cell of a problem, "5.7", its row, "5", or its setting, "tax"; "" where
// it is about none.
func (f *finder) id(p *quotes.Problem) string {
	if p.File == files.SettingsFile {
		if f.toml == nil {
			file, err := tomlfile.Open(f.texts[p.File])
			if err != nil { // the problems say what is wrong with the file
				return ""
			}
			f.toml = file
		}
		if name := fieldName(f.toml.At(p.Line)); settingKey(name) != nil {
			return name
		}
		return ""
	}
	s, opened := f.sheets[p.File]
	if !opened {
		if cols, ok := known[p.File]; ok && f.texts[p.File] != nil {
			if table, err := csvfile.Open(f.texts[p.File], cols); err == nil { // else the problems say what is wrong with the file
				s = table
			}
		}
		if f.sheets == nil {
			f.sheets = map[string]*csvfile.Sheet{}
		}
		f.sheets[p.File] = s
	}
	if s == nil {
		return ""
	}
	if line, index, ok := s.At(p.Line, p.Col); ok {
		return fmt.Sprintf("%d.%d", line, index)
	}
	if slices.ContainsFunc(s.Rows, func(r csvfile.Row) bool { return r.Line == p.Line && len(r.Cells) > 0 }) {
		return strconv.Itoa(p.Line)
	}
	return ""
}

// link is the address of the field or row that a problem is about, or of its file.
func (f *finder) link(p *quotes.Problem) string {
	to := "/edit/" + folder.FileKey(p.File)
	if id := f.id(p); id != "" {
		to += "#c." + id
	}
	return to
}

// refusedView is every quote that one reason keeps out, and where.
type refusedView struct{ Quotes, Rule, Where, Reason string }

// refusals gathers refusals that say the same. Quotes that no layer takes come
// first, and only with the reasons that keep them out everywhere.
func refusals(fit *suitability.Fit, job *quotes.Job) []refusedView {
	type key struct {
		rule   suitability.Rule
		reason string
	}
	type tally struct {
		quotes []string
		layers map[string]int // by quote
		beds   []string
		where  map[quotes.Layer]bool
	}
	all := 0
	for _, b := range job.Beds {
		for _, l := range quotes.Layers {
			if b.LayerLitres(l) > 0 {
				all++
			}
		}
	}
	found := map[key]*tally{}
	var order []key
	for r := range fit.Refusals {
		k := key{r.Rule, r.Reason}
		t := found[k]
		if t == nil {
			t = &tally{layers: map[string]int{}, where: map[quotes.Layer]bool{}}
			found[k] = t
			order = append(order, k)
		}
		if t.layers[r.Quote.Name] == 0 {
			t.quotes = append(t.quotes, r.Quote.Name)
		}
		t.layers[r.Quote.Name]++
		t.where[r.Layer] = true
		if n := len(t.beds); n == 0 || t.beds[n-1] != r.Bed.Name {
			t.beds = append(t.beds, r.Bed.Name)
		}
	}
	out := map[string]bool{} // kept out everywhere by one reason
	for _, t := range found {
		for q, n := range t.layers {
			out[q] = out[q] || n == all
		}
	}
	var whole, part []refusedView
	for _, k := range order {
		t := found[k]
		everywhere := func(q string) bool { return t.layers[q] == all }
		slices.Sort(t.quotes)
		barred := slices.DeleteFunc(slices.Clone(t.quotes), func(q string) bool { return !everywhere(q) })
		some := slices.DeleteFunc(slices.Clone(t.quotes), func(q string) bool { return out[q] })
		if len(barred) > 0 {
			whole = append(whole, refusedView{strings.Join(barred, ", "), ruleWords(k.rule), "every bed", k.reason})
		}
		if len(some) > 0 {
			slices.Sort(t.beds)
			part = append(part, refusedView{strings.Join(some, ", "), ruleWords(k.rule), whereWords(t.where, slices.Compact(t.beds), len(job.Beds)), k.reason})
		}
	}
	return append(whole, part...)
}

// ruleWords is a rule in words: the heading it hangs on where there is one.
func ruleWords(r suitability.Rule) string { return strings.ReplaceAll(string(r), "_", " ") }

func whereWords(layers map[quotes.Layer]bool, beds []string, all int) string {
	layer := "top and base"
	if len(layers) == 1 {
		layer = "base"
		if layers[quotes.Top] {
			layer = "top"
		}
	}
	switch {
	case len(beds) == all:
		return layer + " of every bed"
	case len(beds) > 4:
		return layer + " of " + units.Several(len(beds), "bed")
	}
	return layer + " of " + strings.Join(beds, ", ")
}
