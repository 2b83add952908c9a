package firms

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTold cuts a talk where it comes to another company, and nowhere where words may speak of several.
func TestTold(t *testing.T) {
	isFirm := func(name string) bool { return strings.HasSuffix(name, "Quarry") }
	text := "Low Ford Quarry has lava at $68 a yard. Then High Fell Quarry, lava $71."
	cuts, names := Told(text, isFirm)
	at := strings.Index(text, "Then")
	assert.Equal(t, []int{at}, cuts)
	assert.Equal(t, "Low Ford Quarry", text[names[0][0]:names[0][1]])
	assert.Contains(t, text[at:][names[at][0]:names[at][1]], "High Fell Quarry")
	for _, text := range []string{
		"Low Ford Quarry has lava at $68 a yard.",
		"Low Ford Quarry has lava at $68 a yard. Then High Fell Quarry, lava $71. Both charge tax.",
		"Low Ford Quarry and then, High Fell Quarry have lava.",
	} {
		cuts, _ := Told(text, isFirm)
		assert.Empty(t, cuts, text)
	}
}
