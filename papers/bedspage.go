package papers

import (
	"fmt"
	"strings"

	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/papers/statement"
	"mediabuy/quotes"
	"mediabuy/units"
)

// beds is what each table carries and a picture of each kind of bed.
func (r *report) beds() []page.Block {
	out := []page.Block{r.weights(), &page.Para{Text: caution.Frames.Words},
		&page.Para{Leads: true, Text: "The pictures are cuts through one bed each: depths are to scale, lengths are not. Within a layer what is drawn side by side may also be mixed."}}
	for _, p := range r.cut.Each() {
		out = append(out, p)
	}
	return out
}

// weights is the table of flooded weights against limits.
func (r *report) weights() page.Block {
	t := &page.Table{Caption: "Weight at the worst moment: flooded, pump on, drain blocked", Cols: []page.Col{{Name: "Frame"}, {Name: "Beds"}, {Name: "Usual", Right: true}, {Name: "Heavy", Right: true}, {Name: "Limit", Right: true}, {Name: "Used", Right: true}}}
	add := func(name, beds string, usual, heavy units.Kilograms, limit *units.Kilograms) {
		w := heavy
		if r.Plan.Job.Settings.Weights == quotes.UsualWeights {
			w = usual
		}
		most, used := "not given", ""
		if limit != nil {
			most = r.mass(*limit)
			if *limit > 0 {
				used = fmt.Sprintf("%.0f %%", 100*float64(w / *limit))
			}
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(name), page.Text(beds), page.Text(r.mass(usual)), page.Text(r.mass(heavy)), page.Text(most), page.Text(used)}})
	}
	for _, l := range r.Plan.Tables {
		add("table "+l.Name, strings.Join(l.Beds, ", "), l.Usual, l.Heavy, l.Limit)
	}
	for _, f := range r.Plan.Fills {
		if f.Bed.Table == "" {
			add("its own", f.Bed.Name, f.Usual, f.Heavy, f.Bed.Limit)
		}
	}
	return t
}

// members is what each member gets and pays, and the split held against every
// group of them.
func (r *report) members() []page.Section {
	if r.Split == nil {
		return []page.Section{{Heading: "Who pays what", Sheet: "Members", Blocks: []page.Block{&page.Para{Text: "No bed names a member, so there is nobody to list here."}}}}
	}
	return statement.Sections(r.Split, r.Units)
}
