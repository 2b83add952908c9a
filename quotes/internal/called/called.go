// Package called finds names of media in a text in small letters, as people write them: with a plural s, with or without a space or a
// dash, and with a slip of the keyboard in a long one.
package called

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/lazy"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/quotes/internal/spelling"
)

// Name is one name of a medium by its words.
type Name struct {
	Words  []string
	Medium *quotes.Medium
}

// Names are all names of the media of a table and more of them, each with the one that it stands for; those of most words first.
func Names(t *quotes.MediaTable, more map[string]string) []Name {
	var out []Name
	for _, m := range t.All() {
		for _, name := range append([]string{m.Name}, m.OtherNames...) {
			words := strings.FieldsFunc(plaintext.Lower(name), func(r rune) bool { return unicode.IsSpace(r) || r == '-' || r == '_' })
			if len(words) > 0 {
				out = append(out, Name{words, m})
			}
		}
	}
	for name, plain := range more {
		if m, ok := t.Lookup(plain); ok {
			out = append(out, Name{strings.Fields(name), m})
		}
	}
	byWords(out)
	return out
}

// byWords puts names of most words first.
func byWords(names []Name) {
	slices.SortStableFunc(names, func(a, b Name) int { return cmp.Compare(len(b.Words), len(a.Words)) })
}

// At says whether the name stands at byte p of a text, and where it ends there.
func (n Name) At(low string, p int) (to int, ok bool) {
	at := p
	for i, w := range n.Words {
		if i > 0 && !strings.HasPrefix(low[at:], w) { // or in one word: cocopeat
			gap := len(low[at:]) - len(strings.TrimLeft(low[at:], " -_"))
			if gap == 0 {
				return 0, false
			}
			at += gap
		}
		if !strings.HasPrefix(low[at:], w) {
			one := strings.TrimSuffix(w, "s")
			if i < len(n.Words)-1 || i == 0 || one == w || strings.HasSuffix(one, "s") || !strings.HasPrefix(low[at:], one) {
				return 0, false
			}
			w = one // a river pebble
		}
		at += len(w)
	}
	if at < len(low) && low[at] == 's' {
		at++
	}
	r, _ := utf8.DecodeRuneInString(low[at:])
	if at < len(low) && (unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)) {
		return 0, false
	}
	return at, true
}

// Respelled is a text in small letters with names of media set right in which one letter is wrong, or two have changed places: "pumise",
// "pebbels". One with a letter too many or too few becomes a name itself, as every byte keeps its place: "pearlite". A name of a company
// or a place has a capital in the text as written; other tells words that are what they are, however near to a name.
func Respelled(text, low string, names []Name, other func(word string) bool) (string, []Name) {
	const least = 6 // letters: of fewer, other words are as near
	b := []byte(low)
	for _, at := range longWord.FindAllStringIndex(low, -1) {
		word := low[at[0]:at[1]]
		if len(word) < least || text[at[0]:at[1]] != word || other(word) {
			continue
		}
		for _, n := range names {
			if name := n.Words[0]; len(n.Words) > 1 || len(name) < least || name[0] != word[0] || name[len(name)-1] != word[len(word)-1] || name == word || spelling.Slips(word, name, 1) != 1 {
				continue
			} else if len(name) == len(word) {
				copy(b[at[0]:at[1]], name)
				continue
			}
			for _, o := range names { // "clay pebles" are no river pebbles
				if i := slices.Index(o.Words, n.Words[0]); i >= 0 {
					words := slices.Clone(o.Words)
					words[i] = word
					names = append(slices.Clip(names), Name{words, o.Medium}) // not into what is given
				}
			}
		}
	}
	byWords(names)
	return string(b), names
}

var longWord = lazy.Compile(`[a-z]+`)
