package message

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestGroups reads lists that say in a line of its own how all below it is packed: what stands there is of the lines below, never of
// the line above.
func TestGroups(t *testing.T) {
	type cells = map[string]string
	loose, bagged := cells{"form": "bulk", "pack": "1 yd3"}, cells{"form": "bag", "pack": "0.5 cu ft"}
	for _, one := range []struct {
		name, text string
		rows       []cells // in the order of the list: prices 42, 118, 5.25, 8.10
	}{
		{"brackets", "BULK (per yard)\nPea gravel 3/8\"  $42\nLava rock 3/4\"  $118\nBAGGED (0.5 cu ft)\nPea gravel  $5.25\nLava rock  $8.10\n", []cells{loose, loose, bagged, bagged}},
		{"colons", "Bulk, per yard:\n  Pea gravel $42\n  Lava rock $118\nBagged, 0.5 cu ft:\n  Pea gravel $5.25\n  Lava rock $8.10\nDelivery $75\n", []cells{loose, loose, bagged, bagged}},
		{"behind a greeting", "Hi, our prices. Bulk by the yard:\n- pea gravel $42\n- lava rock $118, 5+ yards $110\nBagged, 0.5 cu ft:\n- pea gravel $5.25\n- lava rock $8.10\n", []cells{loose, loose, bagged, bagged}},
		{"a sign over a unit, prices bare", "LOOSE - $/yd\nPea gravel  42\nLava rock  118\nBAGS - 0.5 cu ft each\nPea gravel  5.25\nLava rock  8.10\n", []cells{loose, loose, bagged, bagged}},
		{"forms alone", "Bulk\nPea gravel $42/yd\nLava rock $118/yd\nBagged\nPea gravel 0.5 cf $5.25\nLava rock 0.5 cf $8.10\n", []cells{loose, loose, bagged, bagged}},
		{"a line that says otherwise", "Per yard:\nPea gravel $42\nLava rock 0.5 cu ft bag $118\n", []cells{{"form": "", "pack": "1 yd3"}, bagged}},
		{"ends at a gap", "Bagged, 0.5 cu ft:\nPea gravel $42\n\nLava rock $118\n", []cells{bagged, {"pack": ""}}},
		{"what goes with the line above", "Pea gravel $42\nper yard\nLava rock $118\nper yard\n", []cells{{"pack": "1 yd3"}, {"pack": "1 yd3"}}},
		{"two packs in it", "Lava rock $118 a yard\nBags, 0.5 cu ft or 1 cu ft:\nPea gravel $42\n", []cells{{"pack": ""}, {"pack": "1 yd3"}}},
	} {
		t.Run(one.name, func(t *testing.T) {
			p, err := Parse(one.text, Options{Supplier: "Tamarack Yard", Delivery: true})
			require.NoError(t, err)
			prices := map[string]int{"42": 0, "118": 1, "5.25": 2, "8.10": 3}
			require.Len(t, p.Rows, len(one.rows))
			for _, row := range p.Rows {
				i, ok := prices[strings.TrimPrefix(row.Text("price"), "$")]
				require.True(t, ok, row.Text("price"))
				for column, want := range one.rows[i] {
					assert.Equal(t, want, row.Text(column), "%s of the row at %s", column, row.Text("price"))
				}
			}
		})
	}
}
