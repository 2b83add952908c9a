package message

import (
	"slices"
	"strings"
	"unicode"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/plaintext"
)

// broken reads the number and unit that a break begins at.
func (s *scanner) broken(m match, f *fact) (why string) {
	if why = s.priced(m, f); why != "" {
		return why
	}
	if f.from, why = s.counting(m.text("n")); why != "" {
		return why
	}
	if f.kind == aTier && f.from.text == "0" {
		f.from = count{"1", oneUnit}
	} else if f.from.value.Sign() <= 0 {
		return "a break begins at more than 0 packs"
	}
	if f.counted, why = s.countedUnit(m, "c", "c2"); why != "" {
		return why
	}
	of, why := s.unit(m, "w")
	if !of.Empty() { // "10 or more of the 50 L bags"
		f.counted = of.With(f.counted)
	}
	return why
}

// countedUnit is the unit of a number of packs, from the first of the named parts that matched.
func (s *scanner) countedUnit(m match, names ...string) (pack, string) {
	c := ""
	for _, n := range names {
		c = first(c, s.unitText(m, n))
	}
	switch {
	case c == "":
		return pack{}, ""
	case formPattern.MatchString(c):
		return pack{Form: formOf(c), Words: c}, ""
	}
	return s.holding("1", c, "")
}

var formPattern = pattern(packForm + `$`)

func oneBreak(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aBreak, why: "a price from a number of packs on"}
	from, to, _ := m.span("n")
	amount, _, _ := m.span("m")
	if s.goesOn(m.end()) || oneOf(s.after(m.end()), "hand", "stock") || to < amount && strings.TrimSpace(s.low[to:amount]) == "" && !m.money() { // from 1 000
		return nil, false
	}
	m.fails(s.broken(m, f))
	if amount > to && andAnother.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) {
		m.fails("two prices from there on, and it is not said of what each is")
	}
	if m.at == from && cues.TornOff.MatchString(s.low[max(s.start, m.at-window):m.at]) || s.low[m.at] == 'x' && !strings.ContainsRune("\n,;.:(|", rune(s.before(m.at))) && !s.behindPack(m.at) {
		return unclearFact("the number of packs goes with a word in front of it")
	}
	f.linked = m.at < from && from < amount && !strings.HasPrefix(s.low[m.at:], "from") && !cues.SaysPrice.MatchString(s.low[to:amount])
	return f, true
}

// andAnother is another amount right behind a price, which may be that of another thing: "from 10: 38,00 € and 33,50 €".
var andAnother = pattern(sp + `(?:\([^()\n]*\)` + sp + `)?(?:and|&|/)` + sp + amountPattern("m") + `(?: respectively)?` + sp + `(?:[.;(\n]|$)`)

// behindPack says whether a pack stands right in front of byte at: "100 L x 5 or more" are so many of them.
func (s *scanner) behindPack(at int) bool {
	f := s.lastFact
	return f != nil && f.kind == aPack && f.To <= at && strings.TrimSpace(s.low[f.To:at]) == ""
}

const betweenReason = "the number of packs stands between two prices, and it is not said which it belongs to"

// fromBreak is "27.50 from 10"; a month behind it makes it a day.
func fromBreak(s *scanner, m match) (*fact, bool) {
	if _, to, _ := m.span("n"); months[s.after(to)] {
		return nil, false
	}
	// In "68 a yard (10 yards or more 61)" the number belongs to the price behind it; without the bracket, to either.
	if next := s.after(m.end()); next != "" && strings.ContainsAny(next[:1], "0123456789$:@=") || next == "at" || next == "£" || next == "€" {
		if n, _, _ := m.span("n"); strings.Contains(s.low[m.at:n], "(") {
			return nil, false
		}
		return unclearFact(betweenReason)
	}
	return oneBreak(s, m)
}

// downTo is the price of one that comes down at a number of packs, or comes down further behind another.
func downTo(s *scanner, m match) (*fact, bool) {
	if f := s.lastFact; m.has("and") && (f == nil || f.kind != aBreak || strings.Trim(s.low[f.To:m.at], " ,") != "") || !m.money() {
		return nil, false
	}
	return fromBreak(s, m)
}

// regularPrice is the price of fewer packs where another from so many on goes on behind it, and elsewhere an earlier one.
func regularPrice(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "the price of fewer packs"}
	said := s.lastPrice != nil && !strings.ContainsAny(s.low[s.lastPrice.To:m.at], ".;\n")
	if said || !cues.LowerBehind.MatchString(s.low[m.end():min(s.limit, m.end()+window)]) || s.priced(m, f) != "" {
		return nil, false
	}
	return f, true
}

// countLine is a line of a list that counts up from one, each number with the price of one from there on.
func countLine(s *scanner, m match) (*fact, bool) {
	if s.counts == nil {
		s.counts = plaintext.CountingUp(s.low, countedLine)
	}
	if at, _, _ := m.span("n"); !s.counts[at] || !m.money() || s.after(m.end()) != "" {
		return nil, false
	}
	return oneBreak(s, m)
}

// countedLine is a number and an amount, and nothing else.
var countedLine = compile(`(?m)^[ \t]*(?:(?:qty|quantity)[.:]?[ \t]*)?(\d{1,4})[ \t]*(?:(?:off|pcs?|pieces?|units?)\b\.?[ \t]*)?(?:\([^)\n]*\)[ \t]*)?(?:[-–=:]|\.{2,}|[ \t])[ \t]*(?:` + signBefore + `)?[ \t]*\d+(?:[.,]\d+)?[ \t]*(?:ea|each)?[ \t\r]*$`)

func oneTier(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aTier, why: "a price from one number of packs to another"}
	if !m.has("c") && (s.grainBehind(m.at) || len(s.grains) > 0 && m.has("uvc") || slices.Contains(s.grains, whole(m.text("n")))) {
		return nil, false
	}
	if s.goesOn(m.end()) || strings.Contains(m.text("to"), ",") && !m.money() && !m.has("c") || (!strings.ContainsAny(m.text("to"), ":=@") && strings.TrimSpace(m.text("to")) != "at") && !m.has("c") && !m.has("each") && !m.money() {
		return nil, false
	}
	m.fails(s.broken(m, f))
	if at, _, _ := m.span("n2"); s.low[at-1] == ' ' && unicode.IsLetter(rune(s.text[at])) && !unicode.IsLetter(rune(s.before(at))) && s.before(at) != '&' {
		return nil, false // a dash that stands apart, with a number in words behind it, is a pause: "3 for 2 - three yard minimum"
	}
	to := m.counting(s, "n2")
	f.to = to
	if to.value.Cmp(f.from.value) <= 0 {
		return unclearFact("the range of packs runs from many to few")
	}
	return f, true
}

// firstTier is up to how many packs the price right in front of it holds, from the first on: "$9.00 each (1-9)".
func firstTier(s *scanner, m match) (*fact, bool) {
	f := s.lastFact
	return &fact{kind: anAside, why: "from the first pack on"}, f != nil && f.kind == aPrice && strings.TrimSpace(s.low[f.To:m.at]) == ""
}

// moneyBreak is the price of one where the so many of a pallet are bought, or behind a colon that makes no time of day: with no "each"
// and no space it must be written as money.
func moneyBreak(s *scanner, m match) (*fact, bool) {
	if !m.has("each") && !m.money() && m.text("gap") == "" {
		return nil, false
	}
	return oneBreak(s, m)
}
