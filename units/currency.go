package units

import (
	"maps"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/bojanz/currency"
)

// CurrencyDigits gives the digits after the point of a currency's amounts: 2 for USD, 0 for JPY. The code is three
// capital letters of ISO 4217; false means that it is not known. The figures are those of bojanz/currency, which draws on
// the Unicode CLDR.
func CurrencyDigits(code string) (int, bool) {
	digits, ok := currency.GetDigits(code)
	return int(digits), ok
}

// FormatMoney prints an amount as in English text, rounded to the currency's digits: "$1,234.50", "€12.00", "¥500",
// "-£3.20", "CHF 8.00" with a no-break space. An unknown code stands in front of two digits: "XYZ 12.00".
func FormatMoney(m Money, code string) string {
	plain := code + "\u00a0" + m.Text(2)
	digits, ok := CurrencyDigits(code)
	if !ok {
		return plain
	}
	amount, err := currency.NewAmount(m.Text(digits), code)
	if err != nil {
		// Cannot be: the code is known and Text is a plain decimal. The amount itself is still right.
		return plain
	}
	// A Formatter is not promised to be safe for concurrent use, and making one costs a map; so each call makes its own.
	return currency.NewFormatter(currency.NewLocale("en")).Format(amount)
}

// mostWrong is the part of a price that may be rounded away where it is shown: less than
// a reader would work out by hand.
var mostWrong = D("0.002")

// mostPriceDigits are those of the finest price shown: an eighth of a cent has three.
const mostPriceDigits = 4

// FormatPrice prints a price in the one form of money, "$7.67": rounded to the currency's
// digits, unless that would take a part of it away that matters, as of "$0.054" a kilogram.
func FormatPrice(m Money, code string) string {
	digits, ok := CurrencyDigits(code)
	round := m.Round(digits)
	off := m.Sub(round)
	if off.Sign() < 0 {
		off = off.Neg()
	}
	if !ok || off.IsZero() || m.Sign() < 0 || off.Decimal().Cmp(m.Decimal().Mul(mostWrong)) <= 0 {
		return FormatMoney(m, code)
	}
	return inFull(m.Round(mostPriceDigits).String(), code, digits)
}

// FormatMoneyTo is [FormatMoney] with at least so many digits behind the point, "€0.0050", so that amounts in a row line up.
func FormatMoneyTo(m Money, code string, digits int) string {
	own, ok := CurrencyDigits(code)
	if !ok || m.Sign() < 0 || digits <= own {
		return FormatMoney(m, code)
	}
	return inFull(m.Text(digits), code, own)
}

// FormatQuoted prints a price as it was quoted, "$48.335": on an order the number of packs times the price is the sum of the
// line, to the last digit. One of more than three digits behind the point is an average, and as in [FormatPrice].
func FormatQuoted(m Money, code string) string {
	const mostQuoted = 3
	digits, ok := CurrencyDigits(code)
	if !ok || m.Sign() < 0 || m.Round(digits).Equal(m) || !m.Round(mostQuoted).Equal(m) {
		return FormatPrice(m, code)
	}
	return inFull(m.String(), code, digits)
}

// inFull prints a price with every digit it has; it has more than the currency's.
func inFull(amount, code string, digits int) string {
	whole, fraction, _ := strings.Cut(amount, ".")
	plain := FormatMoney(MoneyOf(D(whole)), code)
	if i := strings.LastIndexByte(plain, '.'); digits > 0 && i >= 0 {
		plain = plain[:i]
	}
	return plain + "." + fraction
}

// CurrencyIn finds the currency sign or code beside a number, as written, and the codes that it may stand for: "$12" gives
// "$" and USD, AUD, CAD and the other dollars; "12 EUR" gives "EUR" and EUR alone. Both are empty when the text names
// none, or is not a number. It is there so that a price in another currency than the job's is never taken as the job's.
func CurrencyIn(text string) (written string, codes []string) {
	if anAmount.checkText(text) != nil {
		return "", nil
	}
	a, f := splitAmount(strings.TrimSpace(text))
	if f != nil {
		return "", nil
	}
	return a.written, slices.Clone(a.codes)
}

// dollars are the currencies that ISO 4217 calls a dollar (from memory). At home each is written with a bare $, whatever
// it is called abroad.
var dollars = []string{"AUD", "BBD", "BMD", "BND", "BSD", "BZD", "CAD", "FJD", "GYD", "HKD", "JMD", "KYD", "LRD", "NAD", "NZD", "SBD", "SGD", "SRD",
	"TTD", "TWD", "USD", "XCD"}

// currencySigns maps every sign read to the codes that it may stand for, and lists the signs, longest first. The signs are
// those FormatMoney prints; a bare $ is every dollar's, a bare ¥ also the yuan's, and C$ and US$ are read as well.
var currencySigns = sync.OnceValues(func() (codes map[string][]string, signs []string) {
	codes = map[string][]string{"US$": {"USD"}, "C$": {"CAD"}}
	english := currency.NewLocale("en")
	for _, code := range currency.GetCurrencyCodes() {
		sign, ok := currency.GetSymbol(code, english)
		if !ok || sign == code {
			continue
		}
		codes[sign] = append(codes[sign], code)
		for _, bare := range []string{"$", "¥"} {
			if sign != bare && strings.HasSuffix(sign, bare) {
				codes[bare] = append(codes[bare], code)
			}
		}
	}
	for _, code := range dollars {
		if !slices.Contains(codes["$"], code) {
			codes["$"] = append(codes["$"], code)
		}
	}
	signs = slices.SortedFunc(maps.Keys(codes), func(a, b string) int {
		if len(a) != len(b) {
			return len(b) - len(a)
		}
		return strings.Compare(a, b)
	})
	return codes, signs
})

// leadingCurrency finds a sign, or a three-letter code in capitals or small letters, at the start of s.
func leadingCurrency(s string) (word string, codes []string) {
	bySign, signs := currencySigns()
	for _, sign := range signs {
		if strings.HasPrefix(s, sign) && !(endsInLetter(sign) && startsWithLetter(s[len(sign):])) {
			return sign, bySign[sign]
		}
	}
	if len(s) < 3 || startsWithLetter(s[3:]) {
		return "", nil
	}
	if code := strings.ToUpper(s[:3]); currency.IsValid(code) {
		return s[:3], []string{code}
	}
	return "", nil
}

func endsInLetter(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return unicode.IsLetter(r)
}

func startsWithLetter(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r)
}

// Place is a part of the world with one currency.
type Place struct{ Name, Currency string }

// Places are those whose currency follows from a word.
var Places = []Place{{"US", "USD"}, {"Canada", "CAD"}, {"UK", "GBP"}, {"Europe", "EUR"}, {"Australia", "AUD"}, {"New Zealand", "NZD"}}

// CurrencyOf is the currency of a place, such as "uk", or the code that was said, in
// capitals. Whether there is such a currency is left to [CurrencyDigits].
func CurrencyOf(said string) string {
	for _, p := range Places {
		if strings.EqualFold(p.Name, said) {
			return p.Currency
		}
	}
	if strings.EqualFold(said, "usa") {
		return "USD"
	}
	return strings.ToUpper(said)
}
