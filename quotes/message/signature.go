package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/firms"
)

var (
	dashLine = compile(`(?m)^[ \t]*(--+|__+|—+)[ \t]*\r?$`)
)

// maxSigned bounds a signature, in bytes and lines; more is no signature.
const (
	maxSigned      = 240
	maxSignedLines = 6
)

// signature finds a closing word with only names, titles and addresses behind it.
func (s *scanner) signature() {
	all := firms.Closing.FindAllStringSubmatchIndex(s.text, -1)
	for _, at := range dashLine.FindAllStringSubmatchIndex(s.text, -1) {
		all = append(all, []int{at[0], at[1], at[2], at[3], at[1]})
	}
	slices.SortFunc(all, func(a, b []int) int { return a[2] - b[2] })
	for _, at := range slices.Backward(all) {
		rest := s.text[at[3]:]
		if len(rest) > maxSigned || strings.Count(strings.TrimSpace(rest), "\n") > maxSignedLines {
			return
		}
		if s.signatureAt(at[2], at[4]) {
			return
		}
	}
}

// signatureAt reads the closing word at from and what follows at body; false when it is no signature.
func (s *scanner) signatureAt(from, body int) bool {
	type part struct{ from, to int }
	var names, other []part
	sort := func(p part) bool {
		switch t := strings.Trim(s.text[p.from:p.to], " \t\r\n,;|"); {
		case t == "":
		case firms.ContactLine.MatchString(t), allTitles(t), firms.HouseLine.MatchString(t):
			other = append(other, p)
		case len(names) == 0 && firms.TeamOf.MatchString(t):
			at := p.from + strings.Index(s.text[p.from:p.to], t)
			other, names = append(other, part{at, at + len("Team")}), append(names, part{at + len("Team"), p.to})
		case firms.SignedAt.MatchString(t), firms.WholeName.MatchString(t), len(names) == 0 && firms.SignedSmall.MatchString(t):
			names = append(names, p)
		default:
			return false
		}
		return true
	}
	at := body
	for line := range strings.SplitAfterSeq(s.text[body:], "\n") {
		whole := part{at, at + len(line)}
		if !sort(whole) {
			for piece := range strings.SplitAfterSeq(strings.ReplaceAll(line, "|", ","), ",") {
				if !sort(part{at, at + len(piece)}) {
					return false
				}
				at += len(piece)
			}
		}
		at = whole.to
	}
	head := s.text[from:body]
	wordEnd := from + len(strings.TrimRight(head, " \t\r\n"))
	s.fix(anAside, from, wordEnd, "", "the end of the message")
	for _, p := range other {
		s.fix(anAside, p.from, p.to, "", "an address or a title in the signature")
	}
	found := false
	for i, p := range names {
		switch {
		case found:
			s.fix(anAside, p.from, p.to, "", "the rest of the signature")
		case s.signed(p.from, p.to, i > 0):
			found = true
		case i+1 < len(names):
			s.fix(anAside, p.from, p.to, "", "the writer's name")
		default:
			s.fix(anUnclear, p.from, p.to, "", "the writer's name; which supplier is it?")
		}
	}
	return true
}

// signed takes the supplier out of a line such as "Tam at Low Ford" or "Low Ford Quarry"; second says that a person's
// name stood before. False when it names a person alone, or nobody.
func (s *scanner) signed(from, to int, second bool) bool {
	for from < to && strings.ContainsRune(" \t\r\n", rune(s.text[from])) {
		from++
	}
	for to > from && strings.ContainsRune(" \t\r\n", rune(s.text[to-1])) {
		to--
	}
	line := strings.TrimRight(s.text[from:to], ",; ")
	if i := strings.IndexAny(line, "<["); i > 0 {
		line = strings.TrimSpace(line[:i])
	}
	take := func(idx []int, group int) bool {
		begin := from + idx[2*group]
		if group == 2 && idx[2] >= 0 && (hasCompanyWord(line[idx[2]:idx[3]]) || firms.Titled.MatchString(firstWord(lower(line[idx[4]:idx[5]])))) { // "Hydro Barn of Cobb Flat", "Beck Yard, 14 Mill Rd", "Beck, Frau Pell"
			group, second = 1, true
			begin = from + idx[2]
			if strings.Contains(line[idx[3]:idx[4]], "of") {
				idx = []int{0, 0, idx[2], idx[5]}
			}
		}
		end, _ := s.endOfName(begin, from+idx[2*group+1], false)
		name := squeeze(firms.Trim(s.text[begin:end]))
		if name == "" || allTitles(name) || firms.Address(name) || group == 1 && !second && !hasCompanyWord(name) {
			return false
		}
		if end == from+idx[2*group+1] {
			return s.fix(aSupplier, from, from+len(line), name, "the signature") != nil
		}
		if s.fix(aSupplier, from, end, name, "the signature") == nil {
			return false
		}
		s.contact(end)
		return true
	}
	if idx := firms.SignedAt.FindStringSubmatchIndex(line); idx != nil {
		return take(idx, 2)
	}
	if idx := firms.WholeName.FindStringSubmatchIndex(line); idx != nil {
		return take(idx, 1)
	}
	if idx := firms.SignedSmall.FindStringSubmatchIndex(line); idx != nil {
		return take(idx, 2)
	}
	return false
}
