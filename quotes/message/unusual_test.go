package message

import (
	"strings"
	"testing"

	"mediabuy/quotes/files"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A price that is out of all proportion, or has no sign of money where the others have one, is in no row before a person says that
// it holds. 7.65 for a cubic yard of 764.555 L is 0.01001 a litre and 7.64 is 0.00999.
func TestUnusualPricesAreAsked(t *testing.T) {
	for _, c := range []struct {
		name, text, asked string // "" for nothing
		currency          string
	}{
		{"little", "lava 3/4 in, $6.50 a yard", tooCheap, "USD"},
		{"just enough", "lava 3/4 in, $7.65 a yard", "", "USD"},
		{"just too little", "lava 3/4 in, $7.64 a yard", tooCheap, "USD"},
		{"as usual", "lava 3/4 in, $65 a yard", "", "USD"},
		{"much", "expanded clay, $900 for a 50 L bag", tooDear, "USD"},
		{"much of another currency", "expanded clay, 900 for a 50 L bag", "", "INR"},
		{"little by weight", "pea gravel, 9 a tonne", tooCheap, "GBP"},
		{"as usual by weight", "pea gravel, 38 a tonne", "", "GBP"},
		{"no sign among signs", "pumice 50 L bag £21.50. Perlite 100 L bag £32. Lava rock 20 L bag, 9", unsigned, "GBP"},
		{"no sign beside one alone", "pumice 50 L bag £21.50. Lava rock 20 L bag, 9", "", "GBP"},
		{"signs everywhere", "pumice 50 L bag £21.50. Perlite 100 L bag £32. Lava rock 20 L bag, £9", "", "GBP"},
		{"signs nowhere", "pumice 50 L bag 21.50. Perlite 100 L bag 32. Lava rock 20 L bag, 9", "", "GBP"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Parse(c.text, Options{Delivery: true, Settings: files.Source{Name: "job.toml", R: strings.NewReader("currency = \"" + c.currency + "\"\n")}})
			require.NoError(t, err)
			requireSound(t, p)
			if c.asked == "" {
				assert.Empty(t, p.Asked, summary(p))
				return
			}
			require.Len(t, p.Asked, 1, summary(p))
			q := p.Asked[0]
			assert.Contains(t, q.Question, c.asked)
			assert.Equal(t, leftOut, q.Readings[len(q.Readings)-1].Label)
			price := q.Readings[0].Cells["price"]
			require.NotEmpty(t, price)
			for _, row := range p.Rows {
				assert.NotEqual(t, price, row.Cells["price"].Text)
			}
		})
	}
}
