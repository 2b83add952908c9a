package message

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
)

// phrases are all names of the media of a table, those of most words first.
func phrases(t *quotes.MediaTable) []phrase {
	var out []phrase
	for _, m := range t.All() {
		for _, name := range append([]string{m.Name}, m.OtherNames...) {
			words := strings.FieldsFunc(lower(name), func(r rune) bool { return unicode.IsSpace(r) || r == '-' || r == '_' })
			if len(words) > 0 {
				out = append(out, phrase{words, m})
			}
		}
	}
	for name, plain := range byWord("medium ", ",") {
		if m, ok := t.Lookup(plain); ok {
			out = append(out, phrase{strings.Fields(name), m})
		}
	}
	slices.SortStableFunc(out, func(a, b phrase) int { return cmp.Compare(len(b.words), len(a.words)) })
	return out
}

// mediumAt is the medium whose name stands at p and where the name ends; nil when there is none. A plural s is allowed.
func (s *scanner) mediumAt(p int) (*quotes.Medium, int) {
	for _, ph := range s.media {
		if to, ok := s.wordsAt(p, ph.words); ok {
			return ph.medium, to
		}
	}
	return nil, 0
}

func (s *scanner) wordsAt(p int, words []string) (int, bool) {
	at := p
	for i, w := range words {
		if i > 0 && !strings.HasPrefix(s.low[at:s.limit], w) { // or in one word: cocopeat
			n := 0
			for at+n < s.limit && (s.low[at+n] == ' ' || s.low[at+n] == '-' || s.low[at+n] == '_') {
				n++
			}
			if n == 0 {
				return 0, false
			}
			at += n
		}
		if !strings.HasPrefix(s.low[at:s.limit], w) {
			one := strings.TrimSuffix(w, "s")
			if i < len(words)-1 || i == 0 || one == w || strings.HasSuffix(one, "s") || !strings.HasPrefix(s.low[at:s.limit], one) {
				return 0, false
			}
			w = one // a river pebble
		}
		at += len(w)
	}
	if at < s.limit && s.low[at] == 's' {
		at++
	}
	r, _ := utf8.DecodeRuneInString(s.low[at:s.limit])
	if at < s.limit && (unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)) {
		return 0, false
	}
	return at, true
}

// respelled is the message in small letters with names of media set right in which one letter is wrong, or two have changed places:
// "pumise", "pebbels". A name of a company or a place has a capital.
func (s *scanner) respelled() string {
	const least = 6 // letters: of fewer, other words are as near
	b := []byte(s.low)
	for _, at := range longWord.FindAllStringIndex(s.low, -1) {
		word := s.low[at[0]:at[1]]
		if len(word) < least || s.text[at[0]:at[1]] != word || fillers[word] || describers[word] || tails[word] || companyWords[word] {
			continue
		}
		for _, ph := range s.media {
			if name := ph.words[0]; len(ph.words) == 1 && len(name) == len(word) && name[0] == word[0] && name[len(name)-1] == word[len(word)-1] && name != word && spelling.Slips(word, name, 1) == 1 {
				copy(b[at[0]:at[1]], name)
			}
		}
	}
	return string(b)
}

var longWord = compile(`[a-z]+`)

// behindMedium is a word for the colour or the grade of a medium behind its name, apart from what follows.
var behindMedium = pattern(`(?:,` + sp + `|` + sp1 + `[-–]` + sp1 + `|` + sp1 + `)(red|black|white|grey|gray|brown|tan|green|coarse|medium|fine|super coarse|extra coarse|horticultural)(?:` + sp + `(?:[,;:(–\n-]|\d|$)|` + sp1 + `[\d$£€])`)

// maxDescribers bounds the words in front of a medium that go with it.
const maxDescribers = 6

// mediumFact reads an item: describing words, a medium, words such as chips behind it.
func (s *scanner) mediumFact(p int) *fact {
	at := p
	var m *quotes.Medium
	to := 0
	for range maxDescribers {
		if at >= s.limit {
			return nil
		}
		if m, to = s.mediumAt(at); m != nil {
			break
		}
		n := wordLength(s.low[at:s.limit])
		if n == 0 || !describers[s.low[at:at+n]] {
			return nil
		}
		for at += n; at < s.limit && (s.low[at] == ' ' || s.low[at] == '\t'); at++ {
		}
	}
	if m == nil {
		return nil
	}
	if at == p {
		m = s.sameAsBefore(p, to, m)
	}
	for {
		next := to
		for next < s.limit && s.low[next] == ' ' {
			next++
		}
		n := wordLength(s.low[next:s.limit])
		if n == 0 || next == to || !tails[s.low[next:next+n]] {
			break
		}
		to = next + n
	}
	for {
		n := behindMedium.FindStringSubmatchIndex(s.low[to:min(s.limit, to+window)])
		if n == nil || s.part().Splits(to+n[1]) || s.namesNext(to+n[3]) {
			break
		}
		to += n[3]
	}
	f := &fact{kind: aMedium, Range: Range{p, to}, medium: m, text: squeeze(s.text[p:to]), why: "the words name the medium " + m.Name}
	for w := range strings.FieldsSeq(s.low[p:at]) {
		if w == "loose" || w == "bulk" {
			f.unit = pack{Form: "bulk", Words: w}
		}
	}
	return f
}

// sameAsBefore is the medium named last where "the" stands in front of the word that its name ends in, "clay pebbles ... the pebbles", though
// the word alone names another. Whatever had that word before must be of that name.
func (s *scanner) sameAsBefore(p, to int, m *quotes.Medium) *quotes.Medium {
	if s.lastMedium == nil || s.lastMedium == m || !theBefore.MatchString(s.low[max(0, p-window/8):p]) {
		return m
	}
	word, found := strings.TrimSuffix(s.low[p:to], "s"), false
	for at := 0; at < p; at++ {
		next := strings.Index(s.low[at:p], word)
		if next < 0 {
			break
		}
		at += next
		found = slices.ContainsFunc(s.media, func(ph phrase) bool {
			return ph.medium == s.lastMedium && len(ph.words) > 1 && strings.HasSuffix(s.low[:at+len(word)], strings.TrimSuffix(strings.Join(ph.words, " "), "s"))
		})
		if !found {
			return m
		}
	}
	if found {
		return s.lastMedium
	}
	return m
}

// theBefore is what makes a word that of a thing spoken of before.
var theBefore = compile(`\b(?:the|these|those)[ \t]+$`)
