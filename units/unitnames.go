package units

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/agext/levenshtein"
)

// factorDigits is how many significant digits of a factor are shown in Measure.By; the sums use all of them.
const factorDigits = 6

// unit is one unit of a family, under all its names.
type unit struct {
	shown  string  // as printed: "yd³"
	factor Decimal // base units in one
	family *family
	note   string // the warning that goes with every reading of it
	system string // units of the same system may follow one another, as in 4 ft 6 in; only lengths set it
}

// family is all units of one quantity. Names are looked up without spaces, dots, hyphens and capitals.
type family struct {
	noun  string // "a volume"
	base  string // the base unit as printed: "L"
	units map[string]unit
	names []string // as people write them, for suggestions
}

func newFamily(k kind, base string) *family {
	return &family{noun: k.what, base: base, units: map[string]unit{}}
}

// add gives a unit its names. Two units sharing a name is a mistake in the tables below, and stops the program at its start.
func (f *family) add(u unit, names ...string) {
	u.family = f
	for _, name := range names {
		key := squash(name)
		if _, taken := f.units[key]; taken {
			panic(fmt.Sprintf("units: two units are called %q", name))
		}
		f.units[key] = u
		f.names = append(f.names, name)
	}
}

// cubic gives the ways to write a cubic unit from the names of its length.
func cubic(lengths ...string) []string {
	var names []string
	for _, l := range lengths {
		names = append(names, "cu "+l, "cubic "+l, l+"3")
	}
	return names
}

var volumes = func() *family {
	f := newFamily(aVolume, "L")
	f.add(unit{shown: "L", factor: DecimalOf(float64(Litre))}, "L", "litre", "litres", "liter", "liters", "ltr", "ltrs", "lt", "lts")
	f.add(unit{shown: "mL", factor: DecimalOf(float64(Millilitre))}, "mL", "millilitre", "millilitres", "milliliter", "milliliters")
	f.add(unit{shown: "cm³", factor: DecimalOf(float64(Millilitre))}, append(cubic("cm"), "cc")...)
	f.add(unit{shown: "dm³", factor: DecimalOf(float64(Litre))}, cubic("dm")...)
	f.add(unit{shown: "m³", factor: DecimalOf(float64(CubicMetre))},
		append(cubic("m", "metre", "metres", "meter", "meters"), "cbm")...)
	f.add(unit{shown: "in³", factor: DecimalOf(float64(CubicInch))}, cubic("in", "inch", "inches")...)
	f.add(unit{shown: "ft³", factor: DecimalOf(float64(CubicFoot))}, append(cubic("ft", "foot", "feet"), "cf")...)
	// "A yard" of loose material is a cubic yard: common practice, no source.
	f.add(unit{shown: "yd³", factor: DecimalOf(float64(CubicYard))},
		append(cubic("yd", "yds", "yard", "yards"), "cy", "yd", "yds", "yard", "yards")...)
	// A bag of growing medium marked "qt" means dry quarts: common practice, no source. The liquid quart is 14 % less.
	f.add(unit{shown: "US dry qt", factor: DecimalOf(float64(USDryQuart)),
		note: "qt is read as the US dry quart, 1.10122 L; write \"liquid qt\" for the liquid quart, 0.946353 L"},
		"qt", "qts", "quart", "quarts")
	f.add(unit{shown: "US dry qt", factor: DecimalOf(float64(USDryQuart))},
		"dry qt", "dry qts", "dry quart", "dry quarts", "US dry qt", "US dry qts", "US dry quart", "US dry quarts")
	f.add(unit{shown: "US liquid qt", factor: DecimalOf(float64(USLiquidQuart))},
		"liquid qt", "liquid qts", "liquid quart", "liquid quarts", "liq qt", "US liquid qt", "US liquid quart", "US liquid quarts")
	f.add(unit{shown: "imp qt", factor: DecimalOf(float64(ImpQuart))}, "imp qt", "imp quart", "imperial quart", "imperial quarts")
	f.add(unit{shown: "US gal", factor: DecimalOf(float64(USGallon)),
		note: "gal is read as the US liquid gallon, 3.78541 L; write \"imp gal\" for the imperial gallon, 4.54609 L"},
		"gal", "gals", "gallon", "gallons")
	f.add(unit{shown: "US gal", factor: DecimalOf(float64(USGallon))}, "US gal", "US gals", "US gallon", "US gallons")
	f.add(unit{shown: "imp gal", factor: DecimalOf(float64(ImpGallon))},
		"imp gal", "imp gals", "imp gallon", "imp gallons", "imperial gal", "imperial gallon", "imperial gallons", "UK gal")
	f.add(unit{shown: "US bu", factor: DecimalOf(float64(USBushel)),
		note: "bushel is read as the US struck bushel, 35.2391 L; write \"imp bushel\" for the imperial bushel, 36.3687 L"},
		"bu", "bushel", "bushels")
	f.add(unit{shown: "US bu", factor: DecimalOf(float64(USBushel))}, "US bu", "US bushel", "US bushels")
	f.add(unit{shown: "imp bu", factor: DecimalOf(float64(ImpBushel))}, "imp bu", "imp bushel", "imp bushels", "imperial bushel", "imperial bushels")
	return f
}()

var masses = func() *family {
	f := newFamily(aMass, "kg")
	f.add(unit{shown: "kg", factor: DecimalOf(float64(Kilogram))}, "kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes")
	f.add(unit{shown: "g", factor: DecimalOf(float64(Gram))}, "g", "gram", "grams", "gramme", "grammes")
	f.add(unit{shown: "lb", factor: DecimalOf(float64(Pound))}, "lb", "lbs", "pound", "pounds", "#")
	f.add(unit{shown: "oz", factor: DecimalOf(float64(Ounce))}, "oz", "ounce", "ounces")
	// A bare "ton" is the short ton because the tons of these files come from yards that sell by it; the long ton has
	// to be named. Common practice, no source.
	f.add(unit{shown: "short ton", factor: DecimalOf(float64(ShortTon)),
		note: "ton is read as the US short ton, 907.185 kg; write \"tonne\" for 1000 kg or \"long ton\" for 1016.05 kg"},
		"ton", "tons")
	f.add(unit{shown: "short ton", factor: DecimalOf(float64(ShortTon))}, "short ton", "short tons", "US ton", "US tons")
	f.add(unit{shown: "long ton", factor: DecimalOf(float64(LongTon))}, "long ton", "long tons", "UK ton", "UK tons", "imperial ton", "imperial tons")
	f.add(unit{shown: "t", factor: DecimalOf(float64(Tonne))}, "tonne", "tonnes", "metric ton", "metric tons", "metric tonne", "metric tonnes")
	// t is the symbol that the SI accepts for the tonne (NIST SP 811 Table 6; from memory). A capital T is refused, see findUnit.
	f.add(unit{shown: "t", factor: DecimalOf(float64(Tonne)),
		note: "t is read as the metric tonne, 1000 kg; write \"tonne\" to say so, or \"ton\" for the US short ton, 907.185 kg"}, "t")
	return f
}()

var lengths = func() *family {
	f := newFamily(aLength, "mm")
	const metric, feet = "metric", "feet"
	f.add(unit{shown: "mm", factor: DecimalOf(float64(Millimetre)), system: metric}, "mm", "millimetre", "millimetres", "millimeter", "millimeters")
	f.add(unit{shown: "cm", factor: DecimalOf(float64(Centimetre)), system: metric}, "cm", "centimetre", "centimetres", "centimeter", "centimeters")
	f.add(unit{shown: "m", factor: DecimalOf(float64(Metre)), system: metric}, "m", "metre", "metres", "meter", "meters")
	f.add(unit{shown: "in", factor: DecimalOf(float64(Inch)), system: feet}, "in", "ins", "inch", "inches", `"`, "″", "”", "''", "′′", "’’")
	f.add(unit{shown: "ft", factor: DecimalOf(float64(Foot)), system: feet}, "ft", "foot", "feet", "'", "′", "’")
	f.add(unit{shown: "yd", factor: DecimalOf(float64(Yard)), system: feet}, "yd", "yds", "yard", "yards")
	return f
}()

// rule gives the factor in words, "1 yd³ = 764.555 L", or nothing for the base unit itself.
func (u unit) rule() string {
	if u.shown == u.family.base {
		return ""
	}
	return fmt.Sprintf("1 %s = %s %s", u.shown, u.factor.significant(factorDigits), u.family.base)
}

// squash gives the form under which a unit's name is looked up: small letters without spaces, hyphens, carets and the
// dots of abbreviations, ³ as 3.
func squash(name string) string {
	var b strings.Builder
	letter := false
	for _, r := range name {
		switch {
		case unicode.IsSpace(r) || r == '-' || r == '_' || r == '^':
			continue
		case r == '.' && letter:
			continue
		case r == '³':
			r = '3'
		}
		r = unicode.ToLower(r)
		letter = unicode.IsLetter(r)
		b.WriteRune(r)
	}
	return b.String()
}

// findUnit looks a name up in families. The hint says what to do when it is in none of them.
func findUnit(name string, families ...*family) (u unit, hint string) {
	key := squash(name)
	var nouns []string
	for _, f := range families {
		if u, ok := f.units[key]; ok && name != "T" {
			return u, ""
		}
		nouns = append(nouns, f.noun)
	}
	if name == "T" {
		return unit{}, "T may be a short ton or a tonne; write \"ton\" or \"tonne\""
	}
	for _, f := range []*family{volumes, masses, lengths} {
		if _, ok := f.units[key]; ok {
			return unit{}, fmt.Sprintf("%q measures %s, not %s", name, f.noun, strings.Join(nouns, " or "))
		}
	}
	return unit{}, unknownUnit(name, families)
}

// unknownUnit names the known unit that is written most like name, if one is near enough to be a slip.
func unknownUnit(name string, families []*family) string {
	best, bestDistance := "", 3
	if len(name) <= 4 {
		bestDistance = 2 // in a short word two slips leave nothing of it
	}
	for _, f := range families {
		for _, known := range f.names {
			if len(known) < 2 {
				continue
			}
			if d := levenshtein.Distance(strings.ToLower(name), strings.ToLower(known), nil); d < bestDistance {
				best, bestDistance = known, d
			}
		}
	}
	if best == "" || len(name) < 2 {
		return fmt.Sprintf("%s is not a known unit", quoted(name))
	}
	return fmt.Sprintf("%s is not a known unit; did you mean %q?", quoted(name), best)
}
