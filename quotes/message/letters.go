package message

import (
	"slices"

	"mediabuy/quotes/files"
)

// Several messages pasted one below another keep their own terms when each is read by itself. The text is cut where a
// message may begin; the cut holds only if every part has rows of one supplier that the part itself names, each another.

// mailHeading begins a mail that is copied.
var mailHeading = compile(`(?mi)^from:`)

// letters cuts the source into messages, or is nil where it is one.
func (src *source) letters() []*source {
	if src.given != "" {
		return nil // the caller says that it is of one supplier
	}
	for _, cuts := range cutsOf(src.text) {
		var parts []*source
		from := 0
		for _, to := range append(cuts, len(src.text)) {
			part := *src
			part.text, part.base, part.answers = src.text[from:to], from, nil
			parts = append(parts, &part)
			from = to
		}
		if !apart(parts) {
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

// apart says whether each part has rows and names one supplier of its own, or has the heading of a mail of its own.
func apart(parts []*source) bool {
	seen := map[string]bool{}
	headed := !slices.ContainsFunc(parts, func(part *source) bool { return !mailHeading.MatchString(part.text) })
	for _, part := range parts {
		r, drafts, err := part.once()
		if err != nil || len(drafts) == 0 {
			return false
		}
		name := ""
		for _, d := range drafts {
			s := d.cells["supplier"]
			if s == nil && headed {
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
	}
	return true
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
	return p
}
