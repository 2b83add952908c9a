package message

import (
	"slices"
	"strings"

	"mediabuy/quotes/files"
	"mediabuy/quotes/internal/cues"
	"mediabuy/quotes/internal/firms"
	"mediabuy/quotes/internal/plaintext"
)

// Several messages pasted one below another keep their own terms when each is read by itself. The text is cut where a
// message may begin; the cut holds only if the parts that have rows are each of one supplier that the part itself names.

// letters cuts the source into messages, or is nil where it is one.
func (src *source) letters() []*source {
	if src.given != "" || src.job.Currency == "" && plaintext.Mixed(src.text) {
		return nil // the caller says that it is of one supplier, or one currency for all has to be found first
	}
	if parts := src.talk(); parts != nil {
		return parts
	}
	if parts := src.beside(); parts != nil {
		return parts
	}
	told, names := firms.Told(src.text, hasCompanyWord)
	ways := append(cutsOf(src.text), told)
	for i, cuts := range ways {
		var parts []*source
		from := 0
		for _, to := range append(cuts, len(src.text)) {
			part := *src
			part.text, part.base, part.answers = src.text[from:to], from, nil
			if i == len(ways)-1 {
				part.speaker = Range{names[from][0], names[from][1]}
			}
			parts = append(parts, &part)
			from = to
		}
		if shared := plaintext.Sharing(src.text, cuts); i < len(ways)-1 && shared != nil {
			parts = parts[:len(shared)] // each with what the last line says of all
			for j, part := range parts {
				part.text, part.base, part.matched = shared[j], 0, nil
			}
		}
		if len(parts) < 2 || !apart(parts) {
			continue
		}
		for key, reading := range src.answers {
			for _, part := range parts {
				if key.at >= part.base && key.at < part.base+len(part.text) {
					part.answers = part.with(map[answerKey]int{{key.at - part.base, key.doubt}: reading}).answers
				}
			}
		}
		return parts
	}
	return nil
}

// apart says whether two parts or more have rows, and each of these names one supplier of its own or has the heading of a mail of its
// own. What stands before, between and behind them says nothing of money.
func apart(parts []*source) bool {
	seen, sell := map[string]bool{}, 0
	headed := func(part *source) bool {
		said := plaintext.SaidLines(part.text)
		return cues.MailHeading.MatchString(part.text) || plaintext.HeadedByNumber.MatchString(part.text) || len(said) > 0 && strings.TrimSpace(part.text[:said[0][0]]) == ""
	}
	for _, part := range parts {
		r, drafts, err := part.once()
		if err != nil || part.speaker.To > 0 && len(r.speakers(0)) > 1 {
			return false
		}
		if len(drafts) == 0 {
			if !r.idle() {
				return false
			}
			continue
		}
		name := ""
		for _, d := range drafts {
			s := d.cells["supplier"]
			if s == nil && headed(part) {
				continue
			}
			if s == nil || name != "" && name != lower(s.text) {
				return false
			}
			name = lower(s.text)
		}
		if seen[name] || r.labelled() {
			return false
		}
		seen[name] = name != ""
		sell++
	}
	return sell > 1
}

// idle says whether a part of a paste says nothing of what is sold, brought or owed.
func (r *reading) idle() bool {
	return !strings.ContainsAny(r.text, "$£€%") && !slices.ContainsFunc(r.all, func(c *clause) bool {
		return slices.ContainsFunc(c.facts, func(f *fact) bool {
			return f.kind.isFee() || oneOf(f.kind, aPrice, aBreak, aTier, aShort, aPallet, aPack, aMin, aMax, aStep, aTax, aPercent, aValid, aReady) || f.kind == aSupplier && strings.ContainsAny(r.text, "0123456789")
		})
	})
}

// join puts the proposals of parts together, each shifted to its place.
func join(text string, parts []*source, read []*Proposal) *Proposal {
	p := &Proposal{Text: text, Columns: []Column{}, Rows: []Row{}, Delivery: []Row{}, Asked: []Question{}}
	for i, one := range read {
		at := parts[i].base
		before := map[string]int{files.QuotesFile: len(p.Rows), files.DeliveryFile: len(p.Delivery)}
		shift := func(r Range) Range { return Range{r.From + at, r.To + at} }
		for _, list := range [][]Row{one.Rows, one.Delivery} {
			for _, row := range list {
				for column, c := range row.Cells {
					for j := range c.From {
						c.From[j] = shift(c.From[j])
					}
					row.Cells[column] = c
				}
			}
		}
		p.Rows = append(p.Rows, one.Rows...)
		p.Delivery = append(p.Delivery, one.Delivery...)
		p.Columns = append(p.Columns, one.Columns...)
		for _, q := range one.Asked {
			q.Range = shift(q.Range)
			q.base = at
			for j := range q.Readings {
				one := &q.Readings[j]
				one.Change = one.moved(before)
				for k := range one.More {
					one.More[k] = one.More[k].moved(before)
				}
			}
			p.Asked = append(p.Asked, q)
		}
		for _, s := range one.Spans {
			s.Range = shift(s.Range)
			for j := range s.Cells {
				s.Cells[j].Row += before[s.Cells[j].File]
			}
			p.Spans = append(p.Spans, s)
		}
	}
	if len(parts[0].text) == len(text) {
		p.Spans, p.Asked = overlaid(text, p.Spans), sameAsked(p.Asked)
	}
	return p
}
