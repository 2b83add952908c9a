package message

import (
	"math"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/units"
)

// Prices that are out of the usual are asked about: that any number may be one is how a slip or a stray number enters.
const (
	unsigned = "the other prices have a sign of money, and this number has none"
	tooCheap = "a price far below what such goods cost"
	tooDear  = "a price far above what such goods cost"

	loadOrBring = "it may be the price of a load, or of bringing one"
	loadOfLess  = "so much less than what a load holds costs, it may be for bringing one"
)

// loadShare is how many times as much a yard by itself costs where the price of a load cannot be that of the goods in it.
const loadShare = 3

// bare leaves prices without a sign of money to a person where two others have one.
func (r *reading) bare() {
	known := 0
	var without []*fact
	for _, c := range r.all {
		for _, f := range c.facts {
			switch sign, _ := units.CurrencyIn(f.text); {
			case f.kind != aPrice || c.row >= 0:
			case sign != "":
				known++
			case r.lists[f.To], !strings.ContainsAny(r.text[f.From:f.To], "0123456789"): // at the end of a line of a list, or said aloud
			case cents(f.text) && eachEnd.MatchString(r.low[f.From:f.To]): // 11.50 ea
			default:
				without = append(without, f)
			}
		}
	}
	if known >= 2 {
		for _, f := range without {
			f.drop(unsigned)
		}
	}
}

// eachEnd ends what is said of the price of one.
var eachEnd = compile(eachWord + `$`)

// unusual leaves prices of an item to a person that are out of all proportion to their pack.
func (r *reading) unusual(it *item) {
	for i, f := range it.facts {
		if f.kind != aPrice {
			continue
		}
		p := f.unit
		for _, g := range slices.Backward(it.facts[:i]) {
			if p.Amount != nil || g.kind == aPrice {
				break
			}
			if g.kind == aPack {
				p = g.unit
			}
		}
		// "$146 a yard. $88 a load, 7 yards": so much less for a load, or for several yards, than for what it holds.
		if (p.Form == "load" || p.Form == "" && p.Text != "" && looseUnit(p) && !single(p)) && slices.ContainsFunc(it.facts, func(g *fact) bool {
			return g.kind == aPrice && g.unit.Form != "load" && g.unit.Size()*p.Size() > 0 && g.money.Float()/g.unit.Size() > loadShare*f.money.Float()/p.Size()
		}) {
			f.drop(loadOfLess)
		}
		switch quotes.ProportionOf(f.money, math.Abs(p.Size()), r.job.Currency) {
		case quotes.TooCheap:
			f.drop(tooCheap)
		case quotes.TooDear:
			f.drop(tooDear)
		}
	}
}
