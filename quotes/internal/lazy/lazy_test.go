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

func TestBroken(t *testing.T) {
	assert.Panics(t, func() { Compile(`(`).MatchString("") })
}
