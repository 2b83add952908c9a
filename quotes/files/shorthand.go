package files

import (
	"fmt"
	"slices"

	"mediabuy/quotes"
	"mediabuy/units"
)

// shortWay is a way of delivery made from the cells of quotes.csv.
type shortWay struct {
	*quotes.Delivery
	cell *cell // the first it is made from
}

// shorthand makes ways of the delivery and free_over cells, one for each supplier
// that has any, in the order of the suppliers.
func (x *reader) shorthand(b *quoteBook) []shortWay {
	var out []shortWay
	for _, supplier := range b.suppliers.Names {
		fee, feeGood := x.shortTerm(b, supplier, "delivery")
		free, freeGood := x.shortTerm(b, supplier, "free_over")
		if !feeGood || !freeGood || fee == nil && free == nil {
			continue
		}
		d := shortWay{Delivery: &quotes.Delivery{Supplier: supplier, Name: quotes.Delivered, HandlingSet: true, Covers: slices.Clone(quotes.Forms), Tax: x.set.Tax, Shorthand: true, Trucks: []quotes.Truck{{}}, LoadHolds: quotes.HoldsOne}}
		if free != nil {
			d.cell, d.FreeOver = free.cell, &free.amount
		}
		if fee == nil {
			x.warn(free.cell, fmt.Sprintf("%s has a free_over, but no delivery fee that it could waive, so it is taken to deliver free", supplier),
				"write the fee under delivery as well, or empty the cell")
		} else {
			d.cell, d.OrderFee = fee.cell, fee.amount
			if free != nil {
				x.freeFromZero(free.cell, free.amount)
			}
		}
		d.Pos = d.cell.Pos
		out = append(out, d)
	}
	return out
}

// shortTerm is an amount of the shorthand with the first cell it stands in.
type shortTerm struct {
	amount units.Money
	cell   *cell
}

// shortTerm finds the one amount that a supplier's quotes have under a heading;
// nil if none has any. good is false where some cell could not be used.
func (x *reader) shortTerm(b *quoteBook, supplier, heading string) (t *shortTerm, good bool) {
	good = true
	for _, q := range b.rows {
		c := q.row.cell(heading)
		if q.Supplier != supplier || c.blank() && !c.off {
			continue
		}
		m, ok := units.Money{}, false
		if !c.off {
			m, ok = x.money(c)
		}
		switch {
		case !ok:
			good = false
		case t == nil:
			t = &shortTerm{m, c}
		case !m.Equal(t.amount):
			good = false
			x.fail(c, fmt.Sprintf("%s of %s is %s here, but %s on line %d", heading, supplier, x.signed(m), x.signed(t.amount), t.cell.Line),
				"one value for each supplier", "a supplier with several ways to deliver needs rows in delivery.csv")
		}
	}
	return t, good
}

// freeFromZero warns of a limit of 0, which waives fees on every order.
func (x *reader) freeFromZero(c *cell, free units.Money) {
	if free.IsZero() {
		x.warn(c, "free from 0 means that the fee is always waived", "leave the cell empty if it never is")
	}
}
