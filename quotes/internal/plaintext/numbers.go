package plaintext

import (
	"strings"

	"mediabuy/quotes/internal/lazy"
	"mediabuy/units"
)

// CellNumber writes a number for a cell: plain, with the decimals written, under a decimal mark.
// Three decimals read two ways in a file, so they get a nought.
func CellNumber(raw string, v units.Decimal, mark units.DecimalMark) string {
	digits := 0
	if i := strings.LastIndexAny(raw, ".,"); i >= 0 {
		tenths := strings.Map(OnlyDigits, raw[i:])
		d, err := units.ParsePlainDecimal("0" + strings.Map(OnlyDigits, raw[:i]) + "." + tenths)
		if err == nil && d.Equal(v) {
			digits = len(tenths)
		}
	}
	if digits == 3 {
		digits = 4
	}
	out := v.Text(digits)
	if mark == units.MarkComma {
		out = strings.Replace(out, ".", ",", 1)
	}
	return out
}

// CountingUp says where lines begin that count up from one: those that line finds, each with a greater number as its first part than
// the line above. It tells the place of that number.
func CountingUp(text string, line *lazy.Expr) map[int]bool {
	out := map[int]bool{}
	last, end, first := 0, -1, 0
	for _, at := range line.FindAllStringSubmatchIndex(text, -1) {
		n := Whole(text[at[2]:at[3]])
		if at[0] != end+1 || n <= last {
			last = 0
		}
		if last == 0 && n == 1 {
			first = at[2]
		}
		if n == 1 || last > 0 {
			if last, end = n, at[1]; n > 1 {
				out[first], out[at[2]] = true, true
			}
		}
	}
	return out
}
