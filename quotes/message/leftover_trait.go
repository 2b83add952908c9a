package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// traits asks what an acid drop did and what a medium weighs.
func (l *leftovers) traits() {
	var named []*draft // the rows of what was spoken of last
	going := 0         // sentences that may answer a question about acid
	asked := map[*draft]bool{}
	for _, s := range l.sentences() {
		if len(named) > 0 && named[0].item.section != s.section {
			named = nil
		}
		if said := cues.AcidSaid.MatchString(l.reading.low[s.From:s.To]); said || going > 0 {
			going = max(0, going-1)
			for _, c := range s.clauses {
				if said && c.poison == aQuestion {
					going = 2
				}
				here := l.spokenOf(stretch{clauses: []*clause{c}, section: s.section})
				if len(here) > 0 {
					named = here
				}
				if len(here) > 0 || len(c.media()) == 0 {
					l.acid(s, c, named, asked)
				}
			}
		}
		if here := l.spokenOf(s); len(here) > 0 {
			named = here
		}
		l.densities(s, named)
		if cues.RinseSaid.MatchString(l.reading.low[s.From:s.To]) {
			for _, m := range l.find(cues.LoosePart, s.From, s.To) {
				if n, why := l.number(m.text("n")); why == "" && n.value.Sign() > 0 && n.value.Cmp(units.D("50")) < 0 && len(named) > 0 {
					l.putNumber("is that the share of "+named[0].item.name()+" that is lost on rinsing?", "rinse_loss", n.text+"%", m, named)
				}
			}
		}
	}
}

// acid asks what a drop did to what a clause speaks of, or to all of the supplier where none was made.
func (l *leftovers) acid(s stretch, c *clause, rows []*draft, asked map[*draft]bool) {
	if never[c.poison] && c.poison != doubts["not"] && (c.poison != doubts["elsewhere"] || !cues.AcidNever.MatchString(l.reading.low[c.From:c.To])) {
		return
	}
	others := cues.AcidOthers.MatchString(l.reading.low[c.From:c.To])
	found := l.read(cues.AcidPart, c.From, c.To)
	if others && len(found) == 0 {
		found = l.read(cues.AcidOthers, c.From, c.To)
	}
	at := slices.IndexFunc(found, func(m match) bool {
		over := func(f *fact) bool { return f.From < m.end() && m.part().From < f.To }
		return !slices.ContainsFunc(l.fixed, over) && !slices.ContainsFunc(c.facts, func(f *fact) bool {
			return (oneOf(f.kind, aSupplier, aMedium) || f.kind == anAside && f.why != toldBehind) && over(f)
		})
	})
	if at < 0 {
		return
	}
	part, said, guess := found[at].part(), l.reading.low[max(s.From, c.From-window):min(s.To, c.To+window)], "fizzed"
	if s.From < c.From && (len(c.media()) > 0 || others) {
		said = l.reading.low[c.From:c.To]
	}
	switch {
	case cues.AcidNever.MatchString(said):
		guess = "untested"
	case cues.AcidNot.MatchString(said), !cues.AcidYes.MatchString(said) && cues.AcidClean.MatchString(said):
		guess = "none"
	}
	did := []string{guess, "none", "fizzed", "untested"}
	for _, f := range c.facts {
		if f.kind == anAcidTest && c.poison != doubts["not"] { // as a rule has it
			part, did = f.Range, []string{f.text}
		}
	}
	if others {
		rows = slices.DeleteFunc(l.of(s.section), func(d *draft) bool { return slices.Contains(rows, d) })
	} else if len(rows) == 0 || guess == "untested" && len(l.spokenOf(s)) == 0 {
		rows = l.of(s.section)
	}
	rows = slices.DeleteFunc(slices.Clone(rows), func(d *draft) bool { return d.cells["carbonate"] != nil || asked[d] })
	if len(rows) == 0 {
		return
	}
	var replies []reply
	for i, text := range did {
		if i == 0 || text != guess {
			replies = append(replies, l.cell(acidDid[text], "carbonate", text, rows))
		}
	}
	var names []string
	for _, d := range rows {
		asked[d] = true
		if name := d.item.name(); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	l.put("what did an acid drop do to "+strings.Join(names, " and ")+"?", []Range{part}, replies...)
}

var acidDid = map[string]string{"none": "nothing", "fizzed": "it fizzed", "untested": "none was made"}

// densities asks about weights of volumes that go with no one row, for all of the medium that they stand with, or of those that have none.
func (l *leftovers) densities(s stretch, named []*draft) {
	for _, c := range s.clauses {
		for _, f := range c.facts {
			if f.kind == aDensity && !l.used[f] && f.ask == nil && f.text != "" && !never[c.poison] && !never[f.unclear] {
				l.weighs(f.Range, f.text, s, named)
			}
		}
	}
	for _, m := range l.find(cues.LooseHeavy, s.From, s.To) {
		if n, why := l.number(first(m.text("q"), m.text("qb"))); why == "" {
			if text, why := l.weighing(n.text, first(m.text("w"), m.text("wb")), first(m.text("v"), m.text("vb"))); why == "" {
				part := m.part()
				if l.holdsMedium(part.From, part.To) && m.has("q") { // "a yard of the lava is 1.4 tons"
					part.From, _, _ = m.span("q")
				}
				l.weighs(part, text, s, named)
			}
		}
	}
}

func (l *leftovers) weighs(part Range, text string, s stretch, rows []*draft) {
	each := cues.AllWords.MatchString(l.reading.low[s.From:part.From])
	if len(rows) == 0 || each {
		rows = l.of(s.section)
	}
	if len(rows) > 0 && !slices.ContainsFunc(rows, func(d *draft) bool { return d.item.medium != rows[0].item.medium && !each || d.cells["density"] != nil }) {
		l.put("is that what "+rows[0].item.name()+" weighs?", []Range{part}, l.cell(text, "density", text, rows))
	}
}
