package web

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes"
	"mediabuy/web/internal/sheet"
)

// chosen are the rows that are wanted, by heading. by is who sells them, where no
// column says so.
func (p *proposal) chosen(by string) []map[string]string {
	var out []map[string]string
	for _, i := range p.wanted(by) {
		out = append(out, p.row(p.rows[i], by))
	}
	return out
}

// wanted are the rows that are ticked and hold something.
func (p *proposal) wanted(by string) []int {
	var out []int
	for i, cells := range p.rows {
		for _, text := range p.row(cells, by) {
			if p.take[i] && text != "" {
				out = append(out, i)
				break
			}
		}
	}
	return out
}

func (p *proposal) row(cells []string, by string) map[string]string {
	row := map[string]string{}
	for j, heading := range p.heads {
		if heading != "" && row[heading] == "" {
			row[heading] = cells[j]
		}
	}
	if row["supplier"] == "" {
		row["supplier"] = by
	}
	return row
}

// joined is quotes.csv with the chosen rows at its end, and the line on which the
// first of them stands. A job without the file gets one.
func (p *proposal) joined(t texts, by string) (data []byte, line int, err error) {
	raw, there := t[quotes.QuotesFile]
	if !there {
		raw = quotes.Templates()[quotes.QuotesFile]
	}
	s, err := sheet.Open(raw, known[quotes.QuotesFile])
	if err != nil {
		return nil, 0, cannot(quotes.QuotesFile, err)
	}
	rows := p.chosen(by)
	out, err := s.Append(rows)
	if err != nil {
		return nil, 0, cannot(quotes.QuotesFile, err)
	}
	if data, err = out.Bytes(); err != nil {
		return nil, 0, cannot(quotes.QuotesFile, err)
	}
	var lines []int
	for _, row := range out.Rows {
		if len(row.Cells) > 0 {
			lines = append(lines, row.Line)
		}
	}
	if len(lines) < len(rows) || len(rows) == 0 {
		return data, 0, nil // rows without anything in them are none
	}
	return data, lines[len(lines)-len(rows)], nil
}

// confirm sets a proposal out to say yes to, with the problems its rows would have
// in the job, in the words of check.
func (h *Handler) confirm(p *proposal, by string, t texts) (*confirmView, error) {
	c := &confirmView{Tag: t.tag(quotes.QuotesFile), By: by, ReadOnly: h.opt.ReadOnly}
	for j, heading := range p.heads {
		c.Heads = append(c.Heads, choiceView{Index: j, Heading: heading, Why: p.why[j], All: known[quotes.QuotesFile]})
		if heading != "" && slices.Index(p.heads, heading) < j {
			c.General = append(c.General, fmt.Sprintf("two columns are taken for %s, and only the first is used; choose another for one of them", heading))
		}
	}
	docs, err := h.foretold(p, by, t)
	if err != nil {
		return nil, err
	}
	at := byPlace(docs)
	sizes := make([]int, len(p.heads))
	for j := range p.heads {
		var column []string
		for _, cells := range p.rows {
			column = append(column, cells[j])
		}
		sizes[j] = letters(column)
	}
	for i, cells := range p.rows {
		o := offerView{Index: i, Take: p.take[i], Marks: at[strconv.Itoa(i)], Notes: p.notes[i]}
		if o.Take {
			c.Taken++
			c.Supplier = c.Supplier || p.row(cells, "")["supplier"] == ""
		}
		for j, text := range cells {
			cell := cellView{ID: fmt.Sprintf("%d.%d", i, j), Text: text, Heading: c.Heads[j].Name(), List: listOf[p.heads[j]], Size: sizes[j]}
			cell.Label = fmt.Sprintf("%s of pasted row %d", cell.Heading, i+1)
			cell.mark(at)
			o.Cells = append(o.Cells, cell)
		}
		o.dropSaid()
		c.Rows = append(c.Rows, o)
	}
	for _, d := range docs {
		row, col, inCell := strings.Cut(d.ID, ".")
		switch {
		case d.ID == "":
			c.General = append(c.General, d.Words)
		case d.Warning:
		case inCell:
			i, err1 := strconv.Atoi(row)
			j, err2 := strconv.Atoi(col)
			if err := errors.Join(err1, err2); err != nil {
				return nil, err
			}
			c.Bad = append(c.Bad, problemView{Place: fmt.Sprintf("row %d", i+1), Link: "#v." + d.ID, Heading: c.Heads[j].Name(), Words: d.Words, Hint: d.Hint})
		default:
			i, err := strconv.Atoi(row)
			if err != nil {
				return nil, err
			}
			c.Bad = append(c.Bad, problemView{Place: fmt.Sprintf("row %d", i+1), Link: "#take." + row, Words: d.Words, Hint: d.Hint})
		}
	}
	return c, nil
}

// dropSaid leaves out notes that the marks of the row or its cells say already in
// the same words.
func (o *offerView) dropSaid() {
	said := slices.Clone(o.Marks)
	for _, c := range o.Cells {
		said = append(said, c.Marks...)
	}
	o.Notes = slices.DeleteFunc(slices.Clone(o.Notes), func(note string) bool {
		return slices.ContainsFunc(said, func(d markDoc) bool { return strings.Contains(note, d.Words) })
	})
}

// foretold are the problems and warnings that the chosen rows would have in the
// job, at the cells of the proposal.
func (h *Handler) foretold(p *proposal, by string, t texts) ([]markDoc, error) {
	rows := p.chosen(by)
	if len(rows) == 0 {
		return nil, nil
	}
	data, first, err := p.joined(t, by)
	if err != nil || first == 0 {
		return nil, err
	}
	_, rep, err := quotes.Read(t.with(quotes.QuotesFile, data).files(), quotes.Options{Today: h.opt.Now()})
	if err != nil {
		return nil, err
	}
	s, err := sheet.Open(data, known[quotes.QuotesFile])
	if err != nil {
		return nil, cannot(quotes.QuotesFile, err)
	}
	taken, lines := p.wanted(by), []int(nil) // rows of the proposal, and where they would stand
	for _, row := range s.Rows {
		if row.Line >= first && len(row.Cells) > 0 {
			lines = append(lines, row.Line)
		}
	}
	var out []markDoc
	for _, pr := range slices.Concat(rep.Problems, rep.Warnings) {
		if pr.File != quotes.QuotesFile || pr.Line < first {
			continue
		}
		doc := markDoc{Words: pr.Message(), Hint: pr.Hint, Warning: pr.Severity == quotes.Warning}
		line, index, ok := s.At(pr.Line, pr.Col)
		if !ok {
			line = pr.Line
		}
		if i := slices.Index(lines, line); i >= 0 && i < len(taken) {
			doc.ID = strconv.Itoa(taken[i])
			if ok {
				if j := slices.Index(p.heads, sheet.HeadingKey(s.Heads[min(index, len(s.Heads)-1)].Text)); j >= 0 {
					doc.ID += "." + strconv.Itoa(j)
				} else if pr.Heading != "" {
					doc.Words = pr.Heading + ": " + doc.Words
				}
			}
		}
		out = append(out, doc)
	}
	return out, nil
}
