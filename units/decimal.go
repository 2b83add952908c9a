package units

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"github.com/cockroachdb/apd/v3"
)

// QuoDigits is how many significant digits a quotient keeps: those of IEEE 754 decimal128, far beyond any price.
const QuoDigits = 34

var (
	exact = apd.BaseContext // precision 0: sums and products are not rounded
	quo   = rounding(QuoDigits)
	// places rounds to a place after the point. apd wants a precision there too; this one is never reached, because
	// the exponents of apd stop at 100 000.
	places = rounding(300_000)
)

func rounding(digits uint32) *apd.Context {
	c := apd.BaseContext.WithPrecision(digits)
	c.Rounding = apd.RoundHalfUp // apd's half up looks at the digits alone, so -0.5 becomes -1: half away from zero
	return c
}

// Decimal is an exact decimal number that never changes. The zero value is 0 and ready to use; a Decimal may be copied.
// Values are always kept in lowest form, so two equal Decimals are also deeply equal (reflect.DeepEqual), but compare
// them with Equal or Cmp, never with ==.
//
// Sums and products are exact. A value outside ±10^100 000 panics; no amount that this package reads comes near it.
type Decimal struct {
	v apd.Decimal
}

// D reads a plain decimal such as "12.50" or "-3", for constants and tests. It panics on anything else; text from
// outside goes through ParsePlainDecimal or ParseNumber.
func D(s string) Decimal {
	d, err := ParsePlainDecimal(s)
	if err != nil {
		panic("units.D: " + err.Error())
	}
	return d
}

// ParsePlainDecimal reads the machine form of a number and nothing else: digits with at most one point between them, and
// a minus in front of a negative number. The error is a *ParseError.
func ParsePlainDecimal(s string) (Decimal, error) {
	if len(s) > MaxTextBytes {
		return Decimal{}, tooLong(s, aNumber)
	}
	body := strings.TrimPrefix(s, "-")
	whole, frac, point := strings.Cut(body, ".")
	if !allDigits(whole) || point && !allDigits(frac) {
		return Decimal{}, &ParseError{Found: s, What: aNumber.what, Wanted: "digits with at most one point between them, such as -12.5"}
	}
	var v apd.Decimal
	if _, _, err := v.SetString(s); err != nil {
		return Decimal{}, fmt.Errorf("reading %q as a decimal: %w", s, err)
	}
	return lowest(&v), nil
}

// DecimalOf gives the shortest decimal that reads back as f: 0.1 gives 0.1, not the binary fraction's 55 digits. It
// panics when f is infinite or not a number.
func DecimalOf(f float64) Decimal {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		panic(fmt.Sprintf("units.DecimalOf: %v is not a number that a decimal can hold", f))
	}
	var v apd.Decimal
	_, _, err := v.SetString(strconv.FormatFloat(f, 'e', -1, 64))
	return lowest(must(&v, err))
}

// DecimalFromInt gives the decimal of a whole number.
func DecimalFromInt(i int64) Decimal {
	return lowest(apd.New(i, 0))
}

// Add gives d + e, exactly.
func (d Decimal) Add(e Decimal) Decimal {
	var v apd.Decimal
	_, err := exact.Add(&v, &d.v, &e.v)
	return lowest(must(&v, err))
}

// Sub gives d − e, exactly.
func (d Decimal) Sub(e Decimal) Decimal {
	var v apd.Decimal
	_, err := exact.Sub(&v, &d.v, &e.v)
	return lowest(must(&v, err))
}

// Mul gives d × e, exactly.
func (d Decimal) Mul(e Decimal) Decimal {
	var v apd.Decimal
	_, err := exact.Mul(&v, &d.v, &e.v)
	return lowest(must(&v, err))
}

// Quo gives d ÷ e to QuoDigits significant digits, half away from zero. It panics when e is zero, as whole numbers do.
func (d Decimal) Quo(e Decimal) Decimal {
	if e.IsZero() {
		panic("units.Decimal.Quo: division of " + d.String() + " by zero")
	}
	var v apd.Decimal
	_, err := quo.Quo(&v, &d.v, &e.v)
	return lowest(must(&v, err))
}

// Neg gives −d.
func (d Decimal) Neg() Decimal {
	var v apd.Decimal
	v.Neg(&d.v)
	return lowest(&v)
}

// Cmp is −1, 0 or +1 as d is less than, equal to or greater than e.
func (d Decimal) Cmp(e Decimal) int { return d.v.Cmp(&e.v) }

// Equal says whether d and e are the same number.
func (d Decimal) Equal(e Decimal) bool { return d.Cmp(e) == 0 }

// Sign is −1, 0 or +1.
func (d Decimal) Sign() int { return d.v.Sign() }

// IsZero says whether d is 0.
func (d Decimal) IsZero() bool { return d.v.IsZero() }

// Float gives the nearest float64; beyond the range of float64 that is an infinity.
func (d Decimal) Float() float64 {
	// strconv rounds correctly; its only error here is the range error, which comes with the infinity we promise.
	f, err := strconv.ParseFloat(d.v.Text('e'), 64)
	if err != nil && !math.IsInf(f, 0) {
		panic("units.Decimal.Float: " + err.Error())
	}
	return f
}

// String gives all digits in plain form: no exponent, no zeros at the end, no "-0".
func (d Decimal) String() string { return d.v.Text('f') }

// MarshalText gives String, so that a Decimal in JSON is its digits in quotes and not an empty object.
func (d Decimal) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// Round rounds to so many digits after the point, half away from zero: 2.345 to 2 digits is 2.35, −2.345 is −2.35.
// Negative digits round to tens, hundreds and so on.
func (d Decimal) Round(digits int) Decimal {
	if int64(d.v.Exponent) >= -int64(digits) {
		return d // nothing beyond the place wanted
	}
	var v apd.Decimal
	_, err := places.Quantize(&v, &d.v, int32(-digits)) // the line above bounds digits
	return lowest(must(&v, err))
}

// Text gives d rounded as by Round, with exactly so many digits after the point (none when digits is 0 or less).
func (d Decimal) Text(digits int) string {
	s := d.Round(digits).String()
	if digits <= 0 {
		return s
	}
	whole, frac, _ := strings.Cut(s, ".")
	return whole + "." + frac + strings.Repeat("0", digits-len(frac))
}

// significant gives d to so many significant digits, half away from zero.
func (d Decimal) significant(digits uint32) Decimal {
	var v apd.Decimal
	_, err := rounding(digits).Round(&v, &d.v)
	return lowest(must(&v, err))
}

// Ceil gives the least whole number that is not below d. The error says that it does not fit an int64.
func (d Decimal) Ceil() (int64, error) { return d.whole("up", exact.Ceil) }

// Floor gives the greatest whole number that is not above d. The error says that it does not fit an int64.
func (d Decimal) Floor() (int64, error) { return d.whole("down", exact.Floor) }

func (d Decimal) whole(way string, op func(d, x *apd.Decimal) (apd.Condition, error)) (int64, error) {
	// Numbers with many digits are refused before apd writes them all out.
	if int64(d.v.Exponent)+d.v.NumDigits() > 20 {
		return 0, wholeError(d, way)
	}
	var v apd.Decimal
	if _, err := op(&v, &d.v); err != nil {
		return 0, fmt.Errorf("rounding %s %s: %w", d, way, err)
	}
	i, err := v.Int64()
	if err != nil {
		return 0, wholeError(d, way)
	}
	return i, nil
}

func wholeError(d Decimal, way string) error {
	return fmt.Errorf("%s rounded %s is too large for a whole number, want at most %d either side of 0", d, way, int64(math.MaxInt64))
}

// IsMultipleOf says whether d is a whole number of steps, exactly. Zero is a multiple of every step, and the only
// multiple of the step 0.
func (d Decimal) IsMultipleOf(step Decimal) bool {
	if d.IsZero() || step.IsZero() {
		return d.IsZero()
	}
	low := min(d.v.Exponent, step.v.Exponent)
	return new(big.Int).Rem(scaled(&d.v, low), scaled(&step.v, low)).Sign() == 0
}

// scaled gives the whole number |x| ÷ 10^low, for low at most x's exponent.
func scaled(x *apd.Decimal, low int32) *big.Int {
	ten := big.NewInt(10)
	shift := ten.Exp(ten, big.NewInt(int64(x.Exponent)-int64(low)), nil)
	return shift.Mul(shift, x.Coeff.MathBigInt())
}

// lowest makes the Decimal of v in the one form kept: no zeros at the end, no minus zero, and a coefficient held inside
// the struct where it fits (the second copy sees to that), so that equal numbers are deeply equal.
func lowest(v *apd.Decimal) Decimal {
	if v.IsZero() {
		return Decimal{}
	}
	var reduced apd.Decimal
	reduced.Reduce(v)
	var d Decimal
	d.v.Set(&reduced)
	return d
}

// must gives v, or panics: the only errors that can reach it are numbers outside the range promised in Decimal's doc.
func must(v *apd.Decimal, err error) *apd.Decimal {
	if err != nil {
		panic("units: decimal out of range: " + err.Error())
	}
	return v
}
