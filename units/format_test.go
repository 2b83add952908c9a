package units_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/units"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{units.FormatVolume(453.07, units.Metric), "453 L"}, {units.FormatVolume(50, units.Metric), "50 L"}, {units.FormatVolume(0, units.Metric), "0 L"},
		// Stone is placed to a tenth of a litre or cubic foot; what is below a tenth keeps its digits.
		{units.FormatVolume(9.24, units.Metric), "9.2 L"}, {units.FormatVolume(0.047, units.Metric), "0.047 L"}, {units.FormatVolume(0.325*units.CubicFoot, units.US), "0.3 ft³"},
		{units.FormatVolume(1.5, units.Metric), "1.5 L"}, {units.FormatVolume(99.96, units.Metric), "100 L"}, {units.FormatVolume(0.0004, units.Metric), "0 L"},
		{units.FormatVolume(-0.0004, units.Metric), "0 L"}, {units.FormatVolume(-12.34, units.Metric), "-12.3 L"},
		{units.FormatVolume(9999, units.Metric), "9999 L"}, {units.FormatVolume(10_000, units.Metric), "10 m³"}, {units.FormatVolume(12_345, units.Metric), "12.3 m³"},
		// 453.07/28.316846592 = 16.0 ft³ = 0.593 yd³
		// Within beds one unit only, so that they can be compared.
		{units.FormatPlaced(453.07, units.US), "16.0 ft³"}, {units.FormatPlaced(150, units.US), "5.3 ft³"}, {units.FormatPlaced(3000, units.US), "106 ft³"},
		{units.FormatPlaced(12_345, units.Metric), "12345 L"}, {units.FormatPlaced(37.66, units.Metric), "37.7 L"},
		{units.FormatVolume(453.07, units.US), "0.59 yd³"}, {units.FormatVolume(50, units.US), "1.8 ft³"}, {units.FormatVolume(2*units.CubicFoot, units.US), "2 ft³"},
		{units.FormatVolume(units.CubicYard/2, units.US), "0.5 yd³"}, {units.FormatVolume(13*units.CubicFoot, units.US), "13 ft³"},
		{units.FormatMass(910.4, units.Metric), "910 kg"}, {units.FormatMass(0.5, units.Metric), "0.5 kg"}, {units.FormatMass(12_500, units.Metric), "12.5 t"},
		{units.FormatMass(910.4, units.US), "2007 lb"}, {units.FormatMass(20*units.Pound, units.US), "20 lb"}, {units.FormatMass(12*units.ShortTon, units.US), "12 short tons"},
		{units.FormatLength(300, units.Metric), "300 mm"}, {units.FormatLength(1219.2, units.Metric), "1.22 m"}, {units.FormatLength(4.75, units.Metric), "4.75 mm"},
		{units.FormatLength(4.75, units.US), "0.187 in"}, {units.FormatLength(12*units.Inch, units.US), "12 in"}, {units.FormatLength(2*units.Foot, units.US), "2 ft"},
		{units.FormatLength(1371.6, units.US), "4 ft 6 in"}, {units.FormatLength(1384.3, units.US), "4 ft 6.5 in"},
		// 11.96 in beside 4 ft rounds to the next foot, never to 12 in.
		{units.FormatLength(4*units.Foot+11.96*units.Inch, units.US), "5 ft"}, {units.FormatLength(-1371.6, units.US), "-4 ft 6 in"},
		{units.FormatLength(2e25, units.US), "787401574803149800000000 in"},
		{units.FormatDensity(0.72, units.Metric), "0.72 kg/L"}, {units.FormatDensity(0.72, units.US), "44.9 lb/ft³"}, {units.FormatDensity(1.55, units.Metric), "1.55 kg/L"},
		{units.FormatVolume(units.Litres(math.Inf(1)), units.US), "+Inf yd³"}, {units.FormatVolume(units.Litres(math.NaN()), units.Metric), "NaN L"},
		{units.FormatLength(units.Millimetres(math.Inf(-1)), units.US), "-Inf in"},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

// near is how far off three significant digits may be: half of the third digit is at most 0.5 % of the number, and below
// 1 the last place printed is a thousandth.
func near(t require.TestingT, want, got, unit float64) {
	assert.LessOrEqual(t, math.Abs(want-got), math.Max(0.005*math.Abs(want), 0.00051*unit))
}

// What is printed reads back as what was meant, to the digits printed.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(0, 1e7).Draw(t, "value")
		if rapid.Bool().Draw(t, "small") {
			v /= 1e6
		}
		o := units.Options{Mark: units.MarkPoint}
		for _, s := range []units.System{units.Metric, units.US} {
			written := units.FormatVolume(units.Litres(v), s)
			volume, err := units.ParseVolume(written, o)
			require.NoError(t, err)
			// At most half of the last place: a twentieth of a litre or cubic foot, or a two-hundredth of a cubic yard.
			place := 0.051 * float64(units.CubicFoot)
			if strings.HasSuffix(written, "yd³") {
				place = 0.0051 * float64(units.CubicYard)
			}
			assert.LessOrEqual(t, math.Abs(v-float64(volume.Value)), math.Max(0.005*v, place))
			mass, err := units.ParseMass(units.FormatMass(units.Kilograms(v), s), o)
			require.NoError(t, err)
			near(t, v, float64(mass.Value), 1)
			length, err := units.ParseLength(units.FormatLength(units.Millimetres(v), s), o)
			require.NoError(t, err)
			near(t, v, float64(length.Value), float64(units.Inch))
			if v < 0.1 {
				continue // a density that is printed as 0 is none
			}
			density, err := units.ParseDensity(units.FormatDensity(units.Density(v), s), o)
			require.NoError(t, err)
			near(t, v, float64(density.Value), 1)
		}
	})
}

func TestLitresToYardsAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := units.Litres(rapid.Float64Range(1e-6, 1e9).Draw(t, "litres"))
		yards := v / units.CubicYard
		assert.InEpsilon(t, float64(v), float64(yards*units.CubicYard), 1e-15)
		d := units.Density(rapid.Float64Range(0.03, 3).Draw(t, "density"))
		assert.InEpsilon(t, float64(v), float64(d.Volume(d.Mass(v))), 1e-15)
	})
}
