package message

import (
	"slices"
	"strings"

	"mediabuy/units"
)

// Lines of an order or an invoice: so many, the price of one, and their sum. The sum proves which is which.

const lineCount = "how many of them the line is for"

// sumRules read a sum, which is the price of no pack, and "6 yds at $92 = $552", of which the sum proves the price.
func sumRules() []rule {
	return []rule{
		{pattern(`(?:(?:=|is|comes to)` + sp + `)?` + amountPattern("m") + sp1 + `(?:in |all in |grand )?total\b`), sumOnly},
		{pattern(`(?:(?:sub|grand |order |invoice |net )?[ -]?total|sum|(?:amount|balance|total) due|net|gross)(?: due| price| amount| order)?` + sp + `[:=]?` + sp + amountPattern("m")), sumOnly},
		{pattern(`(?:goods|materials?|merchandise|(?:to|you|amount to) pay|payable|goods ?(?:\+|and|&) ?carr\w*)(?: (?:value|total|sum))?\.?` + sp + `[:=]?` + sp1 + amountPattern("m")), sumLine},
		// so you're looking at $678 before tax
		{pattern(`(?:so )?(?:you(?:'re|’re| are|'d be|’d be)|ur|that(?:'s|’s)|it(?:'s|’s)) (?:looking at|talking)` + sp + `(?:about )?` + amountPattern("m")), sumOnly},
		// 5 x coarse perlite   $37.40   $187.00
		{pattern(`(?:(?:@|at|je|each)` + sp + `)?(?P<mpre>` + signBefore + `)?` + sp + `(?P<m>` + plainNumber + `)(?:` + eachWord + `)?` + sp1 + `=?` + sp + `(?P<tpre>` + signBefore + `)?` + sp + `(?P<t>` + plainNumber + `)` + sp + `(?:[\r\n]|$)`), ofLine},
		// $540 ($90/yd)
		{pattern(`(?:(?:would be|will be|is|are|at|for|comes to|=)` + sp + `)?` + amountPattern("t") + sp + `\(` + sp + `(?P<mpre>` + signBefore + `)?` + sp + `(?P<m>` + plainNumber + `)` + perWord + unitPattern("u") + sp + `\)`), bracketed},
		// $33.49 x 6 $200.94; unit price $33.50 qty 14 subtotal $469.00
		{pattern(`(?:unit price:?` + sp + `)?` + amountPattern("m") + sp + `(?:x|×|\*|(?:qty|quantity)\b[.:]?)` + sp + `(?P<n>\d{1,4})` + sp + `(?:` + packForm + `)?` + sp + `(?:=|(?:sub ?|line )?total:?)?` + sp + amountPattern("t")), proved},
		// $90.00 per yard, less 10%, so $81.00 to you; list £22.00 net £18.70
		{pattern(`(?:[:=@]` + sp + `|at |is |are )?` + amountPattern("t") + `(?:` + perWord + unitPattern("u") + `|` + eachWord + `)?` + sp + `[,(]?` + sp + `(?:less|minus)` + sp1 + `(?P<q>` + plainNumber + `)` + percentSign + `(?P<of>[^.;,\d\n()]{0,30})[,:;)]?` + sp + `(?:(?:so|is|=|makes?|making|which|that|comes to|leaves|net|your price(?: is)?|you pay)` + sp + `)+` + amountPattern("m") + `(?P<you> (?:to|for) you\b)?`), reduced},
		{pattern(`list(?: price)?` + sp + `:?` + sp + amountPattern("t") + sp + `[,;/–-]?` + sp + `(?:net|your price|you pay|yours)(?: price)?` + sp + `:?` + sp + amountPattern("m")), reduced},
		// you are $57.10 away from free shipping
		{pattern(`(?:(?:you(?:['’]re| are)|are|spend|add|only|just|another) )*` + amountPattern("m") + ` (?:(?:more|away|short|to go|left|from|of|for|to|until|till|and|get|unlock|qualify|you|your) )+free ` + deliver + sp + `(?:[.,!\n]|$)`), sumOnly},
		{pattern(`(?P<n>` + plainNumber + `|` + written + `)` + sp + `(?P<c>` + anyUnit + `|` + packForm + `)?` + sp + `(?:(?:x|×|@|at)` + sp + `)+` + amountPattern("m") + `(?:` + perWord + unitPattern("u") + `|(?P<each>` + eachWord + `))?` + sp + `(?:(?:=|comes to|is|for a total of)` + sp + `)?` + amountPattern("t")), proved},
	}
}

// sumLine is a sum in a line of its own.
func sumLine(s *scanner, m match) (*fact, bool) {
	if s.before(m.at) != '\n' || s.after(m.end()) != "" {
		return nil, false
	}
	return sumOnly(s, m)
}

func sumOnly(s *scanner, m match) (*fact, bool) {
	if s.goesOn(m.end()) || s.rated(m.end()) {
		return nil, false
	}
	return unclearFact("it is a sum or a part of one and no price of a pack")
}

// bracketed is the price of one behind the sum of a whole number of them.
func bracketed(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "the price of one, and in front of it the sum of several"}
	_, total, bad := s.amount(m, "t")
	if s.priced(m, f) != "" || bad != "" || f.money.Sign() <= 0 {
		return nil, false
	}
	n := int64(total.Float()/f.money.Float() + 0.5)
	return f, n > 1 && total.Equal(units.MoneyOf(f.money.Decimal().Mul(units.DecimalFromInt(n))))
}

// proved is a price that times its number of packs gives the sum behind it.
func proved(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "a price, as so many of them make the sum behind it"}
	if s.goesOn(m.end()) || s.priced(m, f) != "" {
		return nil, false
	}
	n, why := s.counting(m.text("n"))
	_, total, bad := s.amount(m, "t")
	if why != "" || bad != "" || !times(n.value, f.money, total) || strings.ContainsAny(m.text("n"), ".,") && !strings.ContainsAny(m.text("m"), ".,") {
		return nil, false // of a whole number and one with cents, that is the price
	}
	if f.from = n; n.value.Cmp(oneUnit) <= 0 {
		f.from = count{}
	}
	if c, why := s.countedUnit(m, "c"); why == "" && f.unit.Text == "" {
		f.unit = c.With(f.unit)
	}
	return f, true
}

// reduced is what is left of a price less the part that is said to come off it, or of the price in a list where it is no tax that they
// differ by.
func reduced(s *scanner, m match) (*fact, bool) {
	f := &fact{kind: aPrice, why: "the price that is left of the one in front of it"}
	_, list, bad := s.amount(m, "t")
	off, why := s.number(first(m.text("q"), "0"))
	if s.priced(m, f)+bad+why != "" || f.money.Sign() <= 0 || s.goesOn(m.end()) || s.rated(m.end()) {
		return nil, false
	}
	if m.has("q") {
		left := list.Decimal().Mul(units.D("100").Sub(off.value)).Quo(units.D("100"))
		return f, left.Equal(f.money.Decimal()) && (m.has("you") || strings.TrimSpace(m.text("of")) == "")
	}
	tax := list.Decimal().Mul(units.D("100")).Quo(f.money.Decimal())
	return f, list.Cmp(f.money) > 0 && !tax.Equal(tax.Round(0))
}

// ofLine is the price of one in a line that says, first or right in front of it, how many of them its last amount is the sum of.
func ofLine(s *scanner, m match) (*fact, bool) {
	line := s.lineOf(m.at)
	at := countLast.FindStringSubmatch(line[:m.at-strings.LastIndexByte(s.text[:m.at], '\n')-1])
	if at == nil {
		at = countFirst.FindStringSubmatch(line)
	}
	f := &fact{kind: aPrice, why: "the price of one, by the sum behind it"}
	if at == nil || s.priced(m, f) != "" {
		return nil, false
	}
	n, why := s.counting(at[1])
	_, total, bad := s.amount(m, "t")
	_, f.To, _ = m.span("m")
	f.From = m.at
	if f.unit.Empty() && carries(lower(line)) && !s.holdsMedium(s.lineEnd(m.at)-len(line), m.at) {
		f.kind, f.why = aDelivery, "a fee for delivery"
	}
	return f, why+bad == "" && times(n.value, f.money, total)
}

// countFirst begins a line of an order with how many it is for, countLast has that in a column before its amounts.
var (
	countFirst = compile(`(?i)^[ \t*•-]*(?:(?:qty|quantity)[.:]?[ \t]*)?(\d{1,4})(?:[ \t]*(?:x|×|\*)[ \t]*|[ \t]+)\pL`)
	countLast  = compile(`(?i)(?: {2,}|\t|,[ \t]*|\bqty[.:]?[ \t]*)(\d{1,4})[ \t]*[x×@]?[ \t]*$`)
)

// ordered sets aside, in each line, the number of packs and the sum of the line where the two prove the price between them:
// "2 m3 expanded clay at 96.00 = 192.00"; and the "1 x" in front of what is sold.
func (s *scanner) ordered(facts []*fact, tokens []token) ([]*fact, []token) {
	var all units.Money // of the lines so far
	for i := 0; i < len(tokens); i++ {
		t := tokens[i]
		if !t.number || i > 0 && s.sameLine(tokens[i-1].To, t.From) && tokens[i-1].number {
			continue
		}
		n, why := s.counting(t.word)
		if why != "" {
			continue
		}
		to := i + 1 // with its unit, or the sign behind it
		for to < len(tokens) && to < i+3 && tokens[to].From-tokens[to-1].To <= 1 && (oneOf(tokens[to].word, "x", "×", "@", "off", "no") || unitWord.MatchString(tokens[to].word)) {
			to++
		}
		multiplied := to > i+1 && oneOf(tokens[to-1].word, "x", "×", "@")
		sum := s.provenSum(facts, t, n.value)
		if sum == nil && !(n.value.Equal(oneUnit) && multiplied && !oneOf(tokens[to-1].word, "@")) {
			continue
		}
		if sum != nil {
			sum.kind, sum.why = anAside, "the sum of its line"
			all = all.Add(sum.money)
		}
		f := &fact{kind: anAside, Range: Range{t.From, tokens[to-1].To}, why: lineCount}
		if sum != nil && to > i+1 && unitWord.MatchString(tokens[i+1].word) {
			if u, why := s.holding("1", tokens[i+1].word, ""); why == "" && looseUnit(u) {
				f.kind, f.unit, f.text, f.why = aPack, u, u.Text, "the unit that is counted in"
			}
		}
		at, _ := slices.BinarySearchFunc(facts, f, func(a, b *fact) int { return a.From - b.From })
		facts = slices.Insert(facts, at, f)
		tokens = slices.Delete(tokens, i, to)
		i--
	}
	for _, f := range facts {
		if f.kind == aPrice && f.unit.Empty() && all.Sign() > 0 && f.money.Equal(all) && !s.holdsMedium(strings.LastIndexByte(s.text[:f.From], '\n')+1, f.From) {
			f.kind, f.why = anAside, "the sum of the lines above"
		}
	}
	return facts, tokens
}

// provenSum is the last amount in the line of token t, if it is n times the amount before it, both behind t.
func (s *scanner) provenSum(facts []*fact, t token, n units.Decimal) *fact {
	i, _ := slices.BinarySearchFunc(facts, t.To, func(f *fact, at int) int { return f.From - at })
	var price, sum *fact
	for _, f := range facts[i:] {
		if !s.sameLine(t.To, f.From) {
			break
		}
		if f.kind == aPrice && !slices.ContainsFunc(facts, func(g *fact) bool { return g.base == f }) || f.kind == aDelivery && sum == nil {
			price, sum = sum, f
		}
	}
	if price == nil || sum.unit.Text != "" || !times(n, price.money, sum.money) {
		return nil
	}
	if price.kind == aDelivery && n.Cmp(oneUnit) > 0 {
		price.kind, price.why = aLoadFee, "a fee for each of several loads"
	}
	return sum
}

func (s *scanner) sameLine(a, b int) bool { return !slices.Contains([]byte(s.text[a:b]), '\n') }

// ofOrder is the price behind how many of a pack are ordered, where the pack stands right in front.
func ofOrder(s *scanner, m match) (*fact, bool) {
	if !s.behindPack(m.at) || s.goesOn(m.end()) {
		return nil, false
	}
	f := &fact{kind: aPrice, why: "the price of one, behind how many are ordered"}
	m.fails(s.priced(m, f))
	return f, true
}
