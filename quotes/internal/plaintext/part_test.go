package plaintext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"mediabuy/quotes/internal/lazy"
	"mediabuy/units"
)

func TestNumbersStayWhole(t *testing.T) {
	for text, want := range map[string]bool{"12|,50": true, "12,|50": true, "10 |000": true, "12| bags": false, "3/8| 118": false, "m3| 150": false,
		"1|/2 yd": true, "1/|2 yd": true, "a 3|/8": true, "15|/16\"": true, "$1|/2 kg": false, "4|/2 kg": false, "9|/50 L": false, "3|/yd": false, "1|/250": false, "12.3|/4": false} {
		at := strings.IndexByte(text, '|')
		text = strings.Replace(text, "|", "", 1)
		assert.Equal(t, want, Part{text, 0, len(text)}.InsideNumber(at), text)
	}
	assert.True(t, Part{"yards", 0, 5}.Splits(4))
	assert.True(t, Part{"10%", 0, 3}.Splits(2))
	assert.False(t, Part{"10 yards", 0, 8}.Splits(2))
}

func TestNumbersOfCells(t *testing.T) {
	assert.Equal(t, "12.50", CellNumber("12,50", units.D("12.5"), units.MarkPoint))
	assert.Equal(t, "1,2500", CellNumber("1.250", units.D("1.25"), units.MarkComma), "three decimals would read two ways")
	line := lazy.Compile(`(?m)^(\d+) - \d+$`)
	assert.Equal(t, map[int]bool{0: true, 7: true}, CountingUp("1 - 38\n6 - 34", line))
	assert.Empty(t, CountingUp("6 - 34\n1 - 38", line))
}

func TestDecode(t *testing.T) {
	for raw, want := range map[string]string{"\xff\xfea\x00": "a", "\xef\xbb\xbfa": "a", "\xa3": "£"} {
		got, note, err := Decode([]byte(raw))
		assert.NoError(t, err)
		assert.Equal(t, want, got)
		assert.Equal(t, want == "£", note != "")
	}
}
