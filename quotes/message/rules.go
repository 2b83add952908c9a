package message

import (
	"sync"

	"mediabuy/quotes/internal/lazy"
)

// expr is a regular expression that is compiled when it is first asked.
type expr = lazy.Expr

// compile is an expression of which the first match counts, pattern one for what a text begins with, of which the longest does.
func compile(text string) *expr { return lazy.Compile(text) }
func pattern(text string) *expr { return lazy.Start(text) }

// bare is a pattern without the names of its parts, which may then stand in it more than once.
func bare(p string) string { return lazy.Unnamed(p) }

// rulesFor are the rules worth trying on a text, by its first letter.
func rulesFor(rest string) []rule {
	sortRules()
	c := rest[0]
	if c >= 'a' && c <= 'z' {
		return wordRules[c-'a']
	}
	return otherRules
}

var (
	wordRules  [26][]rule // by the letter they may begin with
	otherRules []rule     // for digits and signs
)

// sortRules puts the rules in their places, once.
var sortRules = sync.OnceFunc(func() {
	for _, group := range [][]rule{asideRules, dateRules, sizeRules, priceRules, amountRules, classRules, truckRules, percentRules, payerRules, sumRules, termRules, noteRules} {
		for _, r := range group {
			letters, other := r.re.Opens()
			for i := range letters {
				if letters[i] {
					wordRules[i] = append(wordRules[i], r)
				}
			}
			if other {
				otherRules = append(otherRules, r)
			}
		}
	}
})
