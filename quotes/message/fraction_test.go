package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A bare range behind a stone's name in a metric message is its grains where sieves could be so, and else is nothing.
func TestBareRangesAreFractions(t *testing.T) {
	for written, want := range map[string]string{"8-16": "8-16 mm", "8-11": "8-11 mm", "11-16": "11-16 mm", "5-15": "5-15 mm", "0-3": "0-3 mm", "20-25": "", "30-40": "", "16-8": ""} {
		p, err := Parse("lava 4-8 mm, 20 per 50 L bag\npumice "+written+", 24 per 50 L bag", Options{Supplier: "Low Ford"})
		require.NoError(t, err)
		require.Len(t, p.Rows, 2, written)
		assert.Equal(t, want, p.Rows[1].Text("size"), written)
	}
}
