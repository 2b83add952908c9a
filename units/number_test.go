package units_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"mediabuy/units"
)

func TestMarkOf(t *testing.T) {
	const none, point, comma = units.MarkUnknown, units.MarkPoint, units.MarkComma
	for _, c := range []struct {
		text      string
		mark      units.DecimalMark
		ambiguous bool
	}{
		{"", none, false}, {"12", none, false}, {"1 234", none, false}, {"1'234", none, false}, {"by the yard", none, false},
		{"1,234.50", point, false}, {"1.234,50", comma, false}, {"12,5", comma, false}, {"12.5", point, false},
		{"1,234", none, true}, {"1.234", none, true}, {"12,345", none, true}, {"123.456", none, true},
		{"1 234,50", comma, false}, {"1 234,567", comma, false}, {"1'234.567", point, false}, {"1\u202f234,5", comma, false},
		{"0,750", comma, false}, {"0.750", point, false}, {"00,750", comma, false}, {"1234,567", comma, false}, {"1234.567", point, false},
		{".5", point, false}, {",500", comma, false}, {"$.50", point, false},
		{"1,234,567", point, false}, {"1.234.567", comma, false}, {"1,234,567.8", point, false},
		{"1,2,3", none, false}, {"1.2.3,4", none, false}, // reads neither way: left to the parser to refuse
		{"12.", none, false}, {"12, or more", none, false},
		// Numbers inside words.
		{"1,5 m3", comma, false}, {"10: 27,50; 40: 24,00", comma, false}, {"8,5-16 mm", comma, false}, {"3 1/2 in", none, false},
		{"4'6\"", none, false}, {"$1,234.50", point, false}, {"USD1.234,50", comma, false}, {"#57", none, false}, {"0.02 / L", point, false},
		{"lava rock: 0.67; gravel: 0.5", point, false}, {"50 L,2 yd", none, false}, {"3 125/1000 in", none, false},
		// One number settles what another leaves open; two that contradict settle nothing.
		{"10: 1,234; 40: 27,50", comma, false}, {"10: 1,234; 40: 1,100", none, true}, {"1,5; 2.5", none, true}, {"1,5; 2.5; 3,5", none, true},
	} {
		mark, ambiguous := units.MarkOf(c.text)
		assert.Equal(t, c.mark, mark, "%q", c.text)
		assert.Equal(t, c.ambiguous, ambiguous, "%q", c.text)
	}
	assert.Equal(t, []string{".", ",", "unknown"}, []string{point.String(), comma.String(), none.String()})
}

func TestParseNumber(t *testing.T) {
	const none, point, comma = units.MarkUnknown, units.MarkPoint, units.MarkComma
	for _, c := range []struct {
		text string
		mark units.DecimalMark
		want string
	}{
		{"12", none, "12"}, {"1234.5", none, "1234.5"}, {"1,234.50", none, "1234.5"}, {"1.234,50", none, "1234.5"},
		{"1 234,50", none, "1234.5"}, {"1\u00a0234,50", none, "1234.5"}, {"1\u202f234\u202f567,5", none, "1234567.5"},
		{"1\u2009234", none, "1234"}, {"1'234.50", none, "1234.5"}, {"1’234’567", none, "1234567"}, {"1,234,567", none, "1234567"},
		{"12,5", none, "12.5"}, {"0,750", none, "0.75"}, {".5", none, "0.5"}, {",5", none, "0.5"}, {"007", none, "7"},
		{"1,234", point, "1234"}, {"1,234", comma, "1.234"}, {"1.234", point, "1.234"}, {"1.234", comma, "1234"},
		{"12,345,678", point, "12345678"}, {"0.750", point, "0.75"}, {"1 234.567", point, "1234.567"},
		{"-3.5", none, "-3.5"}, {"−3.5", none, "-3.5"}, {"-0", none, "0"}, {"  12.5  ", none, "12.5"}, {"\u00a012.5\u00a0", none, "12.5"},
		{"$12.50", none, "12.5"}, {"12.50 €", none, "12.5"}, {"£ 12.50", none, "12.5"}, {"¥500", none, "500"}, {"USD 12.50", none, "12.5"},
		{"12.50usd", none, "12.5"}, {"$12.50 USD", none, "12.5"}, {"-$5.00", none, "-5"}, {"$-5.00", none, "-5"}, {"- $ 5", none, "-5"},
		{"CHF 1'234.50", none, "1234.5"}, {"1000000000000", none, "1000000000000"},
	} {
		got, err := units.ParseNumber(c.text, c.mark)
		require.NoError(t, err, "%q", c.text)
		assert.Equal(t, c.want, got.String(), "%q", c.text)
		money, err := units.ParseMoney(c.text, c.mark)
		require.NoError(t, err, "%q", c.text)
		assert.Equal(t, units.M(c.want), money, "%q", c.text)
	}
}

func TestParseNumberRefuses(t *testing.T) {
	const none, point, comma = units.MarkUnknown, units.MarkPoint, units.MarkComma
	for _, c := range []struct {
		text string
		mark units.DecimalMark
		hint string
	}{
		{"", none, "the text is empty"}, {" \t", none, "the text is empty"},
		{"12.5O", none, "the last sign is a letter O; write the digit 0"},
		{"l2.50", none, "the first sign is a letter l; write the digit 1"},
		{"1O.50", none, `the sign after "1" is a letter O; write the digit 0`},
		{"NaN", none, "leave the cell empty if there is no number"}, {"Inf", none, "leave the cell empty if there is no number"},
		{"-inf", none, "leave the cell empty if there is no number"}, {"∞", none, "leave the cell empty if there is no number"},
		{"1e5", none, "write the number out, without an exponent"}, {"1.5E-3", none, "write the number out, without an exponent"},
		{"0x1F", none, "write the number in tens, not as hexadecimal"}, {"12%", none, "leave off the percent sign"},
		{"free", none, "there is no digit in it"}, {"$", none, "there is no digit in it"}, {"-", none, "there is no digit in it"},
		{"12 12", none, "write one number and nothing else"}, {"12.", none, "write one number and nothing else"},
		{"--5", none, "write one number and nothing else"}, {"+5", none, "write one number and nothing else"},
		{"(5)", none, "write one number and nothing else"}, {"12 bags", none, "write one number and nothing else"},
		{"1_000", none, "write one number and nothing else"}, {"١٢", none, "there is no digit in it"},
		{"€12 USD", none, `it names the currency twice, as "€" and "USD"`}, {"$12 $", none, `it names the currency twice, as "$" and "$"`},
		{"1,23,456", none, "signs that group digits stand before every three digits, as in 1,234,567.50"},
		{"1.2.3", none, "signs that group digits stand before every three digits, as in 1,234,567.50"},
		{"1,234 567.5", none, "write one number and nothing else"},
		{"0 500", none, "signs that group digits stand before every three digits, as in 1,234,567.50"},
		{"12,5", point, `the decimal mark is "." here; write 12.5 if that is meant`},
		{"1.234,50", point, `the decimal mark is "." here; write 1234.50 if that is meant`},
		{"0,750", point, `the decimal mark is "." here; write 0.750 if that is meant`},
		{"12.5", comma, `the decimal mark is "," here; write 12,5 if that is meant`},
		{"1,234,567", comma, `the decimal mark is "," here; write 1234567 if that is meant`},
		{"1000000000001", none, "it is larger than 1000000000000, the most that is read"},
		{"12\xff", none, "the text is not UTF-8; save the file as UTF-8"},
		{strings.Repeat("1", 201), none, "the text is 201 bytes long; 200 are enough for any quantity"},
	} {
		got, err := units.ParseNumber(c.text, c.mark)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, "%q", c.text)
		assert.Equal(t, c.hint, parse.Hint, "%q", c.text)
		assert.Equal(t, c.text, parse.Found)
		assert.Equal(t, units.Decimal{}, got, "%q", c.text)
	}
}

func TestErrorsSayWhatWasWanted(t *testing.T) {
	_, err := units.ParseMoney("12.5O", units.MarkUnknown)
	require.EqualError(t, err, `"12.5O" is not an amount, want digits such as 12.50`)

	_, err = units.ParseVolume("1,234 L", units.Options{})
	require.EqualError(t, err, `"1,234 L" can be read as 1234 or 1.234, want a number that reads one way`)
	var ambiguous *units.AmbiguousError
	require.ErrorAs(t, err, &ambiguous)
	assert.Equal(t, [2]string{"1234", "1.234"}, ambiguous.Readings)
	var parse *units.ParseError
	require.ErrorAs(t, err, &parse, "it is a ParseError as well")
	assert.Equal(t, "1,234 L", parse.Found)
	assert.Equal(t, "write 1234, or say which sign is the decimal mark everywhere", parse.Hint)

	_, err = units.ParseMoney(strings.Repeat("é", 120), units.MarkUnknown)
	require.ErrorContains(t, err, "…\" is not an amount")
	assert.Less(t, len(err.Error()), 130, "a long text is cut in the message")
}

func TestParsePercent(t *testing.T) {
	for text, want := range map[string]string{
		"8%": "0.08", "8 %": "0.08", "8": "0.08", "8 percent": "0.08", "8 Per Cent": "0.08", "8,25%": "0.0825", "8.25": "0.0825",
		"0": "0", "0%": "0", "0.5%": "0.005", "1": "0.01", "100%": "1", "1000": "10",
	} {
		got, err := units.ParsePercent(text, units.MarkUnknown)
		require.NoError(t, err, text)
		assert.Equal(t, want, got.String(), text)
	}
	for text, hint := range map[string]string{
		"": "the text is empty", "-1%": "", "1000.1%": "", "$8": `leave off "$"`, "8%%": "leave off the percent sign",
		"%": "there is no digit in it", "8.O%": "the last sign is a letter O; write the digit 0",
		"0.08": "write 8% or 0.08%, with the percent sign", // 8 % as a fraction, or 0.08 %: a hundredfold apart
	} {
		got, err := units.ParsePercent(text, units.MarkUnknown)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, text)
		assert.Equal(t, hint, parse.Hint, text)
		assert.Equal(t, units.Decimal{}, got)
	}
	_, err := units.ParsePercent("0.08", units.MarkUnknown)
	require.EqualError(t, err, `"0.08" can be read as 8% or 0.08%, want a number that reads one way`)
}

func TestParseShare(t *testing.T) {
	for text, want := range map[string]string{"0.67": "0.67", "67%": "0.67", "67 %": "0.67", "0,67": "0.67", "0": "0", "1": "1", "100%": "1", "0.5%": "0.005"} {
		got, err := units.ParseShare(text, units.MarkUnknown)
		require.NoError(t, err, text)
		assert.Equal(t, want, got.String(), text)
	}
	for text, hint := range map[string]string{"67": "write 67% or 0.67", "101%": "", "-0.1": "", "250": "", "": "the text is empty", "€1": `leave off "€"`} {
		got, err := units.ParseShare(text, units.MarkUnknown)
		var parse *units.ParseError
		require.ErrorAs(t, err, &parse, text)
		assert.Equal(t, hint, parse.Hint, text)
		assert.Equal(t, units.Decimal{}, got)
	}
}

// style is one way to write numbers.
type style struct {
	mark  units.DecimalMark
	point string
	group string
}

var styles = []style{
	{units.MarkPoint, ".", ""}, {units.MarkPoint, ".", ","}, {units.MarkPoint, ".", " "}, {units.MarkPoint, ".", "'"}, {units.MarkPoint, ".", "\u2009"},
	{units.MarkComma, ",", ""}, {units.MarkComma, ",", "."}, {units.MarkComma, ",", "\u00a0"}, {units.MarkComma, ",", "\u202f"},
}

// write writes digits (no sign, no zeros in front) in a style.
func (s style) write(whole, frac string) string {
	var groups []string
	for len(whole) > 3 {
		groups = append([]string{whole[len(whole)-3:]}, groups...)
		whole = whole[:len(whole)-3]
	}
	out := strings.Join(append([]string{whole}, groups...), s.group)
	if frac != "" {
		out += s.point + frac
	}
	return out
}

// However a number is written, it is read as itself once the mark is known; while it is not, it is either read as itself
// or called ambiguous with its true reading among the two.
func TestNumbersReadBackInEveryStyle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(styles).Draw(t, "style")
		whole := rapid.StringMatching(`0|[1-9][0-9]{0,10}`).Draw(t, "whole")
		frac := rapid.StringMatching(`[0-9]{0,5}`).Draw(t, "fraction")
		want := units.D(strings.TrimSuffix(whole+"."+frac, "."))
		text := s.write(whole, frac)

		got, err := units.ParseNumber(text, s.mark)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)

		mark, ambiguous := units.MarkOf(text)
		got, err = units.ParseNumber(text, units.MarkUnknown)
		var two *units.AmbiguousError
		if errors.As(err, &two) {
			require.True(t, ambiguous, text)
			readings := []units.Decimal{units.D(two.Readings[0]), units.D(two.Readings[1])}
			require.Contains(t, readings, want, text)
			return
		}
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
		require.False(t, ambiguous, text)
		require.Contains(t, []units.DecimalMark{units.MarkUnknown, s.mark}, mark, text)
	})
}
