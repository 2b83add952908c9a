package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/inwords"
	"mediabuy/units"
)

// pricedAt is a price that was found, and what it is for.
type pricedAt struct {
	Range
	text  string
	money units.Money
	pack  pack
	size  *fact // that stands right behind it: "one forty for the 3/8"
}

// prices asks what each medium costs that has no price for such a pack.
func (l *leftovers) prices() {
	var media []*fact
	for _, c := range l.all {
		if c.row < 0 && (!never[c.poison] || c.poison == doubts["not"]) {
			media = append(media, c.media()...)
		}
	}
	alone := map[*quotes.Medium]bool{} // a message about one medium is about it to its end
	if len(media) > 0 && !slices.ContainsFunc(media, func(m *fact) bool { return m.medium != media[0].medium }) {
		alone[media[0].medium] = true
	}
	all := l.sentences()
	for i, m := range media {
		to := len(l.low)
		if i+1 < len(media) {
			to = media[i+1].From
		}
		if at := slices.IndexFunc(all, func(s stretch) bool { return s.From <= m.From && m.From < s.To }); at >= 0 {
			end := all[at].To
			for _, next := range all[at+1:] {
				if next.From >= to || next.section != all[at].section || carryWord.MatchString(l.reading.low[next.From:next.To]) && !l.opensForm(max(next.From, next.To-1)) {
					break
				}
				end = next.To
				if !alone[m.medium] {
					break
				}
			}
			to = min(to, end)
		}
		var found []pricedAt
		if m.To < to {
			if found = l.summed(m, to); len(found) == 0 {
				found = l.priced(m.To, to)
			}
		}
		l.askPrices(m, found)
	}
}

// priced are the prices between two bytes that are for a pack.
func (l *leftovers) priced(from, to int) (out []pricedAt) {
	for _, re := range []*expr{cues.SumOfPack, cues.SignOfPack, cues.PackThenIt} {
		for _, m := range l.find(re, from, to) {
			part := m.part()
			text, money, why := l.amount(m, "m")
			p, bad := l.unit(m, "u")
			near := l.reading.low[max(from, part.From-window/4):part.From]
			at, _, _ := m.span("m")
			switch {
			case why != "" || bad != "" || money.Sign() <= 0 || l.reading.low[part.From] == '#' || p.Form == "load" || p.Text == "" && p.RealForm() == "" || overlaps(out, part):
			case cues.OffBefore.MatchString(near) || cues.OffBehind.MatchString(l.behind(part)) || cues.PartOfPack.MatchString(near) || carryWord.MatchString(near) && (p.Text == "" || !l.opensForm(part.From)) || cues.EachBehind.MatchString(l.behind(part)): // a part of it, or bringing it
			case re == cues.PackThenIt && !m.signed() && (cues.Measured.MatchString(l.behind(part)) || strings.TrimSpace(m.text("gap")) != "" && !cues.CostsBefore.MatchString(l.low[part.From:at])): // so many of something
			default:
				out = append(out, pricedAt{part, text, money, p, nil})
			}
		}
	}
	for _, re := range []*expr{cues.SpokenSum, cues.SpokenPack, cues.SpokenAlone} {
		for _, m := range l.find(re, from, to) {
			at, end, _ := m.span("said")
			part := Range{at, end}
			p, bad := l.only(part), ""
			if re != cues.SpokenAlone {
				if p, bad = l.unit(m, "u"); p.Text == "" && cues.SameBefore.MatchString(l.reading.low[max(0, m.part().From-window):m.part().From]) {
					p = l.only(part) // "same bag is five forty"
				}
			} else if len(out) > 0 && looseUnit(out[len(out)-1].pack) {
				p = out[len(out)-1].pack // "one ten a yard for the small, one twenty for the large"
			}
			if re == cues.SpokenSum {
				part = m.part()
			} else if overlaps(out, part) || cues.IfBefore.MatchString(l.reading.low[max(0, at-window/2):at]) || carryWord.MatchString(l.reading.low[max(from, at-window/4):at]) {
				continue
			}
			for _, text := range inwords.Ways(m.text("said")) {
				if n, why := l.number(text); bad == "" && why == "" {
					out = append(out, pricedAt{part, n.text, units.MoneyOf(n.value), p, l.sizeBehind(end)})
				}
			}
		}
	}
	return append(out, l.alone(from, to, out)...)
}

// alone are amounts between two bytes with no pack beside them, but for those within prices found: with a sign of money, or of a number
// that nothing but a comma parts from its medium.
func (l *leftovers) alone(from, to int, found []pricedAt) (out []pricedAt) {
	for _, m := range l.find(looseSum, from, to) {
		part := m.part()
		before, behind := l.reading.low[from:part.From], l.behind(part)
		text, money, why := l.amount(m, "m")
		switch {
		case why != "" || money.Sign() <= 0 || overlaps(found, part) || numbered.MatchString(before) || cues.CountMore.MatchString(before) || !m.signed() && cues.PalletHad.MatchString(behind):
		case cues.OffBefore.MatchString(before) || cues.OffBehind.MatchString(behind) || cues.RestBehind.MatchString(behind) || cues.BroughtNext.MatchString(behind) || cues.EachBehind.MatchString(behind) || carryWord.MatchString(before[max(0, len(before)-window/4):]): // a deposit, or bringing it
		case !m.signed() && (strings.Trim(l.low[from:part.From], " \x00,:=-–\"") != "" || cues.Measured.MatchString(behind) || cues.CountsBefore.MatchString(before)):
		default:
			out = append(out, pricedAt{part, text, money, l.only(part), nil})
		}
	}
	return out
}

// sizeBehind is the size that stands right behind byte at, "for the 3/8", nil where none does.
func (l *leftovers) sizeBehind(at int) (size *fact) {
	for _, c := range l.all {
		for _, f := range c.facts {
			if f.kind == aSize && f.text != "" && f.From >= at && f.From-at < window/4 && cues.SizeNext.MatchString(l.reading.low[at:f.From]) {
				size = f
			}
		}
	}
	return size
}

// only is the pack that all rows with a price have of the section that a part of the text stands in, if it is one.
func (l *leftovers) only(part Range) (p pack) {
	for _, d := range l.of(l.sectionAt(part.From)) {
		if d.offer == nil || d.offer.pack.Text == "" || p.Text != "" && d.offer.pack.Text != p.Text {
			return pack{}
		}
		p = d.offer.pack
	}
	return p
}

func overlaps(found []pricedAt, part Range) bool {
	return slices.ContainsFunc(found, func(o pricedAt) bool { return o.From < part.To && part.From < o.To })
}

// askPrices asks which of the prices found are those of a medium.
func (l *leftovers) askPrices(m *fact, found []pricedAt) {
	for len(found) > 0 {
		p, size := found[0].pack, found[0].size
		var same []pricedAt
		found = slices.DeleteFunc(found, func(o pricedAt) bool {
			if o.pack.Fits(p) && (size == nil || o.size == size) || len(same) > 0 && o.Range == same[0].Range {
				same = append(same, o)
				return true
			}
			return false
		})
		var row *draft
		known := false
		for _, d := range l.rows {
			if d.item.section != l.sectionAt(m.From) || d.item.medium != m.medium || d.offer == nil {
				continue
			}
			of := slices.Contains(d.item.from, m)
			switch {
			case d.cells["price"] != nil:
				known = known || of && (d.offer.pack.Fits(p) || d.offer.pack.Empty()) || slices.ContainsFunc(same, func(o pricedAt) bool { return d.offer.price != nil && o.money.Equal(d.offer.price.money) })
			case of && row == nil && (d.offer.pack.Empty() || d.offer.pack.Fits(p)):
				row = d
			}
		}
		if known {
			continue
		}
		if len(same) > maxHolds { // amounts that read in two ways, each asked by itself
			if next := slices.IndexFunc(same, func(o pricedAt) bool { return o.Range != same[0].Range }); next > 1 {
				found = append(found, same[next:]...)
				same = same[:next]
			} else {
				continue
			}
		}
		var replies []reply
		var parts []Range
		for _, one := range same {
			label := one.text
			switch {
			case one.pack.Text != "":
				label += " for " + one.pack.Text
			case one.pack.Form != "":
				label += " for a " + one.pack.Form
			}
			parts = append(parts, one.Range)
			replies = append(replies, reply{label, func(from []*fact) { l.price(m, row, one, from) }})
		}
		question := fmt.Sprintf("is it what %s costs?", m.medium.Name)
		if len(same) > 1 {
			question = fmt.Sprintf("which of them is what %s costs?", m.medium.Name)
		}
		l.put(question, parts, replies...)
	}
}

// price makes a price that was answered to hold one of a row, or of a row of its own.
func (l *leftovers) price(m *fact, row *draft, p pricedAt, from []*fact) {
	f := from[0]
	f.kind, f.text, f.money, f.unit = aPrice, p.text, p.money, p.pack
	if row != nil {
		row.offer.price, row.offer.pack = f, row.offer.pack.With(p.pack)
		row.set("price", f.text, f.why, f)
		if row.cells["pack"] == nil && p.pack.Text != "" {
			row.set("pack", p.pack.Text, "what the price is for", f)
		}
		return
	}
	it := &item{medium: m.medium, words: m.text, from: []*fact{m}, row: -1, section: l.sectionAt(m.From), facts: l.sizesOf(m, p)}
	if m.item == nil || m.unclear != "" {
		m.item, m.unclear = it, ""
	}
	for _, s := range it.facts {
		s.unclear = ""
	}
	o := &offer{pack: p.pack, price: f, at: p.From}
	at := slices.IndexFunc(l.rows, func(d *draft) bool { return d.offer != nil && d.offer.at > p.From })
	if at < 0 {
		at = len(l.rows)
	}
	l.rows = slices.Insert(l.rows, at, l.draft(it, o))
}

// halves asks about prices of half of what is sold loose: "$112 per cubic metre, or $60 a half".
func (l *leftovers) halves() {
	for _, row := range slices.Clone(l.rows) {
		if row.offer == nil || row.offer.price == nil || row.cells["price"] == nil || row.cells["pack"] == nil || len(row.item.from) == 0 || !looseUnit(row.offer.pack) || !single(row.offer.pack) {
			continue
		}
		price := row.offer.price
		line, _, _ := strings.Cut(l.low[price.To:min(len(l.low), price.To+window/2)], "\n")
		for _, m := range l.find(cues.HalfPriced, price.To, price.To+len(line)) {
			text, money, why := l.amount(m, "m")
			p, bad := l.holding("0.5", strings.TrimPrefix(row.offer.pack.Text, "1 "), "")
			if why != "" || bad != "" || money.Cmp(price.money) >= 0 || strings.Contains(l.reading.low[price.To:m.part().From], ".") {
				continue
			}
			l.put(fmt.Sprintf("is %s the price of %s of %s?", text, p.Text, row.item.name()), []Range{m.part()}, reply{text + " for " + p.Text, func(from []*fact) {
				l.price(row.item.from[0], nil, pricedAt{m.part(), text, money, p, nil}, from)
			}})
			break
		}
	}
}

// sizesOf are the sizes said beside a medium, up to a price of it, if they are one.
func (l *leftovers) sizesOf(m *fact, p pricedAt) (out []*fact) {
	if p.size != nil {
		return []*fact{p.size}
	}
	for _, c := range l.all {
		for _, f := range c.facts {
			if f.kind == aSize && f.text != "" && f.To <= m.From && strings.TrimSpace(l.reading.low[f.To:m.From]) == "" {
				return []*fact{f} // "10mm granite at $53 and 20mm granite at $49"
			}
		}
	}
	if m.item != nil && m.item.medium == m.medium {
		for _, f := range m.item.facts {
			if f.kind == aSize && f.unclear == "" {
				out = append(out, f)
			}
		}
	}
	for _, c := range l.all {
		for _, f := range c.facts {
			if f.kind == aSize && len(out) == 0 && slices.Contains(c.facts, m) || f.kind == aSize && f.From > m.From && f.To <= p.From {
				out = append(out, f)
			}
		}
	}
	if slices.ContainsFunc(out, func(f *fact) bool { return f.text != out[0].text }) {
		return nil
	}
	return out
}

// breaks asks about lower prices from a number of packs on, between a price and the next medium.
func (l *leftovers) breaks() {
	again := l.namedAgain()
	for _, row := range l.rows {
		if row.offer == nil || row.offer.price == nil || row.item.medium == nil || row.cells["price"] == nil || row.item.row >= 0 {
			continue
		}
		price := row.offer.price
		ranges := []Range{l.untilOther(row, price.To, min(len(l.low), price.To+3*window))}
		for _, s := range again[row.item.medium] {
			if s.section == row.item.section && s.From >= ranges[len(ranges)-1].To && len(ranges) <= maxHolds {
				ranges = append(ranges, l.untilOther(row, s.From, s.To))
			}
		}
		var taken []Range
		for i, in := range ranges {
			low := l.withName(row.item.medium, in)
			l.spokenBreaks(row, in)
			for _, re := range []*expr{cues.BreakAfter, cues.BreakFirst} {
				for _, m := range l.matches(re, low, in.From, in.To) {
					part := m.part()
					if !overlapsAny(taken, part) && (i > 0 || m.has("more") || !l.holdsMedium(part.From, part.To)) && l.askBreak(row, m, part) {
						taken = append(taken, part)
					}
				}
			}
		}
	}
}

// spokenBreaks asks about a lower price from a number of packs on that is said as two numbers: "if you took ten it'd be six fifty".
func (l *leftovers) spokenBreaks(row *draft, in Range) {
	for _, m := range l.matches(cues.SpokenBreak, l.withName(row.item.medium, in), in.From, in.To) {
		n, bad := l.counting(m.text("n"))
		of, odd := l.unitCounted(l.unitText(m, "c"))
		for _, text := range inwords.Ways(m.text("said")) {
			one, why := l.number(text)
			money := units.MoneyOf(one.value)
			if bad+odd+why == "" && row.offer.pack.Counts(of) && l.rowBroken([]*draft{row}, &fact{medium: row.item.medium}, &fact{Range: m.part(), money: money}, n, pack{}) != nil {
				l.put(fmt.Sprintf("is %s the price of %s from %s on?", one.text, row.item.medium.Name, n.text), []Range{m.part()}, reply{one.text + " from " + n.text + " on", row.breaksAt(one.text, money, n)})
				break
			}
		}
	}
}

// namedAgain are the sentences that name a medium and hold no price of a row: "at 30 bags the lava comes down to $6.49".
func (l *leftovers) namedAgain() map[*quotes.Medium][]stretch {
	priced := map[int]bool{}
	for _, d := range l.rows {
		if d.offer != nil && d.offer.price != nil {
			priced[l.sentenceOf(d.offer.price)] = true
		}
	}
	out := map[*quotes.Medium][]stretch{}
	for _, s := range l.sentences() {
		for _, c := range s.clauses {
			for _, m := range c.media() {
				if before := out[m.medium]; !priced[c.sentence] && (len(before) == 0 || before[len(before)-1].From != s.From) {
					out[m.medium] = append(before, s)
				}
			}
		}
	}
	return out
}

func overlapsAny(taken []Range, part Range) bool {
	return slices.ContainsFunc(taken, func(o Range) bool { return o.From < part.To && part.From < o.To })
}

// untilOther is a stretch of the text up to where another medium than that of a row is named, or a supplier.
func (l *leftovers) untilOther(row *draft, from, to int) Range {
	for _, c := range l.all {
		if c.To <= from || c.From >= to {
			continue
		}
		for _, f := range c.facts {
			if f.From > from && (f.kind == aMedium && f.medium != row.item.medium || f.kind == aSupplier) {
				to = min(to, f.From)
			}
		}
	}
	return Range{from, max(from, to)}
}

// withName is what is left of the text, with the names of a medium between two bytes as they are.
func (l *leftovers) withName(of *quotes.Medium, in Range) string {
	out := []byte(l.low)
	for _, c := range l.all {
		for _, m := range c.media() {
			if m.medium == of && in.From <= m.From && m.To <= in.To {
				copy(out[m.From:m.To], l.reading.low[m.From:m.To])
			}
		}
	}
	return string(out)
}

// askBreak asks whether an amount is the price of a row from a number of packs on.
func (l *leftovers) askBreak(row *draft, m match, part Range) bool {
	text, money, why := l.amount(m, "m")
	n, bad := l.counting(m.text("n"))
	of, odd := l.unitCounted(l.unitText(m, "c"))
	if odd != "" {
		return false
	}
	at, end, _ := m.span("m")
	if _, to, _ := m.span("n"); m.re == cues.BreakFirst && to == at {
		return false // one number, and not two
	}
	if _, to, ok := m.span("mpost"); ok {
		end = to
	}
	if behind := l.behind(Range{at, end}); !m.signed() && cues.Measured.MatchString(behind) && !cues.BareRate.MatchString(behind) {
		return false // so many bags, and no price
	}
	before, gap := l.reading.low[max(0, part.From-window/8):part.From], cues.FallsTo.ReplaceAllString(m.text("gap"), "")
	if cues.OffBehind.MatchString(l.behind(Range{at, end})) || cues.EachBehind.MatchString(l.behind(Range{at, end})) || carrier.MatchString(l.reading.low[max(0, part.From-window/4):part.From]) || m.re == cues.BreakAfter && cues.AmountNext.MatchString(l.behind(part)) {
		return false // what comes off, or what bringing costs; or the number goes with the amount behind it: "5 for $36.50 each or 20 for $33.95"
	}
	if from, _, _ := m.span("n"); monthBefore.MatchString(l.reading.low[max(0, from-window):from]) || strings.HasPrefix(l.reading.low[from:], m.text("n")+":") || strings.HasPrefix(l.reading.low[end:], ":") {
		return false // "by May 22"
	}
	if _, to, _ := m.span("n"); !m.has("c") && !m.has("more") && cues.NotOfPacks.MatchString(l.behind(Range{at, to})) {
		return false // "£45 if you are within 10 miles"
	}
	said := m.text("gap")
	if at := cues.GapEnds.FindAllStringIndex(said, -1); len(at) > 0 && m.re == cues.BreakAfter { // "it drops to $9. There is a limit of 40"
		before, said = "", said[at[len(at)-1][1]:]
	}
	cued := m.has("more") || cues.TimesFront.MatchString(before) || cues.BuysWord.MatchString(before) || cues.BuysWord.MatchString(said)
	if year := whole(n.text); year >= 1900 && year < 2100 && !m.has("c") {
		return false // "April 27, 2026"
	}
	if why != "" || bad != "" || !cued || !plainCount(n.text) || !row.offer.pack.Counts(of) || m.re == cues.BreakAfter && cues.StandsHere.MatchString(gap) || cues.EachBehind.MatchString(l.behind(part)) || carryWord.MatchString(gap) || strings.Contains(gap, "up to") ||
		l.rowBroken([]*draft{row}, &fact{medium: row.item.medium}, &fact{Range: part, money: money}, n, pack{}) == nil {
		return false
	}
	parts := []Range{part}
	if from, to, _ := m.span("n"); m.re == cues.BreakFirst && l.holdsMedium(part.From, part.To) { // it names what it is of
		parts = []Range{{from, to}, {at, end}}
	}
	l.put(fmt.Sprintf("is %s the price of %s from %s on?", text, row.item.medium.Name, n.text), parts, reply{text + " from " + n.text + " on", row.breaksAt(text, money, n)})
	return true
}

// sizes asks about a size that stands with the name of what a row is of, or between it and the price, where the row has none.
func (l *leftovers) sizes() {
	before := 0
	for _, row := range l.rows {
		if row.offer == nil || row.offer.price == nil || row.cells["price"] == nil {
			continue
		}
		price := row.offer.price
		if row.cells["size"] == nil && row.item.row < 0 && len(row.item.from) > 0 {
			var found []*fact
			for _, c := range l.all {
				for _, f := range c.facts {
					if f.kind == aSize && !l.used[f] && f.ask == nil && f.text != "" && f.From >= before && f.To <= price.From && oneOf(c.sentence, l.sentenceOf(price), l.sentenceOf(row.item.from[0])) && (found == nil || f.text != found[0].text) {
						found = append(found, f)
					}
				}
			}
			if len(found) == 1 {
				l.put(fmt.Sprintf("is that the size of %s at %s?", row.item.name(), price.text), []Range{found[0].Range}, l.cell(found[0].text, "size", found[0].text, []*draft{row}))
			}
		}
		before = max(before, price.To)
	}
}
