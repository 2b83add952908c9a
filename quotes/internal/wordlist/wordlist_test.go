package wordlist

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestRead(t *testing.T) {
	l := Read("# a comment: of no use\ncolours: red green\n\tblue\nkind of pack: bag, big  bag\n")
	assert.Equal(t, map[string]bool{"red": true, "green": true, "blue": true}, l.Set("colours"))
	assert.Equal(t, map[string]string{"bag": "pack", "big bag": "pack"}, l.ByWord("kind of ", ","))
	assert.Empty(t, l.Set("comment"))
	assert.Equal(t, map[string]bool{"a": true, "b": true}, Set(" a\tb a"))
}
