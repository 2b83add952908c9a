package typed

import (
	"regexp"
	"slices"

	"mediabuy/quotes"
)

var (
	beforeTax = regexp.MustCompile(`(?i)^(.*\d.*?),? ?[(\[]?(?:(?:\+|plus|ex|excl(?:\.|udes|uding)?|before|without|not incl(?:\.|uding)?) ?(?:the )?` + taxed + `|` + taxed + ` (?:extra|on top|to be added|excluded|not included))[)\]]?$`)
	withTax   = regexp.MustCompile(`(?i)^(.*\d.*?),? ?[(\[]?(?:(?:inc|incl(?:\.|udes|uding)?|with) ?(?:the )?` + taxed + `|` + taxed + ` (?:incl(?:\.|uded)?|inc|paid))[)\]]?$`)
)

// amounts are the headings of what is paid.
var amounts = []string{"price", "delivery", "order_fee", "load_fee", "handling"}

// Taxed is an amount without the words that say whether its tax is in it, where these say what holds for the whole job: that tax comes on
// top, or that every price carries it. "" where they say nothing, or something else.
func Taxed(heading, text string, jobIncludes bool) string {
	p := beforeTax
	if jobIncludes {
		p = withTax
	}
	if m := p.FindStringSubmatch(text); m != nil && slices.Contains(amounts, heading) {
		return m[1]
	}
	return ""
}

// TaxWords say what becomes of the tax of such an amount.
func TaxWords(s *quotes.Settings) string {
	if s.Tax.IsZero() && !s.TaxIncluded {
		return "no tax is added to it unless its rate stands under tax"
	}
	return "its tax as the job's other prices have theirs"
}
