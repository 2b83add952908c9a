package typed

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"mediabuy/quotes/internal/wordlist"
)

// Parts of a break as people write it: from so many on, in words or by a sign; up to so many; and the price.
const (
	number = `\d+(?:[.,]\d+)*`
	price  = `(?P<sign>[$£€] ?|[\pL]{3} )?` + number + `(?: ?[€£]| ?[\pL]{3}\b)?(?P<per> ?(?:/ ?|per |an? )[\pL]+(?: [\pL]+)?| ?(?:ea|each|apiece)\.?)?`
)

var (
	// andUp is how words say that a price holds for more as well. "Over 10" is none of them: it may begin with 10 or with 11.
	andUp   = regexp.MustCompile(`(?i) ?\b(?:(?:and|or|&) (?:more|up|upwards?|above|over|greater)|plus|up)\b`)
	aPallet = regexp.MustCompile(`(?i) ?\((?:a |one |1 |full )*pallet\)`) // which so many fill
	between = regexp.MustCompile(`(?i) ?; ?| ?\| ?|, | / | and `)
	oneStep = regexp.MustCompile(`(?i)^(?P<from>from |at least |min(?:imum)?\.? |>= ?|≥ ?|buy )?(?P<n>` + number + `)(?: ?(?:-|–|to) ?(?P<top>` + number + `))?(?P<unit> ?[\pL]+[\pL³]*)?(?P<up> ?\+)?(?P<sep> ?[:=@] ?| (?:at|are|is|->|–|-) | )?(?P<price>` + price + `)$`)
)

// sums are words behind a number by which the price may be that of all of them.
var sums = wordlist.Set("for per off of x all")

// breaks is a list of breaks such as "10+ $61" or "6-11 36.00 / 12+ 33.50" as "10: $61" or "6: 36.00; 12: 33.50"; "" where a part is not
// said to begin at a number, where one is left out between two, or where the last is said to end.
func breaks(s string) string {
	plain := true // already
	for part := range strings.SplitSeq(s, ";") {
		plain = plain && strings.Count(part, ":") == 1
	}
	if plain {
		return ""
	}
	var out []string
	next := "" // the number that must follow
	for _, part := range between.Split(andUp.ReplaceAllString(aPallet.ReplaceAllString(s, ""), "+"), -1) {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		m := oneStep.FindStringSubmatch(part)
		if m == nil {
			return ""
		}
		at := func(name string) string { return m[oneStep.SubexpIndex(name)] }
		unit, each := at("unit"), strings.TrimSpace(at("sep")) == "at"
		if strings.EqualFold(strings.TrimSpace(unit), "at") {
			unit, each = "", true
		}
		if at("sep")+at("up")+at("sign") == "" {
			return "" // one number cut in two
		}
		marked := at("from") != "" || at("up") != "" || at("top") != "" || strings.ContainsAny(at("sep"), ":=@") || each || at("sign") != "" || at("per") != ""
		if !marked || sums[strings.ToLower(strings.TrimSpace(unit))] || next != "" && at("n") != next {
			return ""
		}
		next = ""
		if top := at("top"); top != "" {
			n, err := strconv.Atoi(top)
			if err != nil {
				return ""
			}
			next = strconv.Itoa(n + 1)
		}
		out = append(out, fmt.Sprintf("%s%s: %s", at("n"), unit, at("price")))
	}
	if next != "" {
		return "" // what do more than that cost?
	}
	return strings.Join(out, "; ")
}
