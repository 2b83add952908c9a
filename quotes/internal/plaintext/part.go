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

// InsideNumber says whether digits stand on both sides of byte at, with a point, a comma or the stroke of a fraction between or not.
func (p Part) InsideNumber(at int) bool {
	digit := func(i int) bool { return i >= p.From && i < p.To && p.Text[i] >= '0' && p.Text[i] <= '9' }
	mark := func(i int) bool { return i >= p.From && i < p.To && (p.Text[i] == '.' || p.Text[i] == ',') }
	return p.insideFraction(at) || digit(at-1) && (digit(at) || mark(at) && digit(at+1)) || digit(at) && mark(at-1) && digit(at-2) ||
		digit(at) && mark(at-1) && p.opensNumber(at-1) || digit(at+1) && mark(at) && at > p.From && !p.opensNumber(at) ||
		groupGap.MatchString(p.Text[max(p.From, at-4):min(p.To, at+6)]) && (p.groupAt(at) || at > p.From && p.groupAt(p.gapBefore(at)))
}

// insideFraction says whether the stroke of a part of one begins or ends at byte at: "1/2", "3/8".
func (p Part) insideFraction(at int) bool {
	from := max(p.From, at-4)
	for _, idx := range overStroke.FindAllStringSubmatchIndex(p.Text[from:max(from, min(p.To, at+4))], -1) {
		if stroke := from + idx[3]; stroke == at || stroke == at-1 {
			over, under := p.Text[from+idx[2]:stroke], p.Text[from+idx[4]:from+idx[5]]
			return len(over) < len(under) || len(over) == len(under) && over < under
		}
	}
	return false
}

// overStroke is what may be a part of one as inches and packs have it; a sign of money in front makes a price of the number over the stroke.
var overStroke = lazy.Compile(`(?:^|[^\d.,/$£€])(\d{1,2})/(2|3|4|8|16|32)(?:\D|$)`)

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
	before := strings.TrimRight(p.Text[p.From:at], "0123456789")
	if last, _ := utf8.DecodeLastRuneInString(before); last == '/' || last != utf8.RuneError && unicode.IsLetter(last) {
		return false // below the line of a fraction, or of a unit: "3/8 118", "15 m3 150"
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
