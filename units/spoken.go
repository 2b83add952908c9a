package units

import (
	"fmt"
	"regexp"
	"strings"
)

// spokenCounts are the counts written as words in front of a unit or alone.
var spokenCounts = []struct {
	words *regexp.Regexp
	count string
}{
	{regexp.MustCompile(`(?i)^(?:(?:a|one)[ -]+)?half(?:[ -]+(?:an?|of[ ]+an?))?(?:[ -]+|$)`), "1/2"},
	{regexp.MustCompile(`(?i)^three[ -]+quarters?(?:[ ]+of[ ]+an?)?(?:[ -]+|$)`), "3/4"},
	{regexp.MustCompile(`(?i)^(?:(?:a|one)[ -]+)?quarter(?:[ ]+(?:of[ ]+)?an?)?(?:[ -]+|$)`), "1/4"},
	{regexp.MustCompile(`(?i)^(?:a|an|one|per|each|whole|full|a whole|a full)(?:[ -]+|$)`), "1"},
	{regexp.MustCompile(`^/ *`), "1"},
}

// countWords are the counts from two on that are written as a word.
var countWords = []string{"two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// inDigits writes the word for a count at the beginning of a text in digits.
func inDigits(s string) (string, bool) {
	word, behind := s, ""
	if i := strings.IndexAny(s, " -"); i >= 0 {
		word, behind = s[:i], s[i:]
	}
	for i, w := range countWords {
		if strings.EqualFold(w, word) {
			return strings.TrimSpace(fmt.Sprint(i+2, " ", strings.TrimLeft(behind, " -"))), true
		}
	}
	return s, false
}

// Spoken writes a count that is said in words as a number in front of its unit: "half yard" as "1/2 yard", "a ton" and
// "ton" as "1 ton", "half" as "1/2". changed is false for a text that begins with a number.
func Spoken(text string) (plain string, changed bool) {
	s := strings.TrimSpace(text)
	if s == "" || startsCount(s) || len(s) > MaxTextBytes {
		return text, false
	}
	for _, c := range spokenCounts {
		if m := c.words.FindString(s); m != "" {
			return strings.TrimSpace(c.count + " " + s[len(m):]), true
		}
	}
	if plain, ok := inDigits(s); ok {
		return plain, true
	}
	return "1 " + s, true
}

// ParseCount reads a number of things, which may be a fraction or a word for one, and gives the words behind it: "half"
// is 0.5, "½ yard" is 0.5 and "yard", "10 bags" and "ten bags" are 10 and "bags", "25+" and "25 and up" are 25. The error is as that of ParseNumber.
func ParseCount(text string, mark DecimalMark) (value Decimal, behind string, err error) {
	if err := aNumber.checkText(text); err != nil {
		return Decimal{}, "", err
	}
	s := strings.TrimSpace(text)
	for _, c := range spokenCounts[:len(spokenCounts)-1] {
		if m := c.words.FindString(s); m != "" {
			s = c.count + " " + s[len(m):]
			break
		}
	}
	s, _ = inDigits(s)
	c, failed := readCount(s, mark, true)
	if failed != nil {
		return Decimal{}, "", aNumber.error(text, failed)
	}
	if c.value.Cmp(maxMagnitude) > 0 {
		return Decimal{}, "", aNumber.err(text, "it is larger than "+maxMagnitude.String()+", the most that is read")
	}
	return c.value, strings.TrimSpace(andUp.ReplaceAllString(c.rest, "")), nil
}

// andUp says that more of them are meant as well, as where a price begins: "10+", "10 and up", "10 bags or more".
var andUp = regexp.MustCompile(`(?i)\s*(?:\+|\b(?:and|or|&)\s+(?:up|upwards?|more))\s*$`)

// by finds what a price is for when it is said by a small word: "12 a bag", "18.50 each", "18.50 ea".
var by = regexp.MustCompile(`(?i)^(.*[0-9][^ a-z]*(?: ?[a-z]{3})??)\s*(?:(ea|each|apiece|flat)\.?|\b(?:an?|each|for)\s+(\S.*))$`)

// CutRate takes a price apart from what is had for it: "$34.99/bag" is "$34.99" and "bag", "129 per yard" is "129" and
// "yard", "18.50 ea" is "18.50" and "ea". Behind is "" for an amount alone, and for what is none.
func CutRate(text string) (amount, behind string) {
	s := strings.TrimSpace(text)
	if len(s) > MaxTextBytes {
		return text, ""
	}
	if amount, behind, ok := cutPer(s); ok && amount != "" && behind != "" {
		return amount, behind
	}
	if m := by.FindStringSubmatch(s); m != nil {
		return strings.TrimSpace(m[1]), m[2] + m[3]
	}
	return s, ""
}
