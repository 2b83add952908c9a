package asides

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestAsides holds words against what they are: each is set aside as a whole, and numbers that count for a quote are not.
func TestAsides(t *testing.T) {
	why := func(text string) string {
		for _, a := range All() {
			if at := a.Words.FindStringIndex(text); at != nil && at[1] == len(text) {
				return a.Why
			}
		}
		return ""
	}
	for text, want := range map[string]string{
		"sales@lowford.example": "an address", "quote no. 1180": "a reference", "many thanks for your letter": "thanks", "and nothing else": "no other goods",
		"off the pile": "where it lies", "no problem": "a courtesy", "while stocks last": "what every offer is subject to", "collected or delivered": "how the goods are had, at one price",
	} {
		assert.Equal(t, want, why(text), text)
	}
	for _, text := range []string{"10 bags", "$40 a load", "nothing over 40 mm", "delivered"} {
		assert.Empty(t, why(text), text)
	}
}
