package units_test

import (
	"math/big"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/units"
)

// factors are the defined values of every unit. "seen" and "memory" say whether the figure stood in a text that was read.
//
// Volumes: NIST Handbook 44 Appendix C section 4 and NIST SP 811 (2008) Appendix B, by way of a list that stars exact
// factors, http://www.geocities.ws/qxb4tech/volume.html (secondary; all seen there but the imperial quart, which is
// computed as a quarter of the imperial gallon).
// Masses and lengths: NIST SP 811 Appendix B and NIST Handbook 44, by way of the definitions file of GNU units 2.22 (seen
// there); gram, ounce, centimetre are computed. "gnu" is the unit's name in GNU units.
var factors = []struct {
	name, gnu, gnuBase string
	got                float64
	want               string
}{
	{"cubic yard", "yard^3", "litre", float64(units.CubicYard), "764.554857984"},
	{"cubic foot", "foot^3", "litre", float64(units.CubicFoot), "28.316846592"},
	{"cubic inch", "inch^3", "litre", float64(units.CubicInch), "0.016387064"},
	{"US liquid gallon", "gallon", "litre", float64(units.USGallon), "3.785411784"},
	{"US liquid quart", "quart", "litre", float64(units.USLiquidQuart), "0.946352946"},
	{"US dry quart", "dryquart", "litre", float64(units.USDryQuart), "1.101220942715"},
	{"US bushel", "usbushel", "litre", float64(units.USBushel), "35.23907016688"},
	{"imperial gallon", "brgallon", "litre", float64(units.ImpGallon), "4.54609"},
	{"imperial quart", "brquart", "litre", float64(units.ImpQuart), "1.1365225"},
	{"imperial bushel", "brbushel", "litre", float64(units.ImpBushel), "36.36872"},
	{"cubic metre", "m^3", "litre", float64(units.CubicMetre), "1000"},
	{"millilitre", "millilitre", "litre", float64(units.Millilitre), "0.001"},
	{"pound", "pound", "kg", float64(units.Pound), "0.45359237"},
	{"ounce", "ounce", "kg", float64(units.Ounce), "0.028349523125"},
	{"short ton", "shortton", "kg", float64(units.ShortTon), "907.18474"},
	{"long ton", "longton", "kg", float64(units.LongTon), "1016.0469088"},
	{"tonne", "tonne", "kg", float64(units.Tonne), "1000"},
	{"gram", "gram", "kg", float64(units.Gram), "0.001"},
	{"inch", "inch", "mm", float64(units.Inch), "25.4"},
	{"foot", "foot", "mm", float64(units.Foot), "304.8"},
	{"yard", "yard", "mm", float64(units.Yard), "914.4"},
	{"centimetre", "cm", "mm", float64(units.Centimetre), "10"},
	{"metre", "m", "mm", float64(units.Metre), "1000"},
}

func TestFactorsAgainstTheirDefinitions(t *testing.T) {
	for _, f := range factors {
		assert.Equal(t, f.want, units.DecimalOf(f.got).String(), f.name)
	}
}

// The same figures built up by exact fractions from the inch (25.4 mm), the pound (0.453 592 37 kg), the gallon of 231 in³
// and the bushel of 2150.42 in³.
func TestFactorsFromInchAndPound(t *testing.T) {
	frac := func(s string) *big.Rat {
		r, ok := new(big.Rat).SetString(s)
		require.True(t, ok, s)
		return r
	}
	times := func(parts ...*big.Rat) *big.Rat {
		r := big.NewRat(1, 1)
		for _, p := range parts {
			r.Mul(r, p)
		}
		return r
	}
	dm := frac("0.254") // an inch in decimetres, so that its cube is litres
	cubicInch := times(dm, dm, dm)
	for _, c := range []struct {
		name string
		got  units.Litres
		want *big.Rat
	}{
		{"cubic inch", units.CubicInch, cubicInch},
		{"cubic foot = 12³ in³", units.CubicFoot, times(frac("1728"), cubicInch)},
		{"cubic yard = 36³ in³", units.CubicYard, times(frac("46656"), cubicInch)},
		{"gallon", units.USGallon, times(frac("231"), cubicInch)},
		{"liquid quart", units.USLiquidQuart, times(frac("231/4"), cubicInch)},
		{"dry quart", units.USDryQuart, times(frac("2150.42"), frac("1/32"), cubicInch)},
		{"bushel", units.USBushel, times(frac("2150.42"), cubicInch)},
	} {
		assert.Zero(t, c.want.Cmp(rat(t, units.DecimalOf(float64(c.got)))), "%s: want %s, got %v", c.name, c.want.FloatString(15), c.got)
	}
	pound := frac("0.45359237")
	assert.Zero(t, times(frac("2000"), pound).Cmp(rat(t, units.DecimalOf(float64(units.ShortTon)))), "short ton")
	assert.Zero(t, times(frac("2240"), pound).Cmp(rat(t, units.DecimalOf(float64(units.LongTon)))), "long ton")
	assert.Zero(t, times(frac("1/16"), pound).Cmp(rat(t, units.DecimalOf(float64(units.Ounce)))), "ounce")
}

// A second opinion from a program of its own: GNU units. It is compared where it is installed, and must be in CI.
func TestFactorsAgainstGNUUnits(t *testing.T) {
	program, err := exec.LookPath("units")
	if err != nil {
		require.NotEqual(t, "true", os.Getenv("CI"), "GNU units is not installed (%v); install the package units", err)
		t.Logf("not compared, GNU units is not installed: %v", err)
		return
	}
	t.Logf("compared with %s", program)
	ask := func(from, to string) float64 {
		out, err := exec.Command(program, "--terse", "--output-format", "%.16g", from, to).Output()
		require.NoError(t, err, "%s to %s", from, to)
		v, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		require.NoError(t, err)
		return v
	}
	t.Run("factors", func(t *testing.T) {
		for _, f := range factors {
			assert.InEpsilon(t, ask(f.gnu, f.gnuBase), f.got, 1e-14, f.name)
		}
	})
	t.Run("densities", func(t *testing.T) {
		for text, gnu := range map[string]string{
			"45 lb/ft3": "45 lb/ft^3", "1.1 ton/yd3": "1.1 shortton/yd^3", "2400 lb/yd3": "2400 lb/yd^3", "720 kg/m3": "720 kg/m^3",
			"1 long ton/yd3": "longton/yd^3", "0.8 g/cm3": "0.8 g/cm^3",
		} {
			d, err := units.ParseDensity(text, units.Options{})
			require.NoError(t, err)
			assert.InEpsilon(t, ask(gnu, "kg/litre"), float64(d.Value), 1e-14, text)
		}
	})
}
