package message

const (
	acidWord = `(?:acid|vinegar|acid[ -]drop|drop|fizz|lime)`
	acidDrop = "what an acid drop did"
	stoneOf  = `(?:limestone|lime|shell|chalk|calcite)`
)

// noteRules read the acid drop, limestone and washing. None of the claims is a test: only what a drop did goes to carbonate.
func noteRules() []rule {
	return []rule{
		{pattern(`(?:(?:and |it |we |they |that )*(?:did not|didn't|didn’t|does not|doesn't|doesn’t|do not|don't|don’t) (?:fizz|bubble|react)|no (?:fizz(?:ing)?|bubbles|reaction|effervescence)|without (?:a )?fizz)(?: (?:with|in|under|on|to|at all|an?|the|acid|vinegar|drop|test|tested))*|` + acidWord + `(?: drop)?[ -](?:test(?:ed)?|drop)(?: (?:is|was|came|out|on it|result|results))*` + sp + `[:,-]?` + sp + `(?:none|clean|clear|negative|nothing|no fizz|no reaction|passed|ok|fine|good)|(?:passed|passes|pass) (?:the |an? )?` + acidWord + ` (?:drop |fizz )?test|tested (?:with|in) (?:acid|vinegar)` + sp + `[:,-]?` + sp + `(?:none|clean|clear|nothing|no fizz|no reaction|and clean)`), saidOf(anAcidTest, "none", acidDrop)},
		{pattern(`(?:and |it |they )*(?:came|comes|come) (?:up|out|back) (?:clean|clear|negative) (?:on|with|in|under|from)(?: the| an?)? ` + acidWord + `(?: drop)?(?: test)?\b`), saidOf(anAcidTest, "none", acidDrop)},
		{pattern(`(?:nobody|no[ -]one|none of us)(?: has|'s|’s| have)?(?: ever| yet)* (?:put|tried|used|dripped|dropped|tested)(?: (?:the|any|an?|some|it|them|with|for))* (?:acid|vinegar)(?: (?:to|on|with) (?:it|them|that|this))?(?: yet)?`), saidOf(anAcidTest, "untested", acidDrop)},
		{pattern(`(?:it |they |some |a (?:bit|little) |slight )*(?:fizzed|fizzes|fizz|bubbled|bubbles|reacted)(?: (?:a (?:bit|little)|slightly))?(?: (?:with|in|under|on|to|an?|the|acid|vinegar|drop|test))*|` + acidWord + `(?: drop)?[ -](?:test(?:ed)?|drop)(?: (?:is|was|came|out|result))*` + sp + `[:,-]?` + sp + `(?:positive|fizzed|fizzes|bubbled|failed|fails)|(?:fails|failed) (?:the |an? )?` + acidWord + ` (?:drop |fizz )?test`), saidOf(anAcidTest, "fizzed", acidDrop)},
		{pattern(`(?:it's |it is |we have |we've |have |has |been |is )*(?:not (?:been )?tested|untested|not been tested|never tested|(?:haven't|hasn't|have not|has not) (?:been )?tested(?: it)?|no acid test|(?:never|not|haven't|haven’t|hasn't|hasn’t|have not|has not) (?:put|tried|done|had|used|dripped|dropped)(?: (?:the|any|an?|some|vinegar|or|acid|drop|drops|test))+ on (?:it|them|that|this))(?: (?:for|with|in|acid|lime|limestone|vinegar|the|yet|carbonate))*`), saidOf(anAcidTest, "untested", acidDrop)},

		{pattern(`(?:(?:it |they |but |and )*(?:(?:may|might|can|could) (?:contain|have|carry|include)|contains?|carries|includes?)|mixed with) (?:some |a (?:bit|little|few) (?:of )?|bits of |pieces of |traces? of |odd )*` + stoneOf + `(?: (?:in it|in there|pieces|bits|chips|pebbles|mixed in))*|(?:(?:it |they |and |but |has |have |with |there is |there's )*)(?:some|a (?:bit|little|few)(?: of)?|bits of|pieces of|traces? of|odd bits? of) (?:bits of )?` + stoneOf + `(?: (?:in it|in there|pieces|bits|chips|pebbles|mixed in))*`), saidOf(aNote, "", "limestone is named; a drop of acid on a sample tells")},
		{pattern(`(?:no|free of|without|not|contains no|has no) ` + stoneOf + `(?: (?:in it|in there|at all))*|` + stoneOf + `[ -]free`), saidOf(aNote, "", "a claim that there is no limestone, which is no test")},

		{pattern(`(?:(?:all |it is |it's |they are |comes |and )*(?:double |twice |triple |pre-?|well |ready |already )*(?:washed|rinsed)|unwashed|unrinsed|not (?:washed|rinsed)|needs? (?:rinsing|washing)|dusty)`), saidOf(aNote, "", "how it was washed")},
	}
}

// saidOf makes a fact of a kind out of a match: its text, or the words themselves where text is "".
func saidOf(k kind, text, why string) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) {
		return &fact{kind: k, text: first(text, squeeze(s.text[m.at:m.end()])), why: why}, true
	}
}
