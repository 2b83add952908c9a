package files

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The total of a spreadsheet is one problem; a bed that is called so is none.
func TestTotalLine(t *testing.T) {
	const quotesCSV = "supplier,medium,pack,price,notes\nLow Ford,lava rock,1 yd3,68,\n"
	for _, c := range []struct{ quotes, beds, found string }{
		{quotesCSV + "Total:,,,,1 quote\n", "bed,volume\none,100 L\n", `"Total:" begins what looks like the total of the sheet`},
		{quotesCSV, "bed,count,length,width,depth\none,2,4 ft,4 ft,12 in\nGrand total,2,,,\n", `"Grand total" begins what looks like the total of the sheet`},
		{quotesCSV, "bed,count,length,width,depth\nTotal,2,4 ft,4 ft,12 in\n", ""},
		{quotesCSV + "Total Stone,,,,\n", "bed,volume\none,100 L\n", "the cell is empty"},
	} {
		_, rep, err := Read(Sources{Quotes: text(c.quotes), Beds: text(c.beds), Settings: text("currency = \"USD\"\n")}, Options{Today: testDay})
		require.NoError(t, err)
		if c.found == "" {
			assert.Empty(t, rep.Problems)
			continue
		}
		require.NotEmpty(t, rep.Problems)
		assert.Equal(t, c.found, rep.Problems[0].Found)
		if c.found[0] == '"' {
			assert.Len(t, rep.Problems, 1)
		}
	}
}
