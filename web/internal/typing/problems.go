package typing

import (
	"fmt"
	"slices"
	"strconv"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/quotes/tomlfile"
	"mediabuy/web/internal/folder"
)

// Problem is a problem or a warning in the words of check.
type Problem struct {
	Place   string // file:line:column
	Link    string // the view that shows it
	Heading string
	Words   string
	Hint    string
}

// Problems sets problems or warnings out, each with the view that shows its place.
func Problems(t folder.Texts, list []*quotes.Problem) []Problem {
	find := Finder{Texts: t}
	var out []Problem
	for _, p := range list {
		out = append(out, problemOf(p, find.Link(p)))
	}
	return out
}

func problemOf(p *quotes.Problem, link string) Problem {
	return Problem{Place: p.Pos.String(), Link: link, Heading: p.Heading, Words: p.Message(), Hint: p.Hint}
}

// Finder finds the cells that problems are about. It opens each file once.
type Finder struct {
	Texts  folder.Texts
	sheets map[string]*csvfile.Sheet // nil for a file that is no table
	toml   *tomlfile.File            // the settings; nil where they cannot be read
}

// id names the cell of a problem, "5.7", its row, "5", or its setting, "tax"; "" where
// it is about none.
func (f *Finder) id(p *quotes.Problem) string {
	if p.File == files.SettingsFile {
		if f.toml == nil {
			file, err := tomlfile.Open(f.Texts[p.File])
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
		if cols, ok := Headings[p.File]; ok && f.Texts[p.File] != nil {
			if table, err := csvfile.Open(f.Texts[p.File], cols); err == nil { // else the problems say what is wrong with the file
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

// Link is the address of the field or row that a problem is about, or of its file.
func (f *Finder) Link(p *quotes.Problem) string {
	to := "/edit/" + folder.FileKey(p.File)
	if id := f.id(p); id != "" {
		to += "#c." + id
	}
	return to
}
