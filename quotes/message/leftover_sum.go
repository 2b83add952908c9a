package message

import "mediabuy/units"

// Sums said for so many units of a medium: "12 yards of 3/4 lava for $1,140 delivered".
var (
	unitsOf = compile(`\b(?P<n>` + plainNumber + `|` + written + `)` + sp + `-?(?P<v>` + anyUnit + `) of(?: [^.;,\n$£€]{0,24})?[ \t]$`)
	sumFor  = compile(`^[^.;\n$£€]{0,24}?(?:\b(?:for|at|is|are|comes? to|would be|will be|runs?|costs?)|[:=,])[ \t]+$`)
)

// summed are the price of one of several units of a medium, where the sum behind it divides, and that of all of them: which of them is sold
// is not said.
func (l *leftovers) summed(m *fact, to int) (out []pricedAt) {
	from := max(0, m.From-window/2)
	for _, s := range l.find(looseSum, m.To, to) {
		many := l.read(unitsOf, from, m.From)
		if part := s.part(); len(many) == 0 || !sumFor.MatchString(l.reading.low[m.To:part.From]) || !s.signed() || perNext.MatchString(l.behind(part)) {
			continue
		}
		text, money, why := l.amount(s, "m")
		n, bad := l.counting(many[0].text("n"))
		one, odd := l.holding("1", many[0].text("v"), "")
		all, odds := l.holding(many[0].text("n"), many[0].text("v"), "")
		if why+bad+odd+odds != "" || !looseUnit(one) || n.value.Cmp(oneUnit) <= 0 {
			continue
		}
		if each, ok := share(money, n.value); ok {
			digits := each.Text(2)
			if d := each.String(); len(d) < len(digits) {
				digits = d
			}
			out = append(out, pricedAt{s.part(), signOf(text) + l.cellNumber(digits, each), units.MoneyOf(each), one, nil})
		}
		return append(out, pricedAt{s.part(), text, money, all, nil})
	}
	return nil
}

// perNext makes an amount in front of it that of one.
var perNext = pattern(perWord + anyUnit + `|` + eachWord)
