package plaintext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSharing gives each part what the last line says of all of them.
func TestSharing(t *testing.T) {
	text := "seen today\n\nLow Ford 5.10\n\nHigh Fell 4.90\n\nBoth charge 7% tax."
	cuts := []int{strings.Index(text, "Low"), strings.Index(text, "High"), strings.Index(text, "Both")}
	parts := Sharing(text, cuts)
	assert.Len(t, parts, 3)
	for i, want := range []string{"seen today", "Low Ford 5.10 Both charge 7% tax.", "High Fell 4.90 Both charge 7% tax."} {
		assert.Len(t, parts[i], len(text))
		assert.Equal(t, want, Squeeze(parts[i]))
	}
	assert.Nil(t, Sharing(text, cuts[:2]), "the last says something of one")
	three := strings.Replace(text, "seen today", "Marl Lane 5.20", 1)
	assert.Nil(t, Sharing(three, []int{16, 31, strings.Index(three, "Both")}), "both of three")
	assert.Nil(t, Sharing(text, nil))
}
