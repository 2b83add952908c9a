package day

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var today = time.Date(2026, 4, 6, 0, 0, 0, 0, time.UTC)

func words(rs []Reading) (out []string) {
	for _, r := range rs {
		out = append(out, r.Day.Format(time.DateOnly))
	}
	return out
}

func TestRead(t *testing.T) {
	for text, want := range map[string][]string{
		"2026-4-5":    {"2026-04-05"},
		"2026/12/20":  {"2026-12-20"},
		"12/20/2026":  {"2026-12-20"}, // 20 is no month
		"20.12.2026":  {"2026-12-20"},
		"05/06/2026":  {"2026-05-06", "2026-06-05"},
		"05/05/2026":  {"2026-05-05"}, // both ways the same day
		"12/20/26":    {"2026-12-20"},
		"05/06/26":    {"2026-05-06", "2026-06-05"}, // 2005-06-26 is long past
		"31/12/26":    {"2026-12-31"},               // strokes have no year in front where the other day is near
		"31-12-26":    {"2026-12-31", "2031-12-26"},
		"26/12/31":    {"2026-12-31", "2031-12-26"}, // but where it is years away they may
		"9/15":        {"2026-09-15"},
		"5/6":         {"2026-05-06", "2026-06-05"},
		"12/15":       {"2025-12-15", "2026-12-15"}, // 253 days ahead
		"13/14":       nil,
		"31/4/2026":   nil, // April has 30 days
		"2/29/2026":   nil,
		"Dec 31 2026": {"2026-12-31"}, "31 dec 2026": {"2026-12-31"}, "31-Dec-2026": {"2026-12-31"}, "December 31st, 2026": {"2026-12-31"},
		"the 31st of December 2026": {"2026-12-31"},
		"20 September":              {"2026-09-20"},               // 167 days ahead
		"20 December":               {"2025-12-20", "2026-12-20"}, // 258 days ahead, 107 behind
		"6 April":                   {"2026-04-06"},               // today itself
		"5 April":                   {"2026-04-05", "2027-04-05"}, // yesterday, or in a year
		"Fri Dec 4 2026":            {"2026-12-04"},
		"Mon Dec 4 2026":            nil, // a Friday
		"soon":                      nil, "Dec 2026": nil, "32 Dec 2026": nil, "": nil,
	} {
		assert.Equal(t, want, words(Read(text, today)), text)
	}
}

func TestIn(t *testing.T) {
	both := Read("05/06/2026", today)
	assert.Equal(t, []string{"2026-05-06"}, words(In(both, OrderOf("USD"))))
	assert.Equal(t, []string{"2026-06-05"}, words(In(both, OrderOf("GBP"))))
	assert.Len(t, In(both, OrderOf("CAD")), 2)
	// A country settles nothing where none of the readings is in its order.
	assert.Equal(t, []string{"2026-12-31", "2031-12-26"}, words(In(Read("31-12-26", today), MonthFirst)))
	assert.Equal(t, []string{"2026-12-31"}, words(In(Read("31/12/26", today), MonthFirst)))
	// The value goes before the country: there is no twentieth month.
	assert.Equal(t, []string{"2026-12-20"}, words(In(Read("20/12/2026", today), MonthFirst)))
}

// A day written in any way is among its readings.
func TestReadHoldsTheDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, rapid.IntRange(0, 1500).Draw(t, "days"))
		way := rapid.SampledFrom([]string{time.DateOnly, "1/2/2006", "2/1/2006", "02.01.2006", "1/2/06", "2 January 2006", "Jan 2, 2006", "Mon 2 Jan 2006", "2-Jan-2006", "2006/01/02"}).Draw(t, "way")
		require.Contains(t, words(Read(d.Format(way), today)), d.Format(time.DateOnly), d.Format(way))
	})
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"12/20/2026", "20 December", "Dec 31 2026", "26-04-05", "the 1st of may"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		rs := Read(s, today)
		require.LessOrEqual(t, len(rs), 3)
		for i, r := range rs {
			require.False(t, i > 0 && !rs[i-1].Day.Before(r.Day), s)
			require.Equal(t, []string{r.Day.Format(time.DateOnly)}, words(Read(r.Day.Format(time.DateOnly), today)))
		}
	})
}

func TestOne(t *testing.T) {
	today := time.Date(2026, 11, 30, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		text     string
		today    time.Time
		order    Order
		iso, bad string
	}{
		{"31 January", today, Unknown, "2027-01-31", ""},
		{"31 January", time.Time{}, Unknown, "", "a day without its year"},
		{"31 January 2027", time.Time{}, Unknown, "2027-01-31", ""},
		{"28 June", today, Unknown, "", "it may be of this year or of another; write the day as year-month-day"},
		{"04/05/2026", today, Unknown, "", "day and month swap places between countries; write the day as year-month-day"},
		{"04/05/2026", today, MonthFirst, "2026-04-05", ""},
		{"31 June 2026", today, Unknown, "", "there is no such day"},
	} {
		iso, bad := One(c.text, c.today, c.order)
		assert.Equal(t, c.iso, iso, c.text)
		assert.Equal(t, c.bad, bad, c.text)
	}
}
