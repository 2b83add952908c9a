package plaintext

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"mediabuy/quotes/internal/lazy"
)

// Part is a part of a text, which is looked at alone.
type Part struct {
	Text     string
	From, To int
}

// InsideNumber says whether digits stand on both sides of byte at, with a point or comma between or not.
func (p Part) InsideNumber(at int) bool {
	digit := func(i int) bool { return i >= p.From && i < p.To && p.Text[i] >= '0' && p.Text[i] <= '9' }
	mark := func(i int) bool { return i >= p.From && i < p.To && (p.Text[i] == '.' || p.Text[i] == ',') }
	return digit(at-1) && (digit(at) || mark(at) && digit(at+1)) || digit(at) && mark(at-1) && digit(at-2) ||
		digit(at) && mark(at-1) && p.opensNumber(at-1) || digit(at+1) && mark(at) && at > p.From && !p.opensNumber(at) ||
		groupGap.MatchString(p.Text[max(p.From, at-4):min(p.To, at+6)]) && (p.groupAt(at) || at > p.From && p.groupAt(p.gapBefore(at)))
}

// opensNumber says whether a number may begin at byte at: behind a space, a sign of money or a bracket.
func (p Part) opensNumber(at int) bool {
	return at <= p.From || strings.IndexByte(" \t\n$(/-", p.Text[at-1]) >= 0
}

// groupGap is a space that may stand inside a number: 10 000.
var groupGap = lazy.Compile(`\d[ \x{a0}\x{202f}\x{2009}]\d{3}`)

// groupAt says whether one space and just three digits follow a digit that ends at byte at.
func (p Part) groupAt(at int) bool {
	if at <= p.From || at >= p.To || p.Text[at-1] < '0' || p.Text[at-1] > '9' {
		return false
	}
	if before := strings.TrimRight(p.Text[p.From:at], "0123456789"); strings.HasSuffix(before, "/") {
		return false // below the line of a fraction: "3/8 118"
	}
	r, n := utf8.DecodeRuneInString(p.Text[at:p.To])
	rest := p.Text[at+n : p.To]
	three := 0
	for three < len(rest) && rest[three] >= '0' && rest[three] <= '9' {
		three++
	}
	return strings.ContainsRune(" \u00a0\u202f\u2009", r) && three == 3
}

// gapBefore is where the space that ends at byte at begins.
func (p Part) gapBefore(at int) int {
	_, n := utf8.DecodeLastRuneInString(p.Text[p.From:at])
	return at - n
}

// Splits says whether byte at stands inside a word or a number.
func (p Part) Splits(at int) bool {
	if at >= p.To || at == 0 {
		return false
	}
	before, _ := utf8.DecodeLastRuneInString(p.Text[:at])
	after, n := utf8.DecodeRuneInString(p.Text[at:])
	letters := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }
	switch {
	case letters(before) && letters(after), before == '#' && unicode.IsDigit(after):
		return true
	case unicode.IsDigit(before) && strings.ContainsRune(".,/'’%½¼¾", after):
		next, _ := utf8.DecodeRuneInString(p.Text[at+n:])
		return after == '%' || after == '½' || after == '¼' || after == '¾' || unicode.IsDigit(next)
	}
	return false
}
