package show

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes"
)

// Problems sets out problems or warnings one below the other: the place and
// what is wrong, the line it stands in with a mark below, and the cure.
func Problems(list []*quotes.Problem, seen map[string][]byte, colour bool) string {
	var b strings.Builder
	paint := Style{Colour: colour}
	for _, p := range list {
		place := p.Pos.String()
		word := "problem"
		if p.Severity == quotes.Warning {
			word = "warning"
		}
		if p.Heading != "" {
			word += ": " + p.Heading
		}
		fmt.Fprintf(&b, "%s: %s: %s\n", paint.Strong(place), paint.Alarm(word), p.Message())
		b.WriteString(excerpt(seen[p.File], p.Line, p.Col))
		if p.Hint != "" {
			fmt.Fprintf(&b, "  hint: %s\n", p.Hint)
		}
	}
	return b.String()
}

// excerptWidth is how much of a line is shown: a screen less the margin.
const excerptWidth = 68

// excerpt shows line (from 1) of text with a mark under byte col (from 1), or
// nothing where the place is not one in a line of readable text, or there is no text.
func excerpt(text []byte, line, col int) string {
	if line < 1 || col < 1 || len(text) == 0 || !utf8.Valid(text) {
		return ""
	}
	lines := bytes.SplitN(text, []byte("\n"), line+1)
	if len(lines) < line {
		return ""
	}
	row := strings.TrimRight(string(lines[line-1]), "\r")
	if line == 1 {
		row = strings.TrimPrefix(row, "\ufeff")
	}
	at := min(col-1, len(row))
	for at > 0 && at < len(row) && !utf8.RuneStart(row[at]) {
		at--
	}
	before, after := []rune(row[:at]), []rune(row[at:])
	lead, tail := "", ""
	if most := excerptWidth / 2; len(before) > most {
		before, lead = before[len(before)-most:], "…"
	}
	if most := excerptWidth - len(before); len(after) > most {
		after, tail = after[:most], "…"
	}
	plain := func(r []rune) string {
		return strings.Map(func(c rune) rune {
			if unicode.IsControl(c) || unicode.Is(unicode.Bidi_Control, c) { // what would steer the terminal
				return ' '
			}
			return c
		}, string(r))
	}
	return fmt.Sprintf("  %4d | %s%s%s%s\n       | %s^\n", line, lead, plain(before), plain(after), tail,
		strings.Repeat(" ", len([]rune(lead))+len(before)))
}
