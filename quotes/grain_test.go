package quotes

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/units"
)

var inf = units.Millimetres(math.Inf(1))

func TestParseGrain(t *testing.T) {
	for _, c := range []struct {
		text     string
		min, max units.Millimetres
		by       string
	}{
		{"8-16 mm", 8, 16, ""},
		{"8 – 16 mm", 8, 16, ""},
		{"8 mm to 16 mm", 8, 16, ""},
		{"8mm-16mm", 8, 16, ""},
		{"8/16", 8, 16, "d/D = lower and upper sieve in mm"},
		{"8/16 mm", 8, 16, "d/D = lower and upper sieve in mm"},
		{"6.3/14", 6.3, 14, "d/D = lower and upper sieve in mm"},
		{"0/4", 0, 4, "d/D = lower and upper sieve in mm"},
		{"0-4 mm", 0, 4, ""},
		{"0.8-1.6 cm", 8, 16, "1 cm = 10 mm"},
		// E11 openings, not inches times 25.4: 3/8 in is 9.525 mm but its sieve opens 9.5.
		{"3/8-3/4 in", 9.5, 19, "ASTM E11 3/8 in = 9.5 mm; ASTM E11 3/4 in = 19 mm"},
		{"3/8 in - 3/4 in", 9.5, 19, "ASTM E11 3/8 in = 9.5 mm; ASTM E11 3/4 in = 19 mm"},
		{`1/2"-3/4"`, 12.5, 19, "ASTM E11 1/2 in = 12.5 mm; ASTM E11 3/4 in = 19 mm"},
		{"½–1½ in", 12.5, 37.5, "ASTM E11 1/2 in = 12.5 mm; ASTM E11 1-1/2 in = 37.5 mm"},
		{"3/4-1-1/2 in", 19, 37.5, "ASTM E11 3/4 in = 19 mm; ASTM E11 1-1/2 in = 37.5 mm"},
		{"1-1/2-2-1/2 in", 37.5, 63, "ASTM E11 1-1/2 in = 37.5 mm; ASTM E11 2-1/2 in = 63 mm"},
		{"1 1/2-2 in", 37.5, 50, "ASTM E11 1-1/2 in = 37.5 mm; ASTM E11 2 in = 50 mm"},
		{"0-1/2 in", 0, 12.5, "ASTM E11 1/2 in = 12.5 mm"},
		{"0.4-1 in", 10.16, 25, "0.4 in = 10.16 mm, as no ASTM E11 sieve is named so; ASTM E11 1 in = 25 mm"},
		{"No. 8 - 3/8 in", 2.36, 9.5, "ASTM E11 No. 8 = 2.36 mm; ASTM E11 3/8 in = 9.5 mm"},
		{"#4 to 1 in", 4.75, 25, "ASTM E11 No. 4 = 4.75 mm; ASTM E11 1 in = 25 mm"},
		{"3/4 in minus", 0, 19, "ASTM E11 3/4 in = 19 mm"},
		{"3/4-in minus", 0, 19, "ASTM E11 3/4 in = 19 mm"},
		{`3/4" Minus`, 0, 19, "ASTM E11 3/4 in = 19 mm"},
		{"20 mm minus", 0, 20, ""},
		{"1/2 in +", 12.5, inf, "ASTM E11 1/2 in = 12.5 mm"},
		{"1/2 in plus", 12.5, inf, "ASTM E11 1/2 in = 12.5 mm"},
		{"3/8 in", 9.5, 9.5, "ASTM E11 3/8 in = 9.5 mm"},
		{"3 1/2 in", 90, 90, "ASTM E11 3-1/2 in = 90 mm"},
		{"10 mm", 10, 10, ""},
		// D448: the bottom of No. 57 is the No. 4 sieve.
		{"#57", 4.75, 25, "ASTM D448 No. 57 = 4.75 to 25 mm, nominal"},
		{"No. 57", 4.75, 25, "ASTM D448 No. 57 = 4.75 to 25 mm, nominal"},
		{"# 8", 2.36, 9.5, "ASTM D448 No. 8 = 2.36 to 9.5 mm, nominal"},
		{"#10", 0, 4.75, "ASTM D448 No. 10 = 0 to 4.75 mm, nominal"},
	} {
		t.Run(c.text, func(t *testing.T) {
			g, err := ParseGrain(c.text, units.Options{})
			require.NoError(t, err)
			assert.True(t, g.Known)
			assert.InDelta(t, float64(c.min), float64(g.Min), 1e-9)
			if c.max == inf {
				assert.True(t, g.Open())
			} else {
				assert.InDelta(t, float64(c.max), float64(g.Max), 1e-9)
			}
			assert.Equal(t, c.text, g.Raw)
			assert.Equal(t, c.by, g.By)
		})
	}
}

func TestParseGrainDefaultUnit(t *testing.T) {
	inches, mm := units.Options{Default: "in"}, units.Options{Default: "mm"}
	for _, c := range []struct {
		text     string
		o        units.Options
		min, max units.Millimetres
	}{
		{"8-16", mm, 8, 16},
		{"1/2", mm, 1, 2},           // in mm it can only be d/D
		{"3/4", inches, 19, 19},     // a usual fraction of an inch is one
		{"8/16", inches, 8, 16},     // no usual fraction, so d/D whatever the default
		{"1/2-1", inches, 12.5, 25}, // both ends take it
		{"8,5-16 mm", units.Options{Mark: units.MarkComma}, 8.5, 16},
	} {
		g, err := ParseGrain(c.text, c.o)
		require.NoError(t, err, c.text)
		assert.Equal(t, []units.Millimetres{c.min, c.max}, []units.Millimetres{g.Min, g.Max}, c.text)
	}
}

func TestParseGrainRefuses(t *testing.T) {
	for text, hint := range map[string]string{
		"":                       "leave the cell out",
		"3/8":                    `write "3/8 in" or "3-8 mm"`,
		"1/2":                    `write "1/2 in" or "1-2 mm"`,
		"8-16":                   "write the unit",
		"3/4 minus":              "write the unit",
		"1-3/4 in":               `write "1 3/4 in" or "3/4 in to 1 in"`,
		"16-8 mm":                "smaller size first",
		"3/4 in - No. 200 minus": "",
		"#58":                    "no size of ASTM D448",
		`3/4"-`:                  `write "minus"`,
		"0 mm":                   "larger than 0",
		"0 mm minus":             "larger than 0",
		"0-0 mm":                 "larger than 0",
		"-5 mm":                  "",
		"8-16 kg":                "",
		"8-nan mm":               "",
		"#58-#8":                 "no sieve known here",
		"1-2-3-4-5 in":           `write the two ends with "to"`,
	} {
		g, err := ParseGrain(text, units.Options{})
		var pe *units.ParseError
		require.ErrorAs(t, err, &pe, text)
		assert.Zero(t, g, text)
		assert.Equal(t, text, pe.Found)
		assert.Contains(t, pe.Hint, hint, text)
	}
	_, err := ParseGrain("1,250-2,500 mm", units.Options{})
	var amb *units.AmbiguousError
	require.ErrorAs(t, err, &amb)
}

func TestParseGrainLocalNumbers(t *testing.T) {
	for _, s := range stones {
		g, err := ParseGrain("#"+s.number, units.Options{})
		require.NoError(t, err)
		assert.Equal(t, []units.Millimetres{s.from, s.to}, []units.Millimetres{g.Min, g.Max})
		assert.Equal(t, s.number == "1" || s.number == "2", g.Note != "", s.number)
	}
}

func TestParseSieve(t *testing.T) {
	for text, want := range map[string]units.Millimetres{
		"1/2 in": 12.5, `1/2"`: 12.5, "½ in": 12.5, "0.5 inch": 12.5, "1 in": 25, "8 mm": 8, "No. 4": 4.75, "no 200": 0.075, "0.3 in": 7.62, "1 cm": 10, "No. 3-1/2": 5.6,
	} {
		m, err := ParseSieve(text, units.Options{})
		require.NoError(t, err, text)
		assert.InDelta(t, float64(want), float64(m.Value), 1e-9, text)
		assert.Equal(t, text, m.Raw)
	}
	for _, text := range []string{"", "#4", "0 mm", "8", "No. 57", "8-16 mm", "fine", strings.Repeat("1", 300)} {
		m, err := ParseSieve(text, units.Options{})
		require.Error(t, err, text)
		assert.Zero(t, m, text)
	}
}

// A D448 number of several digits spans its digits' sizes: it runs from the top
// of the first to the bottom of the last. That is a second way to the table.
func TestStonesSpanTheirDigits(t *testing.T) {
	for _, s := range stones {
		if len(s.number) == 1 || s.number == "10" {
			continue
		}
		first, ok := stoneByNumber(s.number[:1])
		require.True(t, ok)
		last, ok := stoneByNumber(s.number[len(s.number)-1:])
		require.True(t, ok)
		assert.Equal(t, first.to, s.to, s.number)
		assert.Equal(t, last.from, s.from, s.number)
	}
}

// Both ends of every stone are openings of sieves in the other table.
func TestStonesEndAtSieves(t *testing.T) {
	open := map[units.Millimetres]bool{0: true}
	for _, s := range sieves {
		open[s.mm] = true
	}
	for _, s := range stones {
		assert.True(t, open[s.from] && open[s.to], s.number)
		assert.Less(t, s.from, s.to)
	}
}

// A sieve named in inches opens within 3 % of that many inches (the widest gap
// is the 63 mm of the 2-1/2 in sieve and the 6.7 mm of the 0.265 in one), and
// a finer name never opens wider.
func TestSievesAreNearTheirNames(t *testing.T) {
	for i, s := range sieves {
		if s.inches > 0 {
			assert.InEpsilon(t, s.inches*25.4, float64(s.mm), 0.03, s.name)
		}
		if i > 0 {
			assert.Less(t, s.mm, sieves[i-1].mm, s.name)
		}
	}
}

// A stone of one sieve meets a minimum of the same sieve, however both are written.
func TestSameSieveSameSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(sieves).Draw(t, "sieve")
		name := s.name
		if s.inches > 0 && rapid.Bool().Draw(t, "decimal") {
			name = strconv.FormatFloat(s.inches, 'f', -1, 64) + `"`
		}
		m, err := ParseSieve(name, units.Options{Mark: units.MarkPoint})
		require.NoError(t, err)
		if s.inches == 0 {
			assert.Equal(t, s.mm, m.Value)
			return
		}
		g, err := ParseGrain(name+" +", units.Options{Mark: units.MarkPoint})
		require.NoError(t, err)
		assert.Equal(t, g.Min, m.Value)
	})
}

func FuzzParseGrain(f *testing.F) {
	for _, s := range []string{"8-16 mm", "8/16", "3/8-3/4 in", "#57", "3/4 in minus", "1/2 in +", "3/8 in", "1-1/2-2 in", "½–1½ in", "No. 8 - 3/8 in", "1,5-3 mm", "3/8", "#", "-", "/", "1--2 in", "no. 4-#8"} {
		f.Add(s, byte(0), "")
	}
	f.Add("8,5-16", byte(2), "mm")
	f.Fuzz(func(t *testing.T, text string, mark byte, unit string) {
		o := units.Options{Mark: units.DecimalMark(mark % 3), Default: unit}
		g, err := ParseGrain(text, o)
		m, serr := ParseSieve(text, o)
		if serr != nil {
			require.Zero(t, m)
		} else {
			require.Greater(t, float64(m.Value), 0.0)
			require.Equal(t, text, m.Raw)
		}
		if err != nil {
			require.Zero(t, g)
			require.NotEmpty(t, err.Error())
			return
		}
		require.True(t, g.Known)
		require.Equal(t, text, g.Raw)
		require.GreaterOrEqual(t, float64(g.Min), 0.0)
		require.GreaterOrEqual(t, float64(g.Max), float64(g.Min))
		require.Greater(t, float64(g.Max), 0.0)
	})
}
