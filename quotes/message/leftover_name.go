package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/firms"
)

// Names that may be a supplier's, wherever they stand: with capitals, or in small letters behind a word for where somebody is.
var (
	anyName   = compile(`(` + companyName + `)`)
	smallName = compile(`\b(?:at|from|w|with|it'?s|this is|here|down|to|of)[ \t]+(?:the[ \t]+)?([\p{L}'’]+(?:[ \t]+(?:n|and|&)?[ \t]*[\p{L}'’]+){1,3})`)
)

// names asks whose message it is where no supplier was found for the rows of a section.
func (l *leftovers) names() {
	if l.given != "" || slices.ContainsFunc(l.fixed, func(f *fact) bool { return f.ask != nil }) {
		return
	}
	for i := range l.sections {
		rows := l.of(i)
		if len(rows) == 0 || slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["supplier"] != nil }) {
			continue
		}
		for _, name := range l.namesIn(i) {
			l.put("is "+name.text+" the supplier?", []Range{name.Range}, reply{name.text, func(from []*fact) {
				for _, d := range slices.Concat(rows, l.ways) {
					d.set("supplier", name.text, "as answered", from...)
				}
			}})
			break
		}
	}
}

// namesIn are the names in a section that hold a word for a company.
func (l *leftovers) namesIn(section int) (out []charge) {
	for _, re := range []*expr{anyName, smallName} {
		text := l.text
		if re == smallName {
			text = l.reading.low
		}
		for _, at := range re.FindAllStringSubmatchIndex(text, -1) {
			from, to := at[2], at[3]
			if re == smallName {
				to = l.smallEnd(from, to)
			} else {
				to, _ = l.endOfName(from, to, false)
			}
			name := squeeze(strings.TrimRight(l.text[from:to], ".,-"))
			if re == anyName {
				name = l.company(from, to)
			}
			if before, after, two := strings.Cut(name, " and "); two && !oneCompany(before, after) {
				continue
			}
			if name == "" || !strings.Contains(name, " ") || !hasCompanyWord(name) || l.sectionAt(from) != section || l.onlyKinds(from, to) || firms.Street.MatchString(name) || l.nameOfGoods(from, to) || l.holdsMoney(from, to) {
				continue
			}
			out = append(out, charge{Range: Range{from, to}, text: name})
		}
	}
	return out
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
