package message

import (
	"slices"
	"strings"
	"time"

	"mediabuy/quotes/internal/cues"
	days "mediabuy/quotes/internal/day"
)

// months are the names of months and how they are cut short.
var months = set(strings.ReplaceAll(days.Months+"|"+days.ShortMonths, "|", " "))

// monthBefore is a month in front of a number.
var monthBefore = compile(`\b(?:` + days.Months + `|` + days.ShortMonths + `)\.?[ \t]+$`)

func dateRules() []rule {
	return []rule{
		{pattern(untilWord + dayWord + days.Short), lastDay},
		// effective 1 March to 31 August 2026
		{pattern(`(?:(?:prices?|pricing|rates?|offer|quote|quotation) )?(?:effective|valid|good|in force|applicable)(?: from)?:?` + dayWord + bare(days.Written) + sp + `(?:to|-|–|until|till|through|thru)` + dayWord + days.Written), day(aValid, "the last day of the offer")},
		{pattern(fromWord + dayWord + days.Written), day(aReady, "the day from which it can be had")},
		{pattern(days.Written), loneDay},
		{pattern(untilWord + `(?: for:?)? (?P<n>\d+|` + written + `) (?:(?P<week>weeks?)|(?P<month>months?)|days?)(?: (?:from|after|starting|beginning)(?:(?: the date of)?` + dayWord + days.Written + `| (?:that|this|(?:the )?above) (?:date|day)\b))?`), counted},
		// lead time 10 working days
		{pattern(`(?:(?:our |the |current )*(?:lead[ -]?times?|turn ?around(?: time)?|delivery times?)(?: is| of|:|=)*|(?:ready|available|dispatched|despatched) (?:in|within))(?P<lead>` + sp1 + `)(?:\d+` + sp + `(?:-|–|to)` + sp + `)?(?P<n>\d+|` + written + `)[ -](?P<work>(?:working|business|week) ?)?(?:(?P<week>weeks?)|days?)\b(?: from (?:the |your |receipt of )*order)?`), counted},
		// this proposal may be accepted within 45 days of its date
		{pattern(`(?:(?:this |the |our )?(?:offer|quote|quotation|proposal|estimate|bid|prices?) )?(?:may|can|must|should|is to|has to|to) be (?:accepted|taken up)(?: by you| in writing)? (?:within|in|inside)` + sp1 + `(?P<n>\d+|` + written + `)` + sp1 + `(?:(?P<week>weeks?)|(?P<month>months?)|days?)(?: (?:of|from|after) (?:its|this|the|the above)(?: date)?\b(?: (?:above|of this (?:quote|offer|letter|proposal)))?)?`), counted},
		{pattern(untilWord + ` (?:(?:(?:to|until|till|til|through) )?(?:the )?(?:end|last day) of|for (?:the (?:whole )?month|all) of) (?P<month>` + days.Month + `(?: \d{4})?)`), monthEnd},
		{pattern(untilWord + ` (?:(?:to|until|till|til|through|thru) )?(?:the )?end of (?:(?:the|this) )?(?P<period>week|month|year)\b`), periodEnd},
	}
}

const away = "until then somebody or something is away, and no price holds"

// holds are words that say of a price, and of no stone, until when it is.
var holds = compile(`\b(?:prices?|offer|quote|quotation|valid|good|expir\pL+|exp|held|honou?red|firm)\b`)

// lastDay is the last day of an offer. Two numbers with a stroke are one only behind words for that, and where they are no fraction
// of an inch.
func lastDay(s *scanner, m match) (*fact, bool) {
	text := m.text("day")
	month, of, _ := strings.Cut(text, "/")
	if !strings.Contains(of, "/") && len(text) <= len("12/31") && of != "" {
		if !holds.MatchString(m.low[:m.end()-m.at]) || whole(month) < whole(of) && oneOf(of, "2", "4", "8", "16") || oneOf(s.after(m.end()), "\"", "”", "″", "in", "inch", "inches") {
			return nil, false
		}
	}
	return day(aValid, "the last day of the offer")(s, m)
}

// day is a day with the words that say what is on it.
func day(k kind, why string) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) {
		if k == aValid && cues.ShutBefore.MatchString(s.low[max(s.start, m.at-window):m.at]) {
			return unclearFact(away)
		}
		return s.onDay(m, k, why, m.text("day"), 0)
	}
}

// onDay is what is said of a day, or of the last day of its month where months is 1. Of two days that the words may be, the one that
// costs the buyer more is an early end and a late beginning.
func (s *scanner) onDay(m match, k kind, why, text string, months int) (*fact, bool) {
	j := s.job
	if stated, one := s.stated(); one && days.Yearless(text) {
		j.Today = stated
	}
	_, bad := j.Day(text)
	var said []string
	for _, r := range j.Days(text) {
		if months > 0 {
			r.Day = r.Day.AddDate(0, months, -r.Day.Day())
		}
		said = append(said, r.Day.Format(time.DateOnly))
	}
	if len(said) < 2 {
		m.fails(bad)
		return &fact{kind: k, text: strings.Join(said, ""), why: why}, true
	}
	if k == aValid {
		slices.Reverse(said)
	}
	reading, open := s.either(m, bad, "which day is meant?", said...)
	if open != nil {
		return open, true
	}
	return &fact{kind: k, text: said[reading], why: why + ", as answered"}, true
}

// stated is the day with its year that the head of a message states, and whether it is the only one.
func (s *scanner) stated() (first time.Time, one bool) {
	const top = 1000 // bytes, in which a paper states its day
	return days.Stated(s.low[:min(len(s.low), top)], days.OrderOf(s.job.Currency))
}

// counted is a day by its number of days from the day of the message, if that states just one, or else from today; it is asked.
func counted(s *scanner, m match) (*fact, bool) {
	const why = "the day it is counted from is not said"
	from := s.job.Today
	told := m.has("day") // 30 days from 5/1/26
	switch stated, one := s.stated(); {
	case told:
		start := s.job.Days(m.text("day"))
		if len(start) != 1 {
			return unclearFact(why)
		}
		from = start[0].Day
	case m.has("lead") && (stated.IsZero() || stated.After(from)): // the last day of the offer
	case one || m.has("lead"):
		from, s.countedFrom = stated, stated
	case !stated.IsZero():
		return unclearFact(why)
	}
	n, bad := s.counting(m.text("n"))
	days := whole(n.text)
	if bad != "" || days <= 0 || from.IsZero() {
		return unclearFact(why)
	}
	if w := (int(from.Weekday()) + 6) % 7; m.has("work") { // five of them are a week
		days += 2*((days+min(w, 4))/5) - max(0, w-4)
	}
	text := from.AddDate(0, 0, days).Format(time.DateOnly)
	if m.has("week") {
		text = from.AddDate(0, 0, 7*days).Format(time.DateOnly)
	} else if m.has("month") {
		text = from.AddDate(0, days, 0).Format(time.DateOnly)
	}
	if m.has("lead") {
		return s.perhaps(&fact{kind: aReady, text: text, why: "the day from which it can be had"}, Range{m.at, m.end()}, why, "is it counted from "+from.Format(time.DateOnly)+"?", text), true
	}
	if told {
		return &fact{kind: aValid, text: text, why: "the last day of the offer, counted from the day beside it"}, true
	}
	if said := slices.IndexFunc(s.fixed, func(f *fact) bool { return f.why == paperDay }); said >= 0 && !oneOf(s.after(m.end()), "from", "after", "of", "following") {
		return &fact{kind: aValid, text: text, head: s.fixed[said], why: "the last day of the offer, counted from the day of the paper"}, true
	}
	return s.perhaps(&fact{kind: aValid, text: text, why: "the last day of the offer"}, Range{m.at, m.end()}, why, "is it counted from "+from.Format(time.DateOnly)+"?", text), true
}

// dated is the day of a paper by the word for it.
var dated = compile(`(?m)(?:\b(?:dated|issued)(?: on)?|(?:^| {2,}|\t)[ \t]*(?:(?:quot\pL+|estimate|issue|(?:price )?list)[ \t]+(?:(?:no\.? ?)?#?\d+[ \t]+)?)?date)[ \t]*:?` + dayWord + days.Written)

const paperDay = "the day of the paper"

// monthEnd is "until the end of June".
func monthEnd(s *scanner, m match) (*fact, bool) {
	return s.onDay(m, aValid, "the last day of the offer", "28 "+m.text("month"), 1)
}

// periodEnd is the last day of the week, month or year in which the message was written, its day if it states just one, or else today; it
// is asked. Of a week that is Friday, the earlier of the two days that may be meant, for who writes before it.
func periodEnd(s *scanner, m match) (*fact, bool) {
	const why = "the day of the message is not said"
	if cues.ShutBefore.MatchString(s.low[max(s.start, m.at-window):m.at]) {
		return unclearFact(away)
	}
	from := s.job.Today
	if stated, one := s.stated(); one {
		from, s.countedFrom = stated, stated
	} else if !stated.IsZero() {
		from = time.Time{}
	}
	if from.IsZero() {
		return unclearFact(why)
	}
	end := from.AddDate(0, 0, (7-int(from.Weekday()))%7)
	if left := int(time.Friday - from.Weekday()); left >= 0 && from.Weekday() != time.Sunday {
		end = from.AddDate(0, 0, left)
	}
	switch m.text("period") {
	case "month":
		end = from.AddDate(0, 1, -from.Day())
	case "year":
		end = from.AddDate(1, 0, -from.YearDay())
	}
	text := end.Format(time.DateOnly)
	return s.perhaps(&fact{kind: aValid, text: text, why: "the last day of the offer"}, Range{m.at, m.end()}, why, "was it written on "+from.Format(time.DateOnly)+"?", text), true
}

const noWordForDay = "a day with no word for what happens on it"

func loneDay(s *scanner, m match) (*fact, bool) {
	if low := m.text("day"); strings.Contains(low, "may") && days.Yearless(low) && (low[0] == 'm' || s.after(m.end()) != "") { // "10 may be"
		return nil, false
	}
	return unclearFact(noWordForDay)
}
