package message

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The fewest packs said behind one offer are not those of an offer on another line, and
// a number behind a word for a limit is no number of packs for a price.
func TestLimitsStayWithTheirOffer(t *testing.T) {
	read := func(text string) *Proposal {
		p, err := Parse(text, Options{Supplier: "Low Ford"})
		require.NoError(t, err)
		return p
	}
	p := read("lava, 20 per 50 L bag, 2 bags or more 5\npumice, 20 per 50 L bag, 2 bags or more 5, ..., min 2 bags")
	require.Len(t, p.Rows, 2)
	require.Empty(t, p.Rows[0].Text("min_qty"))
	require.Equal(t, "2", p.Rows[1].Text("min_qty"))

	// Alone on its line it holds for all.
	p = read("lava, 20 per 50 L bag\npumice, 24 per 50 L bag\n\nminimum 5 bags")
	require.Len(t, p.Rows, 2)
	for _, row := range p.Rows {
		require.Equal(t, "5", row.Text("min_qty"))
	}

	p = read("lava, 20 per 50 L bag, 3 bags or more 15, min 2 bags for 9")
	require.Len(t, p.Rows, 1)
	require.Equal(t, "3: 15", p.Rows[0].Text("breaks"))

	// A number beside a fee for delivery that is no second fee is no price.
	p = read("lava, 20 a yard about 30\nDelivery 90, to 60, members only")
	require.Empty(t, p.Rows, "there is no price for a row")

	// What is taken off is no grain that may hold fines.
	p = read("lava, 20 a yard\nDelivery 90, x 2 minus 10%")
	require.Len(t, p.Rows, 1)
	require.Empty(t, p.Rows[0].Text("size"))
	p = read("3/4 minus lava, 20 a yard")
	require.Len(t, p.Rows, 1)
	require.Equal(t, "3/4 in minus", p.Rows[0].Text("size"))

	// A number that goes with the word in front of it is no number of packs.
	for _, text := range []string{"lava, to 60 and up, 20 a yard", "pumice, 3/4 in x 2 and up, 20 a yard"} {
		for _, row := range read(text).Rows {
			require.Empty(t, row.Text("breaks"), text)
		}
	}

	p = read("lava - 20 a yard - 3 for 2 - three yard minimum")
	require.Len(t, p.Rows, 1)
	require.Empty(t, p.Rows[0].Text("breaks"))
	p = read("lava, 20 a yard. pumice, 20 a yard, ..., min 2 yards")
	require.Len(t, p.Rows, 2)
	require.Empty(t, p.Rows[0].Text("min_qty"))
}
