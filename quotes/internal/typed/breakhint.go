package typed

import (
	"fmt"
	"regexp"
	"strconv"

	"mediabuy/units"
)

// Breaks with two readings. Each is one break alone; of several a person writes what is meant.
var (
	beyond    = regexp.MustCompile(`(?i)^(?:over|above|more than|>) ?(\d{1,6})\b(?: ?\pL+)?(?: ?[:=@] ?| at | )(` + price + `)$`)
	endsAt    = regexp.MustCompile(`(?i)^(\d{1,6}) ?(?:-|–|to) ?(\d{1,6})(?: ?\pL+)?(?: ?[:=@] ?| at | )(` + price + `)$`)
	forSoMany = regexp.MustCompile(`(?i)^(\d{1,6})(?: ?\pL+)?(?: for)? ((?:[$£€] ?)?` + number + `)$`)
)

// breakHint gives the readings of a break that has two, to copy from; "" for any other.
func breakHint(text string) string {
	if m := beyond.FindStringSubmatch(text); m != nil {
		if n, err := strconv.Atoi(m[1]); err == nil {
			return fmt.Sprintf("write %d: %s or %d: %s, whichever is meant", n, m[2], n+1, m[2])
		}
	}
	if m := endsAt.FindStringSubmatch(text); m != nil {
		if n, err := strconv.Atoi(m[2]); err == nil {
			return fmt.Sprintf("write %s: %s if it stays so, else what %d cost as well: %s: %s; %d: ...", m[1], m[3], n+1, m[1], m[3], n+1)
		}
	}
	if m := forSoMany.FindStringSubmatch(text); m != nil {
		all, err := units.ParseMoney(m[2], units.MarkUnknown)
		n, bad := units.ParseNumber(m[1], units.MarkUnknown)
		if err == nil && bad == nil && n.Sign() > 0 {
			return fmt.Sprintf("write %s: %s if %s is for all %s, or %s: %s if it is for one", m[1], units.MoneyOf(all.Decimal().Quo(n)).Text(2), m[2], m[1], m[1], m[2])
		}
	}
	return ""
}
