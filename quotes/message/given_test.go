package message

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestGivenSupplier holds the caller's word against what the message says of whose it is.
func TestGivenSupplier(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"nobody is named":  {"Lava 68 a yard", []string{"Low Ford Quarry"}},
		"a signature":      {"Lava 68 a yard. Regards, Tam at Low Ford", []string{"Low Ford Quarry"}},
		"one label":        {"Low Ford: lava 68 a yard", []string{"Low Ford Quarry"}},
		"several labels":   {"Low Ford: lava 68 a yard\nMarl Lane: pumice 74 a yard", []string{"Low Ford", "Marl Lane"}},
		"a table's column": {"Marl Lane\tlava\t1 yd3\t68.00\nMarl Lane\tpumice\t1 yd3\t74.00", []string{"Marl Lane", "Marl Lane"}},
	} {
		t.Run(name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Supplier: " Low Ford  Quarry "})
			require.NoError(t, err)
			var got []string
			for i := range p.Rows {
				got = append(got, p.Rows[i].Text("supplier"))
			}
			assert.Equal(t, c.want, got)
		})
	}
	p, err := Parse("Lava 68 a yard. Regards, Tam at Low Ford", Options{Supplier: "Marl Lane"})
	require.NoError(t, err)
	assert.Contains(t, p.Rows[0].Cautions, "supplier: the message itself names Low Ford")
}
