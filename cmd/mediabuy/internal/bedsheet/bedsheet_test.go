package bedsheet

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/quotes/files/jobtest"
)

func read(t *testing.T, quotesCSV, bedsCSV, settings string) *quotes.Job {
	return jobtest.Files{Quotes: quotesCSV, Beds: bedsCSV, Settings: settings}.Job(t)
}

const clayAndLava = `supplier,medium,pack,price
Yard,expanded clay,50 L,10
Yard,lava rock,1 cu ft,10
Yard,marble chips,40 lb,4
`

// A 4 by 4 ft bed takes 453 L at 12 in, that is 9 to 10 bags of 50 L; the 6 to 7
// bags often quoted for such a bed fill it only 8 to 9 in deep (common practice,
// no source).
func TestLitresToBagsAndBagsToDepth(t *testing.T) {
	s := New(read(t, clayAndLava, "bed,length,width,depth,top\nb,4 ft,4 ft,12 in,4 in\n", ""))
	require.Len(t, s.Beds, 1)
	b := s.Beds[0]
	// 16 ft³ × 28.316846592 = 453.07 L; a third of it on top.
	require.Len(t, b.Layers, 2)
	assert.InDelta(t, 302.046, b.Layers[0].Litres, 1e-3)
	assert.InDelta(t, 151.023, b.Layers[1].Litres, 1e-3)
	assert.InDelta(t, 16.0/27, b.Layers[0].Yards+b.Layers[1].Yards, 1e-5)

	require.Len(t, b.Bags, 3, "marble never goes in, so its bag is not shown")
	fifty := b.Bags[1]
	assert.Equal(t, "50 L", fifty.Pack)
	assert.InDelta(t, 9.06, fifty.Exact, 0.005)
	assert.Equal(t, int64(10), fifty.Bags)
	inches := map[int64]float64{}
	for _, d := range fifty.Depths {
		inches[d.Bags] = d.Mm / 25.4
	}
	// 6 × 50 L ÷ 1.486 m² = 201.8 mm; 7 × 50 ÷ 1.486 = 235.5 mm.
	assert.InDelta(t, 7.95, inches[6], 0.01)
	assert.InDelta(t, 9.27, inches[7], 0.01)
	assert.Greater(t, inches[10], 12.0)
	assert.Len(t, fifty.Depths, 5)

	// A bag of 1 cu ft of lava rock places 5 % less after rinsing and 5 % of the rest less once settled: 0.9025 ft³, so
	// 16/0.9025 = 17.7 of them are needed. Clay loses 2 % and 5 %: 46.55 L of a bag of 50 L, and 453.07/46.55 = 9.73.
	assert.Equal(t, "lava rock", b.Bags[0].Medium)
	assert.InDelta(t, 17.73, b.Bags[0].Exact, 0.005)
	assert.Equal(t, int64(18), b.Bags[0].Bags)
	assert.Equal(t, "expanded clay", b.Bags[2].Medium)
	assert.InDelta(t, 9.73, b.Bags[2].Exact, 0.005)
}

// 2.4 × 1.2 m is 2.88 m², 864 L at 300 mm, of which pipes take 100: 764 L are left. A
// bag places 46.55 L: 764/46.55 = 16.4, and 17 of them and the pipes stand
// (17 × 46.55 + 100) / 2.88 = 309.5 mm deep.
func TestPipesCountInTheDepth(t *testing.T) {
	s := New(read(t, "supplier,medium,pack,price\nYard,expanded clay,50 L,9\n", "bed,length,width,depth,displaced\na,2400 mm,1200 mm,300 mm,100 L\n", ""))
	b := s.Beds[0]
	require.Len(t, b.Layers, 1)
	assert.InDelta(t, 0.764, b.Layers[0].Metres, 1e-6)
	clay := b.Bags[1]
	require.Equal(t, int64(17), clay.Bags)
	assert.InDelta(t, 309.5, clay.Depths[len(clay.Depths)-1].Mm, 0.05)
}

func TestWeights(t *testing.T) {
	job := read(t, clayAndLava, `bed,count,volume,table,limit,own_weight,water_line
a,1,100 L,frame,200 kg,10 kg,
b,2,100 L,frame,200 kg,,none
c,1,100 L,,80 kg,,
`, "extra = \"10%\"\n")
	s := New(job)
	require.Len(t, s.Tables, 1)
	clay := s.Tables[0].Flooded[0]
	assert.Equal(t, "expanded clay", clay.Medium)
	// 100 L each, the spare weighs nothing in a bed. Heavy clay flooded: 0.45 + 0.16 +
	// 0.40 × 0.998 = 1.0092 kg/L; never flooded: 0.61. a: 100.92 + 10; b: 2 × 61.
	// Together 232.92, over 200.
	assert.InDelta(t, 232.92, clay.FloodedKg, 1e-4)
	assert.True(t, clay.Over)
	assert.Equal(t, []string{"a", "b"}, s.Tables[0].Beds)
	assert.Nil(t, s.Beds[0].LimitKg, "a bed on a table has no limit of its own")
	require.NotNil(t, s.Beds[2].LimitKg)
	assert.InDelta(t, 100.92, s.Beds[2].Flooded[0].FloodedKg, 1e-4)
	assert.True(t, s.Beds[2].Flooded[0].Over)
	assert.Empty(t, s.Beds[0].Bags[0].Depths, "a bed given by volume has no depth")
}

// A yard that states what its stone weighs is believed where that is more: of two
// quotes of one medium the heavier one is shown.
func TestWeightsTakeAYardsOwnDensity(t *testing.T) {
	s := New(read(t, `supplier,medium,pack,price,density
Yard,expanded clay,50 L,10,
Pit,expanded clay,50 L,10,0.6 kg/L
`, "bed,volume,limit\nc,100 L,110 kg\n", ""))
	require.Len(t, s.Beds[0].Flooded, 1)
	// Heavy clay is 0.45 kg/L, the pit's 0.6: 0.6 + 0.16 + 0.40 × 0.998 = 1.1592 kg/L.
	assert.InDelta(t, 115.92, s.Beds[0].Flooded[0].FloodedKg, 1e-4)
	assert.True(t, s.Beds[0].Flooded[0].Over)
	assert.Equal(t, quotes.HeavyWeights, s.Weights)
}

func TestAlike(t *testing.T) {
	s := New(read(t, clayAndLava, `bed,length,width,depth,limit
a,1 m,2 m,300 mm,
b,1 m,2 m,300 mm,
c,1 m,2 m,250 mm,
d,1 m,2 m,300 mm,900 kg
`, ""))
	assert.True(t, s.Beds[0].Alike(&s.Beds[1]))
	assert.False(t, s.Beds[0].Alike(&s.Beds[2]))
	assert.False(t, s.Beds[0].Alike(&s.Beds[3]))
}
