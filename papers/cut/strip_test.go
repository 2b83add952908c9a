package cut

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/papers/ink"
	"mediabuy/quotes"
	"mediabuy/units"
)

// terrace is a plan of beds that each differ from the next in depth, so that no two
// are alike; every fourth has gravel below in place of clay, and the last one shale.
func terrace(n int) *optimise.Plan {
	medium := func(name string) *quotes.Quote { return &quotes.Quote{Name: name, Medium: &quotes.Medium{Name: name}} }
	clay, gravel, shale := medium("clay"), medium("gravel"), medium("shale")
	p := &optimise.Plan{Bill: &bill.Bill{Lines: []bill.Line{{Quote: clay}, {Quote: gravel}, {Quote: shale}}}}
	for i := range n {
		limit := units.Kilograms(1000)
		bed := &quotes.Bed{Name: fmt.Sprintf("plot %d", i+1), Count: 1, Length: 2000, Width: 1000, Depth: units.Millimetres(300 + i), Limit: &limit, WaterLine: 25}
		below := clay
		switch {
		case i == n-1:
			below = shale
		case i%4 == 3:
			below = gravel
		}
		p.Fills = append(p.Fills, optimise.BedFill{Bed: bed, Flooded: units.Kilograms(400 + i), Layers: []optimise.LayerFill{
			{Layer: quotes.Top, Parts: []optimise.FillPart{{Quote: clay, Litres: 100}}},
			{Layer: quotes.Base, Parts: []optimise.FillPart{{Quote: below, Litres: 500}}}}})
	}
	return p
}

// Few beds are drawn each; of many, those with the same media in the same layers once,
// with how many they are and how far their frames are used.
func TestManyBedsAreDrawnOnce(t *testing.T) {
	few := Of(terrace(8), units.Metric).Strip()
	require.Len(t, few.Lines, 8)
	require.NotNil(t, few.Smaller)
	// On a narrow screen the same, one below the other.
	assert.Equal(t, few.Lines, few.Narrow.Lines)
	assert.Less(t, few.Narrow.Drawing.Width, few.Drawing.Width/2)
	for _, s := range few.Narrow.Drawing.Shapes {
		assert.LessOrEqual(t, s.X, few.Narrow.Drawing.Width)
		assert.LessOrEqual(t, s.X2, few.Narrow.Drawing.Width)
	}
	many := Of(terrace(30), units.Metric).Strip()
	// 30 beds, of which the 30th has shale and seven (4, 8, ... 28) gravel.
	assert.Equal(t, []string{
		"22 beds like plot 1: frames used 40 to 43 %, 300 mm to 328 mm deep",
		"7 beds like plot 4: frames used 40 to 43 %, 303 mm to 327 mm deep",
		"plot 30: frame: 43 % of 1000 kg",
	}, many.Lines)
	assert.Contains(t, many.Caption, "are drawn once")
	assert.NotContains(t, many.Caption, "more")
	assert.Nil(t, many.Smaller)
}

// Where even the kinds are too many the ones with most beds are drawn, and the one
// whose frame is used most; the rest are counted.
func TestTheFewBedsThatMatter(t *testing.T) {
	p := terrace(12)
	for i := 0; i < len(p.Fills); i += 2 { // a medium of its own below each pair of beds
		name := fmt.Sprintf("stone %d", i/2)
		parts := []optimise.FillPart{{Quote: &quotes.Quote{Name: name, Medium: &quotes.Medium{Name: name}}, Litres: 500}}
		p.Fills[i].Layers[1].Parts, p.Fills[i+1].Layers[1].Parts = parts, parts
		p.Bill.Lines = append(p.Bill.Lines, bill.Line{Quote: parts[0].Quote})
	}
	p.Fills[11].Flooded = 990
	got := Of(p, units.Metric).Strip().Smaller
	require.NotNil(t, got)
	require.Len(t, got.Lines, stripEach)
	assert.Contains(t, got.Lines[stripEach-1], "2 beds like plot 11: frames used 41 to 99 %")
	assert.Contains(t, got.Caption, `4 beds more, of 2 other kinds, under "Each bed"`)
}

// No words of any picture are smaller than can be read on paper.
func TestWordsCanBeRead(t *testing.T) {
	for _, n := range []int{1, 7, 30, 120} {
		b := Of(terrace(n), units.US)
		pictures := append(b.Each(), b.Strip())
		if s := b.Strip().Smaller; s != nil {
			pictures = append(pictures, s)
		}
		pictures = append(pictures, b.Strip().Narrow)
		for _, p := range pictures {
			for _, s := range p.Drawing.Shapes {
				if s.Kind == ink.Words {
					assert.GreaterOrEqual(t, s.Size, 7.5, s.Words)
				}
			}
		}
	}
}

// What a frame carries is never cut off for the length of its name.
func TestFiguresOfALongFrameAreWhole(t *testing.T) {
	// 21 signs fit.
	assert.Equal(t, []string{"birch: 9 % of 2000 kg"}, folded([]string{"table birch: 9 % of 2000 kg"}, 21.5*signMM))
	assert.Equal(t, []string{"Gemeinschaft:", "100 % of 1600 kg"}, folded([]string{"table Gemeinschaft: 100 % of 1600 kg"}, 21.5*signMM))
	assert.Equal(t, []string{"table a: 9 % of 90 kg"}, folded([]string{"table a: 9 % of 90 kg"}, 21.5*signMM))
}
