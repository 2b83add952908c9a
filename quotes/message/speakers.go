package message

import (
	"slices"
	"strings"
)

// speaker is a name with a word behind it that says that somebody sells.
var speaker = compile(`(?:^|[^\pL\d])(` + companyName + `)(?:[ \t]+(?:has|have|says|said|sells|sell|charges|quotes|quoted|wants|offers|asks|delivers|will do|does)\b|[ \t]*(?:[:,.]|[-–—][ \t]|\r?\n|$|(?:is|are|at)\b))`)

// severalSpeak leaves the terms of delivery in section i to a person where its words name two suppliers, though they were
// not made out as such: whose terms they are is then not said.
func (r *reading) severalSpeak(i int, rows []*draft) bool {
	if len(rows) < 2 {
		return false
	}
	names := r.speakers(i)
	if len(names) < 2 {
		return false
	}
	for _, f := range r.sections[i].facts {
		if f.kind.isFee() {
			f.drop("the message names " + names[0] + " and " + names[1] + ", and it is not said whose terms these are")
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
	for _, at := range speaker.FindAllStringSubmatchIndex(r.text[from:to], -1) {
		start, end := from+at[2], from+at[3]
		name := strings.TrimRight(r.text[start:end], ".,-")
		verb := strings.TrimSpace(r.low[end : from+at[1]])
		first := lower(strings.Fields(name)[0])
		switch {
		case !hasCompanyWord(name) && (verb == "" || !strings.ContainsAny(verb[:1], "hsacqwod") || verb == "at" || verb == "are"):
		case fetchWord.MatchString(lower(name)), r.onlyKinds(start, start+len(name)):
		case notNames[first], fillers[first], describers[first], strings.ContainsAny(name[:1], "0123456789"):
		case r.mediumAtEnd(start, start+len(name)) >= 0:
		case r.mediumOpens(start):
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
