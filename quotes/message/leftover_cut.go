package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// cuts asks about what comes off each price from a number of packs on: "10% off ten bags or more", "from 6 m3 it comes down $6 a m3",
// "5% off at 6 bags and 12% off at 20".
func (l *leftovers) cuts() {
	for _, s := range l.sentences() {
		if !cues.OffWord.MatchString(l.reading.low[s.From:s.To]) || carryWord.MatchString(l.reading.low[s.From:s.To]) || cues.PaidSoon.MatchString(l.reading.low[s.From:s.To]) {
			continue
		}
		rows := l.spokenOf(s)
		if len(rows) == 0 {
			rows = l.of(s.section)
		}
		rows = slices.DeleteFunc(rows, func(d *draft) bool { return d.offer.price == nil || d.cells["breaks"] != nil })
		var offs []cutOff
		for _, m := range slices.Concat(l.find(cues.CutPart, s.From, s.To), l.find(cues.CutCents, s.From, s.To), l.find(cues.CutSum, s.From, s.To)) {
			if off := l.comesOff(m); off != nil && !slices.ContainsFunc(offs, func(o cutOff) bool { return o.From < m.end() && m.part().From < o.To }) {
				offs = append(offs, cutOff{m.part(), off})
			}
		}
		slices.SortFunc(offs, func(a, b cutOff) int { return a.From - b.From })
		l.askCuts(s, offs, rows)
	}
}

// lotSum is a sum for all packs there are: "$108 if you clear out all 12", "or £54 the lot".
var lotSum = compile(looseAmount + `[ \t]+(?:(?:for|if you|u|you|take|takes|clear|clears|out|buy|get|want)[ \t]+){0,4}(?:all (?:(?:of )?(?:them|it)\b|(?P<n>` + plainNumber + `|` + written + `))|the (?:whole )?lot\b)`)

// lots asks whether a sum is that of all packs, where so many of them are said, and it comes to less for each in whole cents.
func (l *leftovers) lots() {
	for _, row := range l.rows {
		if row.offer == nil || row.offer.price == nil || row.cells["price"] == nil || row.cells["breaks"] != nil || len(row.item.from) == 0 {
			continue
		}
		price := row.offer.price.money.Decimal()
		in := l.untilOther(row, row.item.from[0].From, min(len(l.low), row.offer.price.To+2*window))
		for _, m := range l.find(lotSum, in.From, in.To) {
			_, sum, why := l.amount(m, "m")
			n, bad := l.counting(m.text("n"))
			if cell := row.cells["max_qty"]; bad != "" && cell != nil {
				n, bad = l.counting(cell.text)
			}
			if why != "" || bad != "" || n.value.Cmp(units.D("2")) < 0 || !plainCount(n.text) {
				continue
			}
			each := sum.Decimal().Quo(n.value)
			if !each.Round(2).Mul(n.value).Equal(sum.Decimal()) || each.Cmp(price) >= 0 || each.Cmp(price.Mul(units.D("0.5"))) < 0 {
				continue
			}
			text := n.text + ": " + l.lowered(row.offer.price, each)
			l.put("is that the sum for all "+n.text+"?", []Range{m.part()}, l.cell(text, "breaks", text, []*draft{row}))
			break
		}
	}
}

// cutOff is what comes off a price, and where it is said.
type cutOff struct {
	Range
	off func(price units.Decimal) units.Decimal
}

// comesOff gives what a price is less what a match says, or nil where that is nothing.
func (l *leftovers) comesOff(m match) func(price units.Decimal) units.Decimal {
	if m.re != cues.CutSum {
		p, why := l.counting(m.text("p"))
		most := units.D("50")
		if m.re == cues.CutCents {
			most = units.D("100")
		}
		switch {
		case why != "" || p.value.Sign() <= 0 || p.value.Cmp(most) > 0:
			return nil
		case m.re == cues.CutCents:
			return func(price units.Decimal) units.Decimal { return price.Sub(p.value.Quo(units.D("100"))) }
		}
		return func(price units.Decimal) units.Decimal {
			return price.Mul(units.D("100").Sub(p.value)).Quo(units.D("100"))
		}
	}
	_, money, why := l.amount(m, "m")
	if why != "" || money.Sign() <= 0 || !m.signed() || !m.has("off") && !m.has("less") {
		return nil
	}
	return func(price units.Decimal) units.Decimal { return price.Sub(money.Decimal()) }
}

// askCuts asks whether what is said comes off the prices of rows, each from the number of packs on that goes with it: the only one, or as
// many as there are, in their order.
func (l *leftovers) askCuts(s stretch, offs []cutOff, rows []*draft) {
	if len(offs) == 0 {
		return
	}
	var steps []cutStep
	var parts []Range
	counted := rows
	for _, n := range l.find(cues.CutFrom, s.From, s.To) {
		part := n.part()
		count, why := l.counting(n.text("n"))
		of, bad := l.unitCounted(l.unitText(n, "c"))
		if before := l.reading.low[max(s.From, part.From-window/8):part.From]; why != "" || bad != "" || !plainCount(count.text) || strings.ContainsAny(before[max(0, len(before)-2):], "$£€") || slices.ContainsFunc(offs, func(o cutOff) bool { return part.From < o.To && o.From < part.To }) || !n.has("more") && !cues.BuysWord.MatchString(before) && !cues.EarnsBehind.MatchString(l.behind(part)) {
			continue
		}
		if !of.Empty() && len(steps) == 0 {
			counted = l.counted(rows, of, false)
		}
		steps = append(steps, cutStep{from: count.value, over: cues.OverCount.MatchString(l.reading.low[s.From:part.From])})
		parts = append(parts, part)
	}
	if len(offs) == 1 && len(steps) > 1 {
		steps, parts = steps[:1], parts[:1]
	}
	if len(steps) == 0 || len(steps) != len(offs) {
		return
	}
	for i := range steps {
		steps[i].off = offs[i].off
		parts = append(parts, offs[i].Range)
	}
	slices.SortFunc(parts, func(a, b Range) int { return a.From - b.From })
	question := fmt.Sprintf("does that come off the price of each from %s on?", steps[0].from)
	if len(steps) > 1 {
		question = fmt.Sprintf("do these come off the price of each, the first from %s on?", steps[0].from)
	}
	replies := []reply{l.cut(steps, counted)}
	if slices.ContainsFunc(steps, func(one cutStep) bool { return one.over }) {
		for i := range steps {
			if steps[i].over {
				steps[i].from = steps[i].from.Add(oneUnit)
			}
		}
		replies = append(replies, l.cut(steps, counted))
	}
	if replies[0].label == "" {
		return
	}
	l.put(question, parts, replies...)
}

// cutStep is what comes off from a number of packs on.
type cutStep struct {
	from units.Decimal
	over bool // the number itself may be in it or not
	off  func(price units.Decimal) units.Decimal
}

// cut is the answer that the prices of rows are lower by steps.
func (l *leftovers) cut(steps []cutStep, rows []*draft) reply {
	breaks := map[*draft]string{}
	var labels []string
	for _, d := range rows {
		price := d.offer.price
		last, half := price.money.Decimal(), price.money.Decimal().Mul(units.D("0.5"))
		var said []string
		for _, one := range steps {
			low := one.off(price.money.Decimal())
			if low.Cmp(half) < 0 || low.Cmp(last) >= 0 {
				said = nil
				break
			}
			said, last = append(said, one.from.String()+": "+l.lowered(price, low)), low
		}
		if len(said) > 0 {
			breaks[d] = strings.Join(said, "; ")
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

// breaksAt makes what was answered the price of a row from a number of packs on.
func (d *draft) breaksAt(text string, money units.Money, n count) func([]*fact) {
	return func(from []*fact) {
		b := from[0]
		b.kind, b.text, b.money, b.from, b.unit = aBreak, text, money, n, pack{}
		d.offer.breaks = append(d.offer.breaks, b)
		d.setBreaks()
	}
}
