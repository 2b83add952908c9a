package paste

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/csvfile"
	"mediabuy/quotes/files"
	"mediabuy/units"
	"mediabuy/web/internal/folder"
	"mediabuy/web/internal/typing"
)

// wanted are the rows that are ticked and hold something. by is who sells them,
// where no column says so.
func (o *Rows) wanted(by string) []int {
	var out []int
	for i, cells := range o.rows {
		for _, text := range o.row(cells, by) {
			if o.take[i] && text != "" {
				out = append(out, i)
				break
			}
		}
	}
	return out
}

// row is a row by heading.
func (o *Rows) row(cells []string, by string) map[string]string {
	row := map[string]string{}
	for j, heading := range o.heads {
		if heading != "" && row[heading] == "" {
			row[heading] = cells[j]
		}
	}
	if row["supplier"] == "" {
		row["supplier"] = by
	}
	return row
}

// Joined is a file with the chosen rows of a table at its end.
type Joined struct {
	*Rows
	Data  []byte
	Took  []int // rows of the table
	lines []int // where each of them stands
}

// Joined is the job's files with the chosen rows at their ends; none for a table of
// which no row is chosen. A job without the file gets one.
func (p *Proposal) Joined(t folder.Texts, by string) ([]Joined, error) {
	var out []Joined
	for _, o := range p.tables {
		wanted := o.wanted(by)
		if len(wanted) == 0 {
			continue
		}
		raw, there := t[o.File]
		if !there {
			raw = files.Templates()[o.File]
		}
		s, err := csvfile.Open(raw, typing.Headings[o.File])
		if err != nil {
			return nil, typing.Cannot(o.File, err)
		}
		var rows []map[string]string
		for _, i := range wanted {
			rows = append(rows, o.row(o.rows[i], by))
		}
		if s, err = s.Append(rows); err != nil {
			return nil, typing.Cannot(o.File, err)
		}
		j := Joined{Rows: o, Took: wanted}
		if j.Data, err = s.Bytes(); err != nil {
			return nil, typing.Cannot(o.File, err)
		}
		for _, row := range s.Rows {
			if len(row.Cells) > 0 {
				j.lines = append(j.lines, row.Line)
			}
		}
		if len(j.lines) < len(wanted) {
			return nil, fmt.Errorf("adding rows to %s: %d of %d can be found again", o.File, len(j.lines), len(wanted))
		}
		j.lines = j.lines[len(j.lines)-len(wanted):]
		out = append(out, j)
	}
	return out, nil
}

// Confirm sets a proposal out to say yes to, with the problems its rows would have
// in the job, in the words of check.
func (p *Proposal) Confirm(by string, t folder.Texts, opt files.Options) (*Confirmation, error) {
	c := &Confirmation{By: by}
	docs, err := p.foretold(by, t, opt)
	if err != nil {
		return nil, err
	}
	at := typing.ByPlace(docs)
	for _, d := range at[""] {
		c.General = append(c.General, d.Words)
	}
	var yes []string
	for _, o := range p.tables {
		table := Table{Key: o.key(), Suffix: o.Field(""), File: o.File, Tag: t.Tag(o.File)}
		for j, heading := range o.heads {
			table.Heads = append(table.Heads, Column{Index: j, Heading: heading, Why: o.why[j], All: typing.Headings[o.File]})
			if heading != "" && slices.Index(o.heads, heading) < j {
				c.General = append(c.General, fmt.Sprintf("two columns are taken for %s, and only the first is used; choose another for one of them", heading))
			}
		}
		taken := 0
		for i, cells := range o.rows {
			if o.take[i] {
				taken++
				c.Supplier = c.Supplier || o.row(cells, "")["supplier"] == ""
			}
		}
		table.Rows = o.views(table.Heads, at)
		if taken > 0 {
			yes = append(yes, units.Several(taken, "row")+" to "+o.File)
		}
		c.Tables = append(c.Tables, table)
	}
	c.Yes = units.Listed(yes)
	c.Bad, err = p.bad(docs)
	return c, err
}

// views are the rows of a table with the marks at their cells.
func (o *Rows) views(heads []Column, at map[string][]typing.Mark) []Row {
	sizes := make([]int, len(o.heads))
	for j := range o.heads {
		var column []string
		for _, cells := range o.rows {
			column = append(column, cells[j])
		}
		sizes[j] = typing.Letters(column)
	}
	var out []Row
	for i, cells := range o.rows {
		v := Row{Index: i, Name: o.name(i), Take: o.take[i], Marks: at[o.key()+strconv.Itoa(i)], Notes: o.notes[i]}
		for j, text := range cells {
			cell := typing.Cell{ID: fmt.Sprintf("%s%d.%d", o.key(), i, j), Text: text, Heading: heads[j].Name(), List: typing.ListOf[o.heads[j]], Size: sizes[j]}
			cell.Label = fmt.Sprintf("%s of pasted %s", cell.Heading, v.Name)
			cell.Mark(at)
			v.Cells = append(v.Cells, cell)
		}
		v.dropSaid()
		out = append(out, v)
	}
	return out
}

// name is what a row is called on the page.
func (o *Rows) name(i int) string {
	return strings.TrimSpace(strings.TrimSuffix(o.key(), ".") + fmt.Sprintf(" row %d", i+1))
}

// bad lists the problems at cells and rows, in the order of the tables.
func (p *Proposal) bad(docs []typing.Mark) ([]typing.Problem, error) {
	var out []typing.Problem
	for _, d := range docs {
		if d.ID == "" || d.Warning {
			continue
		}
		o, id := p.tables[0], d.ID
		for _, other := range p.tables[1:] {
			if rest, ok := strings.CutPrefix(d.ID, other.key()); ok {
				o, id = other, rest
			}
		}
		row, col, inCell := strings.Cut(id, ".")
		i, err := strconv.Atoi(row)
		if err != nil {
			return nil, fmt.Errorf("a mark at %q: %w", d.ID, err)
		}
		v := typing.Problem{Place: o.name(i), Link: "#take." + d.ID, Words: d.Words, Hint: d.Hint}
		if inCell {
			j, err := strconv.Atoi(col)
			if err != nil {
				return nil, fmt.Errorf("a mark at %q: %w", d.ID, err)
			}
			v.Link, v.Heading = "#v."+d.ID, Column{Index: j, Heading: o.heads[j]}.Name()
		}
		out = append(out, v)
	}
	return out, nil
}

// dropSaid leaves out notes that the marks of the row or its cells say already in
// the same words.
func (o *Row) dropSaid() {
	said := slices.Clone(o.Marks)
	for _, c := range o.Cells {
		said = append(said, c.Marks...)
	}
	o.Notes = slices.DeleteFunc(slices.Clone(o.Notes), func(note string) bool {
		return slices.ContainsFunc(said, func(d typing.Mark) bool { return strings.Contains(note, d.Words) })
	})
}

// foretold are the problems and warnings that the chosen rows would have in the
// job, at the cells of the proposal, and without a place those that they would make
// of what is in the job already.
func (p *Proposal) foretold(by string, t folder.Texts, opt files.Options) ([]typing.Mark, error) {
	list, err := p.Joined(t, by)
	if err != nil || len(list) == 0 {
		return nil, err
	}
	after := t
	for _, j := range list {
		after = after.With(j.File, j.Data)
	}
	_, rep, err := files.Read(after.Files(), opt)
	if err != nil {
		return nil, err
	}
	old, err := toldBefore(t, opt)
	if err != nil {
		return nil, err
	}
	var out []typing.Mark
	for _, pr := range slices.Concat(rep.Problems, rep.Warnings) {
		doc := typing.Mark{Words: pr.Message(), Hint: pr.Hint, Warning: pr.Severity == quotes.Warning}
		i := slices.IndexFunc(list, func(j Joined) bool { return j.File == pr.File && pr.Line >= j.lines[0] })
		switch {
		case i >= 0:
			if err := list[i].place(&doc, pr); err != nil {
				return nil, err
			}
		case doc.Warning || old[pr.Error()]:
			continue
		default:
			doc.Words = pr.Pos.String() + ": " + doc.Words
		}
		out = append(out, doc)
	}
	return out, nil
}

// toldBefore are the problems that the job has without the rows.
func toldBefore(t folder.Texts, opt files.Options) (map[string]bool, error) {
	_, rep, err := files.Read(t.Files(), opt)
	if err != nil {
		return nil, err
	}
	out := map[string]bool{}
	for _, p := range rep.Problems {
		out[p.Error()] = true
	}
	return out, nil
}

// place finds the cell or row of the table that a problem of the file is about.
func (j *Joined) place(doc *typing.Mark, pr *quotes.Problem) error {
	s, err := csvfile.Open(j.Data, typing.Headings[j.File])
	if err != nil {
		return typing.Cannot(j.File, err)
	}
	line, index, inCell := s.At(pr.Line, pr.Col)
	if !inCell {
		line = pr.Line
	}
	i := slices.Index(j.lines, line)
	if i < 0 {
		return nil
	}
	doc.ID = j.key() + strconv.Itoa(j.Took[i])
	if !inCell {
		return nil
	}
	if col := slices.Index(j.heads, csvfile.HeadingKey(s.Heads[min(index, len(s.Heads)-1)].Text)); col >= 0 {
		doc.ID += "." + strconv.Itoa(col)
	} else if pr.Heading != "" {
		doc.Words = pr.Heading + ": " + doc.Words
	}
	return nil
}
