package typed

import (
	"regexp"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/called"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/quotes/internal/wordlist"
	"mediabuy/units"
)

// looks say how a stone looks or what was done to it, and change nothing of what it is. "Crushed", "fine" and "unwashed" are none of them,
// nor is "white", as white gravel often is marble or limestone (common practice, no source).
var looks = wordlist.Set("red black brown grey gray tan green dark light natural washed double-washed rinsed pre-washed prewashed graded screened clean clear horticultural premium smooth round rounded")

// grain is a size of grain by itself.
var grain = regexp.MustCompile(`(?i)^(?:#|no\.? ?)?\d[\d./,]*(?: ?(?:mm|cm|in(?:ch(?:es)?)?\b\.?|"|″|”))?(?: ?(?:-|–|to|x|/) ?\d[\d./,]*)?(?: ?-? ?(?:mm|cm|in(?:ch(?:es)?)?\b\.?|"|″|”))?(?: ?(?:minus|plus|\+))?$`)

// Medium is the one medium that a text names among words for how it looks, and the size beside it, which is "" where there is none: "3/8
// in washed pea gravel". It is nil where something else is said as well, where two are named, and where the text is a name itself.
func Medium(t *quotes.MediaTable, text string) (m *quotes.Medium, size string) {
	if _, known := t.Lookup(text); known {
		return nil, ""
	}
	low := plaintext.Lower(text)
	for _, n := range called.Names(t, nil) {
		for at := range low {
			to, ok := n.At(low, at)
			if !ok || at > 0 && !strings.ContainsRune(" ,;-(/", rune(low[at-1])) {
				continue
			}
			size := about(text[:at] + " " + text[to:])
			if size != "" && !grain.MatchString(size) {
				return nil, ""
			}
			return n.Medium, size
		}
	}
	return nil, ""
}

// about is what of a text is no word for how a stone looks.
func about(text string) string {
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;()", r) })
	return strings.Trim(strings.Join(slices.DeleteFunc(words, func(w string) bool { return looks[strings.ToLower(w)] }), " "), " -")
}

// SameSize says whether two sizes of grain are one, or may be, as either can be read in two ways.
func SameSize(a, b string, o units.Options) bool {
	x, errX := quotes.ParseGrain(a, o)
	y, errY := quotes.ParseGrain(b, o)
	return errX != nil || errY != nil || x.Min == y.Min && x.Max == y.Max
}
