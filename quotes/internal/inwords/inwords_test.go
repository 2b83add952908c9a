package inwords

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/internal/lazy"
)

// TestDigits sets amounts in digits of as many bytes, and leaves words alone that are none. Noughts and spaces that fill are
// taken out of what is compared.
func TestDigits(t *testing.T) {
	r := Reader{Next: lazy.Start(` a (?:yard|bag)`), Rate: lazy.Start(` a (?:yard|bag)`), Behind: lazy.Compile(`(?:delivery|runs) $`)}
	noughts := regexp.MustCompile(`\b0+([1-9])`)
	for text, want := range map[string]string{
		"ninety two a yard":            "92 a yard",
		"a hundred and five":           "105",
		"eighty-one fifty":             "81.50",
		"three eighths":                "3/8 in",
		"an inch and a half":           "1 1/2 in",
		"Seven Oaks has two of us":     "seven oaks has two of us",
		"delivery fifty":               "delivery 50",
		"nine hundred, or eight fifty": "900, or 850",
		"one fifty":                    "one fifty",
		"two dozen, and a tenner":      "24, and a 10",
		"twelve pound of it":           "twelve pound of it",
		"seventeen pounds fifty":       "17.50",
		"thirty-one and a half a yard": "31.50 a yard",
		"Six and a half a bag":         "6.50 a bag",
		"two and a half yards":         "two and a half yards",
		"31 and a half a yard":         "31.50 a yard",
		"8 even, a buck off":           "8.00 , 1 buck off",
		"for the sum of forty-one dollars and fifty cents ($41.50) per load of sixteen (16) tons, within ten (12) days": "for $41.50 per load of 16 tons, within ten (12) days",
		"one and one-half inch":            "1 1/2 in",
		"half inch and three-quarter inch": "1/2 in and 3/4 in",
	} {
		got := r.Digits(text, strings.ToLower(text), true)
		require.Len(t, got, len(text), text)
		assert.Equal(t, want, strings.Join(strings.Fields(noughts.ReplaceAllString(got, "$1")), " "))
	}
}

// TestPlain closes amounts that are grouped by spaces where that is the habit, and takes no dots or rand signs for anything else.
func TestPlain(t *testing.T) {
	for _, c := range []struct{ text, currency, want string }{
		{"1 150 kr per m3", "SEK", "1'150 kr per m3"},
		{"1 150 kr per m3", "USD", "1 150 kr per m3"},
		{"from 20 105 kr", "SEK", "from 20 105 kr"},
		{"lava ..... 84", "USD", "lava       84"},
		{"lava ..... £84", "GBP", "lava       £84"},
		{"lava …… 84 €", "EUR", "lava        84 €"},
		{"r520 a load, r 60 more", "ZAR", "$520 a load, $ 60 more"},
		{"lava 84 a metre, 3 metres off", "AUD", "lava 84 a m3   , 3 metres off"},
		{"edging 12 a metre, lava", "AUD", "edging 12 a metre, lava"},
		{"lava 84 a metre", "USD", "lava 84 a metre"},
		{"item  half metre  1 metre\n", "NZD", "item  half m3     1 m3   \n"},
		{"1 metre wide", "NZD", "1 metre wide"},
		{"add 7 3/4 % tax, or 6-1/2% or 8½ %", "USD", "add 07.75 % tax, or 006.5% or 8.5 %"},
		{"at 3/4 % and 7 3/2 %", "USD", "at 3/4 % and 7 3/2 %"},
		{"trucks r 18 yds", "USD", "trucks r 18 yds"},
	} {
		assert.Equal(t, c.want, Plain(c.text, c.currency))
	}
}
