package message

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/firms"
	"mediabuy/quotes/internal/plaintext"
)

// opens takes the supplier from where the message says whose words these are, where no line said it. A name found here must hold a word
// for a company, or stand where nothing but the one who sells is named.
func (s *scanner) opens() {
	for _, f := range s.fixed {
		if f.kind == aSupplier {
			return
		}
	}
	text := strings.TrimRight(s.text, " \t\r\n")
	for _, one := range []struct {
		re    *expr
		bound bool // the words around it need no word for a company in it
	}{{firms.NameSays, false}, {firms.CalledFor, false}, {firms.CallAt, false}, {firms.ShipsFrom, false}, {firms.AskFor, false}, {firms.CalledFrom, true}, {firms.NameCalled, true}, {firms.PersonAt, true}, {firms.SmallAt, true}, {firms.FirmHere, false}, {firms.NameFirst, false}, {firms.NameGoods, false}, {firms.NameLast, false}, {firms.SmallLast, false}, {firms.SmallHere, true}, {firms.NameThen, false}, {firms.NameLine, false}, {firms.NameClosing, false}, {firms.NameHead, false}} {
		for _, at := range one.re.FindAllStringSubmatchIndex(text, -1) {
			line, who, front := s.lineOf(at[2]), strings.Trim(s.text[at[0]:at[2]], " \t\r\n,.(@–—-"), s.text[strings.LastIndexByte(s.text[:at[2]], '\n')+1:at[2]]
			switch {
			case strings.Contains(line, "\t") || strings.Count(line, ";") > 1 || strings.Contains(line, "|") && (one.re != firms.NameThen || strings.Count(line, "|") != strings.Count(text, "|")), // a row of a table
				one.re == firms.PersonAt && s.text[at[2]-1] == '(' && hasCompanyWord(who),                                                    // "Light Aggregates (Severnside)": the place
				one.re == firms.PersonAt && s.text[at[2]-1] == '(' && !hasCompanyWord(s.text[at[2]:at[3]]) || allTitles(s.text[at[2]:at[3]]), // "Maureen (Treasurer)"
				one.re == firms.SmallLast && s.text[at[0]] != '\n' && s.holdsMedium(at[2], at[3]),                                            // "cheers mate. lovely gravel"
				one.re == firms.PersonAt && notPersons[firstWord(s.low[at[0]:at[2]])],                                                        // "Ships from Ferncote"
				one.re == firms.NameLast && strings.HasSuffix(front, ", ") && firms.FirmAlone.MatchString(front) && hasCompanyWord(front):    // "Pell & Son, Turnpike Works": the place
				continue
			}
			end, _ := s.endOfName(at[2], at[3], false)
			name := s.company(at[2], end)
			if one.re == firms.SmallAt || oneOf(one.re, firms.SmallLast, firms.SmallHere) && s.smallName(at[2], at[3]) {
				name = squeeze(s.text[at[2]:at[3]])
			}
			if one.re == firms.SmallAt && strings.HasPrefix(name, "the ") && firms.CapitalBehind.MatchString(s.text[end:]) || // "Nerida from the produce store, Low Ford Feeds"
				one.re == firms.NameCalled && !hasCompanyWord(name) && strings.HasPrefix(strings.TrimLeft(s.text[end:], " "), "(") { // "call w/ Lou (Pennick Stone)": the person
				continue
			}
			if one.re == firms.NameHead && at[2] > s.lineEnd(0) {
				break
			}
			if one.re == firms.NameHead && (!hasCompanyWord(name) || !firms.HeadWords.MatchString(s.lineOf(0)) || !firms.HeadEnds.MatchString(s.text[end:]) || s.holdsMedium(0, s.lineEnd(0)) && !strings.HasPrefix(strings.TrimSpace(s.text[end:]), ">") || cues.MoneyWithin.MatchString(s.lineOf(0)) || firms.Addressed.MatchString(s.low[:at[2]])) {
				continue
			}
			if one.re == firms.NameFirst && strings.TrimSpace(s.text[:at[2]]) != "" && !s.afterHeads(at[2]) && !s.letterhead(at[2]) {
				continue // only what opens the message
			}
			if one.re == firms.NameGoods {
				if !s.opensMedium(at[1] - 1) {
					continue
				}
				at[1] = end
			}
			owned := one.re == firms.FirmHere && firms.OwnersName.MatchString(name) // "Annie's here"
			lone, behind := false, strings.TrimSpace(text[at[1]:])
			if one.re == firms.NameLine { // the first line or one of the last
				if lone = name != "" && nameAlone(name, behind == "" && !firms.Closing.MatchString(text)); strings.TrimSpace(text[:at[2]]) != "" && strings.Count(plaintext.EmptyLine.ReplaceAllString(behind, "\n"), "\n") >= maxSignedLines/2-1 {
					continue
				}
			}
			if one.re == firms.NameClosing && name != "" {
				if s.holdsMedium(end, len(text)) || cues.MoneyWithin.MatchString(text[end:]) {
					continue // a line of a list
				}
				last := end - len(name) + strings.LastIndexByte(name, ' ') + 1
				lone = nameAlone(name, at[4] < 0) || s.opensMedium(last) && !s.opensMedium(at[2]) && !describers[firstWord(s.low[at[2]:end])]
			}
			switch {
			case name == "" || s.nameOfGoods(at[2], end) || one.re != firms.NameClosing && s.onlyKinds(at[2], end) || firms.Address(name) || strings.Contains(s.text[at[0]:at[2]], ",") && (firms.RoadEnds.MatchString(name) || firms.HouseFirst.MatchString(name)):
				continue
			case !lone && !hasCompanyWord(name) && !(strings.Contains(name, " & ") && (oneOf(one.re, firms.NameLast, firms.FirmHere) || one.re == firms.NameLine && !s.holdsMedium(at[2], end)) || owned) && (!one.bound || s.holdsMedium(at[2], end)):
				continue
			case one.re != firms.SmallAt && one.re != firms.PersonAt && one.re != firms.NameCalled && !owned && !strings.Contains(name, " "):
				continue
			}
			to := at[1]
			if one.re == firms.NameFirst || one.re == firms.NameLast || one.re == firms.NameThen || one.re == firms.NameClosing || one.re == firms.SmallLast || end < at[3] {
				to = end
			}
			from := at[0]
			if one.re == firms.NameFirst || s.holdsMedium(from, at[2]) {
				from = at[2]
			}
			for from < at[2] && strings.ContainsRune(" \t\r\n.!?,;:)–—-", rune(s.text[from])) {
				from++
			}
			if f := s.fix(aSupplier, from, to, name, saysWhere); f != nil {
				s.mayBeginWithPerson(f, s.text[at[0]:at[2]])
				s.contact(to)
				return
			}
		}
	}
	s.mayBeSupplier()
}

// mayBeginWithPerson asks whether a long name at the end of a message in small letters begins with that of who writes, for want of a
// comma: "gst in that. Lou Pennick Flat Stone".
func (s *scanner) mayBeginWithPerson(f *fact, front string) {
	const long = 4
	words := strings.Fields(f.text)
	if first, _ := utf8.DecodeRuneInString(strings.TrimSpace(s.text)); !unicode.IsLower(first) || len(words) < long || strings.ContainsAny(front, ",/@\n") || strings.TrimSpace(s.text[f.To:]) != "" || strings.ContainsFunc(f.text, func(c rune) bool { return !unicode.IsLetter(c) && c != ' ' }) || slices.ContainsFunc(words, func(w string) bool { return joiners[w] }) {
		return
	}
	labels := []string{f.text, strings.Join(words[1:], " ")}
	if reading, answered := s.answers[answerKey{f.From, false}]; answered {
		f.text, f.why = labels[reading], saysWhere+", as answered"
		return
	}
	f.kind, f.why = anUnclear, twoNames
	f.ask = &choice{Range: f.Range, key: f.From, question: "is " + words[0] + " a part of the supplier's name, or who writes?", labels: labels}
}

// mayBeSupplier asks whether a name is the supplier's where none was found.
func (s *scanner) mayBeSupplier() {
	text := strings.TrimRight(s.text, " \t\r\n")
	for _, re := range firms.MaybeName {
		at := re.FindStringSubmatchIndex(text)
		if at == nil {
			continue
		}
		end, _ := s.endOfName(at[2], at[3], false)
		name := s.company(at[2], end)
		if name == "" || !strings.Contains(name, " ") || s.nameOfGoods(at[2], end) && (end < len(text) || s.onlyGoods(at[2], end) || s.text[at[0]] != '\n') || s.onlyKinds(at[2], end) || firms.Address(name) || strings.Contains(s.lineOf(at[2]), "\t") || s.taken(at[2]) != nil || strings.ContainsAny(name, "0123456789") {
			continue
		}
		f := s.perhaps(&fact{kind: aSupplier, why: saysWhere}, Range{at[2], end}, "a name, and it is not said whose", "is "+name+" the supplier?", name)
		if got := s.fix(f.kind, at[2], end, name, f.why); got != nil {
			got.ask = f.ask
			return
		}
	}
}

// smallName says whether words in small letters are a company's name: the last says what it is, and none is a word of talk.
func (s *scanner) smallName(from, to int) bool {
	words := strings.Fields(s.text[from:to])
	for _, w := range words {
		if fillers[w] && !oneOf(w, "and", "n") || notNames[w] && !companyWords[w] || doubt(w) != "" || notPersons[w] {
			return false
		}
	}
	return companyWords[words[len(words)-1]] && !s.opensMedium(from)
}

// onlyKinds says whether a name holds nothing but words that say what a company sells or is, as the heading of a list does:
// "Landscape Rock".
func (s *scanner) onlyKinds(from, to int) bool {
	for w := range strings.FieldsSeq(s.low[from:to]) {
		if w = strings.Trim(w, ".,-&"); !companyWords[w] && !describers[w] && !tails[w] && !joiners[w] && w != "" {
			return false
		}
	}
	return true
}

// lineOf is the line that byte at stands in.
func (s *scanner) lineOf(at int) string {
	return s.text[strings.LastIndexByte(s.text[:at], '\n')+1 : s.lineEnd(at)]
}

// lineEnd is where the line ends that byte at stands in.
func (s *scanner) lineEnd(at int) int {
	if i := strings.IndexByte(s.text[at:], '\n'); i >= 0 {
		return at + i
	}
	return len(s.text)
}

// letterhead says whether a line that begins at byte at may be the head of a paper: nothing of goods stands above it, and no words
// right above it that the name may go on.
func (s *scanner) letterhead(at int) bool {
	const most = 4
	if above := strings.TrimRight(s.lineOf(max(0, at-1-len(s.text[strings.LastIndexByte(s.text[:at], '\n')+1:at]))), " \t\r"); above != "" && !strings.ContainsAny(above, "0123456789") && !cues.PaperHead.MatchString(above) {
		return false
	}
	return strings.Count(s.text[:at], "\n") <= most && !s.holdsMedium(0, at) && !strings.ContainsAny(s.text[:at], "$£€") && !firms.Addressed.MatchString(s.low[:at])
}

// afterHeads says whether only what was found by line stands before byte at.
func (s *scanner) afterHeads(at int) bool {
	rest := 0
	for i, c := range s.text[:at] {
		if s.taken(i) == nil && c > ' ' && !strings.ContainsRune(",.!", c) {
			rest++
		}
	}
	return rest == 0
}
