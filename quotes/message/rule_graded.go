package message

import "strings"

// gradedPrice is a price for the first packs, if it says so, and another for those beyond.
func gradedPrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aBreak, graded: true, why: "a price for the packs beyond a number alone"}
	m.fails(s.priced(m, f))
	n := m.counting(s, "n")
	f.counted = m.countedUnit(s, "c")
	if s.goesOn(m.end()) || n.value.Sign() <= 0 {
		return nil, false
	}
	f.from = count{value: n.value.Add(oneUnit)}
	f.from.text = f.from.value.String()
	if m.has("nth") && m.text("nth") != f.from.text {
		return nil, false
	}
	if from, _, ok := m.span("t"); ok {
		base := *f
		base.kind, base.graded, base.from, base.why = aPrice, false, count{}, "the price of the first packs"
		base.Range = Range{m.at, m.at + len(strings.TrimRight(s.low[m.at:from], " \t$£€@:,="))}
		if at, to, ok := m.span("of"); ok { // "the first 4 yards of lava are $58"
			if base.base = s.mediumFact(at); base.base == nil || base.base.To != to {
				return nil, false
			}
			base.base.Range, base.From, base.head, s.lastMedium = Range{m.at, to}, to, base.base, base.base.medium
		}
		if (base.unit.Empty() || base.unit.Form == "each") && looseUnit(f.counted) {
			base.unit, f.unit = f.counted, pack{}
		}
		f.text, f.money = m.amount(s, "t")
		f.base, f.head, f.Range = &base, &base, Range{base.To, m.end()}
		if f.money.Cmp(base.money) >= 0 {
			return nil, false
		}
	}
	return f, true
}
