package ink

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The ends of the scale and one pair in between, worked by hand: #777777 on white
// has luminance 0.1845, so (1.05)/(0.2345) = 4.48.
func TestContrast(t *testing.T) {
	assert.InDelta(t, 21, Contrast(Colour{0, 0, 0}, Colour{255, 255, 255}), 1e-9)
	assert.InDelta(t, 1, Contrast(Accent, Accent), 1e-9)
	assert.InDelta(t, 4.48, Contrast(Colour{0x77, 0x77, 0x77}, Paper), 0.005)
}

// WCAG 2.2 AA: 4.5 to 1 for text (1.4.3), 3 to 1 for what graphics need to be
// understood (1.4.11); https://www.w3.org/TR/WCAG22/ (memory).
func TestColoursMeetAA(t *testing.T) {
	for _, words := range []Colour{Text, Quiet, Alarm, Accent} {
		for _, ground := range []Colour{Paper, Panel, AlarmPanel} {
			assert.GreaterOrEqual(t, Contrast(words, ground), 4.5, "%s on %s", words.Hex(), ground.Hex())
		}
	}
	assert.GreaterOrEqual(t, Contrast(Paper, Accent), 4.5, "words on a heading of a table")
	for i := range fills {
		f := FillOf(i)
		assert.GreaterOrEqual(t, Contrast(Text, f.Colour), 4.5, "words on fill %d", i)
		assert.GreaterOrEqual(t, Contrast(Quiet, f.Colour), 3.0, "pattern on fill %d", i)
		assert.GreaterOrEqual(t, Contrast(Text, f.Colour), 3.0, "edge of fill %d", i)
	}
	for _, mark := range []Colour{Accent, Rule, Alarm} {
		assert.GreaterOrEqual(t, Contrast(mark, Paper), 3.0, mark.Hex())
	}
}

func TestFillsDifferWithoutColour(t *testing.T) {
	seen := map[Hatch]bool{}
	for i := range fills {
		assert.False(t, seen[FillOf(i).Hatch], "fill %d repeats a pattern", i)
		seen[FillOf(i).Hatch] = true
	}
}

func TestSVG(t *testing.T) {
	d := &Drawing{Width: 40, Height: 20}
	f := FillOf(3)
	d.Box(1, 2, 10, 5, &f, Text, 0.3)
	d.Line(0, 10, 40, 10, Rule, 0.2, 1)
	d.Say(20, 15, `"2 < 3" & more`, 9, true, Middle)
	got := d.SVG(`a "drawing"`)
	assert.Equal(t, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" role="img" aria-label="a &#34;drawing&#34;" style="width:40mm">
<rect x="1" y="2" width="10" height="5" fill="#dee8c8"/><path d="M1 3.1L11 3.1M1 5.3L11 5.3" stroke="#4a5650" stroke-width="0.18" fill="none"/><rect x="1" y="2" width="10" height="5" fill="none" stroke="#1a211e" stroke-width="0.3"/>
<line x1="0" y1="10" x2="40" y2="10" stroke="#6e7c75" stroke-width="0.2" stroke-dasharray="1"/>
<text x="20" y="15" font-size="3.18" fill="#1a211e" text-anchor="middle" font-weight="bold">&#34;2 &lt; 3&#34; &amp; more</text>
</svg>
`, got)
}

func TestStrokesStayInTheBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := FillOf(rapid.IntRange(0, 5).Draw(t, "fill"))
		d := &Drawing{}
		d.Box(rapid.Float64Range(0, 50).Draw(t, "x"), rapid.Float64Range(0, 50).Draw(t, "y"),
			rapid.Float64Range(0, 60).Draw(t, "w"), rapid.Float64Range(0, 60).Draw(t, "h"), &f, Text, 0.2)
		s := d.Shapes[0]
		for _, l := range s.Strokes() {
			for i, v := range l {
				low, high := s.X, s.X2
				if i%2 == 1 {
					low, high = s.Y, s.Y2
				}
				if v < low-1e-9 || v > high+1e-9 {
					t.Fatalf("%s stroke %v leaves the box %v", f.Hatch, l, s)
				}
			}
		}
	})
}

func TestSVGIsWellFormed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &Drawing{Width: 10, Height: 10}
		d.Say(1, 1, rapid.StringMatching(`[ -~é]*`).Draw(t, "words"), 9, false, End)
		dec := xml.NewDecoder(strings.NewReader(d.SVG(fmt.Sprint(rapid.StringMatching(`[ -~]*`).Draw(t, "alt")))))
		for {
			if _, err := dec.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
		}
	})
	require.NotPanics(t, func() { (&Drawing{}).SVG("") })
}
