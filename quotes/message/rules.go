package message

import (
	"regexp/syntax"
	"sync"
)

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
			letters, other := opens(r.re)
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

// opens tells what a pattern may begin with: which small letters, and whether anything else.
func opens(re *expr) (letters [26]bool, other bool) {
	tree, err := syntax.Parse(re.String(), syntax.Perl)
	if err != nil {
		panic("message: a pattern that compiled does not parse: " + err.Error()) // cannot be
	}
	var first func(t *syntax.Regexp) (empty bool)
	first = func(t *syntax.Regexp) bool {
		switch t.Op {
		case syntax.OpLiteral:
			add(&letters, &other, t.Rune[0], t.Rune[0])
			return false
		case syntax.OpCharClass:
			for i := 0; i < len(t.Rune); i += 2 {
				add(&letters, &other, t.Rune[i], t.Rune[i+1])
			}
			return false
		case syntax.OpAnyChar, syntax.OpAnyCharNotNL:
			add(&letters, &other, 0, 0x10ffff)
			return false
		case syntax.OpConcat:
			for _, sub := range t.Sub {
				if !first(sub) {
					return false
				}
			}
			return true
		case syntax.OpAlternate:
			empty := false
			for _, sub := range t.Sub {
				empty = first(sub) || empty
			}
			return empty
		case syntax.OpStar, syntax.OpQuest:
			first(t.Sub[0])
			return true
		case syntax.OpRepeat:
			return first(t.Sub[0]) || t.Min == 0
		case syntax.OpPlus, syntax.OpCapture:
			return first(t.Sub[0])
		}
		return true // an anchor or nothing
	}
	first(tree)
	return letters, other
}

func add(letters *[26]bool, other *bool, from, to rune) {
	for i := range letters {
		if c := 'a' + rune(i); from <= c && c <= to {
			letters[i] = true
		}
	}
	*other = *other || from < 'a' || to > 'z'
}
