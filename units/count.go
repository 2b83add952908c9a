package units

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// vulgar are the fractions that Unicode has as one sign, as top and bottom.
var vulgar = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5},
	'⅙': {1, 6}, '⅚': {5, 6}, '⅐': {1, 7}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10},
}

// counted is the number of a quantity, and the text behind it.
type counted struct {
	value Decimal
	text  string // the number as written
	rest  string
}

// readCount reads the number at the start of s: a numeral, a fraction (1/2, ½) or a whole number and a fraction
// (3 1/2, 3-1/2, 1½).
func readCount(s string, mark DecimalMark, apostrophes bool) (counted, *failure) {
	if _, minus := cutMinus(s); minus {
		return counted{}, &failure{hint: "it cannot be below 0"}
	}
	if part, rest, ok := leadingVulgar(s); ok {
		return counted{part, s[:len(s)-len(rest)], rest}, nil
	}
	n, length := scanNumeral(s, apostrophes)
	if length == 0 {
		hint := letterHint(s)
		if hint == "" {
			hint = "it does not start with a number"
		}
		return counted{}, &failure{hint: hint}
	}
	value, f := n.decimal(mark)
	if f != nil {
		return counted{}, f
	}
	rest := s[length:]
	if len(n.seps) == 0 { // only a number of bare digits can stand above or before a fraction
		top := value
		if bottom, after, ok := leadingStroke(rest); ok {
			if bottom.IsZero() {
				return counted{}, &failure{hint: "the fraction divides by 0"}
			}
			if whole, part, lost := lostSpace(s[:length], bottom.String()); lost {
				return counted{}, &failure{hint: fmt.Sprintf("it may be a fraction, or %s %s with a space lost: write the one that is meant as a decimal, or with the space", whole, part)}
			}
			value, rest = top.Quo(bottom), after
		} else if part, after, ok := leadingFraction(rest); ok {
			value, rest = top.Add(part), after
		}
	}
	return counted{value, s[:len(s)-len(rest)], rest}, nil
}

// lostSpace tells a fraction such as 11/2, which may be eleven halves or 1 1/2 with
// its space lost: its top without the first digits is a proper fraction of halves,
// quarters, eighths or sixteenths.
func lostSpace(top, bottom string) (whole, part string, ok bool) {
	if !slices.Contains([]string{"2", "4", "8", "16"}, bottom) {
		return "", "", false
	}
	for cut := 1; cut < len(top); cut++ {
		if below, over := D(top[cut:]), D(bottom); top[cut] != '0' && below.Cmp(over) < 0 {
			return top[:cut], top[cut:] + "/" + bottom, true
		}
	}
	return "", "", false
}

// leadingStroke reads a fraction stroke and the number below it.
func leadingStroke(s string) (bottom Decimal, rest string, ok bool) {
	_, below, ok := cutStroke(s)
	digits := digitRun(below)
	if !ok || digits == "" {
		return Decimal{}, s, false
	}
	return D(digits), below[len(digits):], true
}

// leadingFraction reads the fraction of a mixed number, with spaces or one hyphen before it. The fraction must be below 1.
func leadingFraction(s string) (part Decimal, rest string, ok bool) {
	s = strings.TrimLeftFunc(s, unicode.IsSpace)
	s = strings.TrimPrefix(s, "-")
	if part, rest, ok = leadingVulgar(s); ok {
		return part, rest, true
	}
	digits := digitRun(s)
	if digits == "" {
		return Decimal{}, s, false
	}
	top := D(digits)
	bottom, rest, ok := leadingStroke(s[len(digits):])
	if !ok || top.Cmp(bottom) >= 0 {
		return Decimal{}, s, false
	}
	return top.Quo(bottom), rest, true
}

func leadingVulgar(s string) (part Decimal, rest string, ok bool) {
	for i, r := range s {
		if i > 0 {
			return part, s[i:], ok
		}
		var f [2]int64
		if f, ok = vulgar[r]; !ok {
			return Decimal{}, s, false
		}
		part = DecimalFromInt(f[0]).Quo(DecimalFromInt(f[1]))
	}
	return part, "", ok
}
