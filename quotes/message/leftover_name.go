package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/firms"
)

// names asks whose message it is where no supplier was found for the rows of a section.
func (l *leftovers) names() {
	if l.given != "" || slices.ContainsFunc(l.fixed, func(f *fact) bool { return f.ask != nil }) {
		return
	}
	for i := range l.sections {
		rows := l.of(i)
		if len(rows) == 0 { // their prices are asked
			rows = slices.DeleteFunc(slices.Clone(l.rows), func(d *draft) bool { return d.item.section != i })
		}
		if len(rows) == 0 || slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["supplier"] != nil }) {
			continue
		}
		names := l.namesIn(i)
		question := "which of these is the supplier?"
		if len(names) == 0 {
			names = l.capitals(i)
		}
		if len(names) == 0 {
			continue
		}
		names = names[:min(len(names), maxHolds)]
		if len(names) == 1 {
			question = "is " + names[0].text + " the supplier?"
		}
		var parts []Range
		var replies []reply
		for _, name := range names {
			parts = append(parts, name.Range)
			replies = append(replies, reply{name.text, func(from []*fact) {
				of := slices.DeleteFunc(slices.Clone(from), func(f *fact) bool { return f.To <= name.From || name.To <= f.From })
				for j, f := range from {
					if slices.Contains(of, f) {
						f.head = of[(j+1)%len(of)]
					} else {
						f.kind, f.why, f.head = anAside, "another name than the supplier's, as answered", nil
					}
				}
				for _, d := range slices.Concat(rows, l.ways) {
					d.set("supplier", name.text, "as answered", of...)
				}
			}})
		}
		l.put(question, parts, replies...)
	}
}

// capitals are the names in a section that nothing but their capitals and their place tells, those first that stand where one
// who sells is named: in the last line, behind "at" or "called", in the first line.
func (l *leftovers) capitals(section int) []charge {
	var ranked [3][]charge
	text := strings.TrimRight(l.text, " \t\r\n.!")
	for _, at := range firms.CapitalName.FindAllStringSubmatchIndex(text, -1) {
		from, to := at[2], at[3]
		for _, w := range strings.SplitAfter(text[from:to], " ")[:strings.Count(text[from:to], " ")] { // "Called Annie's", "The Otter Bridge"
			if !notNames[strings.TrimSpace(lower(w))] {
				break
			}
			from += len(w)
		}
		name := squeeze(strings.TrimRight(text[from:to], ".,-"))
		asked := firms.AskFront.MatchString(text[:from])
		if !strings.Contains(name, " ") && !asked && (!firms.OwnersName.MatchString(name) || fillers[lower(name[:strings.IndexAny(name, "'’")])]) || l.company(from, to) == "" || !l.mayBeName(section, from, to, name) {
			continue
		}
		line := text[strings.LastIndexByte(text[:from], '\n')+1 : from]
		rank := 1
		switch {
		case !asked && firms.ToOther.MatchString(line):
			continue
		case !strings.Contains(text[to:], "\n") && len(text)-to < window:
			rank = 0
		case asked, firms.OfOther.MatchString(line), firms.SellsBehind.MatchString(text[to:]):
		case strings.TrimSpace(text[:from-len(line)]) == "":
			rank = 2
		default:
			continue
		}
		ranked[rank] = append(ranked[rank], charge{Range: Range{from, to}, text: name})
	}
	return slices.Concat(ranked[:]...)
}

// namesIn are the names in a section that hold a word for a company.
func (l *leftovers) namesIn(section int) (out []charge) {
	for _, re := range []*expr{firms.AnyName, firms.SmallName} {
		text := l.text
		if re == firms.SmallName {
			text = l.reading.low
		}
		for _, at := range re.FindAllStringSubmatchIndex(text, -1) {
			from, to := at[2], at[3]
			if re == firms.SmallName {
				to = l.smallEnd(from, to)
			} else {
				to, _ = l.endOfName(from, to, false)
			}
			name := squeeze(strings.TrimRight(l.text[from:to], ".,-"))
			if re == firms.AnyName {
				name = l.company(from, to)
			}
			if name == "" || !strings.Contains(name, " ") || !hasCompanyWord(name) || !l.mayBeName(section, from, to, name) {
				continue
			}
			out = append(out, charge{Range: Range{from, to}, text: name})
		}
	}
	return out
}

// mayBeName says whether a name in a section is of one company, and neither of goods nor of a road.
func (l *leftovers) mayBeName(section, from, to int, name string) bool {
	before, after, two := strings.Cut(name, " and ")
	return !(two && !oneCompany(before, after)) && l.sectionAt(from) == section && !l.onlyKinds(from, to) && !l.nameOfGoods(from, to) && !l.holdsMoney(from, to) && !firms.Address(name) && !cues.HouseBefore.MatchString(l.text[:from])
}

// holdsMoney says whether a price that was read or asked about stands in a part of the text.
func (l *leftovers) holdsMoney(from, to int) bool {
	return strings.ContainsAny(l.text[from:to], "$£€0123456789")
}

// smallEnd is where a name in small letters ends: with its last word for a company.
func (l *leftovers) smallEnd(from, to int) int {
	end := from
	for _, at := range nameParts.FindAllStringIndex(l.reading.low[from:to], -1) {
		if w := l.reading.low[from+at[0] : from+at[1]]; companyWords[w] {
			end = from + at[1]
		} else if fillers[w] && !oneOf(w, "n", "and", "&") {
			break
		}
	}
	return end
}
