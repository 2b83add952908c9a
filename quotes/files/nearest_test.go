package files

import (
	"slices"
	"testing"

	"mediabuy/quotes/internal/spelling"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNearest(t *testing.T) {
	known := []string{"supplier", "top layer", "pumice", "pea gravel", "bag", "bulk"}
	for word, want := range map[string]string{
		"sippler": "supplier", "SUPPLIER": "supplier", "Top_Layer": "top layer", "pot": "", "pumcie": "pumice", "epa garvel": "pea gravel",
		"Supplyer": "supplier", "sup": "supplier", "s": "", "pea": "pea gravel", "bags": "bag", "bga": "bag", "": "", "moon dust": "", "blk": "bulk", "unit price": "",
	} {
		assert.Equal(t, want, spelling.Nearest(word, known), word)
	}
	assert.Equal(t, "ab", spelling.Nearest("ac", []string{"ab", "ad"}), "the first of two equally near")
	assert.Equal(t, "top", spelling.Nearest("top", []string{"top layer", "top"}), "the word itself before a longer one")
}

func TestNearestHeading(t *testing.T) {
	known := headingsOf(columnsOf[rawQuote]())
	for word, want := range map[string]string{
		"qoute": "quote", "prize": "price", "unit price": "price", "Pack Size": "pack", "supplier name": "supplier", "qty": "min_qty", "max": "max_qty",
		"materiel": "", "brand": "", "colour": "", "pirce": "price", "frieght": "", "carbonat": "carbonate", "MIN QTY": "min_qty", "max-qyt": "max_qty", "devilery": "delivery", "delviery": "delivery",
	} {
		assert.Equal(t, want, spelling.NearestHeading(word, known), word)
	}
}

// One slip of the keyboard in a heading is always told with a heading that is one
// slip away, which two headings may be.
func TestNearestHeadingFindsOneSlip(t *testing.T) {
	known := slices.Concat(headingsOf(columnsOf[rawQuote]()), headingsOf(columnsOf[rawBed]()), headingsOf(columnsOf[rawDelivery]()))
	rapid.Check(t, func(t *rapid.T) {
		r := []rune(rapid.SampledFrom(known).Draw(t, "heading"))
		i := rapid.IntRange(1, len(r)-1).Draw(t, "at")
		switch rapid.SampledFrom([]string{"swapped", "wrong", "too many", "missing"}).Draw(t, "slip") {
		case "swapped":
			r[i-1], r[i] = r[i], r[i-1]
		case "wrong":
			r[i] = 'x'
		case "too many":
			r = slices.Insert(r, i, 'x')
		case "missing":
			r = slices.Delete(r, i, i+1)
		}
		word := string(r)
		n := spelling.NearestHeading(word, known)
		require.NotEmpty(t, n, word)
		assert.LessOrEqual(t, spelling.Slips(spelling.WordKey(word), spelling.WordKey(n), 1), 1)
	})
}
