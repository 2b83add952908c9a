package quotes

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/units"
)

func TestProportionOf(t *testing.T) {
	for _, c := range []struct {
		price    string
		size     float64
		currency string
		want     Proportion
	}{
		{"34.99", 50, "USD", Usual},
		{"3499", 50, "USD", TooDear}, // 69.98 a litre
		{"500", 50, "USD", Usual},    // 10 a litre, the most
		{"500.01", 50, "USD", TooDear},
		{"0.35", 50, "GBP", TooCheap}, // 0.007 a litre
		{"7.65", 764.555, "", Usual},  // a cubic yard at 0.010006 a litre
		{"7.60", 764.555, "", TooCheap},
		{"3499", 50, "HUF", Usual}, // not compared
		{"3499", 0, "USD", Usual},  // a pack that could not be read
	} {
		m, err := units.ParseMoney(c.price, units.MarkUnknown)
		assert.NoError(t, err)
		assert.Equal(t, c.want, ProportionOf(m, c.size, c.currency), "%s for %g in %q", c.price, c.size, c.currency)
	}
}
