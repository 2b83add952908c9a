package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/inwords"
	"mediabuy/quotes/internal/plaintext"
	"mediabuy/units"
)

// currencyWords are signs that people write out.
var currencyWords = map[string]string{"dollar": "$", "dollars": "$", "dolar": "$", "dolars": "$", "doller": "$", "dollers": "$", "buck": "$", "bucks": "$", "bux": "$", "euro": "€", "euros": "€", "quid": "£"}

var onePlain = compile(plainNumber)

// inWords sets amounts in words in digits before anything is read. A word alone is one where a rate stands behind it, or one of the
// words for what costs money in front.
var inWords = inwords.Reader{
	Next:   pattern(`[ -](?:dollars?|bucks|quid|euros?|rupees|per ?cent)\b|` + perWord + unitPattern("u") + `|` + eachWord + `|,?` + sp + `(?:or more|and up|and over|or over|upwards)\b|[ -](?:` + anyUnit + `|` + packForm + `)|` + sp1 + ifBuying + `\b`),
	Rate:   pattern(perWord + unitPattern("u") + `|` + eachWord + `|[ -]per ?cent\b|[ -](?:dollars?|bucks|quid|euros?|rupees)\b|` + sp1 + ifBuying + `\b`),
	Behind: compile(`(?:(?:` + deliver + `|at|costs?|charges?|runs?|trucks?|fee|it for|is a|now)(?: is| at| for| about)?|[\p{L}]['’]s)[: ]+$`),
}

// settleMark settles the decimal mark of a message: what its numbers prove, else the job's. Numbers that contradict
// one another leave it open, so that each must prove its own.
func (s *scanner) settleMark(job units.DecimalMark) {
	s.mark = units.MarkUnknown
	for _, at := range onePlain.FindAllStringIndex(s.low, -1) {
		if s.taken(at[0]) != nil || strings.Contains(s.low[at[0]:at[1]], ",") && slices.ContainsFunc(cues.CommaRow.FindAllStringIndex(s.low, -1), func(r []int) bool { return r[0] < at[0] && at[1] <= r[1] }) {
			continue
		}
		m, _ := units.MarkOf(s.low[at[0]:at[1]])
		switch {
		case m == units.MarkUnknown || m == s.mark:
		case s.mark == units.MarkUnknown:
			s.mark = m
		default:
			s.mark = units.MarkUnknown
			return
		}
	}
	if s.mark == units.MarkUnknown {
		s.mark = job
	}
}

// cellNumber writes a number for quotes.csv under the decimal mark of the job's files.
func (s *scanner) cellNumber(raw string, v units.Decimal) string {
	return plaintext.CellNumber(raw, v, s.out)
}

// number reads plain digits. The reason is "" when they read.
func (s *scanner) number(raw string) (c count, why string) {
	v, err := units.ParseNumber(raw, s.mark)
	if err != nil {
		return count{}, reason(err)
	}
	return count{s.cellNumber(raw, v), v}, ""
}

// fractions are the parts of one that are counted in.
var fractions = map[string]string{"1/2": "0.5", "½": "0.5", "1/4": "0.25", "¼": "0.25", "3/4": "0.75", "¾": "0.75", "1 1/2": "1.5", "1-1/2": "1.5", "1½": "1.5", "2 1/2": "2.5", "2½": "2.5"}

// counting reads a number of packs: digits, a word or a simple fraction.
func (s *scanner) counting(raw string) (c count, why string) {
	raw = strings.Join(strings.Fields(raw), " ")
	if w, ok := numberWords[raw]; ok {
		raw = w
	}
	if f, ok := fractions[raw]; ok {
		v := units.D(f)
		return count{s.cellNumber(f, v), v}, ""
	}
	return s.number(raw)
}

// amount reads money, with its currency as cells have it: "$12.50".
func (s *scanner) amount(m match, n string) (text string, v units.Money, why string) {
	c, why := s.number(m.text(n))
	if why != "" {
		return "", units.Money{}, why
	}
	pre, post := m.orig(s, n+"pre"), m.text(n+"post")
	if low := m.text(n + "pre"); s.job.Currency != "ZAR" { // words may stand where the sign is read: see inwords
		pre = low
	}
	sign := pre
	switch {
	case pre != "" && post != "" && post != "/-" && post != pre: // "$31.75 $190.50" is two
		return "", units.Money{}, "it names the currency twice"
	case currencyWords[post] != "":
		sign = currencyWords[post]
	case pre != "" || post != "" && strings.ContainsAny(post[:1], ".,/:"): // 58.- and 850/-
	case post != "":
		sign = m.orig(s, n+"post")
	}
	switch w := strings.Trim(lower(sign), "."); {
	case w == "rs" || w == "rupees":
		sign = s.job.Rupee()
	case w == "kr" && oneOf(s.job.Currency, "SEK", "NOK", "DKK"):
		sign = s.job.Currency
	case w == "kr" || w == "r":
		sign = ""
	}
	if len(sign) == 3 && sign[0] < 0x80 && !strings.Contains(sign, "$") {
		sign = strings.ToUpper(sign) + " "
	}
	return strings.ToUpper(sign) + c.text, units.MoneyOf(c.value), ""
}
