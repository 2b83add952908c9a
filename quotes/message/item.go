package message

import (
	"slices"
	"strings"

	"mediabuy/quotes"
)

// item is one medium as the message speaks of it.
type item struct {
	medium  *quotes.Medium // nil when the words before its price name none that is known
	words   string         // the supplier's own
	from    []*fact        // the facts that name it
	range_  Range          // where an unknown one is named
	facts   []*fact
	section int
	row     int       // of a table, else -1
	clauses []*clause // where it is spoken of
	several bool      // two media were named together
	lost    string    // why the clause that names its medium was not read; such an item makes no row
}

// section is the part of the message that one supplier speaks in, with what holds for all of it.
type section struct {
	supplier *fact
	facts    []*fact
}

// reading is a message being read.
type reading struct {
	*scanner
	all      []*clause
	items    []*item
	sections []*section
	columns  []Column
	extra    []*fact // words that an item is called by
	given    string  // the supplier the caller names
	now      *item
	pending  []*fact // facts before any medium
	pendFrom *clause
}

func (r *reading) section() *section { return r.sections[len(r.sections)-1] }

// attach walks over the clauses and gives every fact its item or its section.
func (r *reading) attach() {
	r.sections = []*section{{}}
	for i, c := range r.all {
		if c.poison != "" {
			for _, f := range c.facts {
				if f.kind != anAside && f.kind != aSupplier && f.kind != anUnclear {
					f.drop(c.poison)
				}
			}
		}
		if c.row >= 0 {
			r.tableCell(i, c)
			continue
		}
		if r.now != nil && r.now.row >= 0 {
			r.now = nil // a table's last row says nothing of the sentence below it
		}
		r.sentence(i, c)
	}
	if len(r.pending) > 0 {
		r.open(&item{row: -1}, r.pendFrom)
	}
}

// tableCell attaches the facts of a cell to the item of its row.
func (r *reading) tableCell(_ int, c *clause) {
	if r.now == nil || r.now.row != c.row {
		r.now = nil
		r.open(&item{row: c.row}, c)
	}
	for _, f := range c.facts {
		switch {
		case f.unclear != "":
		case f.kind == aMedium && c.heading == "medium" && r.now.medium != nil && r.now.medium != f.medium:
			// The column of media says what it is, whatever the supplier's words remind of.
			r.now.medium = f.medium
			r.now.from = append(r.now.from, f)
			f.item = r.now
		case f.kind == aMedium && r.now.medium == nil:
			r.now.medium, r.now.words = f.medium, f.text
			r.now.from = append(r.now.from, f)
			f.item = r.now
		case f.kind == aMedium && f.medium == r.now.medium:
			r.now.from = append(r.now.from, f)
			f.item = r.now
		case f.kind == aMedium:
			f.drop("a second medium in one row")
		default:
			r.give(f, r.now)
		}
	}
}

// give hands a fact to an item, or to the section when it holds for the whole order.
func (r *reading) give(f *fact, it *item) {
	f.item = it
	switch {
	case f.kind == anAside || f.kind == anUnclear || f.unclear != "":
	case f.about() && it == nil:
		f.drop("it does not say of which medium")
	case f.about() && it.lost != "":
		f.drop(it.lost)
	case f.about():
		it.facts = append(it.facts, f)
	case f.kind != aSupplier:
		r.section().facts = append(r.section().facts, f)
	case it != nil && it.row >= 0:
		it.facts = append(it.facts, f)
	}
}

// open begins an item, which takes what was said before any medium.
func (r *reading) open(it *item, c *clause) *item {
	it.section = len(r.sections) - 1
	r.items = append(r.items, it)
	r.now = it
	if c != nil {
		it.clauses = append(it.clauses, c)
	}
	for _, f := range r.pending {
		r.give(f, it)
	}
	r.pending = nil
	return it
}

// sentence attaches the facts of a clause outside tables.
func (r *reading) sentence(i int, c *clause) {
	for _, f := range c.facts {
		if f.kind == aSupplier && f.general {
			if r.section().supplier != nil || len(r.items) > 0 {
				r.sections = append(r.sections, &section{})
			}
			r.section().supplier = f
			r.now = nil
		}
		switch {
		case f.kind == aDelivery && f.before:
			if f.behind = behindPrice(c, f); f.behind == nil {
				f.drop("delivered, but no price stands before it")
			}
		case f.kind == aDelivery && f.otherwise && !r.behindFree(i, c):
			f.drop("it is not said otherwise than what")
		}
	}
	if c.poison != "" {
		if m := c.media(); len(m) > 0 {
			r.now = &item{row: -1, medium: m[0].medium, lost: "it is about " + m[0].text + ", and what names that was not read"}
		}
		return
	}
	switch m := c.media(); {
	case len(m) == 0:
		r.noMedium(i, c)
	case len(m) == 1:
		r.oneMedium(c, m[0])
	default:
		r.severalMedia(c, m)
	}
}

// behindPrice is the fact before f in its clause if it is a price, else nil.
func behindPrice(c *clause, f *fact) *fact {
	i := slices.Index(c.facts, f)
	if i > 0 && (c.facts[i-1].kind == aPrice || c.facts[i-1].kind == aBreak) {
		return c.facts[i-1]
	}
	return nil
}

// behindFree says whether a value from which delivery is free stands before clause i in its sentence.
func (r *reading) behindFree(i int, c *clause) bool {
	for _, d := range slices.Backward(r.all[:i+1]) {
		if d.sentence != c.sentence {
			return false
		}
		if slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind == aFree }) {
			return true
		}
	}
	return false
}

// noMedium attaches a clause that names no medium to the one before, unless its words or its place leave that open.
func (r *reading) noMedium(i int, c *clause) {
	var about []*fact
	for _, f := range c.facts {
		if f.about() {
			about = append(about, f)
		} else {
			r.give(f, r.now)
		}
	}
	if len(about) == 0 {
		return
	}
	opens := r.opensSentence(i, c) && (i == 0 || r.all[i-1].sentence != c.sentence)
	if k := slices.IndexFunc(about, func(f *fact) bool { return opens || f.kind == aPrice || f.kind == aTier || f.kind == aPack }); k >= 0 {
		if words := r.strange(c, about[k]); words.To > 0 && !r.onlyMissed(words) {
			it := r.open(&item{row: -1, range_: words, words: squeeze(r.text[words.From:words.To])}, c)
			for _, f := range about {
				r.give(f, it)
			}
			return
		}
	}
	later := r.laterMedium(i, c)
	switch {
	case r.now == nil || later != nil && c.line && r.startsLine(i, c):
		if r.now != nil && later == nil {
			break
		}
		if r.pendFrom == nil || len(r.pending) == 0 {
			r.pendFrom = c
		}
		r.pending = append(r.pending, about...)
		return
	case later != nil && r.opensSentence(i, c):
		for _, f := range about {
			f.drop("it may be about " + r.now.name() + " before it or about " + later.medium.Name + " behind it")
		}
		return
	}
	for _, f := range about {
		r.give(f, r.now)
	}
	r.now.clauses = append(r.now.clauses, c)
}

// onlyMissed says whether a run holds numbers and fillers alone, which name nothing.
func (r *reading) onlyMissed(run Range) bool {
	for w := range strings.FieldsSeq(strings.Map(signsOut, r.low[run.From:run.To])) {
		if !fillers[w] && strings.Trim(w, "0123456789.,/") != "" {
			return false
		}
	}
	return true
}

func signsOut(c rune) rune {
	if strings.ContainsRune(",;:()", c) {
		return ' '
	}
	return c
}

func (it *item) name() string {
	switch {
	case it == nil || it.medium == nil && it.words == "":
		return "what stands"
	case it.medium == nil:
		return it.words
	}
	return it.medium.Name
}

// laterMedium is the next fact that names a medium in the sentence of clause i, before any clause that must not be read.
func (r *reading) laterMedium(i int, c *clause) *fact {
	for _, d := range r.all[i+1:] {
		if d.sentence != c.sentence || d.row >= 0 {
			return nil
		}
		if m := d.media(); len(m) > 0 && d.poison == "" {
			return m[0]
		}
	}
	return nil
}

// opensSentence says whether no medium stands before clause i in its sentence.
func (r *reading) opensSentence(i int, c *clause) bool {
	for _, d := range slices.Backward(r.all[:i]) {
		if d.sentence != c.sentence || d.row >= 0 {
			return true
		}
		if len(d.media()) > 0 {
			return false
		}
	}
	return true
}

// startsLine says whether the sentence of clause i began with a line of its own.
func (r *reading) startsLine(i int, c *clause) bool { return c.line && r.opensSentence(i, c) }

// oneMedium attaches a clause that names one medium: all of it is about that one, but for what stands in front of it and
// may be about the medium before.
func (r *reading) oneMedium(c *clause, m *fact) {
	before := r.now
	it := r.now
	if it == nil || it.row >= 0 || it.lost != "" || it.medium != m.medium || it.offered() || it.several {
		it = r.open(&item{row: -1, medium: m.medium, words: m.text}, c)
	} else {
		it.clauses = append(it.clauses, c)
		it.words = longer(it.words, m.text)
	}
	it.from = append(it.from, m)
	m.item = it
	for _, f := range c.facts {
		switch {
		case f == m:
		case f.From > m.From || before == nil || before == it || !f.about() || r.leads(c, f, m, before):
			r.give(f, it)
		default:
			f.drop("it may be about " + before.name() + " before it or about " + m.medium.Name + " behind it")
		}
	}
}

// leads says whether a fact in front of medium m is about m and not about the item before: "for" or "of" links it, or
// nothing stands between. A break or a number of packs needs the link, and a price does while the item before has none.
func (r *reading) leads(c *clause, f, m *fact, before *item) bool {
	if r.linked(c, f, m) {
		return true
	}
	switch f.kind {
	case aBreak, aTier, aMin, aMax, aStep:
		return false
	case aPrice:
		if !before.offered() {
			return false
		}
	}
	return !slices.ContainsFunc(c.tokens, func(t token) bool { return t.From >= f.To && t.To <= m.From })
}

func longer(a, b string) string {
	if len(b) > len(a) {
		return b
	}
	return a
}

// linked says whether only "for", "of" or "on" and fillers stand between a fact and the medium behind it.
func (r *reading) linked(c *clause, f, m *fact) bool {
	link := false
	for _, t := range c.tokens {
		if t.From >= f.To && t.To <= m.From {
			link = link || t.word == "for" || t.word == "of" || t.word == "on"
			if !fillers[t.word] {
				return false
			}
		}
	}
	return link
}

// offered says whether a price stands with the item already.
func (it *item) offered() bool {
	return slices.ContainsFunc(it.facts, func(f *fact) bool { return f.kind == aPrice || f.kind == aTier || f.kind == aBreak })
}

// severalMedia attaches a clause that names several media by place. Media with nothing between them are one group, of
// which it cannot be told which one is meant.
func (r *reading) severalMedia(c *clause, media []*fact) {
	var group []*fact
	var it *item
	for i, m := range media {
		if i == 0 {
			var lead []*fact
			for _, f := range c.facts {
				if f.From < m.From {
					lead = append(lead, f)
				}
			}
			if r.now == nil {
				r.pendFrom = c
				for _, f := range lead {
					if f.about() {
						r.pending = append(r.pending, f)
					} else {
						r.give(f, nil)
					}
				}
			} else {
				for _, f := range lead {
					if f.about() {
						f.drop("it may be about " + r.now.name() + " before it or about " + m.medium.Name + " behind it")
					} else {
						r.give(f, r.now)
					}
				}
			}
		}
		next := len(r.text)
		if i+1 < len(media) {
			next = media[i+1].From
		}
		var tail []*fact
		for _, f := range c.facts {
			if f.From > m.From && f.From < next && f.kind != aMedium {
				tail = append(tail, f)
			}
		}
		group = append(group, m)
		if !slices.ContainsFunc(tail, func(f *fact) bool { return f.about() }) && i+1 < len(media) && len(group) > 0 {
			for _, f := range tail {
				r.give(f, r.now)
			}
			continue
		}
		it = r.open(&item{row: -1, medium: m.medium, words: m.text, several: len(group) > 1}, c)
		for _, g := range group {
			g.item = it
		}
		it.from = append(it.from, group...)
		for _, f := range tail {
			r.give(f, it)
		}
		group = nil
	}
}
