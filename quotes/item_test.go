package quotes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes"
	"mediabuy/units"
)

func TestItemWords(t *testing.T) {
	for item, want := range map[string]string{"": "lava rock", "Lava Rock": "Lava Rock", "red lava rock 3/4": "red lava rock 3/4", "red stone": "red stone (lava rock)"} {
		q := &quotes.Quote{Item: item, Medium: &quotes.Medium{Name: "lava rock"}}
		assert.Equal(t, want, q.ItemWords())
	}
}

func TestPacksWords(t *testing.T) {
	two := units.DecimalFromInt(2)
	for form, want := range map[quotes.Form]string{quotes.Bag: "2 × 1 yd3 bag", quotes.Sack: "2 × 1 yd3 bulk bag", quotes.Bulk: "2 × 1 yd3"} {
		q := &quotes.Quote{Form: form}
		q.Pack.Raw = "1 yd3"
		assert.Equal(t, want, q.PacksWords(two))
	}
}
