package message

import "slices"

// restTiers are what a load costs that is more than those of which the fee was read: "over that £80", "£80 over 6 tonnes".
var restTiers = []*expr{
	compile(`\b(?:(?:over|above|past|beyond|more|bigger|larger|heavier|anything)(?: than)? )+(?:(?:that|this|those)\b|` + plainNumber + sp + anyUnit + `)?(?:[ ,:=@-]|is|it['’]s|costs?|at)*` + looseAmount),
	compile(looseAmount + `(?: (?:for|on|if|it['’]s|anything|loads?))* (?:over|above|past|beyond|(?:more|bigger|larger|heavier) than) (?:(?:that|this|those)\b|` + plainNumber + sp + anyUnit + `)`),
}

// restTier asks about the fee for the largest loads, in the sentence of those that rows were made of.
func (l *leftovers) restTier(section int, rows, of []*draft) {
	for _, s := range l.sentences() {
		at := slices.IndexFunc(of, func(d *draft) bool {
			fee := d.cells["load_fee"]
			return fee != nil && d.cells["covers"] == nil && (d.cells["load_weight"] != nil || d.cells["load_volume"] != nil) && s.From <= fee.facts[0].From && fee.facts[0].From < s.To
		})
		for i := 0; at >= 0 && i < len(restTiers); i++ {
			for _, m := range l.find(restTiers[i], s.From, s.To) {
				if text, money, why := l.amount(m, "m"); why == "" && money.Sign() > 0 && m.signed() {
					l.put("is that what a load of more than the others costs?", []Range{m.part()}, l.way(section, rows, "load_fee", charge{Range: m.part(), text: text, money: money}, charge{text: "truck", column: "name"}))
				}
			}
		}
	}
}
