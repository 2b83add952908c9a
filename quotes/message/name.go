package message

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes/internal/firms"
)

var (
	nameParts = compile(`[^ \t]+`)
)

// Reasons for leaving a name to a person.
const (
	numberInName = "a number stands behind the name or in it; which of the two?"
	twoNames     = "is it one supplier or two?"
	nameGoesOn   = "the name may go on; where does it end?"
)

// endOfName is where the name ends that a pattern found at text[from:to]: at a full stop that ends a sentence and not an
// abbreviation, at a telephone number, or at to. open says that the pattern has nothing behind the name that would bound
// it; why is then "", or says why it is not certain where the name ends.
func (s *scanner) endOfName(from, to int, open bool) (end int, why string) {
	if at := firms.LegalEnd.FindStringIndex(s.text[from:to]); at != nil { // its stops end no sentence
		if end, why = s.endOfName(from, from+at[0], false); end == from+at[0] {
			end = to
		}
		return end, why
	}
	parts := nameParts.FindAllStringIndex(s.text[from:to], -1)
	part := func(i int) string { return s.text[from+parts[i][0] : from+parts[i][1]] }
	end = to
	for i := range parts {
		word := part(i)
		last := i+1 == len(parts)
		if at := firms.InnerStop.FindStringSubmatchIndex(word); at != nil && !openAbbreviations[lower(word[:at[2]])] {
			end = from + parts[i][0] + at[2]
			break
		}
		if i > 0 && firms.NumberPart.MatchString(word) {
			before := from + parts[i-1][1]
			behind := s.text[from+parts[i][1]:]
			if firms.ClockBehind.MatchString(behind) {
				return s.less(from, before, joiners), "" // "Low Ford Quarry 10:40"
			}
			switch medium := s.mediumAtEnd(from, before); {
			case open && medium > from:
				return s.less(from, medium, describers), nameGoesOn
			case firms.LongNumber.MatchString(word), open && firms.RateBehind.MatchString(behind), !last && months[strings.Trim(lower(part(i+1)), ".,")]:
				return s.less(from, before, joiners), ""
			case open && companyWords[s.low[from:before]] && (word[len(word)-1] == '.' || !strings.HasPrefix(behind, " ")): // "Yard 12", which is called by it
			case open:
				return before, numberInName
			}
		}
		if last || !strings.HasSuffix(word, ".") {
			continue
		}
		bare := lower(strings.TrimRight(word, "."))
		begins := i == 0 || joiners[part(i-1)] || firms.Initials.MatchString(part(i-1))
		next := from + parts[i+1][0]
		if begins && (openAbbreviations[bare] || firms.Initials.MatchString(word)) ||
			closeAbbreviations[bare] && companyWords[strings.Trim(lower(part(i+1)), ".,")] && !s.mediumOpens(next) {
			continue
		}
		end = from + parts[i][1]
		break
	}
	if !open {
		return end, ""
	}
	return s.unboundEnd(from, end)
}

// unboundEnd looks closer at a name with nothing behind it that bounds it.
func (s *scanner) unboundEnd(from, end int) (int, string) {
	name := s.text[from:end]
	if before, after, ok := strings.Cut(name, " and "); ok && !oneCompany(before, after) {
		return end, twoNames
	}
	behind := s.text[end:]
	next := strings.TrimLeft(behind, " \t")
	if strings.HasSuffix(name, ".") && (!abbreviated(name) || s.opensSentenceAt(end+len(behind)-len(next))) {
		return end, ""
	}
	if at := firms.NameBehind.FindStringSubmatchIndex(behind); at != nil && hasCompanyWord(behind[at[2]:at[3]]) && !s.mediumOpens(end+at[2]) {
		return end, nameGoesOn
	}
	if next == "" || next == behind {
		return end, ""
	}
	switch c, _ := utf8.DecodeRuneInString(next); {
	case unicode.IsUpper(c):
		return end, nameGoesOn // the pattern takes no more words
	case s.mediumOpens(end + len(behind) - len(next)):
		return s.less(from, end, describers), ""
	case unicode.IsDigit(c) || strings.ContainsRune("$£€@", c):
		if medium := s.mediumAtEnd(from, end); medium > from {
			return s.less(from, medium, describers), nameGoesOn
		}
	}
	return end, ""
}

// opensSentenceAt says whether the word at p goes with what is sold and not with a name, though it may have a capital.
func (s *scanner) opensSentenceAt(p int) bool {
	word := s.low[p : p+wordLength(s.low[p:])]
	return word == s.text[p:p+len(word)] || describers[word] || notNames[word] || s.mediumOpens(p)
}

// mediumOpens says whether a medium stands at p.
func (s *scanner) mediumOpens(p int) bool {
	s.limit = len(s.text)
	m, _ := s.mediumAt(p)
	return m != nil
}

// mediumAtEnd is where a medium begins that the last words of text[from:end] name, -1 when they name none.
func (s *scanner) mediumAtEnd(from, end int) int {
	for _, at := range nameParts.FindAllStringIndex(s.text[from:end], -1) {
		s.limit = end
		if m, to := s.mediumAt(from + at[0]); m != nil && to == end {
			return from + at[0]
		}
	}
	return -1
}

// less is the end of a name without words at its end: those that describe a medium behind it, "Moor End Washed", or joining words.
func (s *scanner) less(from, end int, words map[string]bool) int {
	end = from + len(strings.TrimRight(s.text[from:end], " \t"))
	for {
		i := strings.LastIndexAny(s.text[from:end], " \t")
		if i < 0 || !words[s.low[from+i+1:end]] {
			return end
		}
		end = from + len(strings.TrimRight(s.text[from:from+i], " \t"))
	}
}

// contact sets aside a telephone number directly behind a name that ends at byte at.
func (s *scanner) contact(at int) {
	if idx := firms.ContactRest.FindStringSubmatchIndex(s.text[at:]); idx != nil {
		s.fix(anAside, at+idx[2], at+idx[3], "", "a telephone number")
	}
}

const saysWhere = "the writer says where from"

// spoken takes the supplier out of a sentence such as "this is Tam at Low Ford", of which a pattern found the parts at. It
// is left to a person where it is not certain where the name ends.
func (s *scanner) spoken(at []int, open bool, why string) {
	end, unsure := s.endOfName(at[2], at[3], open)
	name := s.company(at[2], end)
	switch {
	case name == "":
	case unsure != "":
		s.fix(anUnclear, at[0], end, "", unsure)
	case end < at[3]:
		if s.fix(aSupplier, at[0], end, name, why) != nil {
			s.contact(end)
		}
	default:
		s.fix(aSupplier, at[0], at[1], name, why)
	}
}

// headed takes the supplier of the lines below out of a line such as "Supplier: Low Ford Quarry"; the name is at
// text[from:to]. What follows it in its line must be apart from it.
func (s *scanner) headed(line, from, to int) {
	end, _ := s.endOfName(from, to, false)
	rest := strings.TrimLeft(s.text[end:], " \t\r")
	if end == to && rest != "" && !strings.ContainsAny(rest[:1], "\n,;.(") || s.mediumAtEnd(from, end) >= 0 && !hasCompanyWord(s.text[from:end]) {
		return
	}
	if f := s.fix(aSupplier, line, end, squeeze(firms.Trim(s.text[from:end])), "the word for a supplier in front of it"); f != nil {
		f.general = true
		s.contact(end)
	}
}
