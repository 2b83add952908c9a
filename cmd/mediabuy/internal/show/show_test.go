package show

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"mediabuy/optimise"
	"mediabuy/quotes"
	"mediabuy/units"
)

func medium(name string) *quotes.Medium { return &quotes.Medium{Name: name} }

func part(m *quotes.Medium, litres units.Litres) optimise.FillPart {
	return optimise.FillPart{Quote: &quotes.Quote{Name: "a quote", Medium: m}, Litres: litres}
}

func TestPicture(t *testing.T) {
	clay, lava, shale := medium("expanded clay"), medium("lava rock"), medium("expanded shale")
	bed := func(depth units.Millimetres) *quotes.Bed { return &quotes.Bed{Name: "b", Depth: depth} }
	fills := []optimise.BedFill{
		// A third on top; three parts lava to one of shale below.
		{Bed: bed(300), Layers: []optimise.LayerFill{
			{Layer: quotes.Top, Demand: 100, Parts: []optimise.FillPart{part(clay, 100)}},
			{Layer: quotes.Base, Demand: 200, Parts: []optimise.FillPart{part(lava, 150), part(shale, 50)}},
		}},
		// Half as deep, and one quote in a hundred of shale still shows.
		{Bed: bed(150), Layers: []optimise.LayerFill{
			{Layer: quotes.Base, Demand: 100, Parts: []optimise.FillPart{part(lava, 99), part(shale, 1)}},
		}},
	}
	sign, media := letters(fills)
	assert.Equal(t, []*quotes.Medium{clay, shale, lava}, media)
	assert.Equal(t, map[*quotes.Medium]rune{clay: 'e', shale: 'x', lava: 'l'}, sign)
	assert.Equal(t, []string{"eeeeeeeeee", "eeeeeeeeee", "llllllllxx", "llllllllxx", "llllllllxx", "llllllllxx"},
		picture(fills[0], sign, 300), "2.5 tenths of shale: the earlier of two equal remainders is rounded up")
	assert.Equal(t, []string{"lllllllllx", "lllllllllx", "lllllllllx"}, picture(fills[1], sign, 300))
}

func TestRefusalWhere(t *testing.T) {
	layers := func(l ...quotes.Layer) map[quotes.Layer]bool {
		out := map[quotes.Layer]bool{}
		for _, one := range l {
			out[one] = true
		}
		return out
	}
	job := &quotes.Job{}
	for _, name := range strings.Split("abcdefghi", "") {
		job.Beds = append(job.Beds, &quotes.Bed{Name: name, Count: 1})
	}
	for _, c := range []struct {
		g    refusalGroup
		want string
	}{
		{refusalGroup{all: true}, "every bed"},
		{refusalGroup{beds: []string{"a", "b"}, layers: layers(quotes.Top)}, "top of a, b"},
		{refusalGroup{beds: []string{"a", "b", "c", "d", "e"}, layers: layers(quotes.Base)}, "base of 5 beds"},
		{refusalGroup{beds: make([]string, 9), layers: layers(quotes.Base, quotes.Top)}, "top and base of every bed"},
	} {
		assert.Equal(t, c.want, c.g.where(job))
	}
}

func TestColour(t *testing.T) {
	assert.Equal(t, "ready", Style{}.Strong("ready"))
	assert.Equal(t, "\x1b[1mready\x1b[0m", Style{Colour: true}.Strong("ready"))
	assert.Empty(t, Style{Colour: true}.Alarm(""))
}

func TestFill(t *testing.T) {
	us := Style{Units: units.US}
	assert.Equal(t, "16.0 ft³", us.fill(16*units.CubicFoot))
	assert.Equal(t, "0.3 ft³", us.fill(0.29*units.CubicFoot))
	assert.Equal(t, "453 L", Style{}.fill(16*units.CubicFoot))
}

func TestSeveral(t *testing.T) {
	assert.Equal(t, "a, b, c", several([]string{"a", "b", "c"}, 2), "a list is not cut to say 1 more")
	assert.Equal(t, "a, b and 2 more", several([]string{"a", "b", "c", "d"}, 2))
}

// No line is wider than asked for while its words fit, none ends in a space, and
// no word is lost.
func TestParagraphsFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,12}`), 1, 60).Draw(t, "words")
		width := rapid.IntRange(30, 120).Draw(t, "width")
		p := &page{Style: Style{Width: width}}
		p.item("%s", strings.Join(words, " "))
		text := p.String()
		for line := range strings.SplitSeq(strings.TrimSuffix(text, "\n"), "\n") {
			assert.LessOrEqual(t, len(line), width)
			assert.Equal(t, strings.TrimRight(line, " "), line)
		}
		assert.Equal(t, append([]string{"-"}, words...), strings.Fields(text))
	})
}

// Every medium of a layer shows, and every row is as wide as the others.
func TestLayerRowsAreWhole(t *testing.T) {
	all := []*quotes.Medium{medium("ash"), medium("beads"), medium("clay"), medium("dross"), medium("egg shell")}
	sign := map[*quotes.Medium]rune{}
	for i, m := range all {
		sign[m] = rune('a' + i)
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, len(all)).Draw(t, "media")
		l := optimise.LayerFill{}
		for i := range n {
			l.Parts = append(l.Parts, part(all[i], units.Litres(rapid.Float64Range(0.001, 1000).Draw(t, "litres"))))
		}
		row := layerRow(l, sign)
		assert.Len(t, row, pictureWidth)
		for i := range n {
			assert.Contains(t, row, string(sign[all[i]]))
		}
	})
}
