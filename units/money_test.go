package units_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/bojanz/currency"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/units"
)

func TestMoney(t *testing.T) {
	var none units.Money
	assert.True(t, none.IsZero())
	assert.Equal(t, 0, none.Sign())
	// 12 bags at 27.495 are 329.94; 8.25 % of that is 27.22005, on an invoice 27.22.
	goods := units.M("27.495").Times(units.D("12"))
	assert.Equal(t, "329.94", goods.Text(2))
	tax := goods.Times(units.D("0.0825"))
	assert.Equal(t, "27.22005", tax.String())
	assert.Equal(t, "357.16", goods.Add(tax.Round(2)).String())
	assert.Equal(t, "-302.72", tax.Round(2).Sub(goods).String())
	assert.True(t, goods.Neg().Neg().Equal(goods))
	assert.Equal(t, 1, goods.Cmp(tax))
	assert.Equal(t, 329.94, goods.Float())
	assert.Equal(t, units.D("329.94"), goods.Decimal())
	assert.Equal(t, units.M("329.94"), units.MoneyOf(units.D("329.940")))
}

func TestCurrencyDigits(t *testing.T) {
	for code, want := range map[string]int{"USD": 2, "EUR": 2, "JPY": 0, "KWD": 3, "CLF": 4} {
		got, ok := units.CurrencyDigits(code)
		assert.True(t, ok, code)
		assert.Equal(t, want, got, code)
	}
	for _, code := range []string{"", "usd", "XYZ", "$", "USDX"} {
		_, ok := units.CurrencyDigits(code)
		assert.False(t, ok, code)
	}
}

func TestFormatMoney(t *testing.T) {
	for _, c := range []struct{ amount, code, want string }{
		{"1234.5", "USD", "$1,234.50"}, {"-3.2", "GBP", "-£3.20"}, {"499.5", "JPY", "¥500"}, {"0", "EUR", "€0.00"},
		{"0.005", "USD", "$0.01"}, {"-0.004", "USD", "$0.00"}, {"1.2345", "KWD", "KWD\u00a01.235"}, {"8", "CHF", "CHF\u00a08.00"},
		{"12", "XYZ", "XYZ\u00a012.00"}, {"999999999999.99", "USD", "$999,999,999,999.99"},
	} {
		assert.Equal(t, c.want, units.FormatMoney(units.M(c.amount), c.code))
	}
}

// What is printed reads back, in every currency, and is known for that currency's.
func TestFormattedMoneyReadsBack(t *testing.T) {
	codes := currency.GetCurrencyCodes()
	require.Greater(t, len(codes), 100)
	for _, code := range codes {
		digits, ok := units.CurrencyDigits(code)
		require.True(t, ok, code)
		for _, amount := range []string{"1234567.1234", "-1234.5", "0", "0.5"} {
			m := units.M(amount)
			text := units.FormatMoney(m, code)
			back, err := units.ParseMoney(text, units.MarkPoint)
			require.NoError(t, err, text)
			assert.Equal(t, m.Round(digits), back, text)
			_, may := units.CurrencyIn(text)
			assert.Contains(t, may, code, text)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		m, code := units.MoneyOf(decimals().Draw(t, "m")), rapid.SampledFrom(codes).Draw(t, "code")
		digits, _ := units.CurrencyDigits(code)
		back, err := units.ParseMoney(units.FormatMoney(m, code), units.MarkPoint)
		require.NoError(t, err)
		assert.Equal(t, m.Round(digits), back)
	})
}

func TestCurrencyIn(t *testing.T) {
	for _, c := range []struct {
		text, written string
		may, mayNot   string
	}{
		{"€12.50", "€", "EUR", "USD"}, {"$12", "$", "USD", "EUR"}, {"$12", "$", "CAD", "GBP"}, {"12 eur", "eur", "EUR", "USD"},
		{"$12 AUD", "$ AUD", "AUD", "USD"}, {"-CA$3", "CA$", "CAD", "USD"}, {"C$3", "C$", "CAD", "USD"}, {"US$ 3", "US$", "USD", "CAD"},
		{"1,234 £", "£", "GBP", "USD"}, {"¥500", "¥", "CNY", "USD"},
	} {
		written, codes := units.CurrencyIn(c.text)
		assert.Equal(t, c.written, written, c.text)
		assert.Contains(t, codes, c.may, c.text)
		assert.NotContains(t, codes, c.mayNot, c.text)
	}
	for _, text := range []string{"12", "", "twelve", "€12 USD", "12 bags", "$", "\xff$1"} {
		written, codes := units.CurrencyIn(text)
		assert.Empty(t, written, text)
		assert.Empty(t, codes, text)
	}
	_, codes := units.CurrencyIn("$1")
	for _, code := range []string{"USD", "CAD", "AUD", "NZD", "SGD", "HKD", "TWD", "JMD", "XCD"} {
		assert.Contains(t, codes, code, "every dollar is written $ at home")
	}
	codes[0] = "spoilt"
	_, again := units.CurrencyIn("$1")
	assert.NotContains(t, again, "spoilt", "callers get a list of their own")
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		name    string
		minor   int64
		weights []float64
		want    []int64
	}{
		{"even", 100, []float64{1, 1}, []int64{50, 50}},
		// 100/3 = 33⅓ each: one cent over, to the first of the equals.
		{"ties go by place", 100, []float64{1, 1, 1}, []int64{34, 33, 33}},
		// 101·(1, 2, 3)/6 = 16.83, 33.67, 50.5: 99 given, the two left to the remainders .83 and .67.
		{"largest remainder", 101, []float64{1, 2, 3}, []int64{17, 34, 50}},
		{"negative is the mirror", -101, []float64{1, 2, 3}, []int64{-17, -34, -50}},
		{"nobody placed anything", 100, []float64{0, 0, 0}, []int64{34, 33, 33}},
		{"a zero weight pays nothing", 7, []float64{0, 1, 0}, []int64{0, 7, 0}},
		{"nothing to share", 0, []float64{2, 1}, []int64{0, 0}},
		// 0.1+0.2 ≠ 0.3 in float64, yet 10·(0.1, 0.2, 0.7)/1 is 1, 2, 7 to the cent.
		{"binary fractions", 10, []float64{0.1, 0.2, 0.7}, []int64{1, 2, 7}},
		{"tiny weights", 10, []float64{5e-324, 5e-324}, []int64{5, 5}},
		{"largest int64", math.MaxInt64, []float64{1, 1}, []int64{math.MaxInt64/2 + 1, math.MaxInt64 / 2}},
		{"least int64", math.MinInt64, []float64{1}, []int64{math.MinInt64}},
		{"nothing among nobody", 0, nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, units.Split(c.minor, c.weights)) })
	}
	assert.PanicsWithValue(t, "units.Split: 5 to share among nobody", func() { units.Split(5, nil) })
	for _, w := range []float64{-1, math.NaN(), math.Inf(1)} {
		assert.Panics(t, func() { units.Split(5, []float64{1, w}) })
	}
}

func TestSplitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minor := rapid.Int64().Draw(t, "minor")
		weights := rapid.SliceOfN(rapid.Float64Range(0, 1e9), 1, 12).Draw(t, "weights")
		parts := units.Split(minor, weights)
		require.Len(t, parts, len(weights))

		sum, total := new(big.Int), new(big.Rat)
		for i, p := range parts {
			sum.Add(sum, big.NewInt(p))
			total.Add(total, new(big.Rat).SetFloat64(weights[i]))
		}
		assert.Zero(t, sum.Cmp(big.NewInt(minor)), "the parts add up to %s, not %d", sum, minor)
		if total.Sign() == 0 {
			return
		}
		for i, p := range parts {
			// |part − minor·w/Σw| < 1
			fair := new(big.Rat).SetInt64(minor)
			fair.Mul(fair, new(big.Rat).SetFloat64(weights[i])).Quo(fair, total)
			off := fair.Sub(fair, new(big.Rat).SetInt64(p))
			assert.Negative(t, off.Abs(off).Cmp(big.NewRat(1, 1)), "part %d is a whole unit off", i)
		}
	})
}

func TestPerVolume(t *testing.T) {
	var free units.PerVolume
	assert.True(t, free.IsZero())
	assert.True(t, free.For(units.CubicYard).IsZero())
	assert.Zero(t, free.PerLitre())

	haul, err := units.ParsePerVolume("12.01 / yd3", units.MarkUnknown)
	require.NoError(t, err)
	assert.Equal(t, units.CubicYard, haul.Per)
	assert.Equal(t, "12.01 / yd3", haul.Raw)
	assert.Equal(t, "1 yd³ = 764.555 L", haul.By)
	// Half a yard is 6.005, which an invoice rounds to 6.01.
	assert.Equal(t, "6.005", haul.For(units.CubicYard/2).String())
	// An eighth of a yard added up eight times falls short of a yard in float64 and is still charged as one.
	sum := units.Litres(0)
	for range 8 {
		sum += units.CubicYard / 8
	}
	assert.NotEqual(t, units.CubicYard, sum)
	assert.Equal(t, "12.01", haul.For(sum).String())
	// 12.01 / 764.554857984 = 0.0157085…
	assert.InDelta(t, 0.0157085, haul.PerLitre(), 5e-8)

	perLitre := units.PerVolume{Money: units.M("0.02"), Per: units.Litre}
	assert.Equal(t, "84", perLitre.For(4200).String())

	rapid.Check(t, func(t *rapid.T) {
		// n half yards cost n/2 times the price of one yard, exactly.
		n := rapid.Int64Range(0, 100_000).Draw(t, "half yards")
		money := units.MoneyOf(units.DecimalFromInt(rapid.Int64Range(0, 1e6).Draw(t, "cents")).Mul(units.D("0.01")))
		p := units.PerVolume{Money: money, Per: units.CubicYard}
		want := money.Times(units.DecimalFromInt(n).Mul(units.D("0.5")))
		assert.Equal(t, want, p.For(units.Litres(n)*units.CubicYard/2))
	})
}
