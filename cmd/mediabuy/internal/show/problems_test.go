package show

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestExcerpt(t *testing.T) {
	for _, c := range []struct {
		name, text string
		line, col  int
		want       string
	}{
		{"a cell", "a,b\nlava,12O\n", 2, 6, "     2 | lava,12O\n       |      ^\n"},
		{"carriage returns", "a,b\r\nlava,12O\r\n", 2, 6, "     2 | lava,12O\n       |      ^\n"},
		{"letters of two bytes", "Zoë,12O", 1, 6, "     1 | Zoë,12O\n       |     ^\n"},
		{"tabs line up", "a\t12O", 1, 3, "     1 | a 12O\n       |   ^\n"},
		{"behind the end", "a,b", 1, 9, "     1 | a,b\n       |    ^\n"},
		{"a whole row", "a,b", 1, 0, ""},
		{"no such line", "a,b", 3, 1, ""},
		{"an empty file", "", 1, 1, ""},
		{"not text", "a,\xff", 1, 1, ""},
		{"signs that steer a terminal", "a\u202eb\u009bc\u2066d", 1, 2, "     1 | a b c d\n       |  ^\n"},
		{"a long line", strings.Repeat("x", 100) + "O" + strings.Repeat("y", 100), 1, 101,
			"     1 | …" + strings.Repeat("x", 34) + "O" + strings.Repeat("y", 33) + "…\n       | " + strings.Repeat(" ", 35) + "^\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, excerpt([]byte(c.text), c.line, c.col))
		})
	}
}

// Whatever stands in a file, an excerpt is nothing or two lines of text with the
// mark below the first.
func FuzzExcerpt(f *testing.F) {
	f.Add("a,b\nlava,12O\n", 2, 6)
	f.Add("\ufeffa;b\r\n1;\"x\ny\"", 2, 3)
	f.Add(strings.Repeat("ß", 90), 1, 100)
	f.Fuzz(func(t *testing.T, text string, line, col int) {
		out := excerpt([]byte(text), line%1000, col)
		if out == "" {
			return
		}
		require.True(t, utf8.ValidString(out))
		lines := strings.Split(out, "\n")
		require.Len(t, lines, 3)
		assert.Empty(t, lines[2])
		mark := strings.IndexByte(lines[1], '^')
		require.GreaterOrEqual(t, mark, len("       | "))
		assert.LessOrEqual(t, mark, len([]rune(lines[0])))
	})
}
