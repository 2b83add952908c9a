package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// 100 packs at 48.335 are 4,833.50; at 48.34 they would be 4,834.00. 23 for three is 7.6667 each, which nobody quoted.
func TestFormatQuoted(t *testing.T) {
	for _, c := range []struct{ amount, code, want string }{
		{"48.335", "USD", "$48.335"}, {"1234.125", "USD", "$1,234.125"}, {"1.999", "EUR", "€1.999"}, {"27.5", "USD", "$27.50"}, {"27.50", "USD", "$27.50"},
		{"7.6667", "USD", "$7.67"}, {"1250.5", "JPY", "¥1,250.5"}, {"0", "USD", "$0.00"},
	} {
		assert.Equal(t, c.want, FormatQuoted(MoneyOf(D(c.amount)), c.code), c.amount)
	}
}

// Amounts that stand in a row have the same digits.
func TestFormatMoneyTo(t *testing.T) {
	for _, c := range []struct {
		amount, code string
		digits       int
		want         string
	}{
		{"0.005", "EUR", 4, "€0.0050"}, {"0.14", "EUR", 4, "€0.1400"}, {"0.04579", "EUR", 4, "€0.0458"}, {"0", "EUR", 4, "€0.0000"}, {"1234.5", "USD", 4, "$1,234.5000"},
		{"3.999", "USD", 2, "$4.00"}, {"0.4", "JPY", 4, "¥0.4000"}, {"-1", "USD", 4, "-$1.00"},
	} {
		assert.Equal(t, c.want, FormatMoneyTo(MoneyOf(D(c.amount)), c.code, c.digits), c.amount)
	}
}

func TestFormatPrice(t *testing.T) {
	for _, c := range []struct{ amount, code, want string }{
		{"7.6667", "USD", "$7.67"}, {"48.335", "USD", "$48.34"}, {"27.5", "USD", "$27.50"}, {"1234.5678", "USD", "$1,234.57"},
		{"0.054", "USD", "$0.054"}, {"0.12345", "GBP", "£0.1235"}, {"1.999", "EUR", "€2.00"}, {"0", "USD", "$0.00"},
		{"0.4", "JPY", "¥0.4"}, {"12.5", "JPY", "¥12.5"}, {"1250.5", "JPY", "¥1,251"}, {"1.005", "XYZ", "XYZ\u00a01.01"},
	} {
		assert.Equal(t, c.want, FormatPrice(MoneyOf(D(c.amount)), c.code), c.amount)
	}
}
