package message

import (
	"slices"
	"strings"

	"mediabuy/units"
)

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

// bareNumber is a number at the end of a clause right behind a medium or a size, "lava 97": it may be the price of the unit that the
// others are sold by.
func bareNumber(s *scanner, m match) (*fact, bool) {
	n, why := s.number(m.text("q"))
	f := s.mediumEndsBefore(m.at)
	if why != "" || f == nil || n.value.Cmp(units.D(leastShort)) < 0 || !shortEnds[s.after(m.end())] && !s.mediumOpens(m.end()+1) && s.after(m.end()) != "all" || s.part().InsideNumber(m.at) || !strings.HasSuffix(s.low[:m.at], " ") {
		return nil, false
	}
	return &fact{kind: aShort, threshold: true, from: n, text: n.text, money: units.MoneyOf(n.value), why: "a number where the others have the price of their unit"}, true
}

var shortEnds = map[string]bool{"": true, "no": true, ",": true, ".": true, ";": true, "(": true, ")": true, "and": true, "&": true, "-": true, "/": true}

// mediumEndsBefore is the last fact before byte at in its line, where it names a medium or a size and only a colon or a dash
// stands between.
func (s *scanner) mediumEndsBefore(at int) *fact {
	f := s.lastFact
	if f == nil || f.kind != aMedium && f.kind != aSize || f.To > at {
		return nil
	}
	for _, c := range strings.TrimSuffix(strings.TrimSuffix(s.low[f.To:at], " is "), " for ") {
		if c != ' ' && c != ':' && c != '-' && c != '=' && c != '@' && (c != ',' || !cents(onePlain.FindString(s.low[at:]))) {
			return nil
		}
	}
	return f
}

const ofOtherPack = "a price of a pack that is not said, as answered"

// soldBy is the one unit of what is sold loose that all prices of a message are for, empty where there is none or a bag is priced.
func (r *reading) soldBy() (unit pack) {
	for _, c := range r.all {
		for _, f := range c.facts {
			switch {
			case !oneOf(f.kind, aPrice, aBreak, aPack) || f.unit.Empty():
			case f.unit.Text == "" || !looseUnit(f.unit) || !single(f.unit) || unit.Text != "" && unit.Text != f.unit.Text:
				return pack{}
			default:
				unit = f.unit
			}
		}
	}
	return unit
}

// shorts settles what was read by shortPrice: two or more in a message with no other price of goods are prices; of one alone it
// is asked.
func (r *reading) shorts() {
	var all []*fact
	other := false
	alone := map[*fact]bool{} // a bag and a number, and no other price of one behind it in its sentence
	for i, c := range r.all {
		for _, f := range c.facts {
			switch f.kind {
			case aShort:
				all = append(all, f)
				alone[f] = f.unit.Form != "" && !slices.ContainsFunc(r.all[i:min(i+4, len(r.all))], func(d *clause) bool {
					return d.sentence == c.sentence && slices.ContainsFunc(d.facts, func(g *fact) bool {
						return g != f && oneOf(g.kind, aPrice, aTier, anUnclear) && g.From > f.From && g.unit.Text == ""
					})
				})
			case aPrice, aTier:
				other = true
			}
		}
	}
	for _, f := range all {
		bare, told := f.unit.Empty(), false // told: "all per yard"
		if bare {
			if f.unit = r.soldBy(); f.unit.Empty() {
				f.kind, f.why = anUnclear, "a number with no word that says what it is"
				continue
			}
		}
		for _, c := range r.all {
			told = told || len(all) > 1 && !other && slices.ContainsFunc(c.facts, func(g *fact) bool { return g.kind == aPack && g.general && g.text == f.unit.Text })
		}
		bare = bare && !told
		f.kind, f.threshold = aPrice, false
		reading, answered := r.answers[answerKey{f.From, false}]
		switch {
		case bare && !answered:
			f.kind, f.why = anUnclear, "it may be the price of one, as the others are sold"
			f.ask = &choice{Range: f.Range, key: f.From, question: "is " + f.text + " the price of " + f.unit.Text + ", as the others have it, or of another pack?", labels: []string{"the price of " + f.unit.Text, "of another pack"}}
		case bare && reading == 1:
			f.unit, f.why = pack{Form: "each"}, ofOtherPack
		case !other && len(all) > 1 || alone[f] || cents(onePlain.FindString(r.low[f.From:f.To])):
		case !answered:
			f.kind, f.why = anUnclear, "it may be the price of one, or how many there are"
			f.ask = &choice{Range: f.Range, key: f.From, costly: 0, question: "is " + f.text + " the price of " + f.unit.Text + ", or how many there are?", labels: []string{"the price of " + f.unit.Text, "how many there are"}}
		case reading == 1:
			f.kind, f.why, f.unit = aMax, "the most packs to be had, as answered", pack{}
		default:
			f.why = "an amount and its unit, as answered"
		}
	}
}

// countBehind is a number of packs that a price in front of it holds from.
var countBehind = pattern(toCount + `(?:` + overWord + `)?` + quantity)

func leastPrice(s *scanner, m match) (*fact, bool) {
	if !m.money() && !m.has("per") && !m.has("each") || s.goesOn(m.end()) {
		return nil, false
	}
	return unclearFact("the price begins there, and it is not said what has it")
}

var oneUnit = units.DecimalFromInt(1)

// packedPrice is the price of a pack of which both form and contents stand behind it.
func packedPrice(s *scanner, m match) (*fact, bool) {
	f, ok := onePrice(s, m)
	return f, ok && m.money() && m.has("ufb") && m.has("uvb")
}
