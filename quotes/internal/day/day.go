// Package day reads calendar days as people write them.
package day

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// Order says which of day and month a country writes first when both are numbers.
type Order int

// The orders. The zero Order is that of a country that is not known, or that has both.
const (
	Unknown Order = iota
	MonthFirst
	DayFirst
)

// OrderOf is the order of the country that pays in a currency, or Unknown. The orders are those of the Unicode CLDR's
// short dates (from memory); Canada writes both and is left out.
func OrderOf(currency string) Order {
	switch currency {
	case "USD":
		return MonthFirst
	case "GBP", "EUR", "AUD", "NZD", "CHF", "DKK", "NOK", "PLN", "CZK", "BRL", "MXN", "INR":
		return DayFirst
	}
	return Unknown
}

// Reading is one way to read a text as a day.
type Reading struct {
	Day   time.Time
	Order Order // the order that it takes day and month in; Unknown where they are told apart by a name or the year in front
}

// near is how far a day without its year may lie ahead of today and be the one that is meant: half a year, so that the
// same day of the year before is further off.
const near = 183 * 24 * time.Hour

// Months and ShortMonths are the names of the months and how they are cut short, apart by strokes, for a pattern.
const (
	Months      = `january|february|march|april|may|june|july|august|september|october|november|december`
	ShortMonths = `jan|feb|mar|apr|jun|jul|aug|sept|sep|oct|nov|dec`

	// Month is a month by name, and Written a day in running text of small letters with a group for it, each for a pattern.
	Month   = `(?:(?:` + Months + `)\b|(?:` + ShortMonths + `)\b\.?)`
	Written = `(?P<day>` + written + `)`
	// Short is one as Written is, or two numbers with a stroke, which only words like "valid until" make a day.
	Short = `(?P<day>` + written + `|\d{1,2}/\d{1,2})`

	gap     = `[ \t\x{a0}\x{202f}\x{2009}]*`
	written = `\d{4}-\d{1,2}-\d{1,2}|\d{1,2}(?:st|nd|rd|th)?(?: of)?[ -.]?` + gap + Month + `(?:,?[ -]?` + gap + `\d{4})?|` + Month + gap + `\d{1,2}(?:st|nd|rd|th)?(?:,?` + gap + `\d{4})?|\d{1,2}(?:/\d{1,2}/|\.\d{1,2}\.|-\d{1,2}-)(?:\d{4}|\d{2})`

	monthNames = `(` + Months + `|` + ShortMonths + `)\.?`
)

var (
	yearFirst = regexp.MustCompile(`^(\d{4})\s*([-/.])\s*(\d{1,2})\s*[-/.]\s*(\d{1,2})$`)
	inNumbers = regexp.MustCompile(`^(\d{1,2})\s*([-/.])\s*(\d{1,2})\s*[-/.]\s*(\d{4}|\d{2})$`)
	// monthAndDay has no year, and may as well be a fraction.
	endOfMonth  = regexp.MustCompile(`^(?:the )?end (?:of )?` + monthNames + `(?:,? (\d{4}))?$`)
	monthAndDay = regexp.MustCompile(`^(\d{1,2})/(\d{1,2})$`)
	dayMonth    = regexp.MustCompile(`^(?:the )?(\d{1,2})(?:st|nd|rd|th)?(?: of)?[-\s.]*` + monthNames + `(?:[-\s,]+(\d{4}))?$`)
	monthDay    = regexp.MustCompile(`^` + monthNames + `[-\s]*(?:the )?(\d{1,2})(?:st|nd|rd|th)?(?:[-\s,]+(\d{4}))?$`)
	dayOfWeek   = regexp.MustCompile(`^(?:mon|tue|tues|wed|wednes|thu|thur|thurs|fri|sat|satur|sun)(?:day)?[.,\s]+`)
	monthOrder  = "janfebmaraprmayjunjulaugsepoctnovdec"
)

// Read gives every way to read a text as a day, the earliest first: none if it is no day, two if day and month may be
// taken either way. A year of two digits is of this century. A day without its year is the next one where that is
// within half a year of today; else the last and the next are both readings.
func Read(text string, today time.Time) []Reading {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	week := dayOfWeek.FindString(s)
	s = s[len(week):]
	var out []Reading
	add := func(year, month, day int, order Order) {
		t, err := time.Parse(time.DateOnly, fmt.Sprintf("%04d-%02d-%02d", year, month, day))
		if err == nil && !slices.ContainsFunc(out, func(r Reading) bool { return r.Day.Equal(t) }) {
			out = append(out, Reading{t, order})
		}
	}
	switch {
	case yearFirst.MatchString(s):
		m := yearFirst.FindStringSubmatch(s)
		add(number(m[1]), number(m[3]), number(m[4]), Unknown)
	case inNumbers.MatchString(s):
		m := inNumbers.FindStringSubmatch(s)
		a, b, year := number(m[1]), number(m[3]), number(m[4])
		far := func(years int) func(Reading) bool {
			return func(r Reading) bool { return r.Day.Year() < today.Year()-1 || r.Day.Year() > today.Year()+years }
		}
		if len(m[4]) == 2 {
			year += 2000
		}
		add(year, a, b, MonthFirst)
		add(year, b, a, DayFirst)
		if len(m[4]) == 2 {
			// 26-04-05 may have its year in front; with strokes or points only where nothing else is near
			if len(m[1]) == 2 && (m[2] == "-" || !slices.ContainsFunc(out, func(r Reading) bool { return !far(2)(r) })) {
				add(2000+a, b, number(m[4]), Unknown)
			}
			if len(out) > 1 {
				out = slices.DeleteFunc(out, far(5))
			}
		}
	case monthAndDay.MatchString(s):
		m := monthAndDay.FindStringSubmatch(s)
		a, b := number(m[1]), number(m[2])
		named("", a, b, today, func(year, month, day int, _ Order) { add(year, month, day, MonthFirst) })
		named("", b, a, today, func(year, month, day int, _ Order) { add(year, month, day, DayFirst) })
	case dayMonth.MatchString(s):
		m := dayMonth.FindStringSubmatch(s)
		named(m[3], month(m[2]), number(m[1]), today, add)
	case endOfMonth.MatchString(s):
		m := endOfMonth.FindStringSubmatch(s)
		named(m[2], month(m[1]), 28, today, func(year, month, _ int, order Order) {
			add(year, month, time.Date(year, time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC).Day(), order)
		})
	case monthDay.MatchString(s):
		m := monthDay.FindStringSubmatch(s)
		named(m[3], month(m[1]), number(m[2]), today, add)
	}
	if week != "" { // a day that falls on another day of the week is not the one that is meant
		out = slices.DeleteFunc(out, func(r Reading) bool { return !strings.HasPrefix(strings.ToLower(r.Day.Weekday().String()), week[:3]) })
	}
	slices.SortFunc(out, func(a, b Reading) int { return a.Day.Compare(b.Day) })
	return out
}

// named adds a day whose month has a name, and whose year may be left out.
func named(year string, month, day int, today time.Time, add func(year, month, day int, order Order)) {
	if year != "" {
		add(number(year), month, day, Unknown)
		return
	}
	next := today.Year()
	if month < int(today.Month()) || month == int(today.Month()) && day < today.Day() {
		next++
	}
	if time.Date(next, time.Month(month), day, 0, 0, 0, 0, time.UTC).Sub(today) > near {
		add(next-1, month, day, Unknown)
	}
	add(next, month, day, Unknown)
}

// Said gives every way to read a text as a day in a country: none of a day without its year where today is not known.
func Said(text string, today time.Time, order Order) []Reading {
	if today.IsZero() && Yearless(text) {
		return nil
	}
	return In(Read(text, today), order)
}

// One is the one day that a text says, as year-month-day, or what is wrong with it.
func One(text string, today time.Time, order Order) (iso, bad string) {
	switch readings := Said(text, today, order); {
	case len(readings) == 0 && today.IsZero() && Yearless(text):
		return "", "a day without its year"
	case len(readings) == 0:
		return "", "there is no such day"
	case len(readings) > 1 && !Yearless(text):
		return "", "day and month swap places between countries; write the day as year-month-day"
	case len(readings) > 1:
		return "", "it may be of this year or of another; write the day as year-month-day"
	default:
		return readings[0].Day.Format(time.DateOnly), ""
	}
}

var inText = regexp.MustCompile(`\b(?:` + written + `)`)

// Stated is the first day with its year that a text of small letters states, and whether there is one and no other.
func Stated(text string, order Order) (first time.Time, one bool) {
	for _, said := range inText.FindAllString(text, -1) {
		readings := In(Read(said, time.Time{}), order)
		if len(readings) != 1 || Yearless(said) {
			continue
		}
		if !first.IsZero() && !first.Equal(readings[0].Day) {
			return first, false
		}
		first = readings[0].Day
	}
	return first, !first.IsZero()
}

var fourDigits = regexp.MustCompile(`\d{4}`)

// Yearless reports whether a day whose month has a name, or that is two numbers, is without its year.
func Yearless(text string) bool {
	return !fourDigits.MatchString(text) && strings.ContainsFunc(text, unicode.IsLetter) || monthAndDay.MatchString(text)
}

// In gives the readings that a country's order leaves: all of them where it is Unknown or none is in that order.
func In(readings []Reading, order Order) []Reading {
	if !slices.ContainsFunc(readings, func(r Reading) bool { return r.Order == order }) {
		return readings
	}
	return slices.DeleteFunc(slices.Clone(readings), func(r Reading) bool {
		return order != Unknown && r.Order != Unknown && r.Order != order
	})
}

// number reads digits that a pattern has matched, at most four of them.
func number(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return -1 // no day has it
	}
	return n
}

// month is the number of a month from its name.
func month(name string) int { return strings.Index(monthOrder, name[:3])/3 + 1 }
