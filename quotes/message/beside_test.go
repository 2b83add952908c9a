package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSuppliersBesideOneAnother reads tables with a column for each supplier: each keeps its own prices and terms, what is said for all
// is asked once, and where words around the table may be about one of them nothing is taken apart.
func TestSuppliersBesideOneAnother(t *testing.T) {
	for _, one := range []struct {
		name, text string
		rows       [][3]string // supplier, price, delivery
		ways       []string    // load_volume of rows of delivery.csv
	}{
		{"by spaces, with loads", "Prices per yard\n\n                    Low Ford Quarry    Upper Tamarack\nLava 3/4\"                  68              71\nPumice                      85              90\nDelivery, per load          60              75\nYards per load               6               8\n",
			[][3]string{{"Low Ford Quarry", "68", ""}, {"Low Ford Quarry", "85", ""}, {"Upper Tamarack", "71", ""}, {"Upper Tamarack", "90", ""}}, []string{"6 yd3", "8 yd3"}},
		{"by strokes", "Item | Low Ford Quarry | Tamarack Stone\n---|---|---\nLava, per yard | $68 | $71\nDelivery | $60 | $45\n",
			[][3]string{{"Low Ford Quarry", "$68", "$60"}, {"Tamarack Stone", "$71", "$45"}}, nil},
		{"by tabs, with a hole", "\tLow Ford Quarry\tTamarack Stone\nLava per yard\t$68\t$71\nPumice per yard\t\t$90\n",
			[][3]string{{"Low Ford Quarry", "$68", ""}, {"Tamarack Stone", "$71", ""}, {"Tamarack Stone", "$90", ""}}, nil},
		{"headed by goods", "Qty      Crushed Lava    Pea Gravel\n1-9        $68            $41\n10+        $61            $38\nper yard. Low Ford Quarry",
			[][3]string{{"Low Ford Quarry", "$68", ""}, {"Low Ford Quarry", "$41", ""}}, nil},
	} {
		p, err := Parse(one.text, Options{Delivery: true})
		require.NoError(t, err)
		requireSound(t, p)
		var rows [][3]string
		for i := range p.Rows {
			rows = append(rows, [3]string{p.Rows[i].Text("supplier"), p.Rows[i].Text("price"), p.Rows[i].Text("delivery")})
		}
		assert.Equal(t, one.rows, rows, "%s: %s", one.name, summary(p))
		var ways []string
		for i := range p.Delivery {
			ways = append(ways, p.Delivery[i].Text("load_volume"))
		}
		assert.Equal(t, one.ways, ways, one.name)
	}

	const table = "                Low Ford Quarry    Tamarack Stone\nLava, yard          $68               $71\nPumice, yard        $85               $90\n\n"
	p, err := Parse(table+"Prices good for 20 days. 5 May 2026", Options{})
	require.NoError(t, err)
	requireSound(t, p)
	require.Len(t, p.Rows, 4, summary(p))
	for _, q := range p.Asked {
		for _, r := range q.Readings {
			assert.True(t, len(r.Cells) == 0 || len(r.Changes()) > 1, "one answer holds in the rows of both: %s", summary(p))
		}
	}
	p, err = Parse(table+"Tamarack has a 3 yard minimum.", Options{})
	require.NoError(t, err)
	for i := range p.Rows {
		assert.Empty(t, p.Rows[i].Text("min_qty"), summary(p))
	}
}
