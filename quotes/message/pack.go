package message

import (
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/packs"
)

// unit reads what unitPattern matched.
func (s *scanner) unit(m match, n string) (p pack, why string) {
	pick := func(names ...string) string {
		for _, x := range names {
			if t := m.text(n + x); t != "" {
				return t
			}
		}
		return ""
	}
	q, v, f := pick("q", "qb"), first(s.unitText(m, n+"v"), first(s.unitText(m, n+"vb"), s.unitText(m, n+"vc"))), pick("f", "fb", "fc")
	if v == "" {
		p.Form, p.Words = formOf(f), f
		return p, ""
	}
	if q == "half" && strings.HasSuffix(v, "s") {
		return pack{}, "halves are what it is sold in, and no pack"
	}
	if q == "" {
		q = "1"
		if m.text(n+"half") != "" {
			q = "1/2"
		}
	}
	return s.holding(q, v, f)
}

// unitText is a named part that is a unit: in small letters but for T, which may be a ton or a tonne and is refused by
// the parser of units for it.
func (s *scanner) unitText(m match, name string) string {
	if t := m.orig(s, name); t == "T" {
		return t
	}
	return m.text(name)
}

// holding makes a pack of a number, a unit and a word for the pack, which may be "".
func (s *scanner) holding(q, v, f string) (p pack, why string) {
	num := strings.Join(strings.Fields(q), " ")
	if w, ok := numberWords[num]; ok {
		num = w
	}
	if onePlain.FindString(num) == num {
		c, why := s.number(num)
		if why != "" {
			return pack{}, why
		}
		num = c.text
	}
	name := unitName(v)
	if strings.HasPrefix(v, "cube") && oneOf(s.job.Currency, "USD", "CAD") {
		if formOf(f) != "bag" {
			return pack{}, "a cube may be a cubic foot or a cubic yard; write which"
		}
		name = "cu ft" // a bag is none of a yard
	}
	if s.tonne && (name == "ton" || name == "tons") {
		name = "tonne"
	}
	p, why = packs.Of(num, name, f, s.out)
	if why != "" {
		return pack{}, why
	}
	p.Words = strings.TrimSpace(q + " " + v + " " + f)
	return p, ""
}

// bagOf is the word for a bag or a bulk bag in front of byte at in its line, with no price, nor what begins another way to buy, between.
func (s *scanner) bagOf(at int) string {
	line := s.low[max(s.start, strings.LastIndexByte(s.low[:at], '\n')+1):at]
	forms := anyForm.FindAllStringIndex(line, -1)
	if len(forms) == 0 {
		return ""
	}
	last := forms[len(forms)-1]
	if form := formOf(line[last[0]:last[1]]); oneOf(form, "bag", "sack") && !otherWay.MatchString(line[last[1]:]) {
		return form
	}
	return ""
}

var (
	anyForm  = compile(`\b` + packForm)
	otherWay = compile(`[$£€;]|[.!?](?:[ \t]|$)|\b(?:or|loose|lose|bulk|tipped|per|by the|without|plus)\b`)
)

// roughPack asks whether a bulk bag holds what it is said to hold about.
func roughPack(s *scanner, m match) (*fact, bool) {
	p, why := s.holding(m.text("q"), s.unitText(m, "v"), m.text("f"))
	if why != "" || !large(*p.Amount) || p.Form != "sack" && (p.Form != "" || s.bagOf(m.at) == "") || cues.NoContents.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return nil, false
	}
	p.Form = "sack"
	return s.perhaps(&fact{kind: aPack, unit: p, text: p.Text, why: "what a pack holds"}, Range{m.at, m.end()}, "it is rough", "does a bulk bag hold "+p.Text+"?", p.Text), true
}

// oneHad asks whether the one pack that somebody has is all there is: "I have 1 bulk bag", "just the one".
func oneHad(s *scanner, m match) (*fact, bool) {
	n, to, _ := m.span("n")
	c, behind := m.text("c"), s.low[m.end():min(s.limit, m.end()+window)]
	if real := (pack{Form: formOf(c)}).RealForm() != "" && !strings.HasSuffix(c, "s") && !strings.HasPrefix(c, "ton") && !goesInto.MatchString(behind); !hasOne.MatchString(s.low[m.at:n]) || !real && (c != "" || !oneAlone.MatchString(behind)) {
		return nil, false
	}
	ask := s.perhaps(&fact{kind: aMax, from: count{"1", oneUnit}, text: "1", why: "the most packs to be had"}, Range{m.at, to}, unsaid, "is 1 pack all there is?", "1")
	if c == "" {
		return ask, true
	}
	from, to, _ := m.span("c")
	return &fact{kind: aForm, Range: Range{from, to}, unit: pack{Form: formOf(c), Words: c}, text: formOf(c), why: "a word for how it is packed", base: ask}, true
}

var (
	hasOne   = compile(`\b(?:have|has|got|only|just|last|single|there['’]?s?|there is|i['’]ve|we['’]ve)\b`)
	oneAlone = pattern(sp + `(?:[.,;)\n!]|$|left\b|only\b|of (?:them|these|those)\b|at [$£€\d]|for sale\b|here\b|in stock\b)`)
	goesInto = pattern(sp + `(?:per|to|on|in|makes?|fills?|holds?|covers?|does|is enough|will do|each)\b|` + sp + `/`)
)

// halfPrice is the price of half of what has its price in front of it in the line.
func halfPrice(s *scanner, m match) (*fact, bool) {
	full := s.lastPrice
	if full == nil || full.From < strings.LastIndexByte(s.low[:m.at], '\n') || !looseUnit(full.unit) || !single(full.unit) {
		return nil, false
	}
	f := &fact{kind: aPrice, Range: Range{m.at, m.at + strings.LastIndex(m.low[:m.idx[1]], "half") + len("half")}, why: "the price of half of it"}
	f.text, f.money = m.amount(s, "m")
	u, why := s.holding("0.5", strings.TrimPrefix(full.unit.Text, "1 "), "")
	f.unit = u
	return f, why == "" && f.money.Cmp(full.money) < 0 && within(f.money, full.money, "2.5")
}
