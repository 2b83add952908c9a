package quotes

import (
	"strings"

	"github.com/agext/levenshtein"
)

// nearest is the known word most like word, or "" when none is close enough to
// be what was meant. Case, spaces, "_" and "-" are not told apart; of two words
// equally near, the first in known wins.
func nearest(word string, known []string) string {
	// A longer word is no slip of the keyboard, and the distance takes time with its length.
	const longest = 60
	w := wordKey(word)
	if w == "" || len(w) > longest {
		return ""
	}
	best, bestAt := "", 0
	for _, k := range known {
		kk := wordKey(k)
		at := levenshtein.Distance(w, kk, nil)
		if strings.HasPrefix(kk, w) && len(w) >= 3 {
			at = 1 // a word cut short is as near as one wrong letter
		}
		// A third of the letters may be wrong: "sippler" is "supplier", "pot" is not "top layer".
		if at > max(1, len([]rune(w))/3) {
			continue
		}
		if best == "" || at < bestAt {
			best, bestAt = k, at
		}
	}
	return best
}

// didYouMean is a hint naming the nearest known word, else the words of otherwise.
func didYouMean(word string, known []string, otherwise string) string {
	if n := nearest(word, known); n != "" {
		return "did you mean " + quoted(n) + "?"
	}
	return otherwise
}

// tidy trims a text and makes every run of white space one space.
func tidy(s string) string { return strings.Join(strings.Fields(s), " ") }

// nameKey is what two spellings of one name share: case and spacing do not
// tell suppliers, sites or beds apart.
func nameKey(s string) string { return strings.ToLower(tidy(s)) }

// wordKey is what two spellings of one heading or medium share: besides case
// and spacing, "_" and "-" stand for a space.
func wordKey(s string) string {
	return nameKey(strings.Map(func(r rune) rune {
		if r == '_' || r == '-' {
			return ' '
		}
		return r
	}, s))
}

// spellings gives each name its first spelling, so that "Acre  stone" and
// "acre stone" are one supplier.
type spellings struct {
	first map[string]string
	names []string // first spellings, in order of appearance
}

// name tidies s and gives the first spelling seen of it; "" stays "".
func (p *spellings) name(s string) string {
	s = tidy(s)
	if s == "" {
		return ""
	}
	k := nameKey(s)
	if f, ok := p.first[k]; ok {
		return f
	}
	if p.first == nil {
		p.first = map[string]string{}
	}
	p.first[k] = s
	p.names = append(p.names, s)
	return s
}

// find is the first spelling of s, if it was ever given to name.
func (p *spellings) find(s string) (string, bool) {
	f, ok := p.first[nameKey(s)]
	return f, ok
}
