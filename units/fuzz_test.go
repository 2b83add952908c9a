package units_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"mediabuy/units"
)

// seeds are cells as growers and yards write them, good and bad.
var seeds = []string{
	"50 L", "2 cu. ft.", "1.5 ft3", "1 yd³", "½ yard", "1 1/2 yd", "25 qt", "0,5 m³", "1 234,5 L", "1,234 L", "1'234.50 L", "5 galon", "1O L",
	"25 kg", "40 lbs", "1 ton", "1 T", "1 t", "12 in", `12"`, "4 ft 6 in", `4'6"`, "4’6½”", "3-1/2 in", "3/0 in", "4 ft .5 in", "1 m 20 cm", "4' 6",
	"45 lb/ft3", "0.72 kg per L", "45 pcf", "12 / yd3", "$12 per yd3", "30 per 10 cu ft", "0.02/L", "12.50", "$1,234.50", "1.234,50 €", "CHF 1'234.50",
	"F\u202fCFA\u00a01,234", "Cg.5", "12.5O", "NaN", "-Inf", "1e5", "0x1F", "8%", "0.08", "8 per cent", "67 %", "0.67", "", " ", "\xff", "0", "-0", ".5", ",5",
	"10: 27,50; 40: 24,00", "8,5-16 mm", "⅓⅓", "1⁄2 in", "9999999999999 L", "1.2.3", "50 L,2 yd",
}

func addSeeds(f *testing.F) {
	for _, s := range seeds {
		f.Add(s, byte(0))
		f.Add(s, byte(1))
		f.Add(s, byte(2))
	}
}

// defaults are tried beside each mark, so that bare numbers are fuzzed as well.
var defaults = map[string]string{"volume": "L", "mass": "lb", "length": "in", "density": "kg/L", "amount": "ton"}

// checkReading holds what every parser promises: an error of a known type with the zero value, or a finite value within
// bounds that kept its text.
func checkReading[T comparable](t *testing.T, text string, got T, err error, raw string, value float64) {
	if err != nil {
		var zero T
		require.Equal(t, zero, got, "an error comes with the zero value")
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse)
		require.Equal(t, text, parse.Found)
		require.NotEmpty(t, parse.Wanted)
		return
	}
	require.Equal(t, text, raw, "the words are kept")
	require.False(t, math.IsNaN(value) || math.IsInf(value, 0), "%v is not finite", value)
	require.LessOrEqual(t, math.Abs(value), units.MaxMagnitude)
}

// checkMeasure also holds that a quantity is not negative.
func checkMeasure[Q ~float64](t *testing.T, text string, m units.Measure[Q], err error) {
	checkReading(t, text, m, err, m.Raw, float64(m.Value))
	require.GreaterOrEqual(t, float64(m.Value), 0.0)
}

func FuzzQuantities(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, text string, mark byte) {
		for _, bare := range []bool{false, true} {
			options := func(which string) units.Options {
				o := units.Options{Mark: units.DecimalMark(mark % 3)}
				if bare {
					o.Default = defaults[which]
				}
				return o
			}
			volume, volumeErr := units.ParseVolume(text, options("volume"))
			checkMeasure(t, text, volume, volumeErr)
			mass, massErr := units.ParseMass(text, options("mass"))
			checkMeasure(t, text, mass, massErr)
			length, err := units.ParseLength(text, options("length"))
			checkMeasure(t, text, length, err)
			density, err := units.ParseDensity(text, options("density"))
			checkMeasure(t, text, density, err)
			if err == nil {
				require.Positive(t, float64(density.Value))
			}

			amount, err := units.ParseAmount(text, options("amount"))
			checkReading(t, text, amount, err, amount.Raw, float64(amount.Volume.Value)+float64(amount.Mass.Value))
			if !bare {
				// With no default, an amount is what one of the two reads.
				require.Equal(t, volumeErr == nil || massErr == nil, err == nil)
				if err == nil && amount.IsMass {
					require.Equal(t, mass, amount.Mass)
				} else if err == nil {
					require.Equal(t, volume, amount.Volume)
				}
			}
		}
	})
}

func FuzzMoney(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, text string, mark byte) {
		m := units.DecimalMark(mark % 3)
		money, err := units.ParseMoney(text, m)
		if err == nil {
			checkReading(t, text, "", nil, text, money.Float())
		} else {
			require.Equal(t, units.Money{}, money)
			var parse *units.ParseError
			require.ErrorAs(t, err, &parse)
		}
		price, err := units.ParsePerVolume(text, m)
		if err != nil {
			require.Equal(t, units.PerVolume{}, price)
			return
		}
		require.Equal(t, text, price.Raw)
		require.Positive(t, float64(price.Per))
		require.GreaterOrEqual(t, price.Money.Sign(), 0)
		require.Equal(t, price.Money, price.For(price.Per), "one Per costs what it says")
	})
}

// FuzzMarks holds that MarkOf and the parsers agree: what MarkOf proves changes no reading, and what a parser calls
// ambiguous is read one way under each mark.
func FuzzMarks(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, text string, _ byte) {
		mark, ambiguous := units.MarkOf(text)
		require.False(t, ambiguous && mark != units.MarkUnknown)
		number, err := units.ParseNumber(text, units.MarkUnknown)
		var two *units.AmbiguousError
		switch {
		case err == nil:
			require.False(t, ambiguous)
			again, err := units.ParseNumber(text, mark)
			require.NoError(t, err)
			require.Equal(t, number, again)
		case errors.As(err, &two):
			require.True(t, ambiguous)
			var readings []string
			for _, m := range []units.DecimalMark{units.MarkPoint, units.MarkComma} {
				n, err := units.ParseNumber(text, m)
				if err != nil {
					require.ErrorContains(t, err, "is not a number") // too large
					return
				}
				if n.Sign() < 0 {
					n = n.Neg()
				}
				readings = append(readings, n.String())
			}
			want := []string{units.D(two.Readings[0]).String(), units.D(two.Readings[1]).String()}
			require.ElementsMatch(t, want, readings)
		}
	})
}

func FuzzShares(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, text string, mark byte) {
		m := units.DecimalMark(mark % 3)
		share, err := units.ParseShare(text, m)
		if err != nil {
			require.Equal(t, units.Decimal{}, share)
		}
		require.True(t, share.Sign() >= 0 && share.Cmp(units.D("1")) <= 0)
		percent, err := units.ParsePercent(text, m)
		if err != nil {
			require.Equal(t, units.Decimal{}, percent)
		}
		require.True(t, percent.Sign() >= 0 && percent.Cmp(units.D("10")) <= 0)
	})
}

func FuzzPlainDecimal(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, text string, _ byte) {
		d, err := units.ParsePlainDecimal(text)
		if err != nil {
			require.Equal(t, units.Decimal{}, d)
			return
		}
		again, err := units.ParsePlainDecimal(d.String())
		require.NoError(t, err)
		require.Equal(t, d, again)
		require.Equal(t, d, d.Neg().Neg())
	})
}
