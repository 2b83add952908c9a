package lazy

import (
	"regexp"
	"strings"
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

func TestBroken(t *testing.T) {
	assert.Panics(t, func() { Compile(`(`).MatchString("") })
}

// What is kept of texts without a match never changes an answer, however often and by whichever method it is asked.
func TestKept(t *testing.T) {
	e, plain := Compile(`(\d+) ?kg`), regexp.MustCompile(`(\d+) ?kg`)
	for i := range 4 * lately {
		s := strings.Repeat("x", i%(2*lately)) + []string{"", "7kg", "kg", "12 kg"}[i%4]
		for range 2 {
			assert.Equal(t, plain.MatchString(s), e.MatchString(s), s)
			assert.Equal(t, plain.FindString(s), e.FindString(s), s)
			assert.Equal(t, plain.FindStringIndex(s), e.FindStringIndex(s), s)
			assert.Equal(t, plain.FindStringSubmatch(s), e.FindStringSubmatch(s), s)
			assert.Equal(t, plain.FindStringSubmatchIndex(s), e.FindStringSubmatchIndex(s), s)
			assert.Equal(t, plain.FindAllStringIndex(s, -1), e.FindAllStringIndex(s, -1), s)
			assert.Equal(t, plain.FindAllStringSubmatchIndex(s, -1), e.FindAllStringSubmatchIndex(s, -1), s)
			assert.Equal(t, plain.ReplaceAllString(s, "-"), e.ReplaceAllString(s, "-"), s)
			assert.Equal(t, plain.ReplaceAllStringFunc(s, strings.ToUpper), e.ReplaceAllStringFunc(s, strings.ToUpper), s)
		}
		assert.LessOrEqual(t, len(e.without), lately)
	}
}
