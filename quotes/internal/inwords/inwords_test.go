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
		"ninety two a yard":                "92 a yard",
		"a hundred and five":               "105",
		"eighty-one fifty":                 "81.50",
		"three eighths":                    "3/8 in",
		"an inch and a half":               "1 1/2 in",
		"Seven Oaks has two of us":         "seven oaks has two of us",
		"delivery fifty":                   "delivery 50",
		"nine hundred, or eight fifty":     "900, or 850",
		"one fifty":                        "one fifty",
		"two dozen, and a tenner":          "24, and a 10",
		"twelve pound of it":               "twelve pound of it",
		"seventeen pounds fifty":           "17.50",
		"half inch and three-quarter inch": "1/2 in and 3/4 in",
	} {
		got := r.Digits(text, strings.ToLower(text), true)
		require.Len(t, got, len(text), text)
		assert.Equal(t, want, strings.Join(strings.Fields(noughts.ReplaceAllString(got, "$1")), " "))
	}
}
