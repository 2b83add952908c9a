package plaintext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumbersStayWhole(t *testing.T) {
	for text, want := range map[string]bool{"12|,50": true, "12,|50": true, "10 |000": true, "12| bags": false, "3/8| 118": false} {
		at := strings.IndexByte(text, '|')
		text = strings.Replace(text, "|", "", 1)
		assert.Equal(t, want, Part{text, 0, len(text)}.InsideNumber(at), text)
	}
	assert.True(t, Part{"yards", 0, 5}.Splits(4))
	assert.True(t, Part{"10%", 0, 3}.Splits(2))
	assert.False(t, Part{"10 yards", 0, 8}.Splits(2))
}
