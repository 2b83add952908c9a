package message

import (
	"strconv"
	"strings"
)

// Amounts that people write out, "ninety two dollars a yard", are set in digits before anything is read. The text for reading
// keeps its length: noughts in front fill what the words took more.

const (
	spelledUnit = `(?:one|two|three|four|five|six|seven|eight|nine)`
	spelledTeen = `(?:ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen)`
	spelledTens = `(?:twenty|thirty|fou?rty|fifty|sixty|seventy|eighty|ninety)`
	belowAll    = `(?:` + spelledTens + `(?:[ -]` + spelledUnit + `)?|` + spelledTeen + `|` + spelledUnit + `)`
	hundreds    = `(?:(?:an?|` + spelledUnit + `)[ -])hundred(?:[ -](?:and[ -])?` + belowAll + `)?`
)

var (
	spelledRun = compile(`\b(?P<whole>` + hundreds + `|` + belowAll + `[ -]dozen|` + belowAll + `|tenner|fiver)\b(?:(?P<coin> (?:dollars?|bucks|quid|euros?|pounds?|rupees))?[ -](?:and )?(?P<cents>` + spelledTens + `(?:[ -]` + spelledUnit + `)?|` + spelledTeen + `)(?: cents| pence|p)?\b)?`)
	// What makes an amount or a number of packs of a plain word: it is no "two of us".
	spelledNext   = pattern(`[ -](?:dollars?|bucks|quid|euros?|rupees)\b|` + perWord + unitPattern("u") + `|` + eachWord + `|,?` + sp + `(?:or more|and up|and over|or over|upwards)\b|[ -](?:` + anyUnit + `|` + packForm + `)|` + sp1 + ifBuying + `\b`)
	moneyPound    = compile(`(?:\d|` + belowAll + `) (pounds?)(?: (?:a|an|per|each|the|for|if|to)\b|[,.;\n]|$)`)
	spelledRate   = pattern(perWord + unitPattern("u") + `|` + eachWord + `|[ -](?:dollars?|bucks|quid|euros?|rupees)\b|` + sp1 + ifBuying + `\b`)
	spelledBehind = compile(`(?:` + deliver + `|at|costs?|charges?|runs?|trucks?|fee|it for|is a|now)(?: is| at| for| about)?[: ]+$`)
	// spelledValue is of the words that make up amounts alone; the other words for numbers stand among the words.
	spelledValue = map[string]int{"a": 1, "an": 1, "thirteen": 13, "fourteen": 14, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
		"fourty": 40, "seventy": 70, "eighty": 80, "ninety": 90, "tenner": 10, "fiver": 5}
)

// spelled is the number that words say.
func spelled(words string) int {
	sum, now := 0, 0
	for w := range strings.FieldsFuncSeq(words, func(c rune) bool { return c == ' ' || c == '-' }) {
		switch w {
		case "hundred":
			sum, now = sum+100*now, 0
		case "dozen":
			sum, now = sum+12*now, 0
		default:
			n, _ := strconv.Atoi(numberWords[w]) // 0 for a word of amounts alone
			now += n + spelledValue[w]
		}
	}
	return sum + now
}

// spelledSizes are sizes of grain in words, with what they are in digits; an "inch" may stand behind them.
var (
	spelledSize  = compile(`\b(?:(?P<half>half[ -]inch)|(?P<more>(?:one )?(?:an )?inch and a half)|(?P<part>three|five|seven)[ -]eighths?(?:[ -]inch)?|(?P<quarter>three[ -]quarters?)[ -]inch)\b`)
	spelledParts = map[string]string{"three": "3/8 in", "five": "5/8 in", "seven": "7/8 in"}
)

// sizesInDigits sets sizes of grain in words in digits.
func (s *scanner) sizesInDigits(b []byte) {
	for _, at := range spelledSize.FindAllStringSubmatchIndex(s.low, -1) {
		m := match{re: spelledSize, low: s.low, idx: at}
		text := spelledParts[m.text("part")]
		switch {
		case m.has("half"):
			text = "1/2 in"
		case m.has("more"):
			text = "1 1/2 in"
		case m.has("quarter"):
			text = "3/4 in"
		}
		size := strings.TrimSuffix(text, "in")
		copy(b[at[0]:at[1]], size+strings.Repeat(" ", at[1]-at[0]-len(text))+"in")
	}
	s.low = string(b)
}

// digits sets amounts in words in digits.
func (s *scanner) digits(b []byte) {
	s.sizesInDigits(b)
	if s.job.currency == "GBP" { // there a pound is money
		for _, at := range moneyPound.FindAllStringSubmatchIndex(string(b), -1) {
			copy(b[at[2]:at[3]], "quid  "[:at[3]-at[2]])
		}
		s.low = string(b)
	}
	last := 0 // the last amount of hundreds
	for _, at := range spelledRun.FindAllStringSubmatchIndex(s.low, -1) {
		m := match{re: spelledRun, low: s.low, idx: at}
		from, to, _ := m.span("whole")
		rest, before := s.low[to:min(len(s.low), to+window)], s.low[max(0, from-window):from]
		if strings.HasSuffix(before, "-") || strings.HasSuffix(before, "'") || strings.HasPrefix(rest, "-") && !m.has("cents") || s.text[from] != s.low[from] && strings.ToUpper(s.text[from:to]) != s.text[from:to] && !spelledNext.MatchString(rest) {
			continue // a name: "Seven Oaks Stone"
		}
		n := spelled(m.text("whole"))
		text := strconv.Itoa(n)
		if _, end, ok := m.span("cents"); ok {
			// "Eighty-one fifty" is 81.50, "seventeen fifty a bag" 17.50; "one fifty" may be 150 as well.
			coin := m.has("coin")
			if all := 100*n + spelled(m.text("cents")); !coin && n < 10 && last > all/2 && last < 2*all { // "nine hundred, from five bags eight fifty"
				copy(b[from:end], strings.Repeat("0", end-from-3)+strconv.Itoa(all))
				continue
			}
			if !coin && (n < 10 || n > 99 || n < 20 && !spelledRate.MatchString(s.low[end:min(len(s.low), end+window)])) {
				continue
			}
			text += "." + strconv.Itoa(100 + spelled(m.text("cents")))[1:]
			to = end
			rest = ""
		}
		if n > 99 {
			last = n
		}
		plain := n <= 12 || m.text("whole") == "fifteen" || n%10 == 0 && n <= 60 // which are read as words
		if plain && rest != "" && !strings.Contains(m.text("whole"), "dozen") && !oneOf(m.text("whole"), "tenner", "fiver") && !spelledRate.MatchString(rest) && !spelledBehind.MatchString(before) {
			continue
		}
		if n == 1 || strings.HasPrefix(rest, " quarter") {
			continue
		}
		copy(b[from:to], strings.Repeat("0", to-from-len(text))+text)
	}
}
