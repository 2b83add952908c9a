package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/units"
)

// Parts and amounts that come off each price from a number of packs on.
var (
	cutFrom   = compile(`\b(?P<n>` + plainNumber + `|` + written + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?(?P<more>` + orMore + `)?`)
	cutPart   = compile(`(?:(?:less|minus|save|knock) )?(?P<p>` + plainNumber + `)` + sp + `(?:%|percent\b|per cent\b)(?: (?:off|less|cheaper|discount|rebate|down))?`)
	cutSum    = compile(`(?:(?P<less>(?:comes?|goes|go|is|are|drops?|falls?|down|less|save|minus|knocks?|takes?)(?: (?:it|them|off|down|by))*) )?` + looseAmount + `(?:` + eachWord + `|` + bare(perWord+unitPattern("u")) + `)?(?P<off> (?:off|cheaper|less|discount)\b)?`)
	offBefore = compile(`\b(?:comes?|goes|go|drops?|falls?|knocks?|takes?|save|get)(?: (?:it|them|off|down|by|another))+[ \t]*$`)
	offBehind = compile(`^(?:[ \t]*(?:per|an?|the|each|/)[ \t]*\pL*\d?)?[ \t]+(?:off|cheaper|less|discount)\b`)
	overCount = compile(`\b(?:over|above|more than|beyond|past)[ \t]*$`) // the number itself may be in it or not
	offWord   = compile(`\b(?:off|less|cheaper|discount|rebate|reduction|comes? down|goes down|drops?|falls?|save)\b`)
)

// cuts asks about what comes off each price from a number of packs on: "10% off ten bags or more", "from 6 m3 it comes down $6 a m3".
func (l *leftovers) cuts() {
	for _, s := range l.sentences() {
		if !offWord.MatchString(l.reading.low[s.From:s.To]) || carryWord.MatchString(l.reading.low[s.From:s.To]) {
			continue
		}
		rows := l.spokenOf(s)
		if len(rows) == 0 {
			rows = l.of(s.section)
		}
		rows = slices.DeleteFunc(rows, func(d *draft) bool { return d.offer.price == nil || d.cells["breaks"] != nil })
		for _, m := range append(l.find(cutPart, s.From, s.To), l.find(cutSum, s.From, s.To)...) {
			if l.askCut(s, m, rows) {
				break
			}
		}
	}
}

// askCut asks whether what a match says comes off the prices of rows from the only number of packs on that stands in its part of the text.
func (l *leftovers) askCut(s stretch, m match, rows []*draft) bool {
	var off func(price units.Decimal) units.Decimal
	if m.re == cutPart {
		p, why := l.number(m.text("p"))
		if why != "" || p.value.Sign() <= 0 || p.value.Cmp(units.D("50")) > 0 {
			return false
		}
		off = func(price units.Decimal) units.Decimal {
			return price.Mul(units.D("100").Sub(p.value)).Quo(units.D("100"))
		}
	} else {
		_, money, why := l.amount(m, "m")
		if why != "" || money.Sign() <= 0 || !m.signed() || !m.has("off") && !m.has("less") {
			return false
		}
		off = func(price units.Decimal) units.Decimal { return price.Sub(money.Decimal()) }
	}
	for _, n := range l.find(cutFrom, s.From, s.To) {
		part := n.part()
		count, why := l.counting(n.text("n"))
		of, bad := l.unitCounted(l.unitText(n, "c"))
		if before := l.reading.low[max(s.From, part.From-window/8):part.From]; why != "" || bad != "" || !plainCount(count.text) || part.From < m.part().To && m.part().From < part.To || !n.has("more") && !buysWord.MatchString(before) {
			continue
		}
		counted := rows
		if !of.Empty() {
			counted = l.counted(rows, of, false)
		}
		froms := []units.Decimal{count.value}
		if overCount.MatchString(l.reading.low[s.From:part.From]) {
			froms = append(froms, count.value.Add(oneUnit))
		}
		var replies []reply
		for _, from := range froms {
			replies = append(replies, l.cut(from, counted, off))
		}
		if replies[0].label == "" {
			continue
		}
		l.put(fmt.Sprintf("does that come off the price of each from %s on?", count.text), []Range{part, m.part()}, replies...)
		return true
	}
	return false
}

// cut is the answer that the prices of rows are lower from a number of packs on; off gives the lower price.
func (l *leftovers) cut(from units.Decimal, rows []*draft, off func(units.Decimal) units.Decimal) reply {
	breaks := map[*draft]string{}
	var labels []string
	for _, d := range rows {
		price := d.offer.price
		low := off(price.money.Decimal())
		if half := price.money.Decimal().Mul(units.D("0.5")); low.Sign() > 0 && low.Cmp(half) >= 0 {
			breaks[d] = from.String() + ": " + l.lowered(price, low)
			labels = append(labels, breaks[d])
		}
	}
	return reply{strings.Join(slices.Compact(labels), " and "), func(said []*fact) {
		for _, d := range rows {
			if text := breaks[d]; text != "" {
				d.set("breaks", text, "as answered, off the price", append(slices.Clone(said), d.offer.price)...)
			}
		}
	}}
}
