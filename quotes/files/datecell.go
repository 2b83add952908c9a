package files

import (
	"cmp"
	"fmt"
	"time"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/quotes/internal/typed"
)

// date reads a day. ISO days are taken as they stand; others are read where the
// value or the country of the job's currency leaves one reading, which is said.
func (x *reader) date(c *cell) (quotes.Date, bool) {
	if c.off {
		return quotes.Date{}, false
	}
	if t, err := time.Parse(time.DateOnly, c.text); err == nil {
		return quotes.Date{Time: t}, true
	}
	order := x.order
	if c.orders {
		order = day.Unknown
	}
	all := day.Read(c.text, x.today())
	left := day.In(all, order)
	switch {
	case len(left) == 1 && len(all) == 1:
		x.warn(c, fmt.Sprintf("%s is read as %s", spelling.Quoted(c.text), left[0].Day.Format(time.DateOnly)), "write it so if that is meant")
	case len(left) == 1:
		x.warn(c, fmt.Sprintf("%s is read as %s, as a job in %s writes it", spelling.Quoted(c.text), left[0].Day.Format(time.DateOnly), x.set.Currency), "write it so if that is meant")
	case len(left) > 1:
		days := make([]string, len(left))
		for i, r := range left {
			days[i] = r.Day.Format(time.DateOnly)
		}
		x.fail(c, fmt.Sprintf("%s can be read as %s", spelling.Quoted(c.text), listed(days)), "a day that reads one way", "write "+listed(days)+", whichever is meant")
		return quotes.Date{}, false
	default:
		x.fail(c, spelling.Quoted(c.text)+" is not a date", "year-month-day, such as 2026-04-30", cmp.Or(typed.Hint(c.heading, c.text), "write year, month and day as numbers; there must be such a day"))
		return quotes.Date{}, false
	}
	return quotes.Date{Time: left[0].Day}, true
}

// today is the pricing day, from which a day without its year is counted.
func (x *reader) today() time.Time { return x.set.Date.Time }

// settleOrders finds the columns of days that prove another order of day and month
// than the job's: the job's then settles nothing in them.
func (x *reader) settleOrders(s *sheet) {
	if x.order == day.Unknown {
		return
	}
	for _, col := range s.columns {
		other := false
		for _, r := range s.rows {
			all := day.Read(r.cell(col.heading).text, x.today())
			other = other || col.date && len(all) == 1 && all[0].Order != day.Unknown && all[0].Order != x.order
		}
		for _, r := range s.rows {
			r.cell(col.heading).orders = other
		}
	}
}
