// Package plaintext takes a text apart into words, numbers and messages, whatever they mean.
package plaintext

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes/internal/lazy"
	"mediabuy/units"
)

// Lower is text in small ASCII letters with the same number of bytes.
func Lower(text string) string {
	b := []byte(text)
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			b[i] = c + 'a' - 'A'
		}
	}
	return string(b)
}

// WordLength is the length of the word at the start of t: letters, marks, digits behind a letter, and apostrophes and
// hyphens inside.
func WordLength(t string) int {
	at := 0
	for at < len(t) {
		r, n := utf8.DecodeRuneInString(t[at:])
		inside := false
		if at > 0 && strings.ContainsRune("'’-", r) && at+n < len(t) {
			next, _ := utf8.DecodeRuneInString(t[at+n:])
			inside = unicode.IsLetter(next)
		}
		if !(unicode.IsLetter(r) && r != utf8.RuneError || unicode.IsMark(r) && at > 0 || unicode.IsDigit(r) && at > 0 || inside) {
			break
		}
		at += n
	}
	return at
}

// Squeeze makes words fit for a cell: white space is single spaces, and so is what no text file holds, which joins no digits.
func Squeeze(t string) string {
	t = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(t, " "))
	return strings.Join(strings.Fields(t), " ")
}

// Cents says whether a number has two decimals, as money does.
func Cents(raw string) bool {
	n := len(raw)
	return n > 3 && (raw[n-3] == '.' || raw[n-3] == ',')
}

func OnlyDigits(r rune) rune {
	if r < '0' || r > '9' {
		return -1
	}
	return r
}

func First(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// Whole reads digits that a pattern has matched, at most four of them.
func Whole(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return -1
	}
	return n
}

// SignOf is what stands in front of the digits of an amount.
func SignOf(text string) string {
	for i, c := range text {
		if c >= '0' && c <= '9' {
			return text[:i]
		}
	}
	return ""
}

// NumberAndUnit takes "2 cu ft" apart.
func NumberAndUnit(text string) (number, unit string) {
	for i, c := range text {
		if c == ' ' {
			return text[:i], text[i+1:]
		}
	}
	return text, ""
}

// FirstWord is the first word of a text.
func FirstWord(t string) string {
	for f := range strings.FieldsFuncSeq(t, func(c rune) bool { return !unicode.IsLetter(c) }) {
		return f
	}
	return ""
}

func SignsOut(c rune) rune {
	if strings.ContainsRune(",;:()", c) {
		return ' '
	}
	return c
}

func BehindNumber(before string) bool {
	before = strings.TrimRight(before, " \t")
	for _, end := range []string{"+", " more", " over", " up"} {
		if strings.HasSuffix(before, end) {
			return true
		}
	}
	return before != "" && before[len(before)-1] >= '0' && before[len(before)-1] <= '9'
}

// Share is the part of each of n packs in a sum, if it comes out in ten-thousandths.
func Share(sum units.Money, n units.Decimal) (units.Decimal, bool) {
	total, err := units.ParsePlainDecimal(sum.String())
	if err != nil {
		return units.Decimal{}, false
	}
	each := total.Quo(n)
	return each, each.Mul(n).Equal(total) && len(each.String()) < 12
}

// currencies are the signs of several, and the words that are read as them.
var currencies = []*lazy.Expr{lazy.Compile(`\$|(?i:\b(?:dollars?|bucks?)\b)`), lazy.Compile(`£|(?i:\b(?:quid|gbp)\b)`), lazy.Compile(`€|(?i:\b(?:euros?|eur)\b)`)}

// Mixed says whether a text speaks of two currencies.
func Mixed(text string) bool {
	n := 0
	for _, one := range currencies {
		if one.MatchString(text) {
			n++
		}
	}
	return n > 1
}

// CutsOf are the ways to cut a text into messages, likeliest first: each the places where one begins.
func CutsOf(text string) [][]int {
	var out [][]int
	add := func(at []int) {
		at = slices.DeleteFunc(at, func(i int) bool { return strings.TrimSpace(text[:i]) == "" || strings.TrimSpace(text[i:]) == "" })
		if len(at) > 0 && len(at) < maxLetters && !slices.ContainsFunc(out, func(o []int) bool { return slices.Equal(o, at) }) {
			out = append(out, at)
		}
	}
	begins := func(re *lazy.Expr, end bool) (at []int) {
		for _, m := range re.FindAllStringIndex(text, -1) {
			if end {
				at = append(at, m[1])
			} else {
				at = append(at, m[0])
			}
		}
		return at
	}
	add(begins(ruledOff, false))
	add(begins(numberAlone, false))
	add(begins(fromLine, false))
	var said []int
	for _, m := range SaidLines(text) {
		said = append(said, m[0])
	}
	add(said)
	add(begins(greetsAnew, false))
	add(begins(listedTalk, false))
	add(begins(EmptyLine, true))
	return out
}

// SaidLines are the beginnings of lines that say whose words follow, each with the name in it: "--- Low Ford Quarry wrote:", "Message 1,
// Low Ford Quarry:". The heading of a letter that is answered, "On 2 May Sam wrote:", is none.
func SaidLines(text string) [][]int {
	var lines [][]int
	for _, one := range []*lazy.Expr{saidLine, numberedLine, ruledName} {
		if len(lines) == 0 {
			lines = slices.DeleteFunc(one.FindAllStringSubmatchIndex(text, -1), func(at []int) bool { return programLine.MatchString(text[at[2]:at[3]]) })
		}
	}
	return lines
}

// IsFraction says whether two numbers may name the sieves of one fraction: the upper opens 1.4 times the lower or more (EN 12620,
// from memory), here with 8/11.2 written 8-11. A bare 20-25 may as well be packs or prices.
func IsFraction(a, b int) bool {
	const least = 1.4
	return a < b && float64(b)+0.5 >= least*float64(a)
}

// maxLetters bounds how many messages are told apart in one paste.
const maxLetters = 24

var (
	ruledOff    = lazy.Compile(`(?m)^[ \t]*(?:(?:-{3,}|={3,}|_{3,}|\*{3,}|(?:[*~#=•-][ \t]+){2,}[*~#=•-])|` + RuledNumber + `)[ \t]*\r?\n`)
	numberAlone = lazy.Compile(NumberAlone)
	fromLine    = lazy.Compile(`(?mi)^[ \t]*from:`)
	greetsAnew  = lazy.Compile(`(?mi)^[ \t]*(?:(?:hi|hello|hey|dear|good (?:morning|afternoon|evening))\b|from:)`)
	listedTalk  = lazy.Compile(`(?m)^[ \t]*\d{1,2}[.)][ \t]+\pL`) // "1) Hello, Kit from Low Ford Quarry"
	saidLine    = lazy.Compile(`(?m)^[ \t]*(?:[-=_*•]+[ \t]*)?(\p{Lu}[\p{L}\d'’&. -]{1,50}?)[ \t]+(?:wrote|writes|says|said|replied|replies|answered|came back)(?:[ \t]+(?:back|today|yesterday))?[ \t]*:`)
	// numberedLine is the heading of one of several messages: "Message 1, Low Ford Quarry:", "2nd email - Tamarack Yard:".
	numberedLine = lazy.Compile(`(?m)^[ \t]*(?:[-=_*•#]+[ \t]*)?(?:(?i:(?:messages?|e-?mails?|quotes?|quotations?|offers?|repl(?:y|ies)|texts?|letters?|answers?|responses?|suppliers?|yards?|shops?|carts?|baskets?)[ \t]+(?:no\.?|number|#)?[ \t]*(?:\d{1,2}|one|two|three|four|[a-d])|(?:1st|2nd|3rd|4th|first|second|third)[ \t]+(?:message|e-?mail|quote|quotation|offer|reply|text|letter|answer|response)))[ \t]*(?:\([\pL -]{2,20}\)[ \t]*)?(?:[,:.(–—-]|(?i:is|from|by))[ \t]*(?i:from[ \t]+)?(\p{Lu}[\p{L}\d'’&. -]{1,50}?)[ \t]*\)?[ \t]*:?[ \t]*$`)
	// ruledName is a name between two rules: "---- from Low Ford Quarry ----", "== Tamarack Yard ==".
	ruledName = lazy.Compile(`(?m)^[ \t]*[-=_*~#]{2,}[ \t]*(?:(?i:from|by)[ \t]+)?(\p{Lu}[\p{L}\d'’&. -]{1,50}?)[ \t]*:?[ \t]*[-=_*~#]{2,}[ \t]*\r?$`)
	// programLine is what a program writes where the name would stand.
	programLine = lazy.Compile(`^(?:On |(?i:original|forwarded)(?: message)?$)`)
	EmptyLine   = lazy.Compile(`\r?\n[ \t]*\r?\n[ \t\r\n]*`)
)

// RuledNumber is the pattern of the number of a message between two rules: "--- 2 ---", "== Mail 2 ==".
const RuledNumber = `[-=_*#~]{2,}[ \t]*(?:\pL{2,9}[ \t]*)?[#(]?\d{1,2}[).]?[ \t]*[-=_*#~]{2,}`

// NumberAlone is the pattern of one in a line of its own: "#2", "(2)", "2)".
const NumberAlone = `(?m:^)[ \t]*[#(\[]*(\d{1,2})[)\]:.]*[ \t]*\r?(?m:$)`

// HeadedByNumber is a text that begins with one.
var HeadedByNumber = lazy.Compile(`^\s*(?:` + RuledNumber + `|` + NumberAlone + `)`)

// Gap stands for two spaces or more between cells that are set below one another.
const Gap = ' '

// WideGap are they.
var WideGap = lazy.Compile(`[ \t]{2,}`)

// Lines are the ranges of the lines, without their ends.
func Lines(text string) [][2]int {
	var out [][2]int
	at := 0
	for line := range strings.SplitAfterSeq(text, "\n") {
		out = append(out, [2]int{at, at + len(strings.TrimRight(line, "\r\n"))})
		at += len(line)
	}
	return out
}

// Groups are where the groups of an expression stand in a part of a text that it matches.
func Groups(re *lazy.Expr, text string, from, to int) (out [][2]int) {
	for at := re.FindStringSubmatchIndex(text[from:to]); len(at) > 2; at = at[2:] {
		out = append(out, [2]int{from + at[2], from + at[3]})
	}
	return out
}

// Cells splits a line at a separator. A cell in quote marks may hold the separator.
func Cells(text string, from, to int, sep byte) [][2]int {
	var out [][2]int
	start := from
	add := func(end int) {
		c := [2]int{from, end}
		for c[0] < c[1] && text[c[0]] == ' ' {
			c[0]++
		}
		for c[1] > c[0] && text[c[1]-1] == ' ' {
			c[1]--
		}
		if c[1]-c[0] >= 2 && text[c[0]] == '"' && text[c[1]-1] == '"' {
			c[0]++
			c[1]--
		}
		out = append(out, c)
	}
	if sep == Gap {
		for _, at := range WideGap.FindAllStringIndex(text[start:to], -1) {
			if end := start + at[1]; end < to {
				add(start + at[0])
				from = end
			}
		}
		add(to)
		return out
	}
	quoted := false
	for i := start; i < to; i++ {
		switch c := text[i]; {
		case c == '"' && (quoted || strings.TrimSpace(text[from:i]) == ""):
			quoted = !quoted
		case c == sep && !quoted && (sep != '/' || i > start && i+1 < to && text[i-1] == ' ' && text[i+1] == ' '): // " / " parts cells, 3/4 is a size
			add(i)
			from = i + 1
		}
	}
	add(to)
	if sep == '|' { // | a | b | has an empty cell at both ends
		if len(out) > 0 && out[0][0] == out[0][1] {
			out = out[1:]
		}
		if n := len(out); n > 0 && out[n-1][0] == out[n-1][1] {
			out = out[:n-1]
		}
	}
	return out
}

// Reason is an error with its hint, in one line.
func Reason(err error) string {
	var pe *units.ParseError
	if errors.As(err, &pe) && pe.Hint != "" {
		return err.Error() + "; " + pe.Hint
	}
	return err.Error()
}

// Times says whether n packs of one price make a sum.
func Times(n units.Decimal, price, sum units.Money) bool {
	return n.Sign() > 0 && n.Mul(price.Decimal()).Equal(sum.Decimal())
}
