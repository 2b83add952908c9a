package csvfile

import (
	"regexp"
	"strings"
)

// inBrackets is a unit behind a heading. What else may stand there, "price (incl. tax)", changes what the heading says and is no part of this.
var inBrackets = regexp.MustCompile(`(?i)\s*[(\[]\s*([$£€%]|percent|usd|eur|gbp|cad|aud|nzd|chf|mm|cm|m|ft|feet|in|inch(?:es)?|l|lit(?:re|er)s?|gal|cu\.? ?(?:yd|ft|m)|cy|cf|(?:yd|ft|m)(?:3|³)|yds?|yards?|lbs?|kg|t|tonnes?|tons?|(?:lb|kg|tons?|t)/(?:l|ft3|ft³|yd3|yd³|m3|m³))\s*[)\]]\s*$`)

// Heading is a heading as the job's files know it, in lower case with "_" for spaces and hyphens, and the unit that stands behind it in
// brackets: "Length (ft)" is length, and ft. The unit is "" where none does.
func Heading(s string) (key, unit string) {
	if m := inBrackets.FindStringSubmatchIndex(s); m != nil && m[0] > 0 {
		s, unit = s[:m[0]], s[m[2]:m[3]]
	}
	s = strings.Map(func(r rune) rune {
		if r == '_' || r == '-' {
			return ' '
		}
		return r
	}, strings.ToLower(s))
	return strings.Join(strings.Fields(s), "_"), unit
}

// HeadingLine is the headings of a line with their units; see [Heading].
func HeadingLine(line []string) (keys, units []string) {
	for _, h := range line {
		key, unit := Heading(h)
		keys, units = append(keys, key), append(units, unit)
	}
	return keys, units
}

// HeadingKey is a heading as the job's files know it; see [Heading].
func HeadingKey(s string) string {
	key, _ := Heading(s)
	return key
}

var (
	bareNumber = regexp.MustCompile(`^[\d.,' ]*\d[\d.,' ]*$`)
	bareSize   = regexp.MustCompile(`^[\d., /½¼¾–-]*[\d½¼¾][\d., /½¼¾–-]*$`)
)

// WithUnit is a cell under a heading with a unit: numbers that bring none of their own have it.
func WithUnit(cell, unit string) string {
	switch {
	case unit == "" || !bareSize.MatchString(cell):
	case unit == "%" && strings.TrimLeft(cell, "0.,") != "" && strings.IndexAny(strings.TrimLeft(cell, "0"), ".,") == 0:
		return cell // 0.08 is 8 % where a spreadsheet has taken the sign away, and is asked
	case unit == "%":
		return cell + "%"
	case strings.ContainsAny(unit, "$£€") || money.MatchString(unit):
		if bareNumber.MatchString(cell) {
			return strings.ToUpper(unit) + " " + cell
		}
	default:
		return cell + " " + unit
	}
	return cell
}

var money = regexp.MustCompile(`(?i)^(?:usd|eur|gbp|cad|aud|nzd|chf)$`)
