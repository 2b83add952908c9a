package message

import (
	"math"
	"slices"
	"strings"
)

// Prices that are out of the usual are asked about: that any number may be one is how a slip or a stray number enters.
const (
	unsigned = "the other prices have a sign of money, and this number has none"
	tooCheap = "a price far below what such goods cost"
	tooDear  = "a price far above what such goods cost"
)

// What a litre or a kilogram of a medium costs lies between these, in the currencies below (common practice, no source): from 9.08 a
// ton and 7.65 a cubic yard on.
const leastRate, mostRate = 0.01, 10

var likeDollars = map[string]bool{"": true, "USD": true, "GBP": true, "EUR": true, "AUD": true, "NZD": true, "CAD": true}

// bare leaves prices without a sign of money to a person where two others have one.
func (r *reading) bare() {
	signed := 0
	var without []*fact
	for _, c := range r.all {
		for _, f := range c.facts {
			switch {
			case f.kind != aPrice || c.row >= 0:
			case strings.ContainsAny(f.text, "$£€₹"):
				signed++
			default:
				without = append(without, f)
			}
		}
	}
	if signed >= 2 {
		for _, f := range without {
			f.drop(unsigned)
		}
	}
}

// unusual leaves prices of an item to a person that are out of all proportion to their pack.
func (r *reading) unusual(it *item) {
	for i, f := range it.facts {
		if f.kind != aPrice || !likeDollars[r.job.currency] {
			continue
		}
		p := f.unit
		for _, g := range slices.Backward(it.facts[:i]) {
			if p.amount != nil || g.kind == aPrice {
				break
			}
			if g.kind == aPack {
				p = g.unit
			}
		}
		switch size := math.Abs(p.size()); {
		case size == 0:
		case f.money.Float() < leastRate*size:
			f.drop(tooCheap)
		case f.money.Float() > mostRate*size:
			f.drop(tooDear)
		}
	}
}
