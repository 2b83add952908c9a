package message

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
)

// packs asks what a pack of a row holds that has a price and no pack: the one that is said beside the medium.
func (l *leftovers) packs() {
	for _, row := range l.rows {
		if row.offer == nil || row.offer.price == nil || row.cells["price"] == nil || row.cells["pack"] != nil || row.item.medium == nil || len(row.item.from) == 0 {
			continue
		}
		price := row.offer.price
		if said := l.packsBeside(row); len(said) == 1 && !l.twoPacks(row, said[0]) {
			l.put(fmt.Sprintf("does a pack of %s at %s hold that?", row.item.name(), price.text), []Range{said[0].Range}, reply{said[0].pack.Text, func(from []*fact) {
				row.offer.pack = row.offer.pack.With(said[0].pack)
				row.set("pack", said[0].pack.Text, "what a pack holds, as answered", from...)
			}})
		}
	}
}

// twoPacks asks which of two a pack of a row holds: "the bags are 40 or maybe 50 lb".
func (l *leftovers) twoPacks(row *draft, last pricedAt) bool {
	before := cues.OtherRoom.FindStringSubmatchIndex(l.reading.low[:last.From])
	if before == nil {
		return false
	}
	_, unit := numberAndUnit(last.pack.Text)
	p, why := l.holding(l.reading.low[before[2]:before[3]], first(unit, strings.TrimLeft(last.pack.Text, "0123456789./ ")), "")
	if why != "" || !row.offer.pack.Fits(p) {
		return true // one of two is not to be asked about alone
	}
	var replies []reply
	for _, one := range []pack{p, last.pack} {
		replies = append(replies, reply{one.Text, func(from []*fact) {
			row.offer.pack = row.offer.pack.With(one)
			row.set("pack", one.Text, "what a pack holds, as answered", from...)
		}})
	}
	l.put("what does a pack of "+row.item.name()+" hold?", []Range{{before[2], last.To}}, replies...)
	return true
}

// packsBeside are what is left between the naming of what a row is of and the next medium, and may be what a pack of it holds; each once.
func (l *leftovers) packsBeside(row *draft) (out []pricedAt) {
	from := row.item.from[0].From
	to := min(len(l.low), max(from, row.offer.price.To)+2*window)
	for _, c := range l.all {
		if c.To <= from || c.From >= to {
			continue
		}
		for _, m := range c.media() {
			if m.From > max(from, row.offer.price.From) {
				to = min(to, m.From)
			}
		}
	}
	for _, m := range l.find(looseRoom, from, to) {
		if !m.has("v") || carryWord.MatchString(l.reading.low[max(from, m.part().From-window/4):m.part().From]) || cues.EachBehind.MatchString(l.behind(m.part())) {
			continue
		}
		p, why := l.holding(m.text("q"), l.unitText(m, "v"), "")
		loose := why == "" && looseUnit(p)
		if why != "" || !row.offer.pack.Fits(p) || loose && row.offer.pack.Form != "sack" && !single(p) || slices.ContainsFunc(out, func(o pricedAt) bool { return o.pack.Text == p.Text }) {
			continue
		}
		out = append(out, pricedAt{Range: m.part(), pack: p})
	}
	return out
}
