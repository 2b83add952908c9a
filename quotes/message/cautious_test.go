package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCautious answers what is asked by what costs the buyer most: what may be a fee or a limit holds, what may be a price or spare
// something does not.
func TestCautious(t *testing.T) {
	type cells = map[string]string
	for _, c := range []struct {
		name, text string
		row        cells   // of the first row of quotes.csv
		ways       []cells // of all rows of delivery.csv; nil for whatever they are
	}{
		{"two fees, of which the dearer holds", "Low Ford Quarry: lava 50 L bags 9.80 each.\nDelivery by van 35.00 per order, free from 600. Some come with the crane truck, 65.00 per trip, 4 bags per trip.", cells{"price": "9.80"}, []cells{{"load_fee": "65.00"}}},
		{"a fee for each kind of pack", "Low Ford Quarry: lava 50 L bags 9.80 each, big bag of 1 m3 142.00.\nDelivery by van 35.00 per order, free from 600. Big bags come with the crane truck, 65.00 per trip, 4 big bags per trip.", cells{"price": "9.80"},
			[]cells{{"covers": "bag", "load_fee": "35.00", "free_over": ""}, {"covers": "sack", "load_fee": "65.00", "load_volume": "4 m3", "free_over": ""}}},
		{"a fee for a pallet", "Steinhof Yard: pumice 40 L bag 8.95. Shipping 49 per pallet (max 1000 kg).", cells{"price": "8.95"}, []cells{{"load_fee": "49"}}},
		{"fewest packs", "Low Ford Quarry: lava 50 L bags $9.80 each. They go out in lots of no fewer than 10, I think.", cells{"price": "$9.80"}, nil},
		{"over a number", "Low Ford Quarry: lava 3/4 in, $78 a yard, over 10 yards 71", cells{"price": "$78", "breaks": "11: 71"}, nil},
		{"a rebate", "Low Ford Quarry: lava 68 a yard, 10% off over 5 yards.", cells{"price": "68", "breaks": ""}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true})
			require.NoError(t, err)
			got, err := p.Cautious()
			require.NoError(t, err)
			requireWhole(t, got)
			assert.Empty(t, got.Asked)
			require.NotEmpty(t, got.Rows)
			for column, want := range c.row {
				assert.Equal(t, want, got.Rows[0].Text(column), summary(p))
			}
			if c.ways != nil {
				require.Len(t, got.Delivery, len(c.ways), summary(p))
			}
			for i, way := range c.ways {
				for column, want := range way {
					assert.Equal(t, want, got.Delivery[i].Text(column), summary(p))
				}
			}
		})
	}
}

// TestWeight holds readings against one another.
func TestWeight(t *testing.T) {
	read := func(cells map[string]string) Reading {
		return Reading{Change: Change{File: "delivery.csv", Row: 1, New: true, Cells: cells}}
	}
	order := []map[string]string{ // each costs more than those before it
		{"max_qty": "40"}, {"max_qty": "12"}, {"min_qty": "2"}, {"min_qty": "10"}, {"tax": "5%"}, {"tax": "12%"}, {"order_fee": "$60"},
		{"load_fee": "$60"}, {"load_fee": "$60", "load_volume": "4 yd3"}, {"order_fee": "$61", "supplier": "Low Ford"},
	}
	last := weight{at: len(costing)}
	for _, cells := range order {
		w, ok := read(cells).weigh(0)
		require.True(t, ok, cells)
		assert.True(t, w.over(last), cells)
		assert.False(t, last.over(w), cells)
		last = w
	}
	for _, cells := range []map[string]string{{"price": "$60"}, {"breaks": "10: $9"}, {"free_over": "$500"}, {"load_fee": "$60", "price": "$5"}, {}} {
		_, ok := read(cells).weigh(0)
		assert.False(t, ok, cells)
	}
}
