package lazy

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestStart(t *testing.T) {
	e := Start(`(?:a|ab)(?P<n>c)?`)
	assert.Equal(t, "abc", e.FindString("abcd"), "the longest match")
	assert.Equal(t, 1, e.SubexpIndex("n"))
	assert.Empty(t, e.FindString("xab"), "only at the start")
	assert.Equal(t, "a", Compile(`a|ab`).FindString("ab"), "the first match")
}

func TestUnnamed(t *testing.T) {
	assert.Equal(t, `a(?:b)(c)(?:d?)`, Unnamed(`a(?P<one>b)(c)(?P<two>d?)`))
	assert.Equal(t, "a", Unnamed("a"))
}

func TestOpens(t *testing.T) {
	for text, want := range map[string]struct {
		letters string
		other   bool
	}{
		`abc`: {"a", false}, `(?:a|b)?c`: {"abc", false}, `[x-z]+`: {"xyz", false}, `\d{2}`: {"", true}, `(?:a|\$)`: {"a", true}, `(?:a{0,2})b`: {"ab", false}, `\bq`: {"q", false},
		`(?i)ab`: {"a", true},
	} {
		letters, other := Start(text).Opens()
		got := ""
		for i, is := range letters {
			if is {
				got += string(rune('a' + i))
			}
		}
		assert.Equal(t, want.letters, got, text)
		assert.Equal(t, want.other, other, text)
	}
	assert.Panics(t, func() { Compile(`(`).MatchString("") })
}
