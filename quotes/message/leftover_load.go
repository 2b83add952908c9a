package message

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// carryWord is a word for bringing goods, or for what brings them.
var carryWord = compile(`\b(?:` + bringWords + `|lorr(?:y|ies)|wagons?|loads?|trailers?|tandems?|tri-?axles?|artics?|rigids?|hiabs?|vans?|utes?|carts?|carting|drivers?|to (?:post|send)|posted|posting|we send|sent (?:by|on)|(?:per|an|each|every) (?:order|consignment|shipment)|flatbeds?|walking[ -]floors?|end[ -]?dumps?|semis?|moffett|carriers?|dropping|(?:s?he|they|cousin|brother|son|daughter|husband|wife|nephew|lad|mate) drives|(?:to get|getting) (?:it|them|that|everything|the goods) (?:out|over|there|here|to|across|up|round|down)|(?:up to|within|under|inside) \d{1,3} ?(?:miles?|mi|kms?)[ \t:=-]*[$£€])\b`)

// looseSum is any amount, looseRoom any quantity of what is carried.
var (
	looseSum  = compile(looseAmount)
	looseRoom = compile(`(?P<q>` + quantity + `)` + sp + `-?` + sp + `(?:(?P<v>` + anyUnit + `|met(?:re|er)s?\b)|(?P<f>` + packForm + `))`)
	roomSaid  = compile(`\b(?:` + plainNumber + `|` + uptoTwelve + `)` + sp + `-?` + sp + `(?:` + anyUnit + `|` + packForm + `)`) // in whole words
	carrier   = compile(`\b(?:trucks?|trailers?|flatbeds?|tippers?|lorr(?:y|ies)|wagons?|moffett|brings?|bring(?:ing)?|deliver\w*|haul\w*|freight|carriage|shipping|drivers?|transport|cartage|(?:to get|getting) (?:it|them|that|everything|the goods) (?:out|over|there|here|to|across|up|round|down))\b`)
	bareRoom  = compile(`\b(?:fits|holds|takes|carries|maxes out at|tops out at)[ \t]+(?P<q>` + plainNumber + `|` + uptoTwelve + `)\b|\b(?P<t>` + plainNumber + `|` + uptoTwelve + `)[ \t]+(?:at a time|at once|at a go|(?:in|on|to) (?:the|a|one|each) (?:load|trip|run|go|van|cart|` + truckWord + `))\b`)
)

// carries says whether words speak of bringing goods, and not of what brings a price down.
func carries(said string) bool {
	return carryWord.MatchString(cues.BringsTo.ReplaceAllString(said, ""))
}

// charge is an amount or a quantity that may fill a cell of delivery.csv: a fee, how much a load holds, a value of goods. One without a
// part of the text follows from others.
type charge struct {
	Range
	text, column string
	money        units.Money
	order        bool // a fee that is said to be for each order
	load         bool // or for each load
}

// loads asks what bringing the goods of each supplier costs that has rows and no fee, and what else is said of it where a fee is known.
func (l *leftovers) loads() {
	if !l.wide {
		return
	}
	for i, sec := range l.sections {
		rows := l.of(i)
		if len(rows) == 0 && !sec.doubtful || sec.has(aSurcharge) || slices.ContainsFunc(rows, func(d *draft) bool { return !sameCells(d.cells["supplier"], rows[0].cells["supplier"]) }) {
			continue
		}
		of := slices.DeleteFunc(slices.Clone(l.ways), func(d *draft) bool {
			return len(rows) > 0 && !sameCells(d.cells["supplier"], rows[0].cells["supplier"])
		})
		sums, rooms := l.carried(i, rows)
		values := slices.Concat(l.values(i, "free_over", cues.FreeWord, cues.FreeBefore), l.values(i, "min_order", cues.LeastWord, cues.LeastBefore))
		sums = slices.DeleteFunc(sums, func(s charge) bool {
			return cues.PerMile.MatchString(l.reading.low[s.To:]) || slices.ContainsFunc(values, func(v charge) bool { return v.From < s.To && s.From < v.To })
		})
		if len(sums) == 2 && slices.ContainsFunc(sec.facts, func(f *fact) bool {
			return f.kind == aSurcharge && f.From <= sums[1].From && sums[1].To <= f.To && sums[0].load == cues.LoadSaid.MatchString(l.reading.low[f.From:f.To])
		}) {
			both := sums[0].money.Add(sums[1].money) // either alone is too little
			sums[0].text, sums[0].money, sums[0].To = l.lowered(&fact{text: sums[0].text}, both.Decimal()), both, sums[1].To
			sums = sums[:1]
		}
		known, delivered := of, len(rows) > 0 && rows[0].cells["delivery"] != nil
		if delivered {
			known = rows
		}
		l.restTier(i, rows, of)
		switch {
		case len(of) == 1 || delivered:
			if load := known[0].cells; load["load_fee"] != nil && load["load_volume"] == nil && load["load_weight"] == nil && (len(rooms) == 1 || len(rooms) == 2 && rooms[0].column != rooms[1].column) {
				values = append(values, rooms...)
			}
			for _, c := range values {
				if known[0].cells[c.column] == nil && (c.column == "free_over" || !delivered) {
					l.put(first(asksTerm[c.column], "is that what a load holds?"), saidBy(c), reply{c.text, func(from []*fact) {
						for _, d := range known {
							d.set(c.column, c.text, answeredTerm, from...)
						}
					}})
				}
			}
		case len(of) > 0 || l.askKinds(i, rows, values):
		case len(sums) > 0:
			l.askFees(i, rows, sums, rooms, values)
		}
	}
}

const answeredTerm = "said of delivery, as answered"

var (
	asksTerm = map[string]string{"free_over": "is delivery free from that value on?", "min_order": "is that the least order that is brought?"}
	saysTerm = map[string]string{"load_volume": " of up to ", "load_weight": " of up to ", "free_over": ", free from ", "min_order": ", for no order below "}
	saysForm = map[string]string{"bag": ", for what comes in bags", "bulk": ", for what comes in bulk", "sack": ", for what comes in bulk bags"}
)

// packedAs is the form of the packs of a row.
func packedAs(d *draft) string {
	if d.offer.pack.RealForm() == "" && d.offer.pack.Text != "" && !looseUnit(d.offer.pack) {
		return string(quotes.Bag)
	}
	return first(d.offer.pack.RealForm(), string(quotes.Bulk))
}

// way is the answer that a row of delivery.csv has these terms, the first of them a fee.
func (l *leftovers) way(section int, rows []*draft, column string, fee charge, terms ...charge) reply {
	label := fee.text + map[string]string{"load_fee": " for each load", "order_fee": " for each order"}[column]
	for i, t := range terms {
		if t.column == "covers" {
			label += saysForm[t.text]
		} else if joint := saysTerm[t.column]; i > 0 && strings.HasPrefix(t.column, "load_") {
			label += " or " + t.text
		} else if joint != "" {
			label += joint + t.text
		}
	}
	fee.column = column
	return reply{label, func(from []*fact) {
		d := &draft{cells: map[string]*made{}}
		for _, t := range append(terms, fee) {
			d.set(t.column, t.text, answeredTerm, from...)
		}
		l.named(d, l.sections[section], rows)
		l.sections[section].taxFee(d)
		l.ways = append(l.ways, d)
	}}
}

// saidBy are the parts of the text that charges stand in.
func saidBy(charges ...charge) (out []Range) {
	for _, c := range charges {
		out = append(out, c.Range)
	}
	return out
}

// askFees asks which of some amounts are for bringing goods, and of how much.
func (l *leftovers) askFees(section int, rows []*draft, sums, rooms, values []charge) {
	var replies []reply
	parts, question, n := saidBy(slices.Concat(sums, rooms, values)...), asksFee, len(sums)
	switch {
	case n == len(rooms) && n > 1 && turns(sums, rooms): // of which truck the values are it is not said
		for j, s := range sums {
			l.put("is it what such a load costs?", saidBy(s, rooms[j]), l.way(section, rows, "load_fee", s, rooms[j], charge{text: "truck", column: "name"}))
		}
	case n == 1 && sums[0].order:
		parts = saidBy(append(values, sums[0])...)
		replies = []reply{l.way(section, rows, "order_fee", sums[0], values...)}
	case n == 1 && (len(rooms) < 2 || len(rooms) == 2 && rooms[0].column != rooms[1].column):
		replies = []reply{l.way(section, rows, "load_fee", sums[0], append(rooms, values...)...)}
		if len(rooms) < 2 && !sums[0].load {
			replies = slices.Insert(replies, len(rooms), l.way(section, rows, "order_fee", sums[0], values...))
		}
	case n <= maxHolds && len(rooms) < 2:
		question = amongFees
		for _, s := range sums {
			if len(rooms) == 0 && !slices.ContainsFunc(sums, func(o charge) bool { return o.load }) || s.order {
				replies = append(replies, l.way(section, rows, "order_fee", s, values...))
			} else {
				replies = append(replies, l.way(section, rows, "load_fee", s, append(rooms, values...)...))
			}
		}
	}
	l.put(question, parts, replies...)
}

// askKinds asks about fees for one kind of pack, each with what is said from the word for that kind to the next, "loose $190 a load of
// 20 m³; bags $35 per bag", and about those for each volume or weight. It says whether there are any.
func (l *leftovers) askKinds(section int, rows []*draft, values []charge) bool {
	several := slices.ContainsFunc(rows, func(d *draft) bool { return packedAs(d) != packedAs(rows[0]) })
	other := l.unnamed(section, rows)
	found := (several || len(rows) == 0) && slices.ContainsFunc(l.all, func(c *clause) bool {
		return l.sectionAt(c.From) == section && slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aClassFee || f.why == oneKindOfPack })
	})
	for _, s := range l.sentences() {
		said := l.reading.low[s.From:s.To]
		if s.section != section || !carries(said) && !l.fetchAnswer(s) || len(rows) == 0 {
			continue
		}
		from, class := 0, other
		for _, at := range append(cues.ClassSaid.FindAllStringIndex(said, -1), []int{len(said), len(said)}) {
			if to := at[0]; to < len(said) && class == "" && cues.CountedBefore.MatchString(said[:to]) {
				class = said[at[0]:at[1]] // "the flatbed takes 8 sacks"
			} else if to == len(said) || !cues.CountedBefore.MatchString(said[:to]) {
				if held := cues.RoomLast.FindStringIndex(said[from:to]); held != nil { // "6 yards loose at $70 a trip"
					to = from + held[0]
				}
				found = l.askKind(section, rows, values, several, class, s.From+from, s.From+to) || found
				from, class = to, said[at[0]:at[1]]
			}
		}
	}
	return found
}

// fetchAnswer says whether a sentence answers a question about delivery that stands right above it.
func (l *leftovers) fetchAnswer(s stretch) bool {
	return slices.ContainsFunc(l.fixed, func(f *fact) bool {
		return f.column == "delivery" && f.To <= s.From && strings.TrimSpace(l.reading.low[f.To:s.From]) == ""
	})
}

// unnamed is the kind of pack that sentences about bringing speak of which name none: the only one that no other of them names.
func (l *leftovers) unnamed(section int, rows []*draft) string {
	of := slices.Clone(rows)
	for _, s := range l.sentences() {
		if said := l.reading.low[s.From:s.To]; s.section == section && carries(said) {
			for _, at := range cues.ClassSaid.FindAllStringIndex(said, -1) {
				some := ofForm(rows, classForm(squeeze(said[at[0]:at[1]])))
				of = slices.DeleteFunc(of, func(d *draft) bool { return slices.Contains(some, d) })
			}
		}
	}
	if len(of) == 0 || len(of) == len(rows) || slices.ContainsFunc(of, func(d *draft) bool { return packedAs(d) != packedAs(of[0]) }) {
		return ""
	}
	return packedAs(of[0])
}

// askKind asks about the fee between two bytes if there is one such, and says so.
func (l *leftovers) askKind(section int, rows []*draft, values []charge, several bool, class string, from, to int) bool {
	var fees []charge
	var each []string // of a pack by its form, or of a unit
	said := l.reading.low[from:to]
	for _, m := range l.find(looseSum, from, to) {
		text, money, why := l.amount(m, "m")
		of := cues.EachOf.FindStringSubmatch(l.reading.low[m.end():to])
		if of != nil && of[1] != "" && (pack{Form: formOf(of[1])}).RealForm() == "" {
			of = nil // a load or a pallet
		}
		if why != "" || money.Sign() <= 0 || l.calls(m.part()) || of == nil && (class == "" || !m.signed() && !cues.EachBehind.MatchString(l.behind(m.part()))) {
			continue
		}
		fees, each = append(fees, charge{Range: m.part(), text: text, money: money}), of
	}
	if len(fees) != 1 {
		return false
	}
	var replies []reply
	fee := fees[0]
	parts := saidBy(fee)
	way := func(column string, terms ...charge) {
		replies = append(replies, l.way(section, rows, column, fee, terms...))
	}
	form := classForm(squeeze(class))
	if each != nil && (form == "" || form == string(quotes.Bulk)) {
		form = formOf(each[1])
	}
	of := ofForm(slices.DeleteFunc(slices.Clone(rows), func(d *draft) bool { // which do not cost less than that
		return each != nil && packedAs(d) != string(quotes.Bulk) && (d.offer.price == nil || fee.money.Cmp(d.offer.price.money) >= 0)
	}), form)
	if len(of) > 0 {
		form = packedAs(of[0])
	}
	cover := []charge{{text: form, column: "covers"}, {text: form, column: "name"}}
	switch rooms := l.rooms(from, to, of); {
	case each != nil && each[2] != "":
		p, why := l.holding("1", each[2], "")
		if why != "" || !looseUnit(p) || !cues.AddsWord.MatchString(said) || slices.ContainsFunc(rows, func(d *draft) bool { return d.offer.price == nil || fee.money.Cmp(d.offer.price.money) >= 0 }) {
			return false
		}
		if parts = saidBy(append(values, fee)...); p.Amount.IsMass { // haul knows no weights
			way("load_fee", append([]charge{held(Range{}, p)}, values...)...)
		} else {
			fee.text += " / " + unitName(each[2])
			way("haul", values...)
		}
	case len(of) == 0 || each == nil && (!several || len(rooms) > 1):
		return false
	case each == nil:
		parts = saidBy(append(rooms, fee)...)
		if way("load_fee", append(rooms, cover...)...); len(rooms) == 0 {
			way("order_fee", cover...)
		}
	default:
		for i, d := range of {
			if d.offer.pack.Text != "" && !slices.ContainsFunc(of[:i], func(o *draft) bool { return o.offer.pack.Text == d.offer.pack.Text }) {
				way("load_fee", append([]charge{held(Range{}, d.offer.pack)}, cover...)...)
			}
		}
	}
	l.put(asksFee, parts, replies...)
	return true
}

// ofForm are the rows of packs of a form, a small bag of which may be called a sack, and a bulk bag a bag.
func ofForm(rows []*draft, form string) (out []*draft) {
	for _, one := range []string{form, map[string]string{"bag": "sack", "sack": "bag"}[form]} {
		for _, d := range rows {
			if packedAs(d) == one {
				out = append(out, d)
			}
		}
		if len(out) > 0 {
			break
		}
	}
	return out
}

// held is what a load holds.
func held(part Range, p pack) charge {
	if p.Amount != nil && p.Amount.IsMass {
		return charge{Range: part, text: p.Text, column: "load_weight"}
	}
	return charge{Range: part, text: p.Text, column: "load_volume"}
}

// values is the one value of goods left in sentences with a word and behind others, under a heading; none where there are several.
func (l *leftovers) values(section int, column string, word, before *expr) (out []charge) {
	for _, c := range l.all {
		for _, f := range c.facts {
			if (f.why == maybeFree || f.unclear == nothingToWaive) && column == "free_over" && l.sectionAt(f.From) == section && !l.used[f] && (!never[c.poison] || c.poison == doubts["not"]) {
				out = append(out, charge{Range: f.Range, text: f.text, money: f.money, column: column})
			}
		}
	}
	for _, s := range l.sentences() {
		said := l.reading.low[s.From:s.To]
		if s.section != section || !word.MatchString(said) || column == "free_over" && !carries(said) && !cues.AnyFree.MatchString(said) {
			continue
		}
		for _, m := range l.matches(looseSum, l.denied, s.From, s.To) {
			text, money, why := l.amount(m, "m")
			if why == "" && money.Sign() > 0 && (before.MatchString(l.reading.low[s.From:m.part().From]) || column == "min_order" && m.signed() && cues.LeastBehind.MatchString(l.behind(m.part()))) && !l.calls(m.part()) && (m.signed() || column == "free_over") && !cues.Measured.MatchString(l.behind(m.part())) && !slices.ContainsFunc(out, func(o charge) bool { return o.money.Equal(money) }) {
				out = append(out, charge{Range: m.part(), text: text, money: money, column: column})
			}
		}
	}
	if len(out) > 1 {
		return nil
	}
	return out
}

// turns says whether fees and what loads hold take turns.
func turns(sums, rooms []charge) bool {
	first := sums[0].From < rooms[0].From
	for i := range sums {
		if (sums[i].From < rooms[i].From) != first || i > 0 && (sums[i].From < rooms[i-1].From || rooms[i].From < sums[i-1].From) {
			return false
		}
	}
	return true
}

// carried are the amounts and the quantities left in sentences that speak of bringing goods, and in those behind them that go on about it.
func (l *leftovers) carried(section int, rows []*draft) (sums, rooms []charge) {
	going, listed := false, false // below a line such as "Delivery, by what you order:"
	for _, s := range l.sentences() {
		if s.section != section {
			going = false
			continue
		}
		said := l.reading.low[s.From:s.To]
		carried := carries(said) || listed && stepLine.MatchString(said)
		listed = carried && (listed || listHead.MatchString(said))
		if !carried && !(going && cues.RoomWord.MatchString(said)) {
			going = false
			continue
		}
		going = true
		from, to := s.From, s.To
		if at := carryWord.FindStringIndex(said); carried && to-from > 2*window { // a message without full stops
			from, to = max(from, s.From+at[0]-window/2), min(to, s.From+at[1]+window)
		}
		rooms = append(rooms, l.rooms(from, to, rows)...)
		if !carried {
			continue
		}
		for _, one := range l.sums(from, to) {
			if !slices.ContainsFunc(sums, func(o charge) bool { return o.money.Equal(one.money) }) {
				sums = append(sums, one)
			}
		}
	}
	if len(sums) == 1 && len(rooms) > 1 { // halves that are loaded stand elsewhere
		at := slices.IndexFunc(l.sentences(), func(s stretch) bool { return s.From <= sums[0].From && sums[0].From < s.To })
		s := l.sentences()[at]
		if near := slices.DeleteFunc(slices.Clone(rooms), func(c charge) bool { return c.From < s.From || s.To <= c.From }); len(near) > 0 {
			rooms = near
		}
	}
	return sums, rooms
}

// listHead is a line with no number above a list, stepLine one of it: "4 to 8 yds   $75", "Zone B (8-18 miles)  $85".
var (
	listHead = compile(`^[^\d\n]*[:\n][ \t\r\n]*$`)
	stepLine = compile(cues.ZoneStart + `[^\n$£€]{0,30}` + looseAmount + `[ \t\r\n]*$|` + `^[ \t*•-]*(?:(?:up to|under|to|over|above|within|max\.?|maximum|first) )?(?:\d+[ \t]*(?:-|–|to)[ \t]*)?\d+[ \t]*(?:` + anyUnit + `|miles?|mi|kms?)[ \t:.=–-]*` + looseAmount + `[ \t\r\n]*$`)
)

// sums are the amounts between two bytes that may be a fee.
func (l *leftovers) sums(from, to int) (out []charge) {
	for _, m := range l.find(looseSum, from, to) {
		at, end := m.at+m.idx[0], m.end()
		before, behind := l.reading.low[max(from, at-window):at], l.reading.low[end:min(to, end+window)]
		signed := m.signed()
		each := cues.EachBehind.MatchString(behind)
		if cues.FreeBefore.MatchString(before) || cues.BothWays.MatchString(behind) || cues.RestBehind.MatchString(behind) || cues.UnitPriceBehind.MatchString(behind) && !each || !signed && !each && !cues.CostsBefore.MatchString(before) && !cues.PlaceBehind.MatchString(behind) || !signed && cues.Measured.MatchString(behind) && !each && !nearby.MatchString(behind) || cues.CountsBefore.MatchString(before) && !each && !signed {
			continue
		}
		text, money, why := l.amount(m, "m")
		if why == "" && money.Sign() > 0 && !l.calls(Range{at, end}) && !numbered.MatchString(before) {
			out = append(out, charge{Range: Range{at, end}, text: text, money: money, order: cues.OrderBehind.MatchString(behind), load: cues.LoadBehindIt.MatchString(behind)})
		}
	}
	return out
}

// rooms are the quantities between two bytes that a load may hold, as a volume or a weight.
func (l *leftovers) rooms(from, to int, rows []*draft) (out []charge) {
	for _, m := range append(l.find(looseRoom, from, to), l.find(bareRoom, from, to)...) {
		at, end := m.at+m.idx[0], m.end()
		if before := l.reading.low[max(from, at-window):at]; cues.CountsBefore.MatchString(before) && !cues.MostBefore.MatchString(before) || cues.LeastSaid.MatchString(before) || strings.HasSuffix(strings.TrimRight(before, " "), "$") || cues.CountsBehind.MatchString(l.reading.low[end:to]) {
			continue
		}
		f := &fact{}
		switch {
		case m.re == bareRoom && slices.ContainsFunc(out, func(o charge) bool { return o.From < end && at < o.To }):
			continue // with its unit
		case m.re == bareRoom, m.has("f"):
			why := ""
			f.from, why = l.counting(first(m.text("q"), m.text("t")))
			f.counted.Form = formOf(m.text("f"))
			of := rows
			if some := ofForm(rows, f.counted.Form); len(some) > 0 {
				of, f.counted.Form = some, packedAs(some[0])
			}
			if why != "" || !l.countsPacks(f, of) {
				continue
			}
		default:
			p, why := l.holding(m.text("q"), l.unitText(m, "v"), "")
			if why != "" || !looseUnit(p) {
				continue
			}
			f.unit = p
		}
		if one := held(Range{at, end}, f.unit); !slices.ContainsFunc(out, func(o charge) bool { return o.text == one.text }) {
			out = append(out, one)
		}
	}
	return out
}
