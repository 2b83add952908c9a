package plaintext

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestBeside takes columns apart that are headed by names, each in its place, and leaves other tables alone.
func TestBeside(t *testing.T) {
	capital := func(text string) func(from, to int) bool {
		return func(from, to int) bool { return unicode.IsUpper(rune(text[from])) }
	}
	text := "Both in May\n\n        Low Ford    Upper Tam\nlava       68          71\ntuff                   90\n\nend"
	columns, rest := Beside(text, capital(text))
	require.Len(t, columns, 2)
	assert.Equal(t, "Both in May\n\n\n\nend", rest)
	for i, want := range []string{"Both in May Low Ford lava 68 tuff end", "Both in May Upper Tam lava 71 tuff 90 end"} {
		require.Len(t, columns[i].Text, len(text))
		assert.Equal(t, want, strings.Join(strings.Fields(columns[i].Text), " "))
	}
	assert.Equal(t, "Upper Tam", text[columns[1].Head[0]:columns[1].Head[1]])

	for _, text := range []string{
		"      Low Ford    Upper Tam\nlava     68     71\n\nend",                            // one line
		"      Low Ford    upper\nlava     68     71\ntuff     80     90",                   // no name
		"      Low Ford    Upper Tam\nlava  sharp  round\ntuff   dull    grey",              // no numbers
		"      Low Ford    Upper Tam\nlava  68   71    99\ntuff  68   71   99\nend   1   2", // more cells than headings
	} {
		columns, rest := Beside(text, capital(text))
		assert.Empty(t, columns, text)
		assert.Equal(t, text, rest)
	}
}
