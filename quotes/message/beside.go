package message

import (
	"cmp"
	"slices"
	"strings"

	"mediabuy/quotes/internal/called"
	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/plaintext"
)

// beside cuts a table with a column for each of several suppliers into a message for each, as long as the whole; nil where there is
// none, or where the words around it may speak of one of them alone.
func (src *source) beside() (parts []*source) {
	s := &scanner{text: src.text, low: lower(src.text), media: called.Names(src.job.Table, mediaNames), job: src.job}
	columns, rest := plaintext.Beside(src.text, func(from, to int) bool {
		s.start, s.limit = from, to
		name := s.company(from, to)
		return strings.Contains(name, " ") && !strings.ContainsAny(name, "0123456789") && s.headingOf(Range{from, to}).column == "" && !unitAlone.MatchString(s.low[from:to]) && !s.onlyKinds(from, to) && !s.nameOfGoods(from, to)
	})
	if cues.MoneyAround.MatchString(rest) || !slices.ContainsFunc(columns, func(c plaintext.Column) bool { return hasCompanyWord(src.text[c.Head[0]:c.Head[1]]) }) {
		return nil
	}
	for _, c := range columns {
		part := *src
		part.text, part.matched, part.speaker, part.headed = c.Text, nil, Range{c.Head[0], c.Head[1]}, true
		if parts = append(parts, &part); slices.ContainsFunc(strings.Fields(lower(src.text[c.Head[0]:c.Head[1]])), func(w string) bool { return !companyWords[w] && len(w) > 2 && strings.Contains(lower(rest), w) }) {
			return nil
		}
	}
	if len(parts) < 2 || !apart(parts) {
		return nil
	}
	return parts
}

// overlaid are the spans of messages that stand over one another: what one of them reads is read, whatever the others made of it, and
// parts that overlap are one.
func overlaid(text string, spans []Span) (out []Span) {
	rank := map[Use]int{Read: 3, Asked: 2, Unclear: 1}
	spans = slices.DeleteFunc(spans, func(s Span) bool { return s.Use == Blank })
	slices.SortStableFunc(spans, func(a, b Span) int { return a.From - b.From })
	at := 0
	blank := func(to int) {
		if at < to {
			out = append(out, Span{Range: Range{at, to}, Use: Blank, Words: text[at:to]})
		}
	}
	for i := 0; i < len(spans); {
		one := spans[i]
		one.Cells = slices.Clone(one.Cells)
		for i++; i < len(spans) && spans[i].From < one.To; i++ {
			next := spans[i]
			if cmp.Compare(rank[next.Use], rank[one.Use]) > 0 {
				one.Use, one.Why = next.Use, next.Why
			}
			one.To = max(one.To, next.To)
			one.Cells = append(one.Cells, next.Cells...)
		}
		blank(one.From)
		one.Words, at = text[one.From:one.To], one.To
		out = append(out, one)
	}
	blank(len(text))
	return out
}

// sameAsked joins questions that messages over one another put about the same words: one answer holds in each.
func sameAsked(all []Question) (out []Question) {
	for _, q := range all {
		i := slices.IndexFunc(out, func(o Question) bool {
			return o.Range == q.Range && o.Question == q.Question && len(o.Readings) == len(q.Readings)
		})
		if i < 0 {
			out = append(out, q)
			continue
		}
		for j := range q.Readings {
			out[i].Readings[j].More = append(out[i].Readings[j].More, q.Readings[j].Changes()...)
		}
	}
	return out
}
