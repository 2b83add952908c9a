package papers

import (
	"strings"

	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// sources is where the figures of the media bought come from: each source once, with
// the figures that rest on it, and then those that rest on none.
func (r *report) sources() []page.Block {
	type source struct{ body, address, mark string }
	type figure struct{ property, words string }
	var order []source
	said := map[source][]figure{}
	of := map[source]map[figure][]string{} // the media that a figure is of
	var own, none []string
	for _, m := range r.cut.Media {
		if len(m.Citations) == 0 {
			words := m.Name + ": no source is given"
			if s := strings.TrimSpace(m.Source); s != "" {
				words = m.Name + ": " + withoutFiles(s)
			}
			own = append(own, words)
		}
		for _, c := range m.Citations {
			property := strings.ReplaceAll(c.Property, "_", " ")
			if c.Body == "" {
				none = append(none, property+" of "+m.Name+noneWords(c))
				continue
			}
			at, f := source{c.Body, c.Address, c.Mark}, figure{property, c.Figure}
			if of[at] == nil {
				order, of[at] = append(order, at), map[figure][]string{}
			}
			if of[at][f] == nil {
				said[at] = append(said[at], f)
			}
			of[at][f] = append(of[at][f], m.Name)
		}
	}
	figures := func(at source) string {
		var out []string
		for _, f := range said[at] {
			words := f.property + " of " + units.Listed(of[at][f])
			if f.words != "" {
				words += " (" + f.words + ")"
			}
			out = append(out, words)
		}
		return strings.Join(out, "; ")
	}
	out := []page.Block{&page.Para{Leads: true, Text: "Where the figures of the media come from. Densities are in kilograms per cubic metre unless a figure says otherwise, as the sources give them. Sources of what to take care of stand beside each caution."}}
	t := &page.Table{Cols: []page.Col{{Name: "Source"}, {Name: "How far to trust it"}, {Name: "Figures"}}}
	for _, s := range order {
		name := s.body
		if s.address != "" {
			name += ", " + s.address
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(name), page.Text(markWords[s.mark]), page.Text(figures(s))}})
	}
	if len(t.Rows) > 0 {
		out = append(out, t)
	}
	if len(own) > 0 {
		out = append(out, &page.List{Items: own})
	}
	if len(none) > 0 {
		out = append(out, &page.Para{Text: "Without a source, by common practice, from memory or worked out: " + strings.Join(none, "; ") + "."})
	}
	return out
}

// markWords say in a reader's words how a source was used.
var markWords = map[string]string{
	"seen":            "read",
	"seen in a copy":  "read in a copy",
	"memory":          "from memory",
	"computed":        "worked out from it",
	"common practice": "common practice",
}

// noneWords is what is known of a figure that no source stands behind.
func noneWords(c quotes.Citation) string {
	var in []string
	if c.Figure != "" && c.Figure != "no source" {
		in = append(in, c.Figure)
	}
	if c.Mark != "common practice" {
		in = append(in, markWords[c.Mark])
	}
	if len(in) == 0 {
		return ""
	}
	return " (" + strings.Join(in, ", ") + ")"
}
