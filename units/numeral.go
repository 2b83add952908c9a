package units

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// DecimalMark is the sign that stands between the whole units and the tenths of a number.
type DecimalMark byte

const (
	MarkUnknown DecimalMark = iota // nothing is known: a number must prove its own mark, or have none
	MarkPoint                      // 1,234.50
	MarkComma                      // 1.234,50
)

// String gives the sign itself, or "unknown".
func (m DecimalMark) String() string {
	switch m {
	case MarkPoint:
		return "."
	case MarkComma:
		return ","
	default:
		return "unknown"
	}
}

// numeral is a run of digits with the signs between them: "1 234,50" has parts 1, 234, 50 and seps ' ', ','. Every kind
// of space is kept as ' ' and both apostrophes as '\”. Only the first part may be empty, as in ".5".
type numeral struct {
	parts []string
	seps  []rune
}

// scanNumeral reads the numeral at the start of s and gives its length in bytes, 0 when there is none. A space or an
// apostrophe belongs to it only when exactly three digits follow that are not the top of a fraction, so that "3 1/2" and
// "4'6" stop at the first digit. In lengths the apostrophe means feet and never groups.
func scanNumeral(s string, apostrophes bool) (n numeral, length int) {
	lead := digitRun(s)
	if lead == "" && (s == "" || s[0] != '.' && s[0] != ',' || digitRun(s[1:]) == "") {
		return numeral{}, 0
	}
	n.parts, length = []string{lead}, len(lead)
	for length < len(s) {
		r, size := utf8.DecodeRuneInString(s[length:])
		sep := separator(r)
		next := digitRun(s[length+size:])
		after := s[length+size+len(next):]
		switch {
		case sep == 0 || next == "":
			return n, length
		case sep == '\'' && !apostrophes:
			return n, length
		case (sep == ' ' || sep == '\'') && (len(next) != 3 || startsFraction(after) || !n.takesGroup()):
			return n, length
		}
		n.parts, n.seps = append(n.parts, next), append(n.seps, sep)
		length += size + len(next)
	}
	return n, length
}

// takesGroup says whether a spaced group may follow what has been read: 1 to 3 digits first, no point or comma yet.
func (n numeral) takesGroup() bool {
	for _, sep := range n.seps {
		if sep == '.' || sep == ',' {
			return false
		}
	}
	return len(n.parts[0]) >= 1 && len(n.parts[0]) <= 3
}

// plain gives the number in machine form under a decimal mark, or false when it does not read so. Groups must be of
// three digits behind a first of one to three that does not start with 0, all set apart by the same sign.
func (n numeral) plain(mark DecimalMark) (string, bool) {
	point := rune('.')
	if mark == MarkComma {
		point = ','
	}
	whole, groups := n.parts, n.seps
	frac := ""
	if last := len(groups) - 1; last >= 0 && groups[last] == point {
		whole, groups, frac = n.parts[:last+1], groups[:last], "."+n.parts[last+1]
	}
	for i, sep := range groups {
		if sep == point || sep != groups[0] || len(whole[i+1]) != 3 {
			return "", false
		}
	}
	first := whole[0]
	if len(groups) > 0 && (first == "" || len(first) > 3 || first[0] == '0') {
		return "", false
	}
	if first == "" {
		first = "0"
	}
	return first + strings.Join(whole[1:], "") + frac, true
}

// written is the numeral with its signs, one kind of space and of apostrophe for all.
func (n numeral) written() string {
	var b strings.Builder
	for i, p := range n.parts {
		if i > 0 {
			b.WriteRune(n.seps[i-1])
		}
		b.WriteString(p)
	}
	return b.String()
}

// proves tells what the numeral says about the decimal mark. A numeral that reads under both marks is ambiguous; one
// that reads under neither proves nothing and will be refused by its parser.
func (n numeral) proves() (mark DecimalMark, ambiguous bool) {
	_, point := n.plain(MarkPoint)
	_, comma := n.plain(MarkComma)
	marked := strings.ContainsAny(string(n.seps), ".,")
	switch {
	case !marked || !point && !comma:
		return MarkUnknown, false
	case point && comma:
		return MarkUnknown, true
	case point:
		return MarkPoint, false
	default:
		return MarkComma, false
	}
}

// MarkOf tells what the numbers in a cell prove about the decimal mark; the cell may hold several numbers and words
// between them, such as "10: 27,50; 40: 24,00" or "8,5-16 mm".
//
//	"1,234.50"   MarkPoint            "1.234,50", "12,5", "1 234,50", "0,750"   MarkComma
//	"1,234,567"  MarkPoint, as two commas must group
//	"1,234"      MarkUnknown, ambiguous                "12", "1 234"   MarkUnknown, not ambiguous
//
// When one number of the cell settles what another leaves open, the cell is settled. Numbers that contradict one another
// leave it ambiguous.
func MarkOf(text string) (mark DecimalMark, ambiguous bool) {
	before := ' '
	for text != "" {
		n, length := scanNumeral(text, true)
		// "50 L,2 yd": a comma behind a word is punctuation, not the mark of ",2".
		if length > 0 && n.parts[0] == "" && !strings.ContainsRune(" \t-−$€£¥(;:=<>~+", before) && !unicode.IsSpace(before) {
			length = 0
		}
		if length == 0 {
			var size int
			before, size = utf8.DecodeRuneInString(text)
			text = text[size:]
			continue
		}
		text, before = text[length:], '0'
		switch m, a := n.proves(); {
		case a:
			ambiguous = true
		case m == MarkUnknown || m == mark:
		case mark == MarkUnknown:
			mark = m
		default:
			return MarkUnknown, true
		}
	}
	return mark, ambiguous && mark == MarkUnknown
}

// failure is why a text did not read: a hint, or the two readings of an ambiguous number.
type failure struct {
	hint     string
	readings [2]string
	numeral  string // the number as written, where readings are of it
}

// error makes the failure of a text into the error for its kind; a nil failure must not be asked.
func (k kind) error(text string, f *failure) error {
	if f.readings[0] == "" {
		return k.err(text, f.hint)
	}
	copies := f.readings
	for i, r := range f.readings {
		if _, ambiguous := MarkOf(r); ambiguous {
			r += "0" // a fourth digit can be no group
		}
		if f.numeral != "" {
			copies[i] = strings.Replace(strings.TrimSpace(text), f.numeral, r, 1)
		}
	}
	return &AmbiguousError{Readings: f.readings, Copies: copies, Parse: ParseError{
		Found: text, What: k.what, Wanted: "a number that reads one way", Hint: f.hint,
	}}
}

// decimal gives the numeral's value under a mark, or under the mark that it proves when none is given.
func (n numeral) decimal(mark DecimalMark) (Decimal, *failure) {
	proven, ambiguous := n.proves()
	if mark == MarkUnknown {
		if ambiguous {
			group, _ := n.plain(other(rune(n.seps[0])))
			tenths, _ := n.plain(markOfSign(n.seps[0]))
			return Decimal{}, &failure{
				readings: [2]string{group, tenths}, numeral: n.written(),
				hint: "write " + group + ", or say which sign is the decimal mark everywhere",
			}
		}
		mark = proven // when nothing is proven there is no mark to read, or no reading at all
	}
	plain, ok := n.plain(mark)
	if !ok {
		return Decimal{}, &failure{hint: n.misread(mark, proven)}
	}
	d, err := ParsePlainDecimal(plain)
	if err != nil {
		return Decimal{}, &failure{hint: err.Error()}
	}
	return d, nil
}

// misread says why a numeral does not read under a mark.
func (n numeral) misread(mark, proven DecimalMark) string {
	if plain, ok := n.plain(proven); ok && proven != MarkUnknown {
		swapped := strings.Replace(plain, ".", mark.String(), 1)
		return "the decimal mark is \"" + mark.String() + "\" here; write " + swapped + " if that is meant"
	}
	return "signs that group digits stand before every three digits, as in 1,234,567.50"
}

func markOfSign(sign rune) DecimalMark {
	if sign == ',' {
		return MarkComma
	}
	return MarkPoint
}

func other(sign rune) DecimalMark {
	if sign == ',' {
		return MarkPoint
	}
	return MarkComma
}

// separator gives the one sign that stands for all of r's kind, or 0 when r does not stand inside numbers.
func separator(r rune) rune {
	switch r {
	case '.', ',':
		return r
	case '\'', '’':
		return '\''
	case ' ', '\u00a0', '\u202f', '\u2009', '\u2007': // plain, no-break, narrow no-break, thin and figure space
		return ' '
	}
	return 0
}

// digitRun gives the ASCII digits at the start of s.
func digitRun(s string) string {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return s[:i]
}

func allDigits(s string) bool { return s != "" && digitRun(s) == s }

// startsFraction says whether a fraction stroke stands at the start of s with a digit behind it.
func startsFraction(s string) bool {
	_, rest, ok := cutStroke(s)
	return ok && digitRun(rest) != ""
}

// cutStroke takes a fraction stroke, the slash or U+2044, off the start of s.
func cutStroke(s string) (stroke, rest string, ok bool) {
	for _, stroke := range []string{"/", "⁄"} {
		if rest, ok := strings.CutPrefix(s, stroke); ok {
			return stroke, rest, true
		}
	}
	return "", s, false
}
