package units

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

var (
	maxMagnitude = DecimalOf(MaxMagnitude)
	hundred      = DecimalFromInt(100)
	one          = DecimalFromInt(1)
	maxPercent   = DecimalFromInt(1000)
)

// ParseNumber reads a number as people write it: 1234.5, 1,234.50, 1.234,50, 1 234,50, with the spaces that typesetters
// use or an apostrophe between groups of three, and with or without a currency sign or code before or behind (the
// currency itself is not looked at; see CurrencyIn). Negative numbers are read; a caller that wants none checks Sign.
// Exponents, hexadecimal, NaN and infinities are refused.
//
// The error is a *ParseError, or an *AmbiguousError for a number such as 1,234 while mark is MarkUnknown.
func ParseNumber(text string, mark DecimalMark) (Decimal, error) {
	return readAmount(text, mark, aNumber)
}

// ParseMoney reads an amount of money, with or without its currency; otherwise it is ParseNumber.
func ParseMoney(text string, mark DecimalMark) (Money, error) {
	d, err := readAmount(text, mark, anAmount)
	if err != nil {
		return Money{}, err
	}
	return MoneyOf(d), nil
}

// ParsePercent reads a percentage and gives it as a fraction: "8%", "8 %", "8 percent" and a bare "8" are all 0.08. A
// bare number between 0 and 1 is refused, because 0.08 may mean 8 % or 0.08 %, and reading either is money lost. The
// percentage must be from 0 to 1000.
func ParsePercent(text string, mark DecimalMark) (fraction Decimal, err error) {
	body, signed := cutPercent(text)
	d, err := readBare(text, body, mark, aPercent)
	if err != nil {
		return Decimal{}, err
	}
	switch {
	case d.Sign() < 0 || d.Cmp(maxPercent) > 0:
		return Decimal{}, aPercent.err(text, "")
	case !signed && d.Sign() > 0 && d.Cmp(one) < 0:
		percent := d.Mul(hundred).String() + "%"
		return Decimal{}, aPercent.error(text, &failure{
			readings: [2]string{percent, d.String() + "%"},
			hint:     fmt.Sprintf("write %s or %s%%, with the percent sign", percent, d),
		})
	}
	return d.Quo(hundred), nil
}

// ParseShare reads a share of a whole, from 0 to 1: "0.67" and "67%" are both 0.67. A number above 1 needs the percent
// sign.
func ParseShare(text string, mark DecimalMark) (Decimal, error) {
	body, signed := cutPercent(text)
	d, err := readBare(text, body, mark, aShare)
	if err != nil {
		return Decimal{}, err
	}
	hint := ""
	switch {
	case signed:
		d = d.Quo(hundred)
	case d.Cmp(one) > 0 && d.Cmp(hundred) <= 0:
		hint = fmt.Sprintf("write %s%% or %s", d, d.Quo(hundred))
	}
	if d.Sign() < 0 || d.Cmp(one) > 0 {
		return Decimal{}, aShare.err(text, hint)
	}
	return d, nil
}

// cutPercent takes a percent sign, or the word, off the end.
func cutPercent(text string) (body string, signed bool) {
	body = strings.TrimSpace(text)
	for _, sign := range []string{"%", "percent", "per cent"} {
		if at := len(body) - len(sign); at >= 0 && strings.EqualFold(body[at:], sign) {
			return strings.TrimSpace(body[:at]), true
		}
	}
	return body, false
}

// readBare reads body as a number without a currency; text is the whole cell, for the error.
func readBare(text, body string, mark DecimalMark, k kind) (Decimal, error) {
	if err := k.checkText(text); err != nil {
		return Decimal{}, err
	}
	a, f := splitAmount(body)
	if f == nil && a.written != "" {
		f = &failure{hint: fmt.Sprintf("leave off %q", a.written)}
	}
	return a.value(text, mark, k, f)
}

// readAmount reads text as a number with or without a currency.
func readAmount(text string, mark DecimalMark, k kind) (Decimal, error) {
	if err := k.checkText(text); err != nil {
		return Decimal{}, err
	}
	a, f := splitAmount(strings.TrimSpace(text))
	return a.value(text, mark, k, f)
}

// amountText is a number taken apart into its sign, its currency and its numeral.
type amountText struct {
	negative bool
	written  string   // the currency as written, "" when there is none
	codes    []string // the codes that it may stand for
	number   numeral
}

// splitAmount takes s apart. It never decides what the numeral means.
func splitAmount(s string) (a amountText, f *failure) {
	rest := s
	for rest != "" {
		body, sign := cutMinus(rest)
		word, codes := leadingCurrency(rest)
		switch {
		case sign && !a.negative:
			a.negative, rest = true, body
		case word != "" && a.addCurrency(word, codes):
			rest = rest[len(word):]
		default:
			var length int
			a.number, length = scanNumeral(rest, true)
			if length == 0 {
				return a, &failure{hint: oddNumber(s)}
			}
			return a, a.finish(s, rest[length:])
		}
		rest = strings.TrimLeftFunc(rest, unicode.IsSpace)
	}
	return a, &failure{hint: oddNumber(s)}
}

// finish reads what stands behind the numeral, which can only be the currency.
func (a *amountText) finish(s, rest string) *failure {
	for rest = strings.TrimSpace(rest); rest != ""; rest = strings.TrimSpace(rest) {
		word, codes := leadingCurrency(rest)
		if word == "" {
			return &failure{hint: oddNumber(s)}
		}
		if !a.addCurrency(word, codes) {
			return &failure{hint: fmt.Sprintf("it names the currency twice, as %q and %q", a.written, word)}
		}
		rest = rest[len(word):]
	}
	return nil
}

// addCurrency notes a currency; "$12 USD" may name it twice if both can be the same.
func (a *amountText) addCurrency(word string, codes []string) bool {
	if a.written == "" {
		a.written, a.codes = word, codes
		return true
	}
	var both []string
	for _, c := range codes {
		if slices.Contains(a.codes, c) {
			both = append(both, c)
		}
	}
	if word == a.written || len(both) == 0 {
		return false
	}
	a.written, a.codes = a.written+" "+word, both
	return true
}

// value reads the numeral under a mark, unless taking the text apart already failed.
func (a amountText) value(text string, mark DecimalMark, k kind, f *failure) (Decimal, error) {
	if f != nil {
		return Decimal{}, k.error(text, f)
	}
	d, f := a.number.decimal(mark)
	if f != nil {
		return Decimal{}, k.error(text, f)
	}
	if d.Cmp(maxMagnitude) > 0 {
		return Decimal{}, k.err(text, fmt.Sprintf("it is larger than %s, the most that is read", maxMagnitude))
	}
	if a.negative {
		d = d.Neg()
	}
	return d, nil
}

func cutMinus(s string) (rest string, found bool) {
	for _, minus := range []string{"-", "−"} { // the hyphen of keyboards and U+2212
		if rest, ok := strings.CutPrefix(s, minus); ok {
			return rest, true
		}
	}
	return s, false
}

// oddNumber gives a hint for a text that is not a number.
func oddNumber(s string) string {
	lower := strings.ToLower(s)
	switch {
	case strings.Contains(lower, "nan") || strings.Contains(lower, "inf") || strings.Contains(s, "∞"):
		return "leave the cell empty if there is no number"
	case strings.Contains(lower, "0x"):
		return "write the number in tens, not as hexadecimal"
	}
	if hint := letterHint(s); hint != "" {
		return hint
	}
	if at := strings.IndexByte(lower, 'e'); at > 0 && isASCIIDigit(rune(lower[at-1])) && isExponent(lower[at:]) {
		return "write the number out, without an exponent"
	}
	if strings.HasSuffix(s, "%") {
		return "leave off the percent sign"
	}
	if strings.IndexFunc(s, isASCIIDigit) < 0 {
		return "there is no digit in it"
	}
	return "write one number and nothing else"
}

// letterHint finds a letter that was typed for a digit: it touches a digit, or a point or comma.
func letterHint(s string) string {
	digits := map[rune]string{'O': "0", 'o': "0", 'l': "1", 'I': "1"}
	before := ' '
	for i, r := range s {
		rest := s[i+utf8.RuneLen(r):]
		digit, typo := digits[r]
		if touches := isASCIIDigit(before) || before == '.' || before == ',' || digitRun(rest) != ""; typo && touches {
			where := fmt.Sprintf("the sign after %q", s[:i])
			switch {
			case rest == "":
				where = "the last sign"
			case i == 0:
				where = "the first sign"
			}
			return fmt.Sprintf("%s is a letter %c; write the digit %s", where, r, digit)
		}
		before = r
	}
	return ""
}

func isASCIIDigit(r rune) bool { return r >= '0' && r <= '9' }

// isExponent says whether s starts as the exponent of a number does: e5, E-3.
func isExponent(s string) bool {
	return s != "" && (s[0] == 'e' || s[0] == 'E') && digitRun(strings.TrimLeft(s[1:], "+-")) != ""
}
