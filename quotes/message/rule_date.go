package message

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// months by name and by how names are cut short.
var months = map[string]time.Month{}

const monthName = `(?:(?:january|february|march|april|may|june|july|august|september|october|november|december)\b|(?:jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec)\b\.?)`

func init() {
	for m := time.January; m <= time.December; m++ {
		full := strings.ToLower(m.String())
		months[full], months[full[:3]] = m, m
	}
	months["sept"] = time.September
}

// untilWord and fromWord say what a day is: the last of an offer, or the one on which goods are there.
const (
	untilWord = `(?:(?:(?:all )?(?:these |our |the |this )?(?:prices?|offer|quote|quotation)(?: is| are)? )?(?:good|valid|holds?|stands?|firm|fixed|open|ends|runs|expires?|exp\.?|lasts|applies)(?: good| firm)?(?: only)?(?: until| till| til| through| thru| to| on| up to|:)?:?|until|till|thru|through|expiry(?: date)?:?|offer ends:?|validity(?: of (?:the |this |our )?(?:offer|quote|quotation|prices?))?(?: is)?:?)`
	fromWord  = `(?:(?:(?:can be |will be )?(?:ready|available|in stock|back in|back in stock|here)|in|new stock|next delivery|arrives|arriving|due(?: in)?)(?: by| on| from| again from|:)?|ready:?)`
	dayWord   = `(?:` + sp + `(?:mon|tues?|wednes|thurs?|fri|satur|sun)(?:day)?,?)?` + sp + `(?:the )?`
	oneDay    = `(?:(?P<iso>\d{4}-\d{1,2}-\d{1,2})|(?P<d>\d{1,2})(?:st|nd|rd|th)?(?: of)?[ -.]?` + sp + `(?P<mon>` + monthName + `)(?:,?[ -]?` + sp + `(?P<y>\d{4}))?|(?P<monb>` + monthName + `)` + sp + `(?P<db>\d{1,2})(?:st|nd|rd|th)?(?:,?` + sp + `(?P<yb>\d{4}))?|(?P<n1>\d{1,2})(?P<s1>[./-])(?P<n2>\d{1,2})[./-](?P<n3>\d{4}|\d{2}))`
)

var dateRules = []rule{
	{pattern(untilWord + dayWord + oneDay), day(aValid, "the last day of the offer")},
	{pattern(fromWord + dayWord + oneDay), day(aReady, "the day from which it can be had")},
	{pattern(oneDay), loneDay},
	{pattern(untilWord + ` (?:for )?(?:\d+|` + written + `|a) (?:days?|weeks?|months?)`), unclearRule("the day it is counted from is not said")},
	{pattern(untilWord + ` (?:the )?end of (?:the )?(?:` + monthName + `|month|year|week)(?: \d{4})?`), unclearRule("a day without its number; write it as year-month-day")},
}

func unclearRule(why string) func(*scanner, match) (*fact, bool) {
	return func(*scanner, match) (*fact, bool) { return unclearFact(why) }
}

func day(k kind, why string) func(*scanner, match) (*fact, bool) {
	return func(s *scanner, m match) (*fact, bool) {
		text, bad := dayOf(m)
		if bad != "" {
			return unclearFact(bad)
		}
		return &fact{kind: k, text: text, why: why}, true
	}
}

func loneDay(s *scanner, m match) (*fact, bool) {
	if m.has("d") && !m.has("y") && m.text("mon") == "may" && s.after(m.end()) != "" { // "10 may be"
		return nil, false
	}
	if m.has("monb") && !m.has("yb") && m.text("monb") == "may" {
		return nil, false
	}
	return unclearFact("a day with no word for what happens on it")
}

// dayOf is the day as quotes.csv has it. Day and month in numbers are read only where one of them cannot be a month.
func dayOf(m match) (text, bad string) {
	y, d, mon := first(m.text("y"), m.text("yb")), first(m.text("d"), m.text("db")), first(m.text("mon"), m.text("monb"))
	var month time.Month
	switch {
	case m.has("iso"):
		p := strings.Split(m.text("iso"), "-")
		y, d = p[0], p[2]
		month = time.Month(whole(p[1]))
	case m.has("n1"):
		a, b := whole(m.text("n1")), whole(m.text("n2"))
		if y = m.text("n3"); len(y) == 2 {
			y = "20" + y
		}
		switch {
		case a > 12 && b <= 12:
			d, month = m.text("n1"), time.Month(b)
		case b > 12 && a <= 12:
			d, month = m.text("n2"), time.Month(a)
		default:
			return "", "day and month swap places between countries; write the day as year-month-day"
		}
	default:
		month = months[strings.TrimRight(mon, ".")]
	}
	if y == "" {
		return "", "a day without its year"
	}
	text = fmt.Sprintf("%s-%02d-%02d", y, month, whole(d))
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		return "", "there is no such day"
	}
	return text, ""
}

func first(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// whole reads digits that a pattern has matched, at most four of them.
func whole(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return -1
	}
	return n
}
