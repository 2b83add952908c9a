package units_test

import (
	"encoding/json"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/units"
)

// plain draws decimals of up to 12 digits before the point and 6 behind it, in machine form.
func plain() *rapid.Generator[string] { return rapid.StringMatching(`-?[0-9]{1,12}(\.[0-9]{1,6})?`) }

func decimals() *rapid.Generator[units.Decimal] { return rapid.Map(plain(), units.D) }

// rat is the same number by another road: the standard library's exact fractions.
func rat(t require.TestingT, d units.Decimal) *big.Rat {
	r, ok := new(big.Rat).SetString(d.String())
	require.True(t, ok, "%q is not a plain number", d.String())
	return r
}

func TestDecimalZeroValueIsReady(t *testing.T) {
	var zero units.Decimal
	assert.Equal(t, "0", zero.String())
	assert.True(t, zero.IsZero())
	assert.Equal(t, "2.5", zero.Add(units.D("2.5")).String())
	assert.Equal(t, "0.00", zero.Text(2))
	assert.Equal(t, "0", units.D("-0.000").String(), "there is no minus zero")
}

func TestParsePlainDecimal(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"0", "0"}, {"12.50", "12.5"}, {"-3", "-3"}, {"007", "7"}, {"1000", "1000"}, {"0.001", "0.001"},
		{"123456789012345678901234567890.5", "123456789012345678901234567890.5"},
	} {
		d, err := units.ParsePlainDecimal(c.in)
		require.NoError(t, err, c.in)
		assert.Equal(t, c.want, d.String(), c.in)
	}
	for _, in := range []string{"", "-", ".", "1.", ".5", "+1", "1,5", "1e3", "0x1", " 1", "1 ", "--1", "1.2.3", "NaN", "Inf", "١",
		strings.Repeat("1", units.MaxTextBytes+1)} {
		d, err := units.ParsePlainDecimal(in)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, in)
		assert.Equal(t, in, parse.Found)
		assert.Equal(t, units.Decimal{}, d, in)
	}
	assert.PanicsWithValue(t, `units.D: "12.5O" is not a number, want digits with at most one point between them, such as -12.5`,
		func() { units.D("12.5O") })
}

func TestDecimalOf(t *testing.T) {
	for _, c := range []struct {
		in   float64
		want string
	}{{0, "0"}, {math.Copysign(0, -1), "0"}, {0.1, "0.1"}, {-2.5, "-2.5"}, {764.554857984, "764.554857984"}, {1e21, "1000000000000000000000"}} {
		assert.Equal(t, c.want, units.DecimalOf(c.in).String())
	}
	for _, f := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.Panics(t, func() { units.DecimalOf(f) })
	}
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64().Draw(t, "f")
		assert.Equal(t, f+0, units.DecimalOf(f).Float()) // + 0 turns minus zero into zero
	})
}

func TestDecimalFloatIsNearest(t *testing.T) {
	assert.Equal(t, 0.1, units.D("0.1000000000000000000000001").Float())
	assert.Equal(t, 1.0/3, units.D("1").Quo(units.D("3")).Float())
	assert.True(t, math.IsInf(units.D("-1"+strings.Repeat("0", 190)).Mul(units.D("1"+strings.Repeat("0", 190))).Float(), -1))
}

// Sums, differences and products are exact; the standard library's fractions agree.
func TestDecimalArithmeticAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := decimals().Draw(t, "a"), decimals().Draw(t, "b")
		ra, rb := rat(t, a), rat(t, b)
		assert.Zero(t, rat(t, a.Add(b)).Cmp(new(big.Rat).Add(ra, rb)), "a+b")
		assert.Zero(t, rat(t, a.Sub(b)).Cmp(new(big.Rat).Sub(ra, rb)), "a-b")
		assert.Zero(t, rat(t, a.Mul(b)).Cmp(new(big.Rat).Mul(ra, rb)), "a*b")
		assert.Zero(t, rat(t, a.Neg()).Cmp(new(big.Rat).Neg(ra)), "-a")
		assert.Equal(t, ra.Cmp(rb), a.Cmp(b))
		assert.Equal(t, ra.Cmp(rb) == 0, a.Equal(b))
		assert.Equal(t, ra.Sign(), a.Sign())
		assert.Equal(t, a, a.Add(b).Sub(b), "equal numbers are deeply equal, whatever road they came by")

		if b.IsZero() {
			return
		}
		exactly := new(big.Rat).Quo(ra, rb)
		off := new(big.Rat).Sub(rat(t, a.Quo(b)), exactly)
		off.Abs(off)
		// Half of the last of 34 digits is at most 5e-34 of the value.
		limit := new(big.Rat).Mul(exactly.Abs(exactly), new(big.Rat).SetFrac64(5, 10))
		limit.Quo(limit, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(units.QuoDigits-1), nil)))
		assert.LessOrEqual(t, off.Cmp(limit), 0, "a/b")
		// step | d just when the fraction d/step is whole.
		assert.Equal(t, new(big.Rat).Quo(ra, rb).IsInt(), a.IsMultipleOf(b))
		assert.True(t, a.Mul(b).IsMultipleOf(b) || !a.IsMultipleOf(units.D("1")))
	})
	assert.Panics(t, func() { units.D("1").Quo(units.Decimal{}) })
}

func TestDecimalBeyond128BitsIsStillOneForm(t *testing.T) {
	big := units.D("340282366920938463463374607431768211456.5") // 2^128 and a half
	assert.Equal(t, units.D("0.5"), big.Sub(units.D("340282366920938463463374607431768211456")))
	assert.Equal(t, "340282366920938463463374607431768211456.5", big.String())
	copied := big
	_ = big.Add(units.D("1"))
	assert.Equal(t, "340282366920938463463374607431768211456.5", copied.String(), "a Decimal never changes")
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		in     string
		digits int
		want   string
	}{
		{"2.345", 2, "2.35"}, {"-2.345", 2, "-2.35"}, {"2.344999", 2, "2.34"}, {"0.005", 2, "0.01"}, {"-0.005", 2, "-0.01"},
		{"0.004", 2, "0.00"}, {"-0.004", 2, "0.00"}, {"9.995", 2, "10.00"}, {"99.5", 0, "100"}, {"12", 2, "12.00"},
		{"0.5", 0, "1"}, {"-0.5", 0, "-1"}, {"1.5", 0, "2"}, {"2.5", 0, "3"}, {"1250", -2, "1300"}, {"49", -2, "0"}, {"50", -2, "100"},
		{"1234567890123456789012345678901234567890.125", 2, "1234567890123456789012345678901234567890.13"},
		{"1", 40, "1." + strings.Repeat("0", 40)},
	} {
		assert.Equal(t, c.want, units.D(c.in).Text(c.digits), "%s to %d", c.in, c.digits)
	}
	rapid.Check(t, func(t *rapid.T) {
		d, digits := decimals().Draw(t, "d"), rapid.IntRange(0, 7).Draw(t, "digits")
		// floor(|d|·10^digits + 1/2) / 10^digits with d's sign, in whole numbers.
		scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(digits)), nil)
		up := new(big.Rat).Mul(new(big.Rat).Abs(rat(t, d)), new(big.Rat).SetInt(scale))
		up.Add(up, big.NewRat(1, 2))
		want := new(big.Rat).SetFrac(new(big.Int).Quo(up.Num(), up.Denom()), scale)
		if d.Sign() < 0 {
			want.Neg(want)
		}
		got := d.Round(digits)
		assert.Zero(t, want.Cmp(rat(t, got)), "want %s, got %s", want.FloatString(digits), got)
		assert.Equal(t, want.FloatString(digits), strings.TrimPrefix(d.Text(digits), "+"))
		assert.Equal(t, got, got.Round(digits), "rounding twice changes nothing")
	})
}

func TestCeilAndFloor(t *testing.T) {
	for _, c := range []struct {
		in          string
		floor, ceil int64
	}{
		{"0", 0, 0}, {"2", 2, 2}, {"2.000001", 2, 3}, {"-2.5", -3, -2}, {"0.0001", 0, 1}, {"-0.0001", -1, 0},
		{"9223372036854775807", math.MaxInt64, math.MaxInt64}, {"-9223372036854775808", math.MinInt64, math.MinInt64},
	} {
		floor, err := units.D(c.in).Floor()
		require.NoError(t, err)
		ceil, err := units.D(c.in).Ceil()
		require.NoError(t, err)
		assert.Equal(t, []int64{c.floor, c.ceil}, []int64{floor, ceil}, c.in)
	}
	_, err := units.D("9223372036854775807.5").Ceil()
	require.EqualError(t, err, "9223372036854775807.5 rounded up is too large for a whole number, want at most 9223372036854775807 either side of 0")
	_, err = units.D("1" + strings.Repeat("0", 150)).Floor()
	require.ErrorContains(t, err, "rounded down is too large")
}

func TestIsMultipleOf(t *testing.T) {
	for _, c := range []struct {
		d, step string
		want    bool
	}{
		{"1.5", "0.5", true}, {"1.25", "0.5", false}, {"0.3", "0.1", true}, {"0", "0.7", true}, {"0", "0", true}, {"1", "0", false},
		{"-1.5", "0.5", true}, {"1000", "8", true}, {"1000", "3", false}, {"12", "1", true}, {"0.1", "1000", false},
	} {
		assert.Equal(t, c.want, units.D(c.d).IsMultipleOf(units.D(c.step)), "%s of %s", c.d, c.step)
	}
}

func TestDecimalsAndMoneyInJSON(t *testing.T) {
	got, err := json.Marshal(map[string]any{"d": units.D("0.10"), "m": units.M("-1234.505")})
	require.NoError(t, err)
	assert.JSONEq(t, `{"d":"0.1","m":"-1234.505"}`, string(got))
}
