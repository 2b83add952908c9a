package message

import (
	"strings"
	"time"

	days "mediabuy/quotes/internal/day"
	"mediabuy/quotes/internal/habit"
)

// months are the names of months and how they are cut short.
var months = set(strings.ReplaceAll(days.Months+"|"+days.ShortMonths, "|", " "))

const monthName = `(?:(?:` + days.Months + `)\b|(?:` + days.ShortMonths + `)\b\.?)`

// untilWord and fromWord say what a day is: the last of an offer, or the one on which goods are there.
const (
	untilWord = `(?:(?:(?:all )?(?:these |our |the |this )?(?:prices?|rates?|offer|quote|quotation)(?: is| are)? )?(?:good|valid|holds?|stands?|firm|fixed|open|held|lapses?|ends|runs|expires?|exp\.?|lasts|applies|binding)(?: good| firm)?(?: only)?(?: until| till| til| through| thru| to| on| up ?to|:)?:?|rates? up ?to|until|till|thru|through|expiry(?: date)?:?|offer ends:?|validity(?: of (?:the |this |our )?(?:offer|quote|quotation|prices?))?(?: is)?:?)`
	fromWord  = `(?:(?:(?:can be |will be )?(?:ready|available|in stock|back in|back in stock|here)|in|new stock|next delivery|arrives|arriving|due(?: in)?|availability:?)(?: by| on| from| again from|:)?|ready:?)`
	dayWord   = `(?:` + sp + `(?:mon|tues?|wednes|thurs?|fri|satur|sun)(?:day)?,?)?` + sp + `(?:the )?`
	oneDay    = `(?P<day>\d{4}-\d{1,2}-\d{1,2}|\d{1,2}(?:st|nd|rd|th)?(?: of)?[ -.]?` + sp + monthName + `(?:,?[ -]?` + sp + `\d{4})?|` + monthName + sp + `\d{1,2}(?:st|nd|rd|th)?(?:,?` + sp + `\d{4})?|\d{1,2}(?:/\d{1,2}/|\.\d{1,2}\.|-\d{1,2}-)(?:\d{4}|\d{2}))`
)

var dateRules = []rule{
	{pattern(untilWord + dayWord + oneDay), day(aValid, "the last day of the offer")},
	{pattern(fromWord + dayWord + oneDay + `(?:,? (?:and )?not (?:before|earlier|sooner))?`), day(aReady, "the day from which it can be had")},
	{pattern(oneDay), loneDay},
	{pattern(untilWord + ` (?:for )?(?P<n>\d+|` + written + `) (?:(?P<week>weeks?)|(?P<month>months?)|days?)`), counted},
	{pattern(untilWord + ` (?:(?:to|until|till|til|through) )?(?:the )?end of (?P<month>` + monthName + `(?: \d{4})?)`), monthEnd},
}

// day is a day with the words that say what is on it.
func day(k kind, why string) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) {
		text, bad := s.job.Day(m.text("day"))
		if m.fails(bad); k == aValid && shutBefore.MatchString(s.low[max(s.start, m.at-window):m.at]) {
			return unclearFact("until then somebody or something is away, and no price holds")
		}
		return &fact{kind: k, text: text, why: why}, true
	}
}

// counted is a day by its number of days from the day of the message, if that states just one, or else from today; it is asked.
func counted(s *scanner, m match) (*fact, bool) {
	const why = "the day it is counted from is not said"
	from := s.job.Today
	const top = 1000 // bytes, in which a paper states its day
	for i, at := range writtenDay.FindAllStringIndex(s.low[:min(len(s.low), top)], -1) {
		if text, bad := s.job.Day(s.low[at[0]:at[1]]); bad == "" {
			if day, err := time.Parse(time.DateOnly, text); err == nil && (i == 0 || day.Equal(from)) {
				from = day
			} else {
				return unclearFact(why)
			}
		}
	}
	n, bad := s.counting(m.text("n"))
	days := whole(n.text)
	if bad != "" || days <= 0 || from.IsZero() {
		return unclearFact(why)
	}
	text := from.AddDate(0, 0, days).Format(time.DateOnly)
	if m.has("week") {
		text = from.AddDate(0, 0, 7*days).Format(time.DateOnly)
	} else if m.has("month") {
		text = from.AddDate(0, days, 0).Format(time.DateOnly)
	}
	return s.perhaps(&fact{kind: aValid, text: text, why: "the last day of the offer"}, Range{m.at, m.end()}, why, "is it counted from "+from.Format(time.DateOnly)+"?", text), true
}

var writtenDay = compile(`\b` + bare(oneDay))

// shutBefore are words for what is away or shut until a day.
var shutBefore = compile(`\b(?:down|closed|shut|out|away|leave|off|holidays?|gone|unavailable|broken|stopped|not)(?: [\p{L}]+)?[ \t]*$`)

// monthEnd is "until the end of June".
func monthEnd(s *scanner, m match) (*fact, bool) {
	text, bad := s.job.Day("28 " + m.text("month"))
	if bad == "" {
		if first, err := time.Parse(time.DateOnly, text); err == nil {
			text = first.AddDate(0, 1, -28).Format(time.DateOnly)
		}
	}
	m.fails(bad)
	return &fact{kind: aValid, text: text, why: "the last day of the offer"}, true
}

func loneDay(s *scanner, m match) (*fact, bool) {
	if low := m.text("day"); strings.Contains(low, "may") && !habit.FourDigits.MatchString(low) && (low[0] == 'm' || s.after(m.end()) != "") { // "10 may be"
		return nil, false
	}
	return unclearFact("a day with no word for what happens on it")
}
