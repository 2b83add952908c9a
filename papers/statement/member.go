package statement

import (
	"fmt"
	"slices"

	"mediabuy/optimise/share"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Member is the statement of member i of the result: what it pays, why, what it
// saves, and what fills its beds.
func Member(res *share.Result, i int, system units.System) *page.Page {
	s := scribe{res, system}
	m := res.Members[i]
	set := res.Plan.Job.Settings
	p := s.newPage("Statement for "+m.Name, fmt.Sprintf("Part of one order for all members, prices of %s, in %s", set.Date, set.Currency), "Statement for "+m.Name)
	p.Sections = []page.Section{
		{Heading: "What you pay", Sheet: "Statement", Blocks: s.pays(i)},
		{Heading: "Your beds", Blocks: []page.Block{s.bedTable(m)}},
		{Heading: "What fills them", Blocks: []page.Block{s.mediaTable(m)}},
		{Heading: "Settled", Blocks: []page.Block{&page.Fields{Names: []string{"Paid by, date", "Received by, date"}}}},
	}
	return p
}

func (s scribe) pays(i int) []page.Block {
	m := s.res.Members[i]
	out := []page.Block{&page.Para{Text: fmt.Sprintf("You pay %s of the bill of %s.", s.money(m.Pays), s.money(s.res.Total)), Strong: true}}
	say := func(words string) {
		if words != "" {
			out = append(out, &page.Para{Text: words})
		}
	}
	switch {
	case len(s.res.Members) == 1:
	case m.Alone == nil && !m.Proven:
		say("What your beds alone would cost was not settled in time, so there is nothing to compare it with.")
	case m.Alone == nil:
		say("There is no order for your beds alone, so there is nothing to compare it with.")
		var why []string
		for _, o := range m.Why {
			why = append(why, o.Remedy)
		}
		if len(why) > 0 {
			out = append(out, &page.List{Items: why})
		}
	case m.Saves.Sign() < 0:
		say(fmt.Sprintf("Alone you would pay %s, which is %s less.", s.money(*m.Alone), s.money(m.Saves.Neg())))
	default:
		say(fmt.Sprintf("Alone you would pay %s, so you save %s.", s.money(*m.Alone), s.money(*m.Saves)))
	}
	if m.Leaving != nil {
		say(fmt.Sprintf("If you left, the others would pay %s between them.", s.moreOrLess(*m.Leaving)))
	}
	say(s.res.Chosen.Reason)
	if len(s.res.Members) > 1 {
		say(s.alone())
	}
	return out
}

func (s scribe) bedTable(m share.Member) *page.Table {
	t := &page.Table{Cols: append([]page.Col{{Name: "Bed"}, {Name: "Your part", Right: true}}, s.volumeCols()...)}
	for _, b := range m.Beds {
		cells := []page.Cell{page.Text(bedName(b.Bed)), page.Text(percent(b.Share))}
		t.Rows = append(t.Rows, page.Row{Cells: append(cells, s.volumeCells(b.Litres)...)})
	}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: append([]page.Cell{page.Text("All"), {}}, s.volumeCells(m.Litres)...)})
	return t
}

func (s scribe) mediaTable(m share.Member) *page.Table {
	t := &page.Table{Cols: append([]page.Col{{Name: "Supplier"}, {Name: "Quote"}, {Name: "Medium"}}, s.volumeCols()...)}
	sites := len(quotes.Sites(s.res.Plan.Job)) > 1
	if sites {
		t.Cols = slices.Insert(t.Cols, 0, page.Col{Name: "Site"})
	}
	for _, u := range m.Used {
		cells := []page.Cell{page.Text(u.Quote.Supplier), page.Text(u.Quote.Name), page.Text(u.Quote.Medium.Name)}
		if sites {
			cells = slices.Insert(cells, 0, page.Text(u.Site))
		}
		t.Rows = append(t.Rows, page.Row{Cells: append(cells, s.volumeCells(units.Litres(u.Litres))...)})
	}
	return t
}
