package message

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"mediabuy/quotes/files"
	"mediabuy/quotes/internal/cues"
)

// mark is a part of the message with its use, before gaps are filled.
type mark struct {
	Span
	clause *clause
}

// proposal accounts for every byte and sets the rows out.
func (r *reading) proposal(drafts []*draft) *Proposal {
	p := &Proposal{Text: r.text, Columns: r.columns}
	refer(files.DeliveryFile, r.ways) // only now: none of these rows can go any more
	if p.Columns == nil {
		p.Columns = []Column{}
	}
	r.setOut(p, drafts)
	return p
}

// setOut writes the rows and the spans of a proposal; again once it is known what of it is asked.
func (r *reading) setOut(p *Proposal, drafts []*draft) {
	marks := r.marks()
	near := neighbours(marks)
	p.Rows, p.Delivery = []Row{}, []Row{}
	for _, d := range drafts {
		p.Rows = append(p.Rows, r.row(d, near, Columns, required))
	}
	for _, d := range r.ways {
		p.Delivery = append(p.Delivery, r.row(d, near, DeliveryColumns, deliveryRequired))
	}
	p.Spans = r.fill(marks)
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
	for i := range out {
		r.plainly(&out[i])
	}
	slices.SortStableFunc(out, func(a, b mark) int { return cmp.Compare(a.From, b.From) })
	return out
}

// plainly tells of a mark what its reason alone does not: that a part of the price comes off somewhere, and the day of the message.
func (r *reading) plainly(m *mark) {
	low := r.low[m.clause.From:m.clause.To]
	switch {
	case m.Use != Unclear:
	case oneOf(m.Why, doubts["off"], unsaid, notTogether, unknownWords) && partOff.MatchString(low) && !carries(low):
		m.Why = partWhere
	case m.Why == noWordForDay && !r.countedFrom.IsZero():
		if day, _ := r.job.Day(r.low[m.From:m.To]); day == r.countedFrom.Format(time.DateOnly) {
			m.Use, m.Why = Aside, "taken for the day of the message, from which days are counted"
		}
	}
}

// factSpan is what became of a fact.
func factSpan(f *fact, given string) Span {
	s := Span{Range: f.Range, Why: f.why}
	switch {
	case f.asked && (f.unclear != "" || len(f.refs) == 0): // what is asked about may be read
		s.Use, s.Why = Asked, f.ask.question
	case f.kind == anAside:
		s.Use = Aside
	case f.kind == anUnclear || f.kind == aPayer:
		s.Use = Unclear
	case len(f.refs) > 0 && f.unclear == "":
		s.Use = Read
		s.Cells = sortedRefs(f.refs)
	case f.unclear != "":
		s.Use, s.Why = Unclear, f.unclear
	case f.kind == aHeading:
		s.Use = Aside
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
		return cmp.Or(-cmp.Compare(a.File, b.File), a.Row-b.Row, slices.Index(Columns, a.Column)-slices.Index(Columns, b.Column), cmp.Compare(a.Column, b.Column))
	})
	return slices.Compact(out)
}

// wordMarks are the runs of words between the facts of a clause.
func (r *reading) wordMarks(c *clause) []mark {
	var out []mark
	for i := 0; i < len(c.tokens); {
		j := i + 1
		for j < len(c.tokens) && !c.factWithin(c.tokens[i].From, c.tokens[j].From) {
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
			s.Use, s.Why = Unclear, unsaid
		case odd:
			s.Use, s.Why = Unclear, unknownWords
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

// beside is where to look for words that were not understood beside those of a cell.
type beside struct {
	clauses  map[*fact]*clause
	clause   map[*clause][]mark // not understood, by where they stand
	sentence map[int][]mark
	row      map[int][]mark // of a table, in cells that must not be read or of which nobody knows what they are
}

func neighbours(marks []mark) beside {
	b := beside{map[*fact]*clause{}, map[*clause][]mark{}, map[int][]mark{}, map[int][]mark{}}
	for _, m := range marks {
		for _, f := range m.clause.facts {
			b.clauses[f] = m.clause
		}
		if m.Use != Unclear {
			continue
		}
		b.clause[m.clause] = append(b.clause[m.clause], m)
		b.sentence[m.clause.sentence] = append(b.sentence[m.clause.sentence], m)
		if m.clause.row >= 0 && (m.clause.poison != "" || m.clause.heading == "") {
			b.row[m.clause.row] = append(b.row[m.clause.row], m)
		}
	}
	return b
}

// words are the parts not understood that may bear on a price or a fee: in its clause, behind it in its sentence where
// nothing else stands that they may be about, and in its row of a table.
func (b beside) words(column string, facts []*fact) []mark {
	var out []mark
	for _, f := range facts {
		c := b.clauses[f]
		if c == nil || column != "price" && (!f.kind.isFee() || f.kind == aCollect) || f.kind == aHeading {
			continue
		}
		if c.row >= 0 {
			out = append(append(out, b.clause[c]...), b.row[c.row]...)
			continue
		}
		for _, m := range b.sentence[c.sentence] {
			if m.clause == c || m.From > f.To && !slices.ContainsFunc(m.clause.facts, func(g *fact) bool { return g.kind == aMedium || g.about() && g.unclear == "" }) {
				out = append(out, m)
			}
		}
	}
	return out
}

// row sets a draft out.
func (r *reading) row(d *draft, near beside, columns, required []string) Row {
	row := Row{Cells: map[string]Cell{}, Missing: []string{}, Cautions: slices.Clone(d.notes)}
	if row.Cautions == nil {
		row.Cautions = []string{}
	}
	for _, column := range columns {
		m := d.cells[column]
		if m == nil {
			if slices.Contains(required, column) {
				row.Missing = append(row.Missing, column)
			}
			continue
		}
		row.Cells[column] = cellOf(m)
	}
	row.Cautions = append(row.Cautions, d.doubts()...)
	var words []string
	for _, column := range columns {
		if m := d.cells[column]; m != nil {
			for _, w := range near.words(column, m.facts) {
				if q := strconv.Quote(squeeze(r.text[w.From:w.To])); !slices.Contains(words, q) {
					words = append(words, q)
				}
			}
		}
	}
	if len(words) > 0 {
		row.Cautions = append(row.Cautions, "beside the price or the delivery stand words that were not understood: "+strings.Join(words, ", "))
	}
	return row
}

// cellOf is a cell with its words in order.
func cellOf(m *made) Cell {
	c := Cell{Text: m.text, Why: m.why, From: []Range{}}
	for _, f := range m.facts {
		if !slices.Contains(c.From, f.Range) {
			c.From = append(c.From, f.Range)
		}
	}
	slices.SortFunc(c.From, func(a, b Range) int { return cmp.Compare(a.From, b.From) })
	return c
}

// doubts are cautions about what the row leaves open.
func (d *draft) doubts() []string {
	var out []string
	if d.cells["pack"] == nil && d.offer != nil && d.offer.pack.Words != "" {
		out = append(out, "pack: what a "+strings.TrimSuffix(d.offer.pack.Words, "s")+" holds is not said")
	}
	if d.offer != nil && d.cells["pack"] != nil && cues.ShortTon.MatchString(d.offer.pack.Words) && strings.HasSuffix(d.offer.pack.Text, "tonne") {
		out = append(out, "pack: a ton is read as the metric tonne, 1000 kg, as the money is of no country with another")
	}
	if form := d.form(); form != "" {
		out = append(out, "form: a "+form+" is none of bag, bulk and sack; left empty it is bulk for yards, cubic metres and tons, else bag")
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

// form is a word for the pack that is no form of quotes.csv, "" when there is none.
func (d *draft) form() string {
	if d.offer == nil || d.cells["form"] != nil || d.cells["pack"] == nil || d.offer.pack.Form == "each" {
		return ""
	}
	return d.offer.pack.Form
}
