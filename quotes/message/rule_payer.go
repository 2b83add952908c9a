package message

import (
	"strings"

	"mediabuy/quotes/internal/cues"
)

// orPayer is the payer of a price in front of it, or of a second one behind a stroke.
var orPayer = pattern(sp + `/?` + sp + payerWord + `\b`)

// payerRules read them. Without a second price beside it such a word is left to a person: whether it is the buyer's is not said.
func payerRules() []rule {
	return []rule{
		{pattern(`(?:(?:if|when) (?:you(?:'re| are)?|u) (?:use|pay|paying|using|are|a)(?: (?:by|with|in|on|a|an|your|our))*` + sp1 + `|(?:for|to|with|by|your|our|a|the)` + sp1 + `)*` + payerWord +
			`(?:(?:` + sp + `(?:/|or|and|&)` + sp + `)` + payerWord + `)*(?:` + sp1 + `(?:price|prices|customers?|only|holders?))*\b`), payer},
	}
}

func payer(s *scanner, m match) (*fact, bool) {
	if strings.HasSuffix(m.low[:m.idx[1]], "check") && cues.ChecksIt.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) {
		return nil, false
	}
	if next := s.after(m.end()); oneOf(next, "list", "add", "on", "in", "discount", "account", "no", "number") || strings.Contains(next, "%") {
		return nil, false // "cash price list", "card add 3%", "cash on the day"
	}
	return &fact{kind: aPayer, why: "who pays so, or how; of which buyer is it the price?"}, true
}
