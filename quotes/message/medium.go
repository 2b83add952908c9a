package message

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/called"
	"mediabuy/quotes/internal/cues"
)

// mediumAt is the medium whose name stands at p and where the name ends; nil when there is none, or when it is the dust or the sand of
// one, which is another thing. A plural s is allowed.
func (s *scanner) mediumAt(p int) (*quotes.Medium, int) {
	for _, n := range s.media {
		if to, ok := n.At(s.low[:s.limit], p); ok {
			if called.FineBehind.MatchString(s.low[to:min(s.limit, to+window)]) || called.Rotted.MatchString(s.low[max(0, p-window/4):p]) {
				return nil, 0
			}
			return n.Medium, to
		}
	}
	return nil, 0
}

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
		if n == nil || s.part().Splits(to+n[3]) || s.namesNext(to+n[3]) {
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
	if s.lastMedium == nil || s.lastMedium == m || !cues.TheBefore.MatchString(s.low[max(0, p-window/8):p]) {
		return m
	}
	word, found := strings.TrimSuffix(s.low[p:to], "s"), false
	for at := 0; at < p; at++ {
		next := strings.Index(s.low[at:p], word)
		if next < 0 {
			break
		}
		at += next
		found = slices.ContainsFunc(s.media, func(n called.Name) bool {
			return n.Medium == s.lastMedium && len(n.Words) > 1 && strings.HasSuffix(s.low[:at+len(word)], strings.TrimSuffix(strings.Join(n.Words, " "), "s"))
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
