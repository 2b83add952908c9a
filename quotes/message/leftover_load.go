package message

import (
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// carryWord is a word for bringing goods, or for what brings them.
var carryWord = compile(`\b(?:` + deliver + `|haul\w*|truck\w*|tippers?|trips?|freight|drop(?:[ -]?off|s|ped)?|bring\w*|lorr(?:y|ies)|wagons?|run|ships?|loads?|trailers?|tandems?|tri-?axles?|artics?|rigids?|hiabs?|vans?|utes?|carts?|cartage|flatbeds?|moffett)\b`)

// roomWord is a word for how much goes on something.
var roomWord = compile(`\b(?:up to|max\w*|fits?|holds?|takes?|carr(?:y|ies)|puts?|tops|at a time|on it|on board|on (?:the|a|one|each)|loads?|trips?)\b`)

// looseAmount is an amount of money whose sign does not stand in front of the number behind it: "x 10 £20".
const looseAmount = `(?:(?P<mpre>` + signBefore + `)` + sp + `)?(?P<m>` + plainNumber + `)(?:` + sp + `(?P<mpost>kr\b\.?|€|(?:usd|eur|gbp|cad|aud|nzd|chf|sek|nok|dkk|pln|czk|zar|inr|dol+[ae]rs?|bucks|euros?|quid|rupees)\b))?`

// looseSum is any amount, looseRoom any quantity of what is carried.
var (
	looseSum  = compile(looseAmount)
	looseRoom = compile(`(?P<q>` + quantity + `)` + sp + `-?` + sp + `(?:(?P<v>` + anyUnit + `|met(?:re|er)s?\b)|(?P<f>` + packForm + `))`)
	roomSaid  = compile(`\b(?:` + plainNumber + `|` + uptoTwelve + `)` + sp + `-?` + sp + `(?:` + anyUnit + `|` + packForm + `)`) // in whole words
	carrier   = compile(`\b(?:trucks?|trailers?|flatbeds?|tippers?|lorr(?:y|ies)|wagons?|moffett|brings?|bring(?:ing)?|deliver\w*|haul\w*|freight|carriage|shipping)\b`)
	bareRoom  = compile(`\b(?:fits|holds|takes|carries|maxes out at|tops out at)[ \t]+(?P<q>` + plainNumber + `|` + uptoTwelve + `)\b`)
)

// What stands around a number and says that it is none of these.
var (
	countsBefore    = compile(`(?:over|from|above|more than|at least|min(?:imum)?(?: of| is|:)?|least|first|every|zone|than|if|no\.?|#|buy|order|take|get)[ \t:]*$`)
	countsBehind    = compile(`^[ \t-]*(?:min\b|minimum|or (?:more|better|over|above)|and (?:up|over)|\+|plus|off|%|steps?|increments?)`)
	eachBehind      = compile(`^[ \t]*(?:/|per|an?|each|for (?:the|an?|each)|round)[ \t]*(?:truck[ -]?)?(?:loads?|trips?|trucks?|drops?|runs?|deliver(?:y|ies)|tour|haul|order|time|pallet|skid|go)\b`)
	unitPriceBehind = compile(`^(?:` + sp + `(?:/|per|an?|each|the)` + sp + `(?:` + anyUnit + `|` + packForm + `|mile|km|kilomet|hour|hr|person))`)
	placeBehind     = compile(`^[ \t]+(?:to|for|in|inside|outside|beyond|past|within|anywhere|elsewhere|if)\b`) // of a number that may be a fee for so far
	freeBefore      = compile(`\b(?:over|above|under|below|free|spend\w*|reach\w*|hits?|orders?(?: of| over)?|worth|totall?ing|than|exceed\w*|past)[ \t]*(?:of |is |at |from )?$`)
	freeWord        = compile(`\b(?:free|no charge|nothing|waived?|scrap(?:ped)?|drop(?:ped)? the|on us|included)\b`)
	anyFree         = compile(`\bfree\b|\bwe scrap\b|\bwaive`)
	restBehind      = compile(`^[ \t]*(?:(?:returnable|refundable|extra|pallet|key) )*(?:deposit|surcharge|off\b|more\b|less\b|discount|credit)`)
	bothWays        = compile(`^[ \t]*(?:each|both|per|one) ?ways?\b`)
	costsBefore     = compile(`(?:['’]s|\b(?:for|is|at|costs?|runs?|flat|it's|its|thats|that's|be|charge|fee|deliver(?:y|ed)|another|or|and|but|haul\w*|freight|trip)|[:=@-]|\.{3,})[ \t]*$`)
)

// sum is an amount that may be what bringing something costs, room how much a load may hold.
type (
	sum struct {
		Range
		text  string
		money units.Money
	}
	room struct {
		Range
		text, column string
	}
)

// loads asks what bringing the goods of each supplier costs that has rows and no fee, and what a load holds where only its fee is known.
func (l *leftovers) loads() {
	if !l.wide {
		return
	}
	for i, sec := range l.sections {
		rows := l.of(i)
		if len(rows) == 0 && !sec.doubtful || sec.has(aSurcharge) || l.byClass(i, rows) || slices.ContainsFunc(rows, func(d *draft) bool { return !sameCells(d.cells["supplier"], rows[0].cells["supplier"]) }) || slices.ContainsFunc(rows, func(d *draft) bool { return d.cells["delivery"] != nil }) {
			continue
		}
		of := slices.DeleteFunc(slices.Clone(l.ways), func(d *draft) bool {
			return len(rows) > 0 && !sameCells(d.cells["supplier"], rows[0].cells["supplier"])
		})
		sums, rooms := l.carried(i, rows)
		free := l.free(i)
		if len(of) == 1 && len(rooms) == 1 && of[0].cells["load_fee"] != nil && of[0].cells["load_volume"] == nil && of[0].cells["load_weight"] == nil {
			l.put("is that what a load holds?", []Range{rooms[0].Range}, reply{rooms[0].text, func(from []*fact) {
				of[0].set(rooms[0].column, rooms[0].text, "what a load holds, as answered", from...)
			}})
			continue
		}
		if len(of) > 0 || len(sums) == 0 {
			continue
		}
		l.askFees(i, rows, sums, rooms, free)
	}
}

// byClass says whether a section has fees for one kind of pack, and packs of several kinds.
func (l *leftovers) byClass(section int, rows []*draft) bool {
	kinds := map[string]bool{}
	for _, d := range rows {
		if form := d.offer.pack.RealForm(); form != "" {
			kinds[form] = true
		} else {
			kinds[string(quotes.Bulk)] = true
		}
	}
	return len(kinds) != 1 && slices.ContainsFunc(l.all, func(c *clause) bool {
		return l.sectionAt(c.From) == section && slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aClassFee || f.why == oneKindOfPack })
	})
}

// askFees asks which of some amounts are for bringing goods, and of how much.
func (l *leftovers) askFees(section int, rows []*draft, sums []sum, rooms []room, free []sum) {
	fee := func(column string, s sum, rooms []room, named bool) reply {
		label := s.text + map[string]string{"load_fee": " for each load", "order_fee": " for each order"}[column]
		for j, h := range rooms {
			label += []string{" of up to ", " or "}[min(j, 1)] + h.text
		}
		for _, f := range free {
			label += ", free from " + f.text
		}
		return reply{label, func(from []*fact) {
			d := &draft{cells: map[string]*made{}}
			if named {
				d.set("name", "truck", "sizes of truck of one service", from...)
			}
			d.set(column, s.text, "what bringing goods costs, as answered", from...)
			for _, h := range rooms {
				d.set(h.column, h.text, "what a load holds, as answered", from...)
			}
			for _, f := range free {
				d.set("free_over", f.text, "free from this value, as answered", from...)
			}
			l.named(d, l.sections[section], rows)
			l.ways = append(l.ways, d)
		}}
	}
	parts := func(sums []sum, rooms []room) (out []Range) {
		for _, s := range sums {
			out = append(out, s.Range)
		}
		for _, h := range rooms {
			out = append(out, h.Range)
		}
		for _, f := range free {
			out = append(out, f.Range)
		}
		return out
	}
	switch n := len(sums); {
	case n == len(rooms) && n > 1 && turns(sums, rooms):
		free = nil // of which truck it is not said
		for j, s := range sums {
			l.put("is it what such a load costs?", parts(sums[j:j+1], rooms[j:j+1]), fee("load_fee", s, rooms[j:j+1], true))
		}
	case n == 1 && (len(rooms) < 2 || len(rooms) == 2 && rooms[0].column != rooms[1].column):
		replies := []reply{fee("load_fee", sums[0], rooms, false)}
		switch len(rooms) {
		case 0:
			replies = slices.Insert(replies, 0, fee("order_fee", sums[0], nil, false))
		case 1:
			replies = append(replies, fee("order_fee", sums[0], nil, false))
		}
		l.put(asksFee, parts(sums, rooms), replies...)
	case n <= maxHolds && len(rooms) < 2:
		var replies []reply
		for _, s := range sums {
			replies = append(replies, fee("load_fee", s, rooms, false))
		}
		if len(rooms) == 0 {
			for j, s := range sums {
				replies[j] = fee("order_fee", s, nil, false)
			}
		}
		l.put(amongFees, parts(sums, rooms), replies...)
	}
}

// free is the one value left from which a section's delivery is free; none where there are several.
func (l *leftovers) free(section int) (out []sum) {
	for _, s := range l.sentences() {
		if s.section != section {
			continue
		}
		said := l.reading.low[s.From:s.To]
		if !freeWord.MatchString(said) || !carryWord.MatchString(said) && !anyFree.MatchString(said) {
			continue
		}
		for _, m := range l.find(looseSum, s.From, s.To) {
			at, end := m.at+m.idx[0], m.end()
			text, money, why := l.amount(m, "m")
			if before := l.reading.low[s.From:at]; why == "" && money.Sign() > 0 && freeBefore.MatchString(before) && !l.calls(Range{at, end}) {
				out = append(out, sum{Range{at, end}, text, money})
			}
		}
	}
	if len(out) > 1 {
		return nil
	}
	return out
}

// turns says whether fees and what loads hold take turns.
func turns(sums []sum, rooms []room) bool {
	first := sums[0].From < rooms[0].From
	for i := range sums {
		if (sums[i].From < rooms[i].From) != first || i > 0 && (sums[i].From < rooms[i-1].From || rooms[i].From < sums[i-1].From) {
			return false
		}
	}
	return true
}

// carried are the amounts and the quantities left in sentences that speak of bringing goods, and in those behind them that go on about it.
func (l *leftovers) carried(section int, rows []*draft) (sums []sum, rooms []room) {
	going := false
	for _, s := range l.sentences() {
		if s.section != section {
			going = false
			continue
		}
		said := l.reading.low[s.From:s.To]
		carries := carryWord.MatchString(said)
		if !carries && !(going && roomWord.MatchString(said)) {
			going = false
			continue
		}
		going = true
		from, to := s.From, s.To
		if at := carryWord.FindStringIndex(said); carries && to-from > 2*window { // a message without full stops
			from, to = max(from, s.From+at[0]-window/2), min(to, s.From+at[1]+window)
		}
		rooms = append(rooms, l.rooms(from, to, rows)...)
		if !carries {
			continue
		}
		for _, one := range l.sums(from, to) {
			if !slices.ContainsFunc(sums, func(o sum) bool { return o.money.Equal(one.money) }) {
				sums = append(sums, one)
			}
		}
	}
	return sums, rooms
}

// sums are the amounts between two bytes that may be a fee.
func (l *leftovers) sums(from, to int) (out []sum) {
	for _, m := range l.find(looseSum, from, to) {
		at, end := m.at+m.idx[0], m.end()
		before, behind := l.reading.low[max(from, at-window):at], l.reading.low[end:min(to, end+window)]
		signed := m.signed()
		each := eachBehind.MatchString(behind)
		if freeBefore.MatchString(before) || bothWays.MatchString(behind) || restBehind.MatchString(behind) || unitPriceBehind.MatchString(behind) && !each || !signed && !each && !costsBefore.MatchString(before) && !placeBehind.MatchString(behind) || !signed && measured.MatchString(behind) && !each || countsBefore.MatchString(before) && !each && !signed {
			continue
		}
		text, money, why := l.amount(m, "m")
		if why == "" && money.Sign() > 0 && !l.calls(Range{at, end}) && !numbered.MatchString(before) {
			out = append(out, sum{Range{at, end}, text, money})
		}
	}
	return out
}

// rooms are the quantities between two bytes that a load may hold, as a volume or a weight.
func (l *leftovers) rooms(from, to int, rows []*draft) (out []room) {
	for _, m := range append(l.find(looseRoom, from, to), l.find(bareRoom, from, to)...) {
		at, end := m.at+m.idx[0], m.end()
		if before := l.reading.low[max(from, at-window):at]; countsBefore.MatchString(before) || strings.HasSuffix(strings.TrimRight(before, " "), "$") || countsBehind.MatchString(l.reading.low[end:to]) {
			continue
		}
		f := &fact{}
		switch {
		case m.re == bareRoom && slices.ContainsFunc(out, func(o room) bool { return o.From < end && at < o.To }):
			continue // with its unit
		case m.re == bareRoom, m.has("f"):
			why := ""
			f.from, why = l.counting(m.text("q"))
			if f.counted.Form = formOf(m.text("f")); why != "" || !l.countsPacks(f, rows) {
				continue
			}
		default:
			p, why := l.holding(m.text("q"), l.unitText(m, "v"), "")
			if why != "" || !looseUnit(p) {
				continue
			}
			f.unit, f.text = p, p.Text
		}
		one := room{Range{at, end}, f.text, "load_volume"}
		if f.unit.Amount.IsMass {
			one.column = "load_weight"
		}
		if !slices.ContainsFunc(out, func(o room) bool { return o.text == one.text }) {
			out = append(out, one)
		}
	}
	return out
}
