package web

import (
	"net/http"
	"strings"
	"time"

	"mediabuy/papers/safe"
	"mediabuy/web/internal/sheet"
)

// spanView is a part of pasted sentences and what became of it.
type spanView struct {
	Words string
	Use   string // read, aside, unclear or blank
	Why   string
}

// propose reads pasted text: a table with headings, a table without, or sentences.
func propose(text string, _ *answer, _ time.Time) (*proposal, error) {
	p, err := headed(text)
	if p != nil || err != nil {
		return p, err
	}
	return unheaded(text)
}

// unheaded reads rows of cells without headings: nothing is said about what a
// column holds.
func unheaded(text string) (*proposal, error) {
	comma := '\t'
	if !strings.ContainsRune(text, comma) {
		comma = ','
		if strings.Count(text, ";") > strings.Count(text, ",") {
			comma = ';'
		}
	}
	p := &proposal{}
	for line := range strings.Lines(text) {
		if strings.TrimSpace(line) == "" {
			continue
		}
		cells := sheet.SplitRow(line, comma)
		for i, c := range cells {
			cells[i] = safe.Cell(strings.TrimSpace(c))
		}
		if len(p.rows) == mostPasted {
			return nil, tooManyRows
		}
		for len(p.heads) < len(cells) {
			p.heads, p.why = append(p.heads, ""), append(p.why, "")
		}
		p.rows, p.take, p.notes = append(p.rows, cells), append(p.take, true), append(p.notes, nil)
	}
	for i := range p.rows {
		for len(p.rows[i]) < len(p.heads) {
			p.rows[i] = append(p.rows[i], "")
		}
	}
	if len(p.heads) < 2 {
		return nil, &failure{http.StatusUnprocessableEntity, "what was pasted is not rows of cells", "copy the cells of a spreadsheet, or text with commas between"}
	}
	return p, nil
}
