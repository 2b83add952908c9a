package quotes

import "mediabuy/units"

// PriceAt is the price of one pack of q once packs have reached n: that of the
// last break at or below n, or the price before breaks. What "reached" counts,
// one quote's packs or a group's, is the bill's to say.
func (q *Quote) PriceAt(n units.Decimal) units.Money {
	price := q.Price
	for _, b := range q.Breaks {
		if n.Cmp(b.From) >= 0 {
			price = b.Price
		}
	}
	return price
}

// BreakReached is the threshold of the last break that n packs reach; 0 for none.
func (q *Quote) BreakReached(n units.Decimal) units.Decimal {
	var from units.Decimal
	for _, b := range q.Breaks {
		if n.Cmp(b.From) >= 0 {
			from = b.From
		}
	}
	return from
}

// RinseHours is the time to rinse one pack as bought, in hours.
func (q *Quote) RinseHours() float64 {
	return float64(q.PackLitres) / 100 * q.Medium.RinseMinutes.Usual / 60
}
