package page

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestText(t *testing.T) {
	want := `A PAPER
of no weight
Not proven.

FIRST
Some words.
  - a
  - b | c

SECOND
sums
  What   Packs   Sum
  --------------------
  stone      3  7.50
  part
  --------------------
  Total         7.50
a bed
  - top: 5 L
one sentence
`
	var b bytes.Buffer
	require.NoError(t, sample().Text(&b, 60))
	assert.Equal(t, want, b.String())
}

// A table that is too wide folds the heading of a number first, then words, and
// never a number.
func TestTextFolds(t *testing.T) {
	p := &Page{Title: "t", Sections: []Section{{Blocks: []Block{&Table{
		Cols: []Col{{Name: "What it is"}, {Name: "All that it costs", Right: true}},
		Rows: []Row{{Cells: []Cell{Text("pebbles of clay from the far yard"), Text("1,234,567.00")}}},
	}}}}}
	for width, want := range map[int]string{
		60: `T

  What it is                         All that it costs
  ------------------------------------------------------
  pebbles of clay from the far yard       1,234,567.00
`,
		51: `T

  What it is                          All that it
                                            costs
  -------------------------------------------------
  pebbles of clay from the far yard  1,234,567.00
`,
		34: `T

  What it is         All that it
                           costs
  --------------------------------
  pebbles of clay   1,234,567.00
  from the far
  yard
`,
	} {
		var b bytes.Buffer
		require.NoError(t, p.Text(&b, width))
		assert.Equal(t, want, b.String(), width)
	}
}
