package files

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/units"
)

// The ways to write a bed's size, and what each layer then holds.
func TestReadBedShorthand(t *testing.T) {
	for _, c := range []struct {
		name, beds string
		top, base  units.Litres // of one bed
		below      [2]float64   // share of top and base below the water line
	}{
		// 2 m × 1 m × 300 mm = 600 L, the top 50 mm of it 100 L; the flood stands 25.4 mm down: 24.6 of the top 50 mm
		{"measures", "bed,length,width,depth,top\nb,2 m,1 m,300 mm,50 mm\n", 100, 500, [2]float64{24.6 / 50, 1}},
		{"no top", "bed,length,width,depth\nb,2 m,1 m,300 mm\n", 0, 600, [2]float64{0, 274.6 / 300}},
		{"all top", "bed,length,width,depth,top\nb,2 m,1 m,300 mm,300 mm\n", 600, 0, [2]float64{274.6 / 300, 0}},
		{"never floods", "bed,length,width,depth,top,water_line\nb,2 m,1 m,300 mm,50 mm,None\n", 100, 500, [2]float64{}},
		{"flooded to the surface", "bed,length,width,depth,top,water_line\nb,2 m,1 m,300 mm,50 mm,0 mm\n", 100, 500, [2]float64{1, 1}},
		// What is taken off comes from the base alone, up to all of it.
		{"displaced", "bed,length,width,depth,top,displaced\nb,2 m,1 m,300 mm,50 mm,20 L\n", 100, 480, [2]float64{24.6 / 50, 1}},
		{"displaced all", "bed,length,width,depth,top,displaced\nb,2 m,1 m,300 mm,50 mm,500 L\n", 100, 0, [2]float64{24.6 / 50, 1}},
		// A volume has no depth, so it counts as flooded throughout unless it never floods.
		{"volume", "bed,volume\nb,600 L\n", 0, 600, [2]float64{1, 1}},
		{"volume and top", "bed,volume,top_volume,displaced\nb,600 L,100 L,20 L\n", 100, 480, [2]float64{1, 1}},
		{"volume, never floods", "bed,volume,top_volume,water_line\nb,600 L,100 L,none\n", 100, 500, [2]float64{}},
		{"columns of both, one used", "bed,length,width,depth,top,volume,top_volume\nb,,,,,600 L,100 L\n", 100, 500, [2]float64{1, 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, _ := mustRead(t, Sources{Quotes: text("supplier,medium,pack,price,delivery\nLow Ford,pumice,50 L,12,40\n"), Beds: text(c.beds)}, Options{})
			require.Len(t, job.Beds, 1)
			b := job.Beds[0]
			assert.InDelta(t, float64(c.top), float64(b.TopLitres()), 1e-9)
			assert.InDelta(t, float64(c.base), float64(b.BaseLitres()), 1e-9)
			assert.InDelta(t, c.below[0], b.Below(quotes.Top), 1e-9)
			assert.InDelta(t, c.below[1], b.Below(quotes.Base), 1e-9)
		})
	}
}

// A table's limit is one figure for all that stands on it, whatever their count; a
// limit without a table is that of each bed of the count.
func TestReadCountAndTable(t *testing.T) {
	job, rep := mustRead(t, Sources{
		Quotes: text("supplier,medium,pack,price,delivery\nLow Ford,pumice,50 L,12,40\n"),
		Beds:   text("bed,count,volume,table,limit\na,3,100 L,T1,900 kg\nb,,50 L,t1,\nc,2,80 L,,250 kg\nd,1,80 L,,\n"),
	}, Options{})
	assert.Empty(t, rep.Warnings)
	require.Len(t, job.Beds, 4)
	var counts []int
	for _, b := range job.Beds {
		counts = append(counts, b.Count)
	}
	assert.Equal(t, []int{3, 1, 2, 1}, counts)
	assert.Equal(t, []string{"T1", "T1", "", ""}, []string{job.Beds[0].Table, job.Beds[1].Table, job.Beds[2].Table, job.Beds[3].Table})
	assert.Equal(t, []units.Kilograms{900, 900, 250}, []units.Kilograms{*job.Beds[0].Limit, *job.Beds[1].Limit, *job.Beds[2].Limit})
	assert.Nil(t, job.Beds[3].Limit)
}

// A depth that no bed of media has is a doubt about its unit, and no problem.
func TestFarTooDeep(t *testing.T) {
	for depth, doubted := range map[string]bool{"12 in": false, "2 m": false, "2001 mm": true, "300 m": true} {
		_, rep := mustRead(t, Sources{Quotes: text("supplier,medium,pack,price,delivery\nLow Ford,pumice,50 L,12,40\n"),
			Beds: text("bed,length,width,depth\none,2 m,1 m," + depth + "\n")}, Options{})
		found := slices.ContainsFunc(rep.Warnings, func(p *quotes.Problem) bool {
			return p.Heading == "depth" && strings.Contains(p.Found, "far deeper than a bed of media is built")
		})
		assert.Equal(t, doubted, found, depth)
	}
}
