package message

import (
	"slices"
	"strings"

	"mediabuy/units"
)

// inherit gives a price with no pack of its own the pack of the item before it, where their prices are near and both are of one
// medium, or all of the message is sold by one unit: "3/8 in is $94 a yard and 3/4 in is $99", "red $98 a yard, black $113".
func (r *reading) inherit() {
	var last *item
	for _, it := range r.items {
		if it.row >= 0 || it.medium == nil || it.several {
			last = nil
			continue
		}
		if last != nil && last.section == it.section && (last.medium == it.medium || r.oneUnit()) {
			r.inheritFrom(last, it)
		}
		if it.offered() {
			last = it
		}
	}
}

// oneUnit says whether all that the message prices by a unit is sold loose by that one, and nothing by the bag.
func (r *reading) oneUnit() bool {
	unit := ""
	for _, it := range r.items {
		for _, f := range it.facts {
			switch {
			case !oneOf(f.kind, aPrice, aPack, aForm, aBreak, aTier, aPallet):
			case oneOf(f.unit.Form, "", "bulk") && (f.unit.Text == "" || looseUnit(f.unit) && single(f.unit) && (unit == "" || unit == f.unit.Text)):
				unit = first(f.unit.Text, unit)
			default:
				return false
			}
		}
	}
	return unit != ""
}

// inheritFrom gives the prices of it the pack of last, if that has one alone.
func (r *reading) inheritFrom(last, it *item) {
	var of, price *fact
	for _, f := range last.facts {
		switch {
		case f.kind == aPrice && price != nil && price.kind == aPrice: // two prices, of which one may not hold
			return
		case f.unclear != "" || f.kind != aPrice && f.kind != aPack && f.kind != aTier:
			continue
		case f.unit.Text != "" && of != nil && (of.unit.Text != f.unit.Text || of.unit.Form != f.unit.Form):
			return
		case f.unit.Text != "":
			of = f
		}
		if f.kind != aPack && price == nil {
			price = f
		}
	}
	if of == nil || price == nil || of.general {
		return
	}
	var own *fact
	for _, f := range it.facts {
		switch {
		case f.kind == aPack || f.kind == aForm || f.kind == aPallet || f.kind == aTier:
			return
		case f.kind == aPrice && !f.unit.Empty() && (f.unit.Text != "" || !of.unit.Counts(f.unit)):
			return
		case f.kind == aPrice && own == nil:
			own = f
		}
	}
	if own == nil || own.unclear != "" || own.why == ofOtherPack || !near(own.money, price.money) && !(last.medium != it.medium && r.sentenceOf(own) == r.sentenceOf(price) && within(own.money, price.money, "2")) {
		return
	}
	it.facts = append([]*fact{{kind: aPack, Range: of.Range, unit: of.unit, text: of.unit.Text, why: "the pack of the price before it", head: of, item: it}}, it.facts...)
}

// near says whether two prices may be for one pack: neither is half as much again as the other.
func near(a, b units.Money) bool { return within(a, b, "1.5") }

// within says whether neither of two prices is more than so many times the other.
func within(a, b units.Money, times string) bool {
	x, y, most := a.Decimal(), b.Decimal(), units.D(times)
	return x.Cmp(y.Mul(most)) <= 0 && y.Cmp(x.Mul(most)) <= 0
}

// shortName is the colour of a medium named before, in front of its price: "black is $113".
var shortName = pattern(`(?:red|black|white|grey|gray|brown|tan|dark|green|blue)\b(?: (?:one|stuff|kind))?(?:(?:'s|’s| is| are(?: both| each)?| runs?)|` + sp + `[:=@-])?` + sp + amountPattern("m"))

// shortMedium reads it at p, where a clause may begin.
func (s *scanner) shortMedium(p int) *fact {
	if s.lastMedium == nil || !slices.Contains([]byte(".,;:(\n-*&•"), s.before(p)) {
		return nil
	}
	if at := sameStuff.FindStringIndex(s.low[p:min(s.limit, p+window)]); at != nil {
		return &fact{kind: aMedium, Range: Range{p, p + at[1]}, medium: s.lastMedium, text: s.text[p : p+at[1]], why: sameAs + s.lastMedium.Name + " named before"}
	}
	if m := samePrice.FindStringSubmatchIndex(s.low[p:min(s.limit, p+window)]); m != nil && s.lastPrice != nil && s.lastPrice.To <= p { // cells of a table may have been looked at before
		base := *s.lastPrice
		base.Range, base.head, base.why, base.base = Range{p, p + m[2] - 1}, s.lastPrice, "the price before it", nil
		return &fact{kind: aMedium, Range: Range{p + m[2], p + m[3]}, medium: s.lastMedium, text: s.text[p+m[2] : p+m[3]], base: &base, why: "its colour, of the medium " + s.lastMedium.Name + " named before"}
	}
	if to := p + wordLength(s.low[p:s.limit]); s.lastWordOf(strings.TrimSuffix(strings.TrimSuffix(s.low[p:to], "'s"), "’s")) {
		return &fact{kind: aMedium, Range: Range{p, to}, medium: s.lastMedium, text: s.text[p:to], why: "short for " + s.lastMedium.Name + " named before"}
	}
	if !shortName.MatchString(s.low[p:min(s.limit, p+window)]) {
		return nil
	}
	to := p + wordLength(s.low[p:s.limit])
	return &fact{kind: aMedium, Range: Range{p, to}, medium: s.lastMedium, text: s.text[p:to], why: "its colour, of the medium " + s.lastMedium.Name + " named before"}
}

// inColour gives a colour of a medium an amount of its own behind the price of another: "78 a yard in the red, 84 in the black".
func (s *scanner) inColour(p int) *fact {
	if s.lastMedium == nil || s.lastPrice == nil || s.lastPrice.To > p || !colourFirst.MatchString(s.low[s.lastPrice.To:p]) {
		return nil
	}
	low := s.low[p:min(s.limit, p+window)]
	idx := colourThen.FindStringSubmatchIndex(low)
	if idx == nil {
		return nil
	}
	base, unread := *s.lastPrice, ""
	m := match{re: colourThen, low: low, at: p, idx: idx, unread: &unread}
	base.text, base.money = m.amount(s, "m")
	from, to, _ := m.span("colour")
	base.Range, base.head, base.base, base.why, base.unclear = Range{p, from - 1}, s.lastPrice, nil, "a price, for what the one before it is for", unread
	return &fact{kind: aMedium, Range: Range{from, to}, medium: s.lastMedium, text: s.text[from:to], base: &base, why: "its colour, of the medium " + s.lastMedium.Name + " named before"}
}

var (
	colourFirst = compile(`^ (?:in|for) (?:the )?` + anyColour + `[,;][ \t]*(?:and[ \t]+)?$`)
	colourThen  = pattern(amountPattern("m") + ` (?:in|for) (?:the )?(?P<colour>` + anyColour + `)\b`)
)

// lastWordOf says whether a word alone stands for the medium named last, which has a name that ends with it: "slate" for expanded slate.
func (s *scanner) lastWordOf(word string) bool {
	return oneOf(word, "slate", "glass", "shell", "concrete", "fibre", "fiber", "chips") && slices.ContainsFunc(append([]string{s.lastMedium.Name}, s.lastMedium.OtherNames...), func(name string) bool {
		return strings.HasSuffix(name, " "+word)
	})
}

// samePrice gives another colour of a medium the price before it: "same price for the black".
var samePrice = pattern(`(?:(?:the|at the|it's the) )?same (?:price|money)(?: (?:for|on|as))? (?:the )?((?:red|black|white|grey|gray|brown|tan|green)(?: (?:one|stuff|kind))?)\b`)

const sameAs, sameGrain = "the same as ", "the grain size of what stands before"

// sameStuff is what was named before.
var sameStuff = pattern(`(?:the )?(?:same|identical) (?:stuff|thing|stones?|rocks?|product|material|media|medium|gravel|chips?|chippings|pebbles|pellets|balls|granules|grit|aggregate|one)\b`)

// before is the last byte before p that is no space; a line's end in front of a text.
func (s *scanner) before(p int) byte {
	for p--; p >= 0; p-- {
		if s.low[p] != ' ' && s.low[p] != '\t' && s.low[p] != '\r' {
			if p >= 7 && s.low[p-6:p+1] == "and the" {
				return '&'
			}
			if p >= 2 && s.low[p-2:p+1] == "and" {
				return '&'
			}
			return s.low[p]
		}
	}
	return '\n'
}
