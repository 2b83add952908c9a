package plaintext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/units"
)

func TestWords(t *testing.T) {
	assert.Equal(t, "low ford Öl", Lower("Low FORD Öl"), "byte for byte")
	for text, n := range map[string]int{"don't-look here": 10, "m3 of it": 2, "3 m": 0, "": 0, "a- b": 1, "é!": 2} {
		assert.Equal(t, n, WordLength(text), text)
	}
	assert.Equal(t, "a b", Squeeze(" a\x00\n b\xff "))
	assert.Equal(t, "Low", FirstWord("- Low Ford"))
	assert.Equal(t, "a b  c ", strings.Map(SignsOut, "a,b (c)"))
	assert.Equal(t, "b", First("", "b"))
}

func TestNumbers(t *testing.T) {
	assert.True(t, Cents("12.50"))
	assert.False(t, Cents("1250"))
	assert.Equal(t, 57, Whole("57"))
	assert.Equal(t, -1, Whole("5.7"))
	assert.Equal(t, "$", SignOf("$12"))
	assert.Empty(t, SignOf("none"))
	number, unit := NumberAndUnit("2 cu ft")
	assert.Equal(t, []string{"2", "cu ft"}, []string{number, unit})
	assert.True(t, BehindNumber("from 20+ "))
	assert.False(t, BehindNumber("from a "))
	assert.True(t, IsFraction(8, 11), "8/11.2")
	assert.False(t, IsFraction(20, 25))

	each, whole := Share(units.M("336"), units.D("56")) // 56 × 6 = 336
	assert.True(t, whole)
	assert.Equal(t, "6", each.String())
	_, whole = Share(units.M("10"), units.D("3"))
	assert.False(t, whole)
}

// TestCells cuts lines into cells: what is cut out reads as it stands in the text, without the marks around it.
func TestCells(t *testing.T) {
	for _, c := range []struct {
		text string
		sep  byte
		want []string
	}{
		{"lava  68   yd", Gap, []string{"lava", "68", "yd"}},
		{"| lava | 68 |", '|', []string{"lava", "68"}},
		{`"lava, red", 68`, ',', []string{"lava, red", "68"}},
		{"3/4 in / 68", '/', []string{"3/4 in", "68"}},
	} {
		var got []string
		for _, at := range Cells(c.text, 0, len(c.text), c.sep) {
			got = append(got, c.text[at[0]:at[1]])
		}
		assert.Equal(t, c.want, got)
	}
	require.Equal(t, [][2]int{{0, 1}, {3, 4}, {5, 5}}, Lines("a\r\nb\n"))
}

// TestCutsOf cuts a paste where a message may begin, likeliest first, and nowhere at its ends.
func TestCutsOf(t *testing.T) {
	assert.Equal(t, [][]int{{8}}, CutsOf("lava 68\n---\npumice 74"))
	assert.Equal(t, [][]int{{16}}, CutsOf("Hi Sam, lava 68\nHi Sam, pumice 74"), "greetings")
	assert.Empty(t, CutsOf("lava 68"))
}
