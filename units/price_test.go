package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFormatPrice(t *testing.T) {
	for _, c := range []struct{ amount, code, want string }{
		{"7.6667", "USD", "$7.67"}, {"48.335", "USD", "$48.34"}, {"27.5", "USD", "$27.50"}, {"1234.5678", "USD", "$1,234.57"},
		{"0.054", "USD", "$0.054"}, {"0.12345", "GBP", "£0.1235"}, {"1.999", "EUR", "€2.00"}, {"0", "USD", "$0.00"},
		{"0.4", "JPY", "¥0.4"}, {"12.5", "JPY", "¥12.5"}, {"1250.5", "JPY", "¥1,251"}, {"1.005", "XYZ", "XYZ\u00a01.01"},
	} {
		assert.Equal(t, c.want, FormatPrice(MoneyOf(D(c.amount)), c.code), c.amount)
	}
}
