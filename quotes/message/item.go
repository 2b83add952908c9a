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
	listed  bool      // it was named with others and its size alone: see sizedAhead
	lost    string    // why the clause that names its medium was not read; such an item makes no row
}

// section is the part of the message that one supplier speaks in, with what holds for all of it.
type section struct {
	supplier *fact
	facts    []*fact
	feeTax   *fact // says the tax on what bringing costs, where that is not the job's
	doubtful bool  // a number of it is asked about, or was; what delivery costs is then filed, whether a row has a price yet or not
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
	wide     bool    // rows of delivery.csv are asked for
	ways     []*draft
	now      *item
	pending  []*fact // facts before any medium
	pendFrom *clause
	under    *item // a medium that heads the offers of several suppliers
	grouped  []*group
}

func (r *reading) section() *section { return r.sections[len(r.sections)-1] }

// attach walks over the clauses and gives every fact its item or its section.
func (r *reading) attach() {
	r.sections = []*section{{}}
	r.groups()
	for i, c := range r.all {
		if r.heads(c) {
			r.now = nil
			continue
		}
		if c.poison != "" {
			for _, f := range c.facts {
				if f.kind != anAside && f.kind != aSupplier && f.kind != anUnclear {
					f.drop(c.poison)
				}
			}
		}
		if c.row >= 0 {
			r.tableCell(c)
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
	r.underHeads()
	r.underGroups()
}

// underHeads makes the rows of a table that name nothing be of the medium that the line above it names, with its pack.
func (r *reading) underHeads() {
	var head *item
	used := map[*item]bool{}
	for _, it := range r.items {
		if it.row < 0 {
			if head = it; it.medium == nil || it.offered() || it.several || it.lost != "" {
				head = nil
			}
			continue
		}
		if head == nil || it.medium != nil || it.words != "" || slices.ContainsFunc(it.facts, func(f *fact) bool { return f.kind == aCell && f.column == "item" }) {
			continue
		}
		it.medium, it.words, it.from = head.medium, head.words, head.from
		for _, f := range head.facts {
			if f.kind == aPack || f.kind == aForm {
				it.facts = append(it.facts, f)
			}
		}
		used[head] = true
	}
	r.items = slices.DeleteFunc(r.items, func(it *item) bool { return used[it] })
}

// tableCell attaches the facts of a cell to the item of its row.
func (r *reading) tableCell(c *clause) {
	if r.now == nil || r.now.row != c.row {
		r.now = nil
		if at := slices.IndexFunc(r.items, func(it *item) bool { return it.row == c.row }); at >= 0 {
			r.now = r.items[at] // of a table with a column for each
		} else {
			r.open(&item{row: c.row}, c)
		}
	}
	for _, f := range c.facts {
		f.general = f.general && f.kind != aPack // a row speaks of itself
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
	case f.kind == aHeading || f.kind == anAside || f.kind == anUnclear || f.kind == aPayer || f.unclear != "" && !f.outbid:
	case r.section().takesLoad(f, it):
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
	if before := r.pendFrom; it.row < 0 && len(r.pending) > 0 && c != before && (c.sentence != before.sentence || len(c.tokens) > 0 && c.tokens[0].word == "but") && holdPrice(r.pending) && holdPrice(c.facts) {
		r.open(&item{row: -1}, before) // of something that was not made out
	}
	it.section = len(r.sections) - 1
	r.items = append(r.items, it)
	r.now = it
	if c != nil {
		it.clauses = append(it.clauses, c)
	}
	priced := slices.ContainsFunc(r.pending, func(f *fact) bool { return f.kind == aPack && f.general })
	for _, f := range r.pending {
		f.general = f.general || priced && f.kind == aStep // "All prices per yard. Half yards are fine." heads a list
		r.give(f, it)
	}
	r.pending = nil
	return it
}

// holdPrice says whether a price that was made out is among facts.
func holdPrice(facts []*fact) bool {
	return slices.ContainsFunc(facts, func(f *fact) bool { return f.kind == aPrice && f.unclear == "" })
}

// name is what the item is called in reasons.
func (it *item) name() string {
	switch {
	case it == nil || it.medium == nil && it.words == "":
		return "what stands"
	case it.medium == nil:
		return it.words
	}
	return it.medium.Name
}

// offered says whether a price stands with the item already.
func (it *item) offered() bool {
	return slices.ContainsFunc(it.facts, func(f *fact) bool { return f.kind == aPrice || f.kind == aTier || f.kind == aBreak })
}

// ownWords are the words between a size and a price that may name what both are of, where the medium behind them in the sentence has a
// price of its own: "20 mm round stone is $39 a tonne, and the 14 mm granite is $42".
func (r *reading) ownWords(i int, c *clause, about []*fact, opens bool) (words Range) {
	k := slices.IndexFunc(about, func(f *fact) bool { return f.kind == aPrice })
	later := r.laterMedium(i, c)
	if k < 1 || !opens || later == nil || !slices.ContainsFunc(r.all, func(d *clause) bool {
		return slices.Contains(d.facts, later) && slices.ContainsFunc(d.facts, func(f *fact) bool { return f.kind == aPrice && f.From > later.From })
	}) {
		return Range{}
	}
	for _, t := range c.tokens {
		if t.word != "" && t.From >= about[0].To && t.To <= about[k].From && !fillers[t.word] && !noSubjects[t.word] && !describers[t.word] {
			if words.To == 0 {
				words.From = about[0].To + len(r.low[about[0].To:]) - len(strings.TrimLeft(r.low[about[0].To:], " \t"))
			}
			words.To = t.To
		}
	}
	return words
}
