package message

import "mediabuy/units"

// leastShort is the smallest number in front of a unit alone that is believed to be its price: fewer yards or tons may be asked
// for (common practice, no source).
const leastShort = "20"

// shortPrice is "84 yd" behind a medium: the price of a yard or a number of yards. What it is is seen once all is scanned.
func shortPrice(s *scanner, m match) (*fact, bool) {
	n, why := s.number(m.text("q"))
	if why != "" || m.has("f") || n.value.Cmp(units.D(leastShort)) < 0 || s.goesOn(m.end()) || !shortEnds[s.after(m.end())] || s.mediumEndsBefore(m.at) == nil {
		return nil, false
	}
	p, why := s.holding("1", s.unitText(m, "v"), "")
	if why != "" {
		return nil, false
	}
	return &fact{kind: aShort, threshold: true, unit: p, counted: p, from: n, text: n.text, money: units.MoneyOf(n.value), why: "an amount and its unit, as in every line of the list"}, true
}

var shortEnds = map[string]bool{"": true, ",": true, ".": true, ";": true, "(": true, ")": true, "and": true, "&": true, "-": true, "/": true}

// mediumEndsBefore is the last fact before byte at in its line, where it names a medium or a size and only a colon or a dash
// stands between.
func (s *scanner) mediumEndsBefore(at int) *fact {
	f := s.lastFact
	if f == nil || f.kind != aMedium && f.kind != aSize || f.To > at {
		return nil
	}
	for _, c := range s.low[f.To:at] {
		if c != ' ' && c != ':' && c != '-' && c != '=' && c != '@' {
			return nil
		}
	}
	return f
}

// shorts settles what was read by shortPrice: two or more in a message with no other price of goods are prices; of one alone it
// is asked.
func (r *reading) shorts() {
	var all []*fact
	other := false
	for _, c := range r.all {
		for _, f := range c.facts {
			switch f.kind {
			case aShort:
				all = append(all, f)
			case aPrice, aTier:
				other = true
			}
		}
	}
	for _, f := range all {
		f.kind, f.threshold = aPrice, false
		reading, answered := r.answers[f.From]
		switch {
		case !other && len(all) > 1:
		case !answered:
			f.kind, f.why = anUnclear, "it may be the price of one, or how many there are"
			f.ask = &choice{Range: f.Range, key: f.From, costly: 0, question: "is " + f.text + " the price of " + f.unit.text + ", or how many there are?", labels: []string{"the price of " + f.unit.text, "how many there are"}}
		case reading == 1:
			f.kind, f.why, f.unit = aMax, "the most packs to be had, as answered", pack{}
		default:
			f.why = "an amount and its unit, as answered"
		}
	}
}
