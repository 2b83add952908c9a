package wordlist

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestRead(t *testing.T) {
	l := Read("# a comment: of no use\ncolours: red green\n\tblue\nkind of pack: bag, big  bag\n")
	assert.Equal(t, map[string]bool{"red": true, "green": true, "blue": true}, l.Set("colours"))
	assert.Equal(t, map[string]string{"bag": "pack", "big bag": "pack"}, l.ByWord("kind of ", ","))
	assert.Panics(t, func() { l.Set("comment") }, "a use that is not told")
	assert.Panics(t, func() { Read("kind of a: bag\nkind of b: sack,bag\n").ByWord("kind of ", ",") }, "a word of two meanings")
	assert.Equal(t, map[string]bool{"a": true, "b": true}, Set(" a\tb a"))
}
