package message

import "mediabuy/quotes/internal/lazy"

// expr is a regular expression that is compiled when it is first asked.
type expr = lazy.Expr

// compile is an expression of which the first match counts, pattern one for what a text begins with, of which the longest does.
func compile(text string) *expr { return lazy.Compile(text) }
func pattern(text string) *expr { return lazy.Start(text) }

// bare is a pattern without the names of its parts, which may then stand in it more than once.
func bare(p string) string { return lazy.Unnamed(p) }

// rulesFor are the rules worth trying on a text, by its first letter.
var rulesFor func(rest string) []rule

func init() { // not in its declaration, as the rules ask for rules
	rulesFor = lazy.ByOpening(func() [][]rule {
		return [][]rule{asideRules(), dateRules(), sizeRules(), priceRules(), amountRules(), classRules(), truckRules(), percentRules(), payerRules(), sumRules(), termRules(), taxRules(), noteRules()}
	}, func(r rule) *expr { return r.re })
}
