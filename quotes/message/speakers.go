package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/firms"
)

// severalSpeak leaves the terms of delivery in section i to a person where its words name two suppliers, though they were
// not made out as such: whose terms they are is then not said.
func (r *reading) severalSpeak(i int, rows []*draft) bool {
	if len(rows) == 0 || len(rows) == 1 && len(rows[0].offer.rivals) < 2 { // one price may be of either
		return false
	}
	names, why := r.speakers(i), "the message speaks of several offers, and it is not said whose terms these are"
	switch {
	case len(names) > 1:
		why = "the message names " + names[0] + " and " + names[1] + ", and it is not said whose terms these are"
	case len(cues.MailHeading.FindAllStringIndex(r.text, 2)) > 1:
	case len(r.sections) > 1 || !cues.SeveralOffers.MatchString(r.low):
		return false
	}
	for _, f := range r.sections[i].facts {
		if f.kind.isFee() || oneOf(f.kind, aTax, aFeeTax, aValid, aReady) {
			f.drop(why)
		}
	}
	return true
}

// unsaid takes the supplier out of rows of which it is not said whose they are, but where a table says it.
func (r *reading) unsaid(rows []*draft) {
	for _, d := range rows {
		if s := d.cells["supplier"]; s != nil && !slices.ContainsFunc(s.facts, func(f *fact) bool { return f.item == d.item }) {
			for _, f := range s.facts {
				f.drop("the message names several suppliers, and it is not said whose each row is")
			}
			delete(d.cells, "supplier")
			if d.cells["price"] == nil {
				delete(d.cells, "min_qty") // it may be another's
			}
		}
	}
}

// speakers are the names in the words of section i that sell something, each once, in order.
func (r *reading) speakers(i int) []string {
	from, to := 0, len(r.text)
	if f := r.sections[i].supplier; f != nil && i > 0 {
		from = f.From
	}
	if i+1 < len(r.sections) && r.sections[i+1].supplier != nil {
		to = r.sections[i+1].supplier.From
	}
	var out []string
	for _, at := range firms.Speaker.FindAllStringSubmatchIndex(r.text[from:to], -1) {
		start, end := from+max(at[2], at[4]), from+max(at[3], at[5])
		name := strings.TrimRight(r.text[start:end], ".,-")
		if stop := strings.LastIndex(name, ". "); stop > 0 && !abbreviated(name[:stop+1]) { // "on Friday. We have"
			start, name = start+stop+2, name[stop+2:]
		}
		verb := strings.TrimSpace(r.low[end : from+at[1]])
		first := lower(strings.Fields(name)[0])
		switch {
		case !hasCompanyWord(name) && (verb == "" || !strings.ContainsAny(verb[:1], "hsacqwod") || verb == "at" || verb == "are"):
		case fetchWord.MatchString(lower(name)), r.onlyKinds(start, start+len(name)):
		case r.taken(start) != nil && r.taken(start).kind == anAside, !hasCompanyWord(name) && cues.TruckStart.MatchString(lower(name)), strings.HasPrefix(r.low[from+at[1]:], " been"), firms.DigitBefore.MatchString(r.text[:start]), firms.RoadEnds.MatchString(name), firms.NumberedThing.MatchString(name): // a heading, a truck, an address
		case notNames[first], oneOf(first, "pty", "ltd", "inc", "llc"), fillers[first], describers[first], strings.ContainsAny(name[:1], "0123456789"):
		case r.mediumAtEnd(start, start+len(name)) >= 0:
		case r.mediumOpens(start), slices.ContainsFunc(r.all, func(c *clause) bool { return c.From <= start && start < c.To && c.poison == doubts["elsewhere"] }): // a rival's
		default:
			known := false
			for _, n := range out {
				known = known || sameName(n, name)
			}
			if !known {
				out = append(out, name)
			}
		}
	}
	return out
}

// holdsFor are the sections that a tax or a last day holds for: those of the sellers that its clause names by the word that their names
// begin with, "7% on top at Holloway", or all where it says so. Whatever else is said holds for the one at hand.
func (r *reading) holdsFor(c *clause, f *fact) (out []*section) {
	if !oneOf(f.kind, aTax, aValid) || f.unclear != "" {
		return []*section{r.section()}
	}
	for _, sec := range r.sections {
		if sec.supplier != nil && sec.supplier.To <= c.From && slices.ContainsFunc(c.tokens, func(t token) bool {
			return t.To-t.From > 3 && r.text[t.From:t.To] == strings.Fields(sec.supplier.text)[0]
		}) {
			out = append(out, sec)
		}
	}
	if len(out) == 0 && cues.AllSellers.MatchString(r.low[c.From:c.To]) {
		return r.sections
	} else if len(out) == 0 {
		return []*section{r.section()}
	}
	return out
}
