package typing

import (
	"slices"

	"mediabuy/quotes"
	"mediabuy/web/internal/folder"
)

// Mark is a problem or warning at a cell or row of the file.
type Mark struct {
	ID      string `json:"id"` // "5.7", or "5" for a row
	Words   string `json:"words"`
	Hint    string `json:"hint"`
	Warning bool   `json:"warning"`
}

// Marks are the problems and warnings of one file, by cell and by row, and those
// that stand above the table.
type Marks struct {
	Docs    []Mark
	General []Problem
}

// MarksOf finds the cell or row that each problem of a file is about. Problems of
// other files are told above the table, as they too keep the answer back.
func MarksOf(t folder.Texts, rep *quotes.Report, name string) *Marks {
	m := &Marks{Docs: []Mark{}}
	find := Finder{Texts: t}
	for _, p := range slices.Concat(rep.Problems, rep.Warnings) {
		warning := p.Severity == quotes.Warning
		if p.File != name {
			if !warning {
				m.General = append(m.General, problemOf(p, find.Link(p)))
			}
			continue
		}
		id := find.id(p)
		if id != "" {
			m.Docs = append(m.Docs, Mark{ID: id, Words: p.Message(), Hint: p.Hint, Warning: warning})
		}
		if id == "" || !warning {
			m.General = append(m.General, problemOf(p, find.Link(p)))
		}
	}
	return m
}
