package paste

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/quotes/message"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/refusal"
	"mediabuy/web/internal/typing"
)

// Span is a part of pasted text and what became of it.
type Span struct {
	Words string
	Use   string // read, aside, unclear, asked or blank
	Fate  string // where the words went: "price of row 1"
	Why   string
}

// useClass is a use as a word of the style sheet.
var useClass = map[message.Use]string{message.Read: "read", message.Aside: "aside", message.Unclear: "unclear", message.Asked: "asked", message.Blank: "blank"}

// Read reads pasted text: a table with known headings as it stands, whatever
// else by the reader of messages. Rows of cells that it makes nothing of are left
// for the person to name the columns of. answers are those to the questions of a
// message, in the order they were given; today is the day it is, for days without their year.
func Read(text string, t folder.Texts, answers []Answer, today time.Time) (*Proposal, error) {
	p, err := headed(text)
	if p != nil || err != nil {
		return p, err
	}
	opt := message.Options{Delivery: true, Today: today}
	for _, f := range []struct {
		name string
		to   *files.Source
	}{{files.MediaFile, &opt.Media}, {files.SettingsFile, &opt.Settings}} {
		if data, ok := t[f.name]; ok {
			*f.to = files.Source{Name: f.name, R: bytes.NewReader(data)}
		}
	}
	m, err := message.Parse(text, opt)
	var bad quotes.ProblemsError
	switch {
	case errors.Is(err, message.ErrTooLong):
		return nil, refusal.New(http.StatusRequestEntityTooLarge, err.Error(), "paste one supplier's message at a time; a table with headings may be longer")
	case errors.As(err, &bad):
		return nil, refusal.New(http.StatusConflict, "a message cannot be read while the job's media or settings have problems", "mend these first, under Files")
	case err != nil:
		return nil, err
	}
	for _, a := range answers {
		if m, err = m.Answer(a.question, a.reading); err != nil {
			return nil, refusal.New(http.StatusBadRequest, err.Error(), "paste the message again, and answer from the first question on")
		}
	}
	if max(len(m.Rows), len(m.Delivery)) > MostPasted {
		return nil, tooManyRows
	}
	if len(m.Rows) == 0 && len(m.Asked) == 0 {
		if p, err = unheaded(text); p != nil || err != nil {
			return p, err
		}
	}
	return understood(m), nil
}

// understood is a message as a proposal.
func understood(m *message.Proposal) *Proposal {
	p := &Proposal{}
	for _, s := range m.Spans {
		p.Told = append(p.Told, Span{s.Words, useClass[s.Use], fate(s), s.Why})
	}
	p.tables = []*Rows{proposed(files.QuotesFile, m.Rows)}
	if len(m.Delivery) > 0 {
		p.tables = append(p.tables, proposed(files.DeliveryFile, m.Delivery))
	}
	for i, q := range m.Asked {
		p.Asked = append(p.Asked, questionOf(i, q))
		for _, o := range p.tables {
			o.doubt(q)
		}
	}
	return p
}

// proposed is the rows of a message for one file: a column for each heading that is
// filled and for those that a row cannot do without.
func proposed(file string, rows []message.Row) *Rows {
	o := &Rows{File: file}
	for _, heading := range typing.Headings[file] {
		why, wanted := "", false
		for _, row := range rows {
			if c, ok := row.Cells[heading]; ok {
				wanted = true
				why = c.Why
				break
			}
			wanted = wanted || slices.Contains(row.Missing, heading)
		}
		if wanted {
			o.heads, o.why = append(o.heads, heading), append(o.why, why)
		}
	}
	for _, row := range rows {
		cells := make([]string, len(o.heads))
		for j, heading := range o.heads {
			cells[j] = safe.Cell(row.Text(heading))
		}
		o.rows, o.take, o.notes = append(o.rows, cells), append(o.take, true), append(o.notes, row.Cautions)
	}
	return o
}

// fate says what became of a span.
func fate(s message.Span) string {
	var cells []string
	for _, c := range s.Cells {
		of := "row"
		if c.File != files.QuotesFile {
			of = folder.FileKey(c.File) + " row"
		}
		cells = append(cells, fmt.Sprintf("%s of %s %d", c.Column, of, c.Row+1))
	}
	if len(cells) == 0 {
		return string(s.Use)
	}
	return units.Listed(cells)
}

// unheaded is rows of cells of which nothing is known; nil for text that has none.
func unheaded(text string) (*Proposal, error) {
	comma := '\t'
	if !strings.ContainsRune(text, comma) {
		comma = ','
		if strings.Count(text, ";") > strings.Count(text, ",") {
			comma = ';'
		}
	}
	p := &Rows{File: files.QuotesFile}
	for line := range strings.Lines(text) {
		if strings.TrimSpace(line) == "" {
			continue
		}
		if len(p.rows) == MostPasted {
			return nil, tooManyRows
		}
		cells := csvfile.SplitRow(line, comma)
		for i, c := range cells {
			cells[i] = safe.Cell(strings.TrimSpace(c))
		}
		for len(p.heads) < len(cells) && len(p.heads) < typing.MostColumns {
			p.heads, p.why = append(p.heads, ""), append(p.why, "")
		}
		p.rows, p.take, p.notes = append(p.rows, cells), append(p.take, true), append(p.notes, nil)
	}
	for i, cells := range p.rows {
		if len(cells) > len(p.heads) {
			p.rows[i] = cells[:len(p.heads)]
		}
		for len(p.rows[i]) < len(p.heads) {
			p.rows[i] = append(p.rows[i], "")
		}
		p.notes[i] = []string{fmt.Sprintf("nothing was made of its %s: say above what each column is", units.Several(len(cells), "cell"))}
	}
	if len(p.heads) < 2 {
		return nil, nil
	}
	return &Proposal{tables: []*Rows{p}}, nil
}
