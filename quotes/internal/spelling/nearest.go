package spelling

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/agext/levenshtein"
)

// Nearest is the known word most like word, or "" when none is close enough to
// be what was meant. Case, spaces, "_" and "-" are not told apart; of two words
// equally near, the first in known wins.
func Nearest(word string, known []string) string {
	// A third of the letters may be wrong: "sippler" is "supplier", "pot" is not "top layer".
	return closest(word, known, func(letters int) int { return letters / 3 }, Slips)
}

// NearestHeading is nearest for a heading, of which few are known, so that more
// letters may be wrong and "unit price" is near "price".
func NearestHeading(word string, known []string) string {
	return closest(word, known, func(letters int) int { return (letters + 1) / 3 }, func(a, b string, most int) int {
		n := Slips(a, b, most)
		if holdsWord(a, b) || holdsWord(b, a) {
			n = min(n, most) // near enough, but a slip of the keyboard is nearer
		}
		return n
	})
}

// holdsWord reports whether all of part stands in whole as words of it.
func holdsWord(whole, part string) bool { return strings.Contains(" "+whole+" ", " "+part+" ") }

// closest is the known word with the fewest slips, of at most most(letters of
// word), or 1 where that is less.
func closest(word string, known []string, most func(letters int) int, slips func(a, b string, most int) int) string {
	// A longer word is no slip of the keyboard, and the distance takes time with its length.
	const longest = 60 // bytes
	w := WordKey(word)
	if w == "" || len(w) > longest {
		return ""
	}
	limit := max(1, most(len([]rune(w))))
	best, bestAt := "", limit+1
	for _, k := range known {
		if at := slips(w, WordKey(k), limit); at < bestAt {
			best, bestAt = k, at
		}
	}
	return best
}

// Slips counts the slips of the keyboard that make b into a: a letter too many,
// too few or wrong, or two neighbours swapped, which is looked for once. A word cut
// short is one slip. A count above most only says that it is above most.
func Slips(a, b string, most int) int {
	if strings.HasPrefix(b, a) && len(a) >= 3 {
		return min(1, len(b)-len(a))
	}
	n := levenshtein.Distance(a, b, nil)
	if n < 2 || n > most+1 {
		return n // a swap counts two without it, so it takes off one
	}
	r := []rune(a)
	for i := 1; i < len(r); i++ {
		r[i-1], r[i] = r[i], r[i-1]
		n = min(n, 1+levenshtein.Distance(string(r), b, nil))
		r[i-1], r[i] = r[i], r[i-1]
	}
	return n
}

// DidYouMean is a hint naming the nearest known word, else the words of otherwise.
func DidYouMean(word string, known []string, otherwise string) string {
	if n := Nearest(word, known); n != "" {
		return "did you mean " + Quoted(n) + "?"
	}
	return otherwise
}

// Tidy trims a text and makes every run of white space one space.
func Tidy(s string) string { return strings.Join(strings.Fields(s), " ") }

// NameKey is what two spellings of one name share: case and spacing do not
// tell suppliers, sites or beds apart.
func NameKey(s string) string { return strings.ToLower(Tidy(s)) }

// WordKey is what two spellings of one heading or medium share: besides case
// and spacing, "_" and "-" stand for a space.
func WordKey(s string) string {
	return NameKey(strings.Map(func(r rune) rune {
		if r == '_' || r == '-' {
			return ' '
		}
		return r
	}, s))
}

// Spellings gives each name its first spelling, so that "Acre  stone" and
// "acre stone" are one supplier.
type Spellings struct {
	first map[string]string
	Names []string // first spellings, in order of appearance
}

// Name tidies s and gives the first spelling seen of it; "" stays "".
func (p *Spellings) Name(s string) string {
	s = Tidy(s)
	if s == "" {
		return ""
	}
	k := NameKey(s)
	if f, ok := p.first[k]; ok {
		return f
	}
	if p.first == nil {
		p.first = map[string]string{}
	}
	p.first[k] = s
	p.Names = append(p.Names, s)
	return s
}

// Find is the first spelling of s, if it was ever given to name.
func (p *Spellings) Find(s string) (string, bool) {
	f, ok := p.first[NameKey(s)]
	return f, ok
}

// Quoted quotes what stands in a cell, cut to a length that leaves a message readable.
func Quoted(s string) string {
	const most = 60 // bytes
	if len(s) <= most {
		return fmt.Sprintf("%q", s)
	}
	cut := most
	for cut > 0 && !utf8.RuneStart(s[cut]) {
		cut--
	}
	return fmt.Sprintf("%q", s[:cut]+"…")
}
