package typed

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
)

// Forms are the words for a form in packs and prices, for a pattern. A "ton bag" is none: it may hold a ton, or what such a bag usually does.
const Forms = `bulk bags?|big bags?|super ?sacks?|totes?|(?:jumbo|dumpy|builders'?) bags?|bags?|sacks?|loose|bulk`

// FormOf is the form that a word for it says.
func FormOf(word string) (form quotes.Form, ok bool) {
	switch w := strings.TrimSuffix(strings.ToLower(spelling.Tidy(word)), "s"); w {
	case "bag":
		return quotes.Bag, true
	case "loose", "bulk":
		return quotes.Bulk, true
	case "sack", "bulk bag", "big bag", "super sack", "supersack", "tote", "jumbo bag", "dumpy bag", "builder bag", "builders bag", "builders' bag", "builder' bag":
		return quotes.Sack, true
	}
	return "", false
}

// Each says whether a word is one for any pack, as in "18.50 each".
func Each(word string) bool {
	return slices.Contains([]string{"ea", "each", "apiece", "piece", "pc", "unit", "pack", "packs", "item"}, strings.TrimRight(strings.ToLower(spelling.Tidy(word)), "."))
}
