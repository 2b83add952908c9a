package files

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes"
	"mediabuy/units"
)

// journal is a volume, its number or article and its year, as journals are cited.
var journal = regexp.MustCompile(`[a-z] [0-9]+(?:\([0-9]+\)|, article [0-9]+)?, (?:19|20)[0-9]{2}`)

func TestBuiltinMedia(t *testing.T) {
	table := BuiltinMedia()
	for _, name := range []string{"expanded clay", "lava rock", "expanded shale", "river gravel", "crushed granite", "pumice", "foamed glass", "perlite",
		"coconut coir", "limestone", "marble chips", "oyster shell", "crushed concrete"} {
		m, ok := table.Lookup(name)
		require.True(t, ok, name)
		assert.Equal(t, name, m.Name)
	}
	names := mediaNames(table.All())
	assert.True(t, slices.IsSorted(names))
	for _, m := range table.All() {
		assert.Zero(t, m.Pos, m.Name)
		for _, d := range []units.Density{m.DryDensity.Low, m.DryDensity.Usual, m.DryDensity.High} {
			assert.True(t, d >= MinDensity && d <= MaxDensity, m.Name)
		}
		for property, v := range map[string]quotes.Spread[float64]{
			"held_water": m.HeldWater, "voids": m.Voids, "rinse_loss": m.RinseLoss, "settle": m.Settle, "rinse_minutes": m.RinseMinutes,
		} {
			assert.True(t, v.Low <= v.Usual && v.Usual <= v.High, "%s %s", m.Name, property)
		}
		assert.NotZero(t, m.Voids.Usual, m.Name)
		// Solid, water held and space empty when drained share one litre. Densities of
		// the solid in kg/L: lava, clay granules, pumice and granite as in the sources
		// of the table; the others from memory.
		solid := map[string]float64{"lava rock": 2.93, "expanded clay": 1.87, "pumice": 2.0, "river gravel": 2.65, "crushed granite": 2.65, "crushed basalt": 2.9,
			"limestone": 2.7, "marble chips": 2.7, "oyster shell": 2.7, "crushed concrete": 2.35, "expanded shale": 2.65, "foamed glass": 2.5, "perlite": 2.3, "coconut coir": 1.5}[m.Name]
		require.NotZero(t, solid, m.Name)
		assert.LessOrEqual(t, float64(m.DryDensity.Usual)/solid+m.HeldWater.Usual+m.Voids.Usual, 1.0, m.Name)
		for _, property := range []string{"dry_density", "held_water", "voids", "rinse_loss", "settle", "rinse_minutes"} {
			at := slices.IndexFunc(m.Citations, func(c quotes.Citation) bool { return c.Property == property })
			require.GreaterOrEqual(t, at, 0, "%s has no source for %s", m.Name, property)
		}
		for _, c := range m.Citations {
			assert.Contains(t, []string{"seen", "seen in a copy", "computed", "memory", "common practice"}, c.Mark, m.Name)
			// Author or body, title, year: a volume with its year and no title before it is
			// a journal of which only that was read, and says so. So does a source without
			// a year.
			if c.Body != "" {
				assert.Regexp(t, `(18|19|20)[0-9]{2}|no year given`, c.Body, m.Name)
			}
			titled := func(title string) bool { return strings.Contains(c.Body, title) }
			if journal.MatchString(c.Body) && !slices.ContainsFunc([]string{"Lightweight Aggregate Soil Mechanics, ", "Small-scale aquaponic food production, "}, titled) {
				assert.Contains(t, c.Body, "(title not read)", m.Name)
			}
			assert.Equal(t, c.Mark == "seen", c.Body != "" && c.Mark == "seen", "%s %s: what was seen has a body", m.Name, c.Property)
			assert.Contains(t, m.Source, c.String())
		}
		own, ok := table.Lookup(m.Name)
		require.True(t, ok)
		assert.Same(t, m, own)
		for _, o := range m.OtherNames {
			same, ok := table.Lookup(o)
			require.True(t, ok)
			assert.Same(t, m, same, o)
		}
	}
}

// By hand from the table, per litre flooded to the surface. Gravel at usual
// weights: 1.55 + 0.06 + 0.35·0.998 = 1.9593 kg; heavy: 1.75 + 0.09 + 0.3493 =
// 2.1893. Lava: 0.85 + 0.19 + 0.44·0.998 = 1.47912; heavy: 1.33 + 0.26 + 0.43912 =
// 2.02912.
func TestBuiltinFloodedWeights(t *testing.T) {
	table := BuiltinMedia()
	for name, kg := range map[string][2]float64{"river gravel": {1.9593, 2.1893}, "lava rock": {1.47912, 2.02912}} {
		m, ok := table.Lookup(name)
		require.True(t, ok)
		q := &quotes.Quote{Medium: m}
		assert.InDelta(t, kg[0], q.Flooded(1, quotes.UsualWeights), 1e-9, name)
		assert.InDelta(t, kg[1], q.Flooded(1, quotes.HeavyWeights), 1e-9, name)
	}
}

func TestBuiltinMediaIsACopy(t *testing.T) {
	m, _ := BuiltinMedia().Lookup("pumice")
	m.Voids = quotes.Spread[float64]{}
	again, _ := BuiltinMedia().Lookup("pumice")
	assert.NotZero(t, again.Voids)
}

func TestLookup(t *testing.T) {
	table := BuiltinMedia()
	for name, want := range map[string]string{
		"LAVA_ROCK": "lava rock", " lava-rock ": "lava rock", "Scoria": "lava rock", "clay  pebbles": "expanded clay", "gravel": "river gravel",
		"Pea-Gravel": "river gravel", "coir": "coconut coir", "lava rok": "", "": "", "lavarock": "",
	} {
		m, ok := table.Lookup(name)
		if want == "" {
			assert.False(t, ok, name)
			continue
		}
		require.True(t, ok, name)
		assert.Equal(t, want, m.Name)
	}
	for name, want := range map[string]string{"lavarock": "lava rock", "purlite": "perlite", "pea gravle": "pea gravel", "limstone": "limestone", "moon dust": "", "": "", "oyster": "oyster shell"} {
		assert.Equal(t, want, table.Nearest(name), name)
	}
	var none quotes.MediaTable
	_, ok := none.Lookup("pumice")
	assert.False(t, ok)
	assert.Empty(t, none.All())
	assert.Empty(t, none.Nearest("pumice"))
}

func readMedia(t *testing.T, csv string) *quotes.MediaTable {
	t.Helper()
	job, _ := mustRead(t, Sources{Quotes: text("supplier,medium,pack,price\nLow Ford,pumice,50 L,12\n"), Media: text(csv)}, Options{QuotesOnly: true})
	return job.Media
}

func TestMediaOverride(t *testing.T) {
	table := readMedia(t, "Medium,Other Names,dry-density,settle,source\nscoria,cinder rock; lava,50 lb/ft3,4%,weighed\n")
	m, ok := table.Lookup("cinder-rock")
	require.True(t, ok)
	assert.Equal(t, "lava rock", m.Name, "a row about another name is about the medium")
	assert.InDelta(t, 50*0.45359237/28.316846592, float64(m.DryDensity.Usual), 1e-9)
	assert.InDelta(t, 0.04, m.Settle.Usual, 1e-12)
	assert.Equal(t, quotes.Pos{File: "media.csv", Line: 2}, m.Pos)
	built, _ := BuiltinMedia().Lookup("scoria")
	assert.Equal(t, []any{built.HeldWater, built.Voids, built.Feel, built.Carbonate, built.RinseLoss}, []any{m.HeldWater, m.Voids, m.Feel, m.Carbonate, m.RinseLoss},
		"empty cells keep the built-in values")
	assert.Equal(t, "weighed; what it leaves out: "+built.Source, m.Source)
	assert.Equal(t, append(slices.Clone(built.OtherNames), "cinder rock"), m.OtherNames, "other names are added")
	for _, n := range append(built.OtherNames, "lava rock") {
		same, _ := table.Lookup(n)
		assert.Same(t, m, same)
	}
	assert.Len(t, table.All(), len(BuiltinMedia().All()))
}

func TestMediaNew(t *testing.T) {
	table := readMedia(t, "medium,other_names,dry_density,held_water,voids,feel,carbonate,breaks_down\nkiln grog,grog,1.1 kg/L,0,45%,Rough,none,no\n"+
		"bark,,0.25 kg/L,0.3 kg/L,0.5,smooth,none,yes\n")
	m, ok := table.Lookup("grog")
	require.True(t, ok)
	assert.Equal(t, &quotes.Medium{
		Pos: quotes.Pos{File: "media.csv", Line: 2}, Name: "kiln grog", OtherNames: []string{"grog"}, DryDensity: quotes.Exactly[units.Density](1.1), Voids: quotes.Exactly(0.45), Feel: quotes.Rough,
		Carbonate: quotes.CarbonateNone, Source: "media.csv, line 2",
	}, m)
	b, ok := table.Lookup("bark")
	require.True(t, ok)
	assert.True(t, b.BreaksDown)
	assert.InDelta(t, 0.3, b.HeldWater.Usual, 1e-12)
	assert.True(t, slices.IsSorted(mediaNames(table.All())))
}

func TestBelow(t *testing.T) {
	// 300 mm deep with a top layer of 50 mm.
	deep := func(line units.Millimetres) *quotes.Bed {
		return &quotes.Bed{Length: 1000, Width: 1000, Depth: 300, Top: 50, WaterLine: line}
	}
	for _, c := range []struct {
		name      string
		bed       *quotes.Bed
		top, base float64
	}{
		{"one inch down", deep(25.4), (50 - 25.4) / 50, 1},
		{"at the surface", deep(0), 1, 1},
		{"at the bottom of the top layer", deep(50), 0, 1},
		{"in the base layer", deep(175), 0, 0.5}, // (300 − 175) / 250
		{"at the bottom", deep(300), 0, 0},
		{"below the bed", deep(400), 0, 0},
		{"never floods", &quotes.Bed{Length: 1000, Width: 1000, Depth: 300, Top: 50, NeverFloods: true}, 0, 0},
		{"no top layer", &quotes.Bed{Length: 1000, Width: 1000, Depth: 100, WaterLine: 25}, 0, 0.75},
		{"all top layer", &quotes.Bed{Length: 1000, Width: 1000, Depth: 100, Top: 100, WaterLine: 25}, 0.75, 0},
		{"by volume", &quotes.Bed{Volume: 300, TopVolume: 50, WaterLine: 25.4}, 1, 1},
	} {
		assert.InDelta(t, c.top, c.bed.Below(quotes.Top), 1e-12, c.name)
		assert.InDelta(t, c.base, c.bed.Below(quotes.Base), 1e-12, c.name)
	}
}

func TestLayerLitres(t *testing.T) {
	b := &quotes.Bed{Length: 2000, Width: 1000, Depth: 300, Top: 50, Displaced: 12}
	assert.Equal(t, []units.Litres{100, 488}, []units.Litres{b.TopLitres(), b.BaseLitres()}) // 2 m² × 50 mm; 2 m² × 250 mm − 12 L
	assert.InDelta(t, 2, b.Area(), 1e-12)
	v := &quotes.Bed{Volume: 300, TopVolume: 50, Displaced: 12}
	assert.Equal(t, []units.Litres{50, 238}, []units.Litres{v.TopLitres(), v.BaseLitres()})
	assert.Zero(t, v.Area())
}

func TestPosString(t *testing.T) {
	for want, p := range map[string]quotes.Pos{
		"built-in table": {}, "beds.csv": {File: "beds.csv"}, "beds.csv:3": {File: "beds.csv", Line: 3}, "beds.csv:3:7": {File: "beds.csv", Line: 3, Col: 7},
	} {
		assert.Equal(t, want, p.String())
	}
}
