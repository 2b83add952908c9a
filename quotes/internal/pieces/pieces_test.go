package pieces

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestPieces holds some pieces against what people write, each from its beginning to its end.
func TestPieces(t *testing.T) {
	for text, piece := range map[string]string{
		"1 250,50": PlainNumber, "½": Fraction, "$ 12.50": AmountPattern("m"), "12 euros": AmountPattern("m"), "cubic yards": AnyUnit, "bulk bag": PackForm,
		"50 l bag": UnitPattern("u"), " or more": OrMore, "within 9 miles": NearPlace, "carriage": Fetching, "tri-axle": TruckWord, " per load": LoadWord, "sales tax": TaxName, "6.5 %": Hundredths,
	} {
		assert.Regexp(t, regexp.MustCompile(`^(?:`+piece+`)$`), text)
	}
}
