package units

import (
	"fmt"
	"math"
	"strings"
)

// Several is a number of things in words: "1 bed", "2 beds".
func Several(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// Listed lists words: "the mill, the north plot and the school".
func Listed(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// Tidy drops the noise of binary fractions from a figure for machines: a millionth
// of a litre is nothing to measure.
func Tidy(v float64) float64 { return math.Round(v*1e6) / 1e6 }
