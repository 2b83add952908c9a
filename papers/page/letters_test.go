package page

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is written from the right is drawn the right way round: its first letter at its
// right, numbers in it as they are, brackets turned, English around it untouched.
func TestVisualOrder(t *testing.T) {
	for logical, want := range map[string]string{
		"plain words, 12 (3)":                            "plain words, 12 (3)",
		"\u05d0\u05d1\u05d2":                             "\u05d2\u05d1\u05d0",
		"To \u05d0\u05d1 \u05d2\u05d3, dated 2026-04-06": "To \u05d3\u05d2 \u05d1\u05d0, dated 2026-04-06",
		"\u05d0\u05d1 12.5":                              "12.5 \u05d1\u05d0",
		"\u05d0\u05d1 (\u05d2) \u05d3":                   "\u05d3 (\u05d2) \u05d1\u05d0",
		"\u05d0 and \u05d1\u05d2":                        "\u05d0 and \u05d2\u05d1",
		"\u05d0\u05b8\u05d1":                             "\u05d1\u05d0\u05b8",
	} {
		assert.Equal(t, want, visual(logical), "%q", logical)
	}
}

// A PDF that lacks letters says so at its head, and names them to whoever writes it; one
// that has them all does not.
func TestLettersThatAPDFLacks(t *testing.T) {
	p := &Page{Title: "Purchase order \u00e9 \u017e \u0416 \u05d0 \u00b3 \u20ac", Day: time.Date(2026, 4, 6, 0, 0, 0, 0, time.UTC),
		Sections: []Section{{Heading: "Goods", Blocks: []Block{&Table{Cols: []Col{{Name: "Item"}}, Rows: []Row{{Cells: []Cell{Text("grit")}}}}}}}}
	assert.Empty(t, p.Lacks())
	plain := headPieces(t, p)
	for _, place := range []func(s string){
		func(s string) { p.Subtitle = s },
		func(s string) { p.Foot = s },
		func(s string) { p.Sections[0].Heading = s },
		func(s string) { p.Sections[0].Blocks[0].(*Table).Rows[0].Cells[0].Text = s },
		func(s string) {
			p.Sections[0].Blocks = append(p.Sections[0].Blocks, &Fields{Names: []string{s}}, &List{Items: []string{s}}, &Para{Text: s})
		},
	} {
		place("\u0645\u0632\u0627 \u77f3\U0001fab4\u0645")
		assert.Equal(t, "\u0627\u0632\u0645\u77f3\U0001fab4", p.Lacks())
		assert.Greater(t, headPieces(t, p), plain, "it is said at the head")
		place("")
		p.Sections[0].Blocks = p.Sections[0].Blocks[:1]
		assert.Empty(t, p.Lacks())
	}
	p.Subtitle = "\u0645\u0632\u0627"
	var b bytes.Buffer
	require.NoError(t, p.HTML(&b))
	assert.Contains(t, b.String(), p.Subtitle, "a browser has fonts of its own")
	assert.NotContains(t, b.String(), "not in the font")
}

// headPieces is how many lines stand at the head of the paper, but for its subtitle.
func headPieces(t *testing.T, p *Page) int {
	t.Helper()
	n := len(sheetWriter(p).head())
	if p.Subtitle != "" {
		n--
	}
	return n
}
