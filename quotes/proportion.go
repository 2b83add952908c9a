package quotes

import "mediabuy/units"

// What a litre or a kilogram of a medium costs lies between these, in the currencies below (common practice, no source): from 9.08 a
// ton and 7.65 a cubic yard on.
const leastRate, mostRate = 0.01, 10

var likeDollars = map[string]bool{"": true, "USD": true, "GBP": true, "EUR": true, "AUD": true, "NZD": true, "CAD": true}

// Proportion says how a price stands to what is sold for it.
type Proportion int

// A price far out of proportion is nearly always a slip: a lost decimal mark, or the
// price of something else.
const (
	Usual    Proportion = iota // or not known, as in currencies not compared with dollars
	TooCheap                   // far below what such goods cost
	TooDear                    // far above it
)

// ProportionOf compares the price of a pack with its size in litres or kilograms, 0
// for one that is not known, in an ISO 4217 currency or "" for one that is not stated.
func ProportionOf(price units.Money, size float64, currency string) Proportion {
	switch {
	case size <= 0 || !likeDollars[currency]:
		return Usual
	case price.Float() < leastRate*size:
		return TooCheap
	case price.Float() > mostRate*size:
		return TooDear
	}
	return Usual
}
