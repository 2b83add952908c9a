package units

import (
	"math"
	"strconv"
)

// System is the family of units that a person wants to read.
type System int

const (
	Metric System = iota // litres, kilograms, millimetres
	US                   // cubic yards and feet, pounds, feet and inches
)

// Where the printed unit changes.
const (
	mostLitres = 10_000          // above it cubic metres: a pool, not a bag
	leastYards = 0.5 * CubicYard // below it cubic feet, as bags are labelled
	mostKilos  = 10_000          // above it tonnes
	mostPounds = 10_000 * Pound  // above it short tons
	mostInches = 24 * Inch       // from it on feet and inches
)

// FormatVolume prints a volume: in litres below 10 000 L and cubic metres from there; for US in cubic feet below half a
// cubic yard and cubic yards from there. Numbers have three significant digits below 100 and are whole from there, but go
// no further than a tenth of a litre or cubic foot and a hundredth of a cubic yard, as nobody places stone more closely;
// what is below a tenth has three digits. They have no signs between thousands and read back through ParseVolume.
func FormatVolume(v Litres, s System) string {
	size := Litres(math.Abs(float64(v)))
	switch {
	case s == US && size >= leastYards:
		return figuresTo(float64(v/CubicYard), 2) + " yd³"
	case s == US:
		return figuresTo(float64(v/CubicFoot), 1) + " ft³"
	case size >= mostLitres:
		return figures(float64(v/CubicMetre)) + " m³"
	default:
		return figuresTo(float64(v), 1) + " L"
	}
}

// FormatPlaced prints a volume within a bed, always in the same unit so that those of all beds can be held against each
// other: litres, or cubic feet, to a tenth below 100, as nobody places stone more closely.
func FormatPlaced(v Litres, s System) string {
	name, digits := "L", 0
	if s == US {
		v, name = v/CubicFoot, "ft³"
	}
	if v < 100 {
		digits = 1
	}
	return strconv.FormatFloat(float64(v), 'f', digits, 64) + " " + name
}

// FormatMass prints a mass: in kilograms below 10 000 kg and tonnes from there; for US in pounds below 10 000 lb and short
// tons from there. Numbers are as in FormatVolume.
func FormatMass(m Kilograms, s System) string {
	size := Kilograms(math.Abs(float64(m)))
	switch {
	case s == US && size >= mostPounds:
		return figures(float64(m/ShortTon)) + " short tons"
	case s == US:
		return figures(float64(m/Pound)) + " lb"
	case size >= mostKilos:
		return figures(float64(m/Tonne)) + " t"
	default:
		return figures(float64(m)) + " kg"
	}
}

// FormatLength prints a length: in millimetres below 1 m and metres from there; for US in inches below 24 in, and from
// there in feet and inches to a tenth of an inch. Other numbers are as in FormatVolume.
func FormatLength(l Millimetres, s System) string {
	size := Millimetres(math.Abs(float64(l)))
	switch {
	case s == US && size >= mostInches && !math.IsInf(float64(l), 0):
		return feetAndInches(l)
	case s == US:
		return figures(float64(l/Inch)) + " in"
	case size >= Metre:
		return figures(float64(l/Metre)) + " m"
	default:
		return figures(float64(l)) + " mm"
	}
}

// FormatDensity prints a density in kg/L, or lb/ft³ for US. Numbers are as in FormatVolume.
func FormatDensity(d Density, s System) string {
	if s == US {
		return figures(float64(d.Mass(CubicFoot)/Pound)) + " lb/ft³"
	}
	return figures(float64(d)) + " kg/L"
}

// feetAndInches rounds to a tenth of an inch before it splits, so that 11.96 in is never shown as 12.0 in beside the feet.
func feetAndInches(l Millimetres) string {
	inches := DecimalOf(float64(l / Inch)).Round(1)
	sign := ""
	if inches.Sign() < 0 {
		sign, inches = "-", inches.Neg()
	}
	const inFoot = 12
	feet, err := inches.Quo(DecimalFromInt(inFoot)).Floor()
	if err != nil { // longer than any number of feet that is worth printing
		return sign + inches.String() + " in"
	}
	rest := inches.Sub(DecimalFromInt(feet).Mul(DecimalFromInt(inFoot)))
	out := sign + strconv.FormatInt(feet, 10) + " ft"
	if !rest.IsZero() {
		out += " " + rest.String() + " in"
	}
	return out
}

// figures prints a number to three significant digits below 100, to a thousandth below 1, and whole from 100 on, without
// zeros at the end. What is infinite or not a number is printed as strconv does.
func figures(v float64) string { return figuresTo(v, 3) }

// figuresTo is figures with at most so many digits behind the point for what is a tenth or more.
func figuresTo(v float64, most int) string {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	digits := 3
	switch size := math.Abs(v); {
	case size >= 100:
		digits = 0
	case size >= 10:
		digits = 1
	case size >= 1:
		digits = 2
	}
	if math.Abs(v) >= 0.1 {
		digits = min(digits, most)
	}
	return DecimalOf(v).Round(digits).String()
}
