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

func TestParseVolume(t *testing.T) {
	const yard, foot = "1 yd³ = 764.555 L", "1 ft³ = 28.3168 L"
	for _, c := range []struct {
		text string
		want units.Litres
		by   string
	}{
		{"50 L", 50, ""}, {"50L", 50, ""}, {"50 litres", 50, ""}, {"50 Liter", 50, ""}, {"50 l.", 50, ""},
		{"750 mL", 0.75, "1 mL = 0.001 L"}, {"750 cm3", 0.75, "1 cm³ = 0.001 L"}, {"2 dm³", 2, "1 dm³ = 1 L"},
		{"0.5 m3", 500, "1 m³ = 1000 L"}, {"0,5 m³", 500, "1 m³ = 1000 L"}, {"1 cu m", 1000, "1 m³ = 1000 L"}, {"2 cubic metres", 2000, "1 m³ = 1000 L"},
		// 2 × 28.316 846 592 and 1.5 × 28.316 846 592.
		{"2 cu ft", 56.633693184, foot}, {"2 cu. ft.", 56.633693184, foot}, {"2 CUFT", 56.633693184, foot}, {"2cf", 56.633693184, foot},
		{"1.5 ft3", 42.475269888, foot}, {"1 1/2 ft³", 42.475269888, foot}, {"1½ cubic feet", 42.475269888, foot}, {"1.5 ft^3", 42.475269888, foot},
		{"1 yd3", units.CubicYard, yard}, {"1 cu yd", units.CubicYard, yard}, {"1 cuyd", units.CubicYard, yard}, {"1 yard", units.CubicYard, yard},
		{"1 cy", units.CubicYard, yard}, {"½ yd", 382.277428992, yard}, {"1/2 yards", 382.277428992, yard}, {"1⁄2 yards", 382.277428992, yard},
		{"46656 cu in", units.CubicYard, "1 in³ = 0.0163871 L"},
		{"1,234.5 L", 1234.5, ""}, {"1 234 L", 1234, ""}, {"0 yd3", 0, yard},
		{"25 dry qt", 27.530523567875, "1 US dry qt = 1.10122 L"}, {"4 liquid quarts", 3.785411784, "1 US liquid qt = 0.946353 L"},
		{"5 US gal", 18.92705892, "1 US gal = 3.78541 L"}, {"5 imp gal", 22.73045, "1 imp gal = 4.54609 L"}, {"4 imp qt", 4.54609, "1 imp qt = 1.13652 L"},
		{"2 US bushels", 70.47814033376, "1 US bu = 35.2391 L"}, {"1 imperial bushel", 36.36872, "1 imp bu = 36.3687 L"},
	} {
		m, err := units.ParseVolume(c.text, units.Options{})
		require.NoError(t, err, c.text)
		assert.Equal(t, units.Measure[units.Litres]{Value: c.want, Raw: c.text, By: c.by}, m)
	}
}

func TestReadingsThatAreSaidAloud(t *testing.T) {
	for text, note := range map[string]string{
		"25 qt":    `qt is read as the US dry quart, 1.10122 L; write "liquid qt" for the liquid quart, 0.946353 L`,
		"5 gal":    `gal is read as the US liquid gallon, 3.78541 L; write "imp gal" for the imperial gallon, 4.54609 L`,
		"1 bushel": `bushel is read as the US struck bushel, 35.2391 L; write "imp bushel" for the imperial bushel, 36.3687 L`,
		"1 ton":    `ton is read as the US short ton, 907.185 kg; write "tonne" for 1000 kg or "long ton" for 1016.05 kg`,
		"2 Tons":   `ton is read as the US short ton, 907.185 kg; write "tonne" for 1000 kg or "long ton" for 1016.05 kg`,
		"1 t":      `t is read as the metric tonne, 1000 kg; write "tonne" to say so, or "ton" for the US short ton, 907.185 kg`,
		"1 tonne":  "", "1 short ton": "", "1 long ton": "", "1 dry qt": "", "1 US gal": "", "1 yard": "", "40 lb": "",
	} {
		a, err := units.ParseAmount(text, units.Options{})
		require.NoError(t, err, text)
		assert.Equal(t, note, a.Volume.Note+a.Mass.Note, text)
	}
	d, err := units.ParseDensity("1 ton/gal", units.Options{})
	require.NoError(t, err)
	assert.Contains(t, d.Note, "short ton")
	assert.Contains(t, d.Note, "liquid gallon")
	p, err := units.ParsePerVolume("3/qt", units.MarkUnknown)
	require.NoError(t, err)
	assert.Contains(t, p.Note, "dry quart")
}

func TestParseMass(t *testing.T) {
	for _, c := range []struct {
		text string
		want units.Kilograms
		by   string
	}{
		{"25 kg", 25, ""}, {"25 kilos", 25, ""}, {"500 g", 0.5, "1 g = 0.001 kg"}, {"8 oz", 0.226796185, "1 oz = 0.0283495 kg"},
		{"40 lb", 18.1436948, "1 lb = 0.453592 kg"}, {"40 lbs.", 18.1436948, "1 lb = 0.453592 kg"}, {"50 pounds", 22.6796185, "1 lb = 0.453592 kg"},
		{"1/2 short ton", 453.59237, "1 short ton = 907.185 kg"}, {"1 tonne", 1000, "1 t = 1000 kg"}, {"1 metric ton", 1000, "1 t = 1000 kg"},
		{"1 long ton", 1016.0469088, "1 long ton = 1016.05 kg"},
	} {
		m, err := units.ParseMass(c.text, units.Options{})
		require.NoError(t, err, c.text)
		assert.Equal(t, units.Measure[units.Kilograms]{Value: c.want, Raw: c.text, By: c.by}, m)
	}
}

func TestParseLength(t *testing.T) {
	const inch, foot, both = "1 in = 25.4 mm", "1 ft = 304.8 mm", "1 ft = 304.8 mm, 1 in = 25.4 mm"
	for _, c := range []struct {
		text string
		want units.Millimetres
		by   string
	}{
		{"12 in", 304.8, inch}, {`12"`, 304.8, inch}, {"12″", 304.8, inch}, {"12''", 304.8, inch}, {"12 inches", 304.8, inch},
		{"4 ft", 1219.2, foot}, {"4'", 1219.2, foot}, {"4′", 1219.2, foot}, {"4 feet", 1219.2, foot}, {"1 yd", 914.4, "1 yd = 914.4 mm"},
		// 4 × 304.8 + 6 × 25.4 = 1371.6
		{"4 ft 6 in", 1371.6, both}, {"4ft6in", 1371.6, both}, {"4 ft. 6 in.", 1371.6, both}, {"4 ft.6 in.", 1371.6, both}, {`4'6"`, 1371.6, both},
		{`4' 6"`, 1371.6, both}, {"4′6″", 1371.6, both}, {"4’6”", 1371.6, both},
		{`4' 6 1/2"`, 1384.3, both}, {"4 ft 6½ in", 1384.3, both}, {"4 ft ½ in", 1231.9, both}, {"4 ft .5 in", 1231.9, both},
		{"1 yd 1 ft 1 in", 1244.6, "1 yd = 914.4 mm, 1 ft = 304.8 mm, 1 in = 25.4 mm"},
		{"300 mm", 300, ""}, {"30 cm", 300, "1 cm = 10 mm"}, {"1.2 m", 1200, "1 m = 1000 mm"}, {"1,2 m", 1200, "1 m = 1000 mm"},
		{"1 m 20 cm 5 mm", 1205, "1 m = 1000 mm, 1 cm = 10 mm"}, {"1 500 mm", 1500, ""},
		{"1/2 in", 12.7, inch}, {"½ in", 12.7, inch}, {"3 1/2 in", 88.9, inch}, {"3-1/2 in", 88.9, inch}, {"3½ in", 88.9, inch}, {"1 ½ in", 38.1, inch},
		{"3/8 in", 9.525, inch}, {"5/4 in", 31.75, inch}, {"0 in", 0, inch},
	} {
		m, err := units.ParseLength(c.text, units.Options{})
		require.NoError(t, err, c.text)
		assert.Equal(t, units.Measure[units.Millimetres]{Value: c.want, Raw: c.text, By: c.by}, m)
	}
}

func TestParseDensity(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64 // kg/L
		by   string
	}{
		// 1 lb/ft³ = 0.453 592 37 / 28.316 846 592 = 0.016 018 463 374 kg/L
		{"45 lb/ft3", 0.72083085183, "1 lb/ft³ = 0.0160185 kg/L"}, {"45 lb per cu ft", 0.72083085183, "1 lb/ft³ = 0.0160185 kg/L"},
		{"45 lbs/cf", 0.72083085183, "1 lb/ft³ = 0.0160185 kg/L"}, {"45 PCF", 0.72083085183, "1 lb/ft³ = 0.0160185 kg/L"},
		{"0.72 kg/L", 0.72, ""}, {"0,72 kg / l", 0.72, ""}, {"720 kg/m³", 0.72, "1 kg/m³ = 0.001 kg/L"}, {"720 g/L", 0.72, "1 g/L = 0.001 kg/L"},
		{"0.8 g/cm3", 0.8, "1 g/cm³ = 1 kg/L"}, {"0.8 g/mL", 0.8, "1 g/mL = 1 kg/L"}, {"0.8 tonne/m3", 0.8, "1 t/m³ = 1 kg/L"},
		// 1.1 × 907.184 74 / 764.554 857 984 = 1.305 208 127
		{"1.1 short ton/yd3", 1.305208127, "1 short ton/yd³ = 1.18655 kg/L"}, {"2200 lb/yard", 1.305208127, "1 lb/yd³ = 0.000593276 kg/L"},
	} {
		m, err := units.ParseDensity(c.text, units.Options{})
		require.NoError(t, err, c.text)
		assert.InEpsilon(t, c.want, float64(m.Value), 1e-9, c.text)
		assert.Equal(t, c.by, m.By, c.text)
		assert.Equal(t, c.text, m.Raw)
	}
}

func TestDensityCrossesBetweenVolumeAndMass(t *testing.T) {
	d := units.Density(0.25) // 10 kg at 0.25 kg/L fill 40 L
	assert.Equal(t, units.Litres(40), d.Volume(10))
	assert.Equal(t, units.Kilograms(10), d.Mass(40))
	// A short ton at 1.4 kg/L is 907.18474/1.4 = 647.989 L.
	assert.InDelta(t, 647.989, float64(units.Density(1.4).Volume(units.ShortTon)), 0.001)
}

func TestParseAmount(t *testing.T) {
	a, err := units.ParseAmount("1 yd3", units.Options{})
	require.NoError(t, err)
	assert.Equal(t, units.Amount{Volume: units.Measure[units.Litres]{Value: units.CubicYard, Raw: "1 yd3", By: "1 yd³ = 764.555 L"}, Raw: "1 yd3"}, a)
	a, err = units.ParseAmount("25 kg", units.Options{})
	require.NoError(t, err)
	assert.Equal(t, units.Amount{IsMass: true, Mass: units.Measure[units.Kilograms]{Value: 25, Raw: "25 kg"}, Raw: "25 kg"}, a)
	a, err = units.ParseAmount("25", units.Options{Default: "lb"})
	require.NoError(t, err)
	assert.True(t, a.IsMass)
	a, err = units.ParseAmount("25", units.Options{Default: "L"})
	require.NoError(t, err)
	assert.Equal(t, units.Litres(25), a.Volume.Value)
}

func TestBareNumbersTakeTheDefaultUnit(t *testing.T) {
	l, err := units.ParseLength("12", units.Options{Default: "in"})
	require.NoError(t, err)
	assert.Equal(t, units.Measure[units.Millimetres]{Value: 304.8, Raw: "12", By: "no unit written, read as in, 1 in = 25.4 mm"}, l)
	v, err := units.ParseVolume(" 1,5 ", units.Options{Default: " L "})
	require.NoError(t, err)
	assert.Equal(t, units.Measure[units.Litres]{Value: 1.5, Raw: " 1,5 ", By: "no unit written, read as L"}, v)
	m, err := units.ParseMass("2", units.Options{Default: "ton"})
	require.NoError(t, err)
	assert.Contains(t, m.Note, "short ton")
	d, err := units.ParseDensity("45", units.Options{Default: "lb/ft3"})
	require.NoError(t, err)
	assert.Equal(t, "no unit written, read as lb/ft³, 1 lb/ft³ = 0.0160185 kg/L", d.By)
	d, err = units.ParseDensity("0.7", units.Options{Default: "kg/L"})
	require.NoError(t, err)
	assert.Equal(t, "no unit written, read as kg/L", d.By)
	zero, err := units.ParseVolume("0", units.Options{})
	require.NoError(t, err, "nothing is nothing in any unit")
	assert.Equal(t, units.Measure[units.Litres]{Raw: "0"}, zero)
	_, err = units.ParseVolume("5", units.Options{Default: "in"})
	require.ErrorContains(t, err, `"5" is not a volume`)
}

// readers calls a parser of quantities by name, and gives its error and whether its result was the zero value.
func readers(which, text string, o units.Options) (zero bool, err error) {
	switch which {
	case "volume":
		m, err := units.ParseVolume(text, o)
		return m == units.Measure[units.Litres]{}, err
	case "mass":
		m, err := units.ParseMass(text, o)
		return m == units.Measure[units.Kilograms]{}, err
	case "length":
		m, err := units.ParseLength(text, o)
		return m == units.Measure[units.Millimetres]{}, err
	case "density":
		m, err := units.ParseDensity(text, o)
		return m == units.Measure[units.Density]{}, err
	case "amount":
		m, err := units.ParseAmount(text, o)
		return m == units.Amount{}, err
	case "per volume":
		p, err := units.ParsePerVolume(text, o.Mark)
		return p.IsZero() && p.Per == 0 && p.Raw+p.By+p.Note == "", err
	}
	panic("no such parser: " + which)
}

func TestQuantitiesRefused(t *testing.T) {
	for _, c := range []struct{ which, text, hint string }{
		{"volume", "", "the text is empty"}, {"volume", "50", "write the unit behind the number"}, {"volume", "L", "it does not start with a number"},
		{"volume", "-5 L", "it cannot be below 0"}, {"volume", "25 kg", `"kg" measures a weight, not a volume`},
		{"volume", "5 galon", `"galon" is not a known unit; did you mean "gallon"?`}, {"volume", "5 litrs", `"litrs" is not a known unit; did you mean "litre"?`},
		{"volume", "5 cub ft", `"cub ft" is not a known unit; did you mean "cu ft"?`}, {"volume", "5 x", `"x" is not a known unit`},
		{"volume", "5 bags of rock", `"bags of rock" is not a known unit`}, {"volume", "1O L", `the sign after "1" is a letter O; write the digit 0`},
		{"volume", "l0 L", "the first sign is a letter l; write the digit 1"}, {"volume", "1e5 L", "write the number out, without an exponent"},
		{"volume", "3/0 L", "the fraction divides by 0"}, {"volume", "3 5/2 L", `"5/2 L" is not a known unit`}, {"volume", "1.5/2 L", `"/2 L" is not a known unit`},
		{"volume", "1.2.3 L", "signs that group digits stand before every three digits, as in 1,234,567.50"},
		{"volume", "1,234 L", "write 1234, or say which sign is the decimal mark everywhere"},
		{"volume", "2000000000000 L", "it is larger than 1000000000000, the most that is read"},
		{"volume", "2000000000000 mL", "it is larger than 1000000000000, the most that is read"},
		{"volume", "2000000000 yd3", "it is larger than 1000000000000, the most that is read"},
		{"volume", "5\xff L", "the text is not UTF-8; save the file as UTF-8"},
		{"volume", strings.Repeat("5", 201) + " L", "the text is 203 bytes long; 200 are enough for any quantity"},
		{"mass", "1 T", `T may be a short ton or a tonne; write "ton" or "tonne"`}, {"mass", "5 ft3", `"ft3" measures a volume, not a weight`},
		{"mass", "5 kgg", `"kgg" is not a known unit; did you mean "kg"?`},
		{"length", "12 kg", `"kg" measures a weight, not a length`}, {"length", "2 ft3", `"ft3" measures a volume, not a length`},
		{"length", "2 cu ft", `"cu ft" measures a volume, not a length`},
		{"length", "4' 6", "write the unit behind 6 as well"}, {"length", "1m20", "write the unit behind 20 as well"},
		{"length", "4 ft 14 in", "14 in is 1 ft or more; count it there"}, {"length", "4.5 ft 6 in", "4.5 ft is not whole, so nothing can follow it"},
		{"length", "1 m 6 in", "1 m and 6 in are of two systems; write the length in one"}, {"length", "6 in 4 ft", "4 ft cannot follow 6 in; write the larger unit first"},
		{"length", "6 in 6 in", "6 in cannot follow 6 in; write the larger unit first"}, {"length", "4 ft -6 in", "it cannot be below 0"},
		{"length", "8-16 mm", "write the unit behind the number"}, {"length", "8 mm-16 mm", "it cannot be below 0"},
		{"density", "45", "write the unit behind the number, such as lb/ft3 or kg/L"}, {"density", "45 lb", `"lb" is not a weight per volume`},
		{"density", "45 L/kg", `"L" measures a volume, not a weight`}, {"density", "45 lb/kg", `"kg" measures a weight, not a volume`},
		{"density", "0 kg/L", "it is 0"}, {"density", "1 T/m3", `T may be a short ton or a tonne; write "ton" or "tonne"`},
		{"density", "4S lb/ft3", `"S lb" is not a known unit`}, {"density", "4O lb/ft3", `the sign after "4" is a letter O; write the digit 0`},
		{"density", "999999999999 kg/mL", "it is larger than 1000000000000, the most that is read"}, {"density", "-1 kg/L", "it cannot be below 0"},
		{"amount", "4 ft", `"ft" measures a length, not a volume or a weight`}, {"amount", "1 T", `T may be a short ton or a tonne; write "ton" or "tonne"`},
		{"amount", "5 tun", `"tun" is not a known unit; did you mean "ton"?`}, {"amount", "50", "write the unit behind the number"},
		{"per volume", "12", "write the volume behind the amount, such as 12 / yd3"}, {"per volume", "12/", "write the unit behind the number"},
		{"per volume", "-1/yd3", "a price cannot be below 0"}, {"per volume", "12/0 yd3", "it divides by a volume of 0"},
		{"per volume", "12 / ton", `"ton" measures a weight, not a volume`}, {"per volume", "12.5O/yd3", "the last sign is a letter O; write the digit 0"},
		{"per volume", "12/-1 yd3", "it cannot be below 0"}, {"per volume", "/ yd3", "write the amount in front of the volume"},
	} {
		zero, err := readers(c.which, c.text, units.Options{})
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, "%s %q", c.which, c.text)
		assert.Equal(t, c.hint, parse.Hint, "%s %q", c.which, c.text)
		assert.Equal(t, c.text, parse.Found)
		assert.True(t, zero, "%s %q: an error comes with the zero value", c.which, c.text)
	}
}

func TestParsePerVolume(t *testing.T) {
	for _, c := range []struct {
		text, money string
		per         units.Litres
	}{
		{"12 / yd3", "12", units.CubicYard}, {"$12 per yd3", "12", units.CubicYard}, {"USD 12 Per yard", "12", units.CubicYard},
		{"0.02 / L", "0.02", 1}, {"12/m3", "12", 1000}, {"12,50 €/m³", "12.5", 1000}, {"30 per 10 cu ft", "30", 283.16846592},
		{"12 per 1/2 yd", "12", 382.277428992}, {"12/½ yd", "12", 382.277428992}, {"0", "0", 1}, {"0.00 / yd3", "0", units.CubicYard},
	} {
		p, err := units.ParsePerVolume(c.text, units.MarkUnknown)
		require.NoError(t, err, c.text)
		assert.Equal(t, units.M(c.money), p.Money, c.text)
		assert.Equal(t, c.per, p.Per, c.text)
		assert.Equal(t, c.text, p.Raw)
	}
}

// Whatever the number, a quantity is that number times the unit's factor, rounded once to float64.
func TestQuantitiesAreNumberTimesFactor(t *testing.T) {
	names := map[string]units.Litres{
		"L": 1, "mL": units.Millilitre, "m3": units.CubicMetre, "cu m": units.CubicMetre, "cubic metres": units.CubicMetre, "in³": units.CubicInch,
		"cu ft": units.CubicFoot, "ft3": units.CubicFoot, "cuft": units.CubicFoot, "cf": units.CubicFoot, "cubic feet": units.CubicFoot,
		"yd": units.CubicYard, "yd3": units.CubicYard, "yards": units.CubicYard, "cu yd": units.CubicYard, "cuyd": units.CubicYard, "qt": units.USDryQuart,
		"dry qt": units.USDryQuart, "liquid qt": units.USLiquidQuart, "gal": units.USGallon, "imp gal": units.ImpGallon, "bushel": units.USBushel,
	}
	var keys []string
	for name := range names {
		keys = append(keys, name)
	}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(keys).Draw(t, "unit")
		number := rapid.StringMatching(`[0-9]{1,6}(\.[0-9]{1,4})?`).Draw(t, "number")
		upper := rapid.Bool().Draw(t, "capitals")
		text := number + " " + name
		if upper {
			text = strings.ToUpper(text)
		}
		m, err := units.ParseVolume(text, units.Options{Mark: units.MarkPoint})
		require.NoError(t, err, text)
		want := units.D(number).Mul(units.DecimalOf(float64(names[name]))).Float()
		require.Equal(t, units.Litres(want), m.Value, text)
		require.Equal(t, text, m.Raw)
	})
}

// Fractions: a b/c is (a·c + b)/c of an inch.
func TestFractionsOfAnInch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.IntRange(2, 64).Draw(t, "below")
		b := rapid.IntRange(1, c-1).Draw(t, "above")
		a := rapid.IntRange(1, 99).Draw(t, "whole")
		dec := func(i int) string { return units.DecimalFromInt(int64(i)).String() }
		want := 25.4 * float64(a*c+b) / float64(c)
		for _, gap := range []string{" ", "-", "  "} {
			text := dec(a) + gap + dec(b) + "/" + dec(c) + " in"
			m, err := units.ParseLength(text, units.Options{})
			require.NoError(t, err, text)
			require.InDelta(t, want, float64(m.Value), 1e-9*math.Abs(want), text)
		}
	})
}
