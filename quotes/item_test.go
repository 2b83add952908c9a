package quotes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes"
)

func TestItemWords(t *testing.T) {
	for item, want := range map[string]string{"": "lava rock", "Lava Rock": "Lava Rock", "red lava rock 3/4": "red lava rock 3/4", "red stone": "red stone (lava rock)"} {
		q := &quotes.Quote{Item: item, Medium: &quotes.Medium{Name: "lava rock"}}
		assert.Equal(t, want, q.ItemWords())
	}
}
