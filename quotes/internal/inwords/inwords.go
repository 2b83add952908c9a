// Package inwords sets amounts and sizes of grain that people write out, "ninety two dollars a yard", in digits. The text keeps
// its length: noughts or spaces fill what the words took more.
//
// The words are common practice, no source.
package inwords

import (
	"slices"
	"strconv"
	"strings"

	"mediabuy/quotes/internal/lazy"
)

// Reader knows what stands around words that are amounts.
type Reader struct {
	// Next begins behind what makes an amount or a number of packs of a plain word, which "two of us" is not, and Rate behind
	// what makes it an amount.
	Next, Rate *lazy.Expr
	// Behind ends in front of an amount: "delivery ", "runs ".
	Behind *lazy.Expr
}

const (
	unit     = `(?:one|two|three|four|five|six|seven|eight|nine)`
	teen     = `(?:ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen)`
	tens     = `(?:twenty|thirty|fou?rty|fifty|sixty|seventy|eighty|ninety)`
	below    = `(?:` + tens + `(?:[ -]` + unit + `)?|` + teen + `|` + unit + `)`
	hundreds = `(?:(?:an?|` + unit + `)[ -])?hund(?:re|er)d(?:[ -](?:and[ -])?` + below + `)?`
	part     = `(?:(?:one|two|three) and a half|half|(?:three[ -])?quarters?|(?:three|five|seven)[ -]eighths?|one|two|three|four|five|six)` // an end of a range of inches
	window   = 160                                                                                                                          // of what is looked at around an amount
)

var (
	run        = lazy.Compile(`\b(` + hundreds + `|` + below + `[ -]dozen|` + below + `|tenner|fiver)\b(?:( (?:dollars?|bucks|quid|euros?|pounds?|rupees))?[ -](?:and )?(` + tens + `(?:[ -]` + unit + `)?|` + teen + `)(?: cents| pence|p)?\b)?`)
	poundEach  = lazy.Compile(`(?:\d|` + below + `) (pounds?) (?:a|an|per|each) (?:tonne|ton|load|trip|run|drop|go)\b`) // no weight is for each of these
	doubled    = lazy.Compile(`(?:\b(?:the|a) sum of )?\b(` + hundreds + `|` + below + `)(?: (?:dollars?|euros?|pounds?)(?: and (` + below + `)(?: cents?| pence)?)?)? \(([$£€]?) ?(\d+)(?:[.,](\d\d))?\)`)
	even       = lazy.Compile(`^ even\b`)
	digitsEven = lazy.Compile(`(?:^|[^\d.,])(\d{1,3} even)\b`)
	andHalf    = lazy.Compile(`^ and a half\b`)
	digitsHalf = lazy.Compile(`\b(\d{1,3} and a half)\b`)
	oneCoin    = lazy.Compile(`\b(a) (?:buck|dollar|quid|pound|euro) (?:off|less|cheaper)\b`)
	spend      = lazy.Compile(`\b(?:spend(?:ing)?(?: (?:over|at least|more than|past))?|orders? (?:over|of|above|past)|free (?:over|past|above|from|at))[ ]$`)
	moneyPound = lazy.Compile(`(?:\d|` + below + `) (pounds?)(?: (?:a|an|per|each|the|for|if|to)\b|[,.;\n]|$)`)
	grain      = lazy.Compile(`\b(?:(half(?: an)?[ -]inch)|((?:one )?(?:an )?inch and a half|one and (?:a|one)[ -]half[ -]inch)|(three|five|seven)[ -]eighths?(?:[ -]inch)?|(three[ -]quarters?)[ -]inch|(one|two)[ -]inch(?:es)?|(` + part + `) to (?:an? )?(` + part + `)[ -]inch(?:es)?|(?:(` + below + `) to )?(` + below + `)[ -](?:mil|millimet(?:re|er)s?)|(?:the|in) (three[ -]quarters?))\b`)
	parts      = map[string]string{"three": "3/8 in", "five": "5/8 in", "seven": "7/8 in", "half": "1/2", "quarter": "1/4"}
	values     = map[string]int{"a": 1, "an": 1, "fourty": 40, "tenner": 10, "fiver": 5}
)

// Spoken is the pattern of an amount that is said as two numbers, of which the first is below twenty: "one twenty" is 120 or 1.20.
const Spoken = `(?:` + teen + `|` + unit + `)[ -](?:` + tens + `(?:[ -]` + unit + `)?|` + teen + `)`

// Ways are the amounts that such words may say.
func Ways(words string) [2]string {
	first, rest, _ := strings.Cut(strings.ReplaceAll(words, "-", " "), " ")
	n := 100*value(first) + value(rest)
	return [2]string{strconv.Itoa(n), strconv.Itoa(n/100) + "." + strconv.Itoa(100 + n%100)[1:]}
}

func init() {
	words := strings.Split("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen", " ")
	for i, w := range words {
		values[w] = i
	}
	for i, w := range strings.Split("twenty thirty forty fifty sixty seventy eighty ninety", " ") {
		values[w] = 10 * (i + 2)
	}
}

// value is the number that words say.
func value(words string) int {
	sum, now := 0, 0
	for w := range strings.FieldsFuncSeq(words, func(c rune) bool { return c == ' ' || c == '-' }) {
		switch w {
		case "hundred", "hunderd":
			sum, now = sum+100*max(now, 1), 0
		case "dozen":
			sum, now = sum+12*now, 0
		default:
			now += values[w]
		}
	}
	return sum + now
}

// inches is an end of a range of inches in digits.
func inches(words string) string {
	first, rest, _ := strings.Cut(strings.ReplaceAll(words, "-", " "), " ")
	switch {
	case strings.HasPrefix(rest, "and"):
		return strconv.Itoa(values[first]) + " 1/2"
	case strings.HasPrefix(rest, "quarter"):
		return "3/4"
	case rest != "" || values[first] == 0:
		return strings.TrimSuffix(parts[strings.TrimSuffix(first, "s")], " in")
	}
	return strconv.Itoa(values[first])
}

// grains sets sizes of grain in digits; an "inch" may stand behind them.
func grains(low string) string {
	b := []byte(low)
	for _, at := range grain.FindAllStringSubmatchIndex(low, -1) {
		text := "3/4 in"
		switch {
		case at[2] >= 0:
			text = "1/2 in"
		case at[4] >= 0:
			text = "1 1/2 in"
		case at[6] >= 0:
			text = parts[low[at[6]:at[7]]]
		case at[10] >= 0:
			text = strconv.Itoa(values[low[at[10]:at[11]]]) + " in"
		case at[12] >= 0:
			text = inches(low[at[12]:at[13]]) + " to " + inches(low[at[14]:at[15]]) + " in"
		case at[18] >= 0: // "the ten mil", "eight to sixteen millimetre"
			for _, i := range []int{16, 18} {
				if at[i] >= 0 {
					digits := strconv.Itoa(value(low[at[i]:at[i+1]]))
					copy(b[at[i]:at[i+1]], strings.Repeat("0", at[i+1]-at[i]-len(digits))+digits)
				}
			}
			continue
		case at[20] >= 0: // "the three-quarter lava", which may be a size where others are said in inches
			copy(b[at[20]:at[21]], "3/4"+strings.Repeat(" ", at[21]-at[20]-len("3/4")))
			continue
		}
		size := strings.TrimSuffix(text, "in")
		copy(b[at[0]:at[1]], size+strings.Repeat(" ", at[1]-at[0]-len(text))+"in")
	}
	return string(b)
}

// once makes one number of words and the same in digits and brackets behind them, as contracts have it: "of eighteen (18) tons".
func once(low string) string {
	b := []byte(low)
	for _, at := range doubled.FindAllStringSubmatchIndex(low, -1) {
		part := func(i int) string {
			if at[2*i] < 0 {
				return ""
			}
			return low[at[2*i]:at[2*i+1]]
		}
		cents := strconv.Itoa(100 + value(part(2)))[1:]
		if part(4) != strconv.Itoa(value(part(1))) || cents != "00" && cents != part(5) || part(5) != "" && cents != part(5) {
			continue // which of the two holds?
		}
		digits := part(4)
		if part(5) != "" {
			digits += "." + part(5)
		}
		copy(b[at[0]:at[1]], part(3)+strings.Repeat("0", at[1]-at[0]-len(part(3)+digits))+digits)
	}
	return string(b)
}

// Digits is text in small letters, low, with its amounts and sizes in digits. pound says that a pound is money.
func (r Reader) Digits(text, low string, pound bool) string {
	low = once(grains(low))
	b := []byte(low)
	if pound {
		for _, at := range moneyPound.FindAllStringSubmatchIndex(low, -1) {
			copy(b[at[2]:at[3]], "quid  "[:at[3]-at[2]])
		}
		low = string(b)
	}
	for _, at := range poundEach.FindAllStringSubmatchIndex(low, -1) {
		copy(b[at[2]:at[3]], "quid  "[:at[3]-at[2]])
	}
	for _, at := range digitsEven.FindAllStringSubmatchIndex(low, -1) {
		copy(b[at[3]-len(" even"):at[3]], ".00  ")
	}
	for _, at := range oneCoin.FindAllStringSubmatchIndex(low, -1) {
		b[at[2]] = '1'
	}
	for _, at := range digitsHalf.FindAllStringSubmatchIndex(low, -1) {
		if digits, _, _ := strings.Cut(low[at[2]:at[3]], " "); r.Rate.MatchString(low[at[3]:min(len(low), at[3]+window)]) {
			copy(b[at[2]:at[3]], strings.Repeat("0", at[3]-at[2]-len(digits)-len(".50"))+digits+".50")
		}
	}
	low = string(b)
	last := 0 // the last amount of hundreds
	for _, at := range run.FindAllStringSubmatchIndex(low, -1) {
		from, to := at[2], at[3]
		whole := low[from:to]
		rest, before := low[to:min(len(low), to+window)], low[max(0, from-window):from]
		half := andHalf.FindStringIndex(rest) // "thirty-one and a half a yard", which is no price for half a yard
		if half != nil {
			rest = rest[half[1]:]
		}
		if strings.HasSuffix(before, "-") || strings.HasSuffix(before, "'") || strings.HasPrefix(rest, "-") && at[6] < 0 || text[from] != low[from] && strings.ToUpper(text[from:to]) != text[from:to] && !r.Next.MatchString(rest) {
			continue // a name: "Seven Oaks Stone"
		}
		n := value(whole)
		digits := strconv.Itoa(n)
		if at[6] >= 0 {
			// "Eighty-one fifty" is 81.50, "seventeen fifty a bag" 17.50; "one fifty" may be 150 as well.
			coin, cents, end := at[4] >= 0, value(low[at[6]:at[7]]), at[7]
			if all := 100*n + cents; !coin && n < 10 && (last > all/2 && last < 2*all || spend.MatchString(before)) { // "nine hundred, from five bags eight fifty"
				copy(b[from:end], strings.Repeat("0", end-from-3)+strconv.Itoa(all))
				continue
			}
			if !coin && (n < 10 || n > 99 || n < 20 && !r.Rate.MatchString(low[end:min(len(low), end+window)])) {
				continue
			}
			digits, to, rest = digits+"."+strconv.Itoa(100 + cents)[1:], end, ""
		}
		if at := even.FindStringIndex(rest); at != nil && n > 1 && n < 100 { // "its fourteen even per bag"
			digits, to, rest = digits+".00", to+at[1], ""
		}
		if half != nil && n > 12 {
			digits, to, rest = digits+".50", to+half[1], ""
		} else if half != nil && n > 1 && r.Rate.MatchString(rest) {
			digits, to = digits+".50", to+half[1]
		} else if half != nil {
			continue // "two and a half yards"
		}
		if n > 99 {
			last = n
		}
		plain := n <= 12 || whole == "fifteen" || n%10 == 0 && n <= 60 // which are read as words
		if plain && rest != "" && !strings.Contains(whole, "dozen") && whole != "tenner" && whole != "fiver" && !r.Rate.MatchString(rest) && !r.Behind.MatchString(before) {
			continue
		}
		if n == 1 || strings.HasPrefix(rest, " quarter") {
			continue
		}
		copy(b[from:to], strings.Repeat("0", to-from-len(digits))+digits)
	}
	return string(b)
}

// Plain is a text in small letters, with amounts as rules read them: spaces inside them closed by an apostrophe, no dots that lead the
// eye to them, and the sign of the rand as that of a dollar, which is told from it by where it stood.
func Plain(low, currency string) string {
	b := []byte(low)
	if currency == "ZAR" {
		for _, at := range randSign.FindAllStringSubmatchIndex(low, -1) {
			b[at[2]] = '$'
		}
		low = string(b)
	}
	for _, at := range groupedMoney.FindAllStringSubmatchIndex(low, -1) { // 1 150 kr, in a country that groups by spaces
		if slices.Contains([]string{"SEK", "NOK", "DKK", "EUR"}, currency) && !countsBefore.MatchString(low[max(0, at[0]-window):at[2]]) {
			b[at[2]] = '\''
		}
	}
	low = string(b)
	if currency == "AUD" || currency == "NZD" {
		for _, at := range stoneMetre.FindAllStringSubmatchIndex(low, -1) {
			if at[2] >= 0 && !soldByLength.MatchString(low[max(0, at[0]-window):at[0]]) {
				copy(b[at[2]:at[3]], "m3   ")
			} else if at[4] >= 0 && cellEnds.MatchString(low[at[5]:]) {
				copy(b[at[4]:at[5]], "m3   ")
			}
		}
		low = string(b)
	}
	for _, at := range partPercent.FindAllStringSubmatchIndex(low, -1) { // 7 3/4 %
		n, _ := strconv.Atoi(low[at[2]:at[3]])
		eighths := map[string]int{"1/4": 250, "¼": 250, "1/2": 500, "½": 500, "3/4": 750, "¾": 750, "1/8": 125, "3/8": 375, "5/8": 625, "7/8": 875}[strings.Trim(low[at[4]:at[5]], " -")]
		digits := strings.TrimRight(strconv.Itoa(n)+"."+strconv.Itoa(1000 + eighths)[1:], "0")
		if room := at[5] - at[2]; eighths > 0 && len(digits) <= room {
			copy(b[at[2]:at[5]], strings.Repeat("0", room-len(digits))+digits)
		}
	}
	low = string(b)
	for _, at := range leaders.FindAllStringSubmatchIndex(low, -1) { // dots that lead the eye to a price, but not its sign
		copy(b[at[2]:at[3]], strings.Repeat(" ", at[3]-at[2]))
	}
	return string(b)
}

// leaders are dots in a row in front of what may be an amount, but for the three behind a word that break off a sentence.
var leaders = lazy.Compile(`((?:[ \t][.…]{2,}|\.{4,}|…{2,})[.… \t]*)[$£€]?\d`)

// stoneMetre is the metre of the yards of Australia and New Zealand, which is the cubic one: what a price is for, or a heading.
var (
	stoneMetre = lazy.Compile(`\d[ \t]*(?:/|(?:a|per|the)[ \t](?:half(?:[ \t]a)?[ \t])?)[ \t]*(met(?:re|er))\b|(?m:^|[ \t]{2}|\t)(?:half(?:[ \t]a)?|1|one|a)[ \t](met(?:re|er))\b`)
	// soldByLength is what is sold by the metre of length, in the sentence in front of it.
	soldByLength = lazy.Compile(`\b(?:edg(?:e|es|ing)|sleepers?|pip(?:e|es|ing)|hos(?:e|es)|liners?|cloth|fabric|geotextile|weed ?mat|mesh|timbers?|rails?|wire|fenc(?:e|es|ing)|gutter\pL*|drain\pL*|tub(?:e|es|ing)|netting|rope|lineal|linear|channel|borders?|boards?|planks?|kerb\pL*)\b[^.;\n]*$`)
	cellEnds     = lazy.Compile(`^(?:[ \t]{2}|\t|[ \t]*\r?\n|[ \t]*$)`)
)

// partPercent is a rate with a part of one in hundred.
var partPercent = lazy.Compile(`(?:^|[^\d.,/-])(\d{1,2})((?:[ -][1357]/[248]|[ ]?[¼½¾])) ?(?:%|percent\b|per cent\b)`)

// groupedMoney is an amount of thousands with a space in it, and a sign of money that makes it one number.
var groupedMoney = lazy.Compile(`(?:^|[^\d.,])[1-9]\d{0,2}( )\d{3}(?: ?(?:kr\b|:-|,-|€)| (?:sek|nok|dkk|eur)\b)`)

// randSign is the sign of money of South Africa.
var randSign = lazy.Compile(`\b(r) ?\d`)

// countsBefore makes the digits in front of a space a number of packs and no thousands: "from 20 105 kr".
var countsBefore = lazy.Compile(`\b(?:from|ab|fr(?:å|a)n?|over|above|buy|take|if|x|for|of|min)[ \t]*\d+$`)
