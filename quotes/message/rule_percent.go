package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/units"
)

// percentRules read a part taken off the price from a number of packs on.
func percentRules() []rule {
	return []rule{
		{pattern(fromPercent), percent},
		{pattern(`(?:(?:all|get|take|less|volume|quantity|discount)` + sp + `:?` + sp + `)*` + percentOff + percentTo + sp1 + `(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `|pieces|pcs|units)\b)?` + orMore + `?`), percent},
		{pattern(`(?:(?:on|for|buy|take|order|orders?) )*(?:of )?(?P<n>` + quantity + `)(?:` + sp + `(?P<c>` + anyUnit + `|` + packForm + `))?` + orMore + unitToo + `(?: (?:take|deduct|receive|receives|get|gets|earn|earns|saves?|a|an|is|are|of any (?:one |single )?(?:item|kind|product|line|size|sort)|of|reduced by|cut by)|,|:| -)*` + sp + percentOff + `(?: off| discount| less)?(?: (?:material|materials|the price|everything))*`), percent},
	}
}

// ofPack and ofThe are what the number of packs is of: "10 or more of the 50 l".
var (
	ofPack = pattern(sp1 + `of (?:the |our )?` + unitPattern("u"))
	ofThe  = pattern(sp1 + `of (?:the |our )?`)
)

func percent(s *scanner, m match) (*fact, bool) {
	n, _, _ := m.span("n")
	_, q, _ := m.span("q")
	again := s.lastFact != nil && s.lastFact.kind == aPercent && strings.HasPrefix(m.low, "from")
	if !cues.TakesOff.MatchString(m.low[:m.idx[1]]) && !again || q < n && !cues.LinksTo.MatchString(s.low[q:n]) || oneOf(s.after(m.end()), "minimum", "min") {
		return nil, false // 10% of tax, or of fines; "10% off, three yard minimum"
	}
	f := &fact{kind: aPercent, why: "a part off the price from a number of packs on"}
	c := m.number(s, "q")
	f.from = m.counting(s, "n")
	if c.value.Sign() <= 0 || c.value.Cmp(units.D("100")) >= 0 || f.from.value.Cmp(oneUnit) <= 0 || s.rated(m.end()) || s.goesOn(m.end()) {
		return nil, false
	}
	if unit := m.text("c"); unit != "pieces" && unit != "pcs" && unit != "units" {
		f.counted = m.countedUnit(s, "c")
	}
	f.money = units.MoneyOf(c.value)
	rest := s.low[m.end():min(s.limit, m.end()+window)]
	if idx := ofPack.FindStringSubmatchIndex(rest); idx != nil && !s.part().Splits(m.end()+idx[1]) {
		of := match{re: ofPack, low: rest, at: m.end(), idx: idx, unread: m.unread}
		f.counted = of.unit(s, "u")
		f.Range = Range{m.at, of.end()}
	} else if n := ofThe.FindString(rest); n != "" && s.opensMedium(m.end()+len(n)) {
		return unclearFact("a part off the price of one medium; write the price from that number of packs on under breaks")
	}
	return f, true
}

// percents makes breaks of what is taken off. Of several quotes it is not said whether their packs count together; that those of
// each do is sure.
func (r *reading) percents(sec *section, rows []*draft) {
	taken := map[*fact]bool{}
	for _, c := range r.all { // "delivery 90 10% off for 9"
		for _, f := range c.facts {
			if f.kind == aPercent && (carries(r.low[c.From:c.To]) || slices.ContainsFunc(c.facts, func(g *fact) bool { return g.kind.isFee() })) {
				f.drop("it may come off what delivery costs")
			}
		}
	}
	apart := r.percentsApart(sec)
	mixed := slices.ContainsFunc(rows, func(d *draft) bool { return looseUnit(d.offer.pack) != looseUnit(rows[0].offer.pack) })
	bags := slices.ContainsFunc(rows, func(d *draft) bool { return d.offer.pack.Form == "bag" })
	for _, d := range rows {
		price := d.offer.price
		if price == nil || price.unclear != "" || d.cells["price"] == nil || d.cells["breaks"] != nil {
			continue
		}
		var steps []string
		from := []*fact{price}
		last := units.Decimal{}
		for _, f := range sec.facts {
			if f.kind != aPercent || f.unclear != "" || (apart || r.offUnread(d)) && f.item != nil && f.item != d.item || mixed && f.counted.Empty() && f.item != nil && f.item != d.item || !d.offer.pack.Counts(f.counted) || bags && f.counted.Form == "bag" && d.offer.pack.Form == "sack" || f.from.value.Cmp(last) <= 0 {
				continue
			}
			low := price.money.Decimal().Mul(units.D("100").Sub(f.money.Decimal())).Quo(units.D("100"))
			steps = append(steps, f.from.text+": "+r.lowered(price, low))
			from, last, taken[f] = append(from, f), f.from.value, true
		}
		if len(steps) == 0 {
			continue
		}
		d.set("breaks", strings.Join(steps, "; "), "a part off the price from a number of packs on", from...)
		if len(rows) > 1 {
			d.notes = append(d.notes, "breaks: whether packs of several quotes count together is not said; each is read by itself, which costs no less")
		}
	}
	for _, f := range sec.facts {
		if f.kind == aPercent && !taken[f] {
			f.drop("the price that it is taken off is not certain")
		}
	}
}

// percentsApart says whether what is taken off is said of several items, each for itself: "8% off ten bags of perlite, 12% off ten of clay".
func (r *reading) percentsApart(sec *section) bool {
	var of *item
	for _, f := range sec.facts {
		if f.kind == aPercent && f.item != nil && of != nil && f.item != of {
			return true
		} else if f.kind == aPercent && f.item != nil {
			of = f.item
		}
	}
	return false
}

// partOff is a part of a price that comes off it, and partWhere tells of one with no number of packs.
var partOff = compile(`\b(?:less|saves?|discount|rebate|reduction|reduced)(?: of| by)?[ :]*` + plainNumber + percentSign + `|\d` + percentSign + `(?: \pL+){0,2}?` + sp + `(?:off|less|discount\pL*|cheaper|rebate|reduction)\b`)

const partWhere = "a part of the price is taken off where that holds; lower the prices by hand where it holds for you"

// offUnread says whether another part comes off, which was not read, in the sentence with the price of a row.
func (r *reading) offUnread(d *draft) bool {
	sentence := r.sentenceOf(d.offer.price)
	return slices.ContainsFunc(r.all, func(c *clause) bool {
		return c.sentence == sentence && partOff.MatchString(r.low[c.From:c.To]) && !slices.ContainsFunc(c.facts, func(f *fact) bool { return f.kind == aPercent && f.unclear == "" })
	})
}

// lowered is what is left of a price, written as it is: with its sign, and no odd tenth of money.
func (r *reading) lowered(price *fact, low units.Decimal) string {
	text := low.String()
	if _, part, ok := strings.Cut(text, "."); ok && len(part) == 1 {
		text += "0"
	}
	return signOf(price.text) + r.cellNumber(text, low)
}
