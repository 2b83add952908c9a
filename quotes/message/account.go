package message

import (
	"cmp"
	"slices"
	"strings"
)

// mark is a part of the message with its use, before gaps are filled.
type mark struct {
	Span
	clause *clause
}

// proposal accounts for every byte and sets the rows out.
func (r *reading) proposal(drafts []*draft) *Proposal {
	p := &Proposal{Text: r.text, Columns: r.columns, Rows: []Row{}}
	if p.Columns == nil {
		p.Columns = []Column{}
	}
	marks := r.marks()
	for _, d := range drafts {
		p.Rows = append(p.Rows, r.row(d, marks))
	}
	p.Spans = r.fill(marks)
	return p
}

// marks are all parts that are not blank, in order.
func (r *reading) marks() []mark {
	var out []mark
	for _, c := range r.all {
		for _, f := range c.facts {
			out = append(out, mark{factSpan(f, r.given), c})
		}
		out = append(out, r.wordMarks(c)...)
	}
	slices.SortStableFunc(out, func(a, b mark) int { return cmp.Compare(a.From, b.From) })
	return out
}

// factSpan is what became of a fact.
func factSpan(f *fact, given string) Span {
	s := Span{Range: f.Range, Why: f.why}
	switch {
	case f.kind == anAside:
		s.Use = Aside
	case f.kind == anUnclear:
		s.Use = Unclear
	case len(f.refs) > 0 && f.unclear == "":
		s.Use = Read
		s.Cells = sortedRefs(f.refs)
	case f.unclear != "":
		s.Use, s.Why = Unclear, f.unclear
	case f.kind == aSupplier && given != "":
		s.Use, s.Why = Aside, "it names a supplier, and the caller names "+given
	case f.kind == aSupplier:
		s.Use, s.Why = Aside, "it names a supplier, and no row needs it"
	case f.kind == aMedium:
		s.Use, s.Why = Unclear, "no price for it could be read"
	default:
		s.Use, s.Why = Unclear, "it is not said of what"
	}
	return s
}

func sortedRefs(refs []Ref) []Ref {
	out := slices.Clone(refs)
	slices.SortFunc(out, func(a, b Ref) int {
		return cmp.Or(a.Row-b.Row, slices.Index(Columns, a.Column)-slices.Index(Columns, b.Column))
	})
	return slices.Compact(out)
}

// wordMarks are the runs of words between the facts of a clause.
func (r *reading) wordMarks(c *clause) []mark {
	var out []mark
	for i := 0; i < len(c.tokens); {
		j := i + 1
		for j < len(c.tokens) && !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.From >= c.tokens[i].From && f.From < c.tokens[j].From }) {
			j++
		}
		s := Span{Range: Range{c.tokens[i].From, c.tokens[j-1].To}, Use: Aside, Why: "words that carry nothing by themselves"}
		odd, number := false, false
		for _, t := range c.tokens[i:j] {
			odd = odd || !fillers[t.word]
			number = number || t.number
		}
		var refs []Ref // one run of words may name several rows
		for _, f := range r.extra {
			if f.From < s.To && s.From < f.To {
				refs = append(refs, f.refs...)
			}
		}
		switch {
		case len(refs) > 0 && c.poison == "":
			s.Use, s.Why, s.Cells = Read, "the words before the price", sortedRefs(refs)
		case c.poison != "":
			s.Use, s.Why = Unclear, c.poison
		case odd && number:
			s.Use, s.Why = Unclear, "a number with no word that says what it is"
		case odd:
			s.Use, s.Why = Unclear, "words that are not known here"
		}
		out = append(out, mark{s, c})
		i = j
	}
	return out
}

// fill joins marks of one clause that say the same and puts blanks between the others.
func (r *reading) fill(marks []mark) []Span {
	var out []Span
	at := 0
	var last *clause
	for _, m := range marks {
		n := len(out)
		if n > 0 && last == m.clause && m.Use != Read && out[n-1].Use == m.Use && out[n-1].Why == m.Why {
			out[n-1].To = m.To
			at = m.To
			continue
		}
		if m.From > at {
			out = append(out, Span{Range: Range{at, m.From}, Use: Blank})
		}
		out = append(out, m.Span)
		at, last = m.To, m.clause
	}
	if at < len(r.text) {
		out = append(out, Span{Range: Range{at, len(r.text)}, Use: Blank})
	}
	for i := range out {
		out[i].Words = r.text[out[i].From:out[i].To]
	}
	return out
}

// row sets a draft out.
func (r *reading) row(d *draft, marks []mark) Row {
	row := Row{Cells: map[string]Cell{}, Missing: []string{}, Cautions: slices.Clone(d.notes)}
	if row.Cautions == nil {
		row.Cautions = []string{}
	}
	var price *clause
	for column, m := range d.cells {
		c := Cell{Text: m.text, Why: m.why, From: []Range{}}
		for _, f := range m.facts {
			if !slices.Contains(c.From, f.Range) {
				c.From = append(c.From, f.Range)
			}
		}
		slices.SortFunc(c.From, func(a, b Range) int { return cmp.Compare(a.From, b.From) })
		row.Cells[column] = c
		if column == "price" {
			price = r.clauseOf(m.facts)
		}
	}
	for _, c := range required {
		if row.Text(c) == "" {
			row.Missing = append(row.Missing, c)
		}
	}
	row.Cautions = append(row.Cautions, d.doubts()...)
	for _, m := range marks {
		if price != nil && m.clause == price && m.Use == Unclear {
			row.Cautions = append(row.Cautions, "beside the price stand words that were not understood: "+squeeze(r.text[m.From:m.To]))
		}
	}
	return row
}

func (r *reading) clauseOf(facts []*fact) *clause {
	for _, c := range r.all {
		if slices.ContainsFunc(facts, func(f *fact) bool { return slices.Contains(c.facts, f) }) {
			return c
		}
	}
	return nil
}

// doubts are cautions about what the row leaves open.
func (d *draft) doubts() []string {
	var out []string
	if d.cells["pack"] == nil && d.offer != nil && d.offer.pack.words != "" {
		out = append(out, "pack: what a "+strings.TrimSuffix(d.offer.pack.words, "s")+" holds is not said")
	}
	if n := d.cells["notes"]; n != nil {
		for _, f := range n.facts {
			if f.kind == aNote && strings.Contains(f.why, "limestone") {
				out = append(out, "carbonate: "+f.why)
			}
		}
	}
	return out
}
