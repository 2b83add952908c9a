package message

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/firms"
	"mediabuy/quotes/internal/plaintext"
)

// listedBelow says whether lines that begin with > are the items of a list and no quoted ones: all stand right below a line that
// begins with none and names a medium, each has a sign of money, and nobody asks anything in them.
func (s *scanner) listedBelow(lines [][]int) bool {
	if len(lines) < 2 || lines[0][0] == 0 {
		return false
	}
	for i, at := range lines {
		if text := s.text[at[0]:at[1]]; !strings.ContainsAny(text, "$£€") || strings.Contains(text, "?") || i > 0 && at[0] != lines[i-1][1]+1 {
			return false
		}
	}
	above := strings.LastIndexByte(s.text[:lines[0][0]-1], '\n') + 1
	return !cues.OnDayWrote.MatchString(s.text) && s.holdsMedium(above, lines[0][0]-1) && !strings.ContainsAny(s.text[above:lines[0][0]], "$£€?")
}

// chat sets the times and names in front of the lines of a chat aside. What the buyer wrote is not read.
func (s *scanner) chat() {
	all, _ := plaintext.Turns(s.text, hasCompanyWord)
	if len(all) == 0 {
		all = append(cues.ChatLine.FindAllStringSubmatchIndex(s.text, -1), cues.NameTime.FindAllStringSubmatchIndex(s.text, -1)...)
	}
	if len(all) == 0 && cues.MeLine.MatchString(s.text) {
		all = cues.SaysLine.FindAllStringSubmatchIndex(s.text, -1)
		if lines := cues.SpeakLine.FindAllStringSubmatchIndex(s.text, -1); s.oneFirm(lines) {
			all = lines // of which one speaker is a firm of several words
		}
	}
	if len(all) == 0 {
		all = s.twoSpeak()
	}
	if len(all) < 2 {
		return
	}
	all = slices.DeleteFunc(all, func(at []int) bool { // "Store: Low Ford Feed"
		return firms.SupplierWord.MatchString(s.text[at[2]:at[3]]) && hasCompanyWord(s.lineOf(at[1])[at[1]-at[0]:])
	})
	buys := slices.ContainsFunc(all, func(at []int) bool { return plaintext.IsBuyer(lower(s.text[at[2]:at[3]])) })
	sells := slices.ContainsFunc(all, func(at []int) bool { return hasCompanyWord(s.text[at[2]:at[3]]) })
	for _, at := range all {
		name := s.text[at[2]:at[3]]
		switch {
		case plaintext.IsBuyer(lower(name)), !buys && sells && !hasCompanyWord(name):
			s.fix(anAside, at[0], at[1], "", "the buyer's own line")
			line, _, _ := strings.Cut(s.text[at[1]:], "\n")
			s.asked(at[1], at[1]+len(line), "the buyer's own words")
		case sells && at[0] == at[2] && strings.Contains(name, " ") && s.fix(aSupplier, at[2], at[1], name, "the one who writes") != nil:
		case hasCompanyWord(name) && at[0] < at[2]:
			if s.fix(anAside, at[0], at[2], "", "the time of a message") != nil {
				s.fix(aSupplier, at[2], at[1], name, "the one who writes")
			}
		default:
			s.fix(anAside, at[0], at[1], "", "who writes, and when")
		}
	}
}

// talk gives each of several firms in one talk a message of its own, as long as the whole: what it says itself, and what the buyer does.
func (src *source) talk() (parts []*source) {
	turns, firms := plaintext.Turns(src.text, hasCompanyWord)
	if len(firms) < 2 {
		return nil
	}
	for _, firm := range firms {
		part := *src
		part.text, part.matched = plaintext.Alone(src.text, turns, firm), nil
		parts = append(parts, &part)
	}
	return parts
}

// twoSpeak are the lines of a talk of two, each with the name of who says it, of which one is a company; nil where it is none.
func (s *scanner) twoSpeak() [][]int {
	all := cues.SpeakLine.FindAllStringSubmatchIndex(s.text, -1)
	lines, names := map[string]int{}, 0
	for _, at := range all {
		if name := s.text[at[2]:at[3]]; lines[name] == 0 && hasCompanyWord(name) {
			names++
		}
		lines[s.text[at[2]:at[3]]]++
	}
	for _, n := range lines {
		if n < 2 || len(lines) != 2 || names != 1 || len(all) != len(strings.Split(strings.TrimSpace(cues.TalkHead.ReplaceAllString(s.text, "")), "\n")) {
			return nil
		}
	}
	return all
}

// oneFirm says whether one firm, and nobody else but the buyer, speaks in lines of a talk.
func (s *scanner) oneFirm(lines [][]int) bool {
	firm := ""
	for _, at := range lines {
		name := s.text[at[2]:at[3]]
		if plaintext.IsBuyer(lower(name)) {
			continue
		}
		if !hasCompanyWord(name) || firm != "" && firm != name {
			return false
		}
		firm = name
	}
	return firm != ""
}

// asked leaves a line to a person that the buyer wrote, but for the medium and the grains that a question asks about with its
// answer in the line below: the answer is about them. One about delivery makes a fee of the amount that answers it.
func (s *scanner) asked(from, to int, why string) {
	line := strings.TrimRight(s.text[from:to], " \t\r")
	to = from + len(line)
	next := strings.TrimLeft(s.text[to:], " \t\r\n")
	names := s.holdsMedium(from, to) && !strings.ContainsAny(line, "0123456789")
	if !strings.Contains(line, "?") && !cues.AsksWord.MatchString(line) && !names && !cues.FetchAsked.MatchString(s.low[from:to]) || next == "" || next[0] == '>' {
		s.fix(anUnclear, from, to, "", why)
		return
	}
	if end := strings.LastIndexByte(line, '?') + 1; end > 0 && end < len(line) && !cues.AsksWord.MatchString(strings.TrimSpace(line[end:])) { // "... in 40 L bags? We need about 12."
		s.fix(anUnclear, from+end, to, "", why)
		to = from + end
	}
	var medium *quotes.Medium
	var keep []*fact
	s.start, s.limit = from, to
	for p := from; p < to; {
		f := s.factAt(p)
		switch {
		case f != nil && f.kind == anUnclear && formPattern.MatchString(s.low[p:min(f.To, to)]): // "3 bulk bags"
			word := s.low[p:f.To]
			if f = s.fix(aForm, p, f.To, formOf(word), "a word for how it is packed"); f == nil {
				return
			}
			f.unit = pack{Form: f.text, Words: word}
		case f == nil || !oneOf(f.kind, aMedium, aSize, aPack, aForm) || f.kind == aPack && f.unit.Form == "" && looseUnit(f.unit) && len(keep) == 0:
			p += max(1, wordLength(s.low[p:to]))
			continue
		case f.kind == aMedium && medium != nil && medium != f.medium:
			s.fix(anUnclear, from, to, "", why)
			return
		case f.kind == aMedium:
			medium = f.medium
		}
		keep = append(keep, f)
		p = f.To
	}
	f := &fact{kind: anAside, why: "a question that is answered below"}
	if medium == nil {
		keep = nil
		if cues.FetchAsked.MatchString(s.low[from:to]) {
			f.column = "delivery"
		} else {
			f.kind, f.why = anUnclear, why
		}
	}
	at := from
	for _, k := range keep {
		s.fix(f.kind, at, k.From, "", f.why)
		at = k.To
	}
	if got := s.fix(f.kind, at, to, "", f.why); got != nil {
		got.column = f.column
	}
}
