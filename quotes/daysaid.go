package quotes

import (
	"fmt"
	"strings"
	"time"

	"mediabuy/quotes/internal/day"
)

// Day is the day that a text says, in whatever way people write one: day and month stand in the order of the country that pays in
// the job's currency, and one without its year is counted from the pricing day. The error says what is wrong, with the readings
// where there are several.
func (s *Settings) Day(text string) (Date, error) {
	readings := day.Said(text, s.Date.Time, day.OrderOf(s.Currency))
	switch len(readings) {
	case 0:
		return Date{}, fmt.Errorf("%q is not a day", text)
	case 1:
		return DateOf(readings[0].Day), nil
	}
	var days []string
	for _, r := range readings {
		days = append(days, r.Day.Format(time.DateOnly))
	}
	return Date{}, fmt.Errorf("%q may be %s", text, strings.Join(days, " or "))
}
