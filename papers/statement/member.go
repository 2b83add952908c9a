package statement

import (
	"cmp"
	"fmt"
	"slices"

	"mediabuy/optimise/share"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// mostBeds is how many beds a statement names before it puts the rest together, so that
// it keeps to one page.
const mostBeds = 10

// Member is the page for member i of the result, in plain words: what it gets, what it
// pays, what it would pay alone, and why this much.
func Member(res *share.Result, i int, system units.System) *page.Page {
	s := scribe{res, system}
	m := res.Members[i]
	set := res.Plan.Job.Settings
	p := s.newPage("Statement for "+m.Name, fmt.Sprintf("Part of one order for all members, prices of %s, in %s", set.Date, set.Currency), "Statement for "+m.Name)
	why := s.why(i)
	p.Sections = []page.Section{
		{Heading: "What you pay", Sheet: "Statement", Blocks: s.pays(i)},
		{Heading: "What you get", Blocks: s.gets(i)},
		{Heading: "Why this much", Blocks: why},
		{Heading: "Settled", Blocks: []page.Block{&page.Fields{Names: []string{"Paid by, date", "Received by, date"}}}},
	}
	if len(why) == 0 {
		p.Sections = slices.Delete(p.Sections, 2, 3)
	}
	return p
}

func (s scribe) pays(i int) []page.Block {
	m := s.res.Members[i]
	out := []page.Block{&page.Para{Text: fmt.Sprintf("You pay %s of the bill of %s.", s.money(m.Pays), s.money(s.res.Total)), Strong: true}}
	say := func(words string) { out = append(out, &page.Para{Text: words}) }
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
	case m.Saves.Sign() == 0:
		say(fmt.Sprintf("Alone you would pay the same, %s.", s.money(*m.Alone)))
	default:
		say(fmt.Sprintf("Alone you would pay %s, so you save %s.", s.money(*m.Alone), s.money(*m.Saves)))
	}
	if own := s.res.Plan.Bill.Rinsing; own.Sign() > 0 {
		say(fmt.Sprintf("The bill counts %s for the time of rinsing, at %s an hour; that part goes to whoever rinses.", s.money(own), s.money(s.res.Plan.Job.Settings.LabourRate)))
	}
	if b := s.res.Plan.Job.Settings.Buyer; b.Name != "" {
		say("Please pay it to " + b.Name + phoneWords(b) + ".")
	}
	return out
}

func phoneWords(b quotes.Buyer) string {
	if b.Phone == "" {
		return ""
	}
	return ", " + b.Phone
}

// plainly says how the bill is split, in the words of those who pay it.
var plainly = map[share.Rule]string{
	share.ByLitres:  "Each of you pays by the litres that fill your beds.",
	share.ByUse:     "Each of you pays for the goods that fill your beds, at the price the whole order reached, and for delivery by how much of it you use.",
	share.BySavings: "Each of you pays the same part of what you would pay alone.",
	share.Shapley:   "Each of you pays what your beds add to the bill. How much that is depends on who is counted before you, so it was worked out for every order in which you could have joined, and the average is taken.",
}

// why tells a member why it pays this much; nothing where it pays all.
func (s scribe) why(i int) []page.Block {
	if len(s.res.Members) == 1 {
		return nil
	}
	m := s.res.Members[i]
	var out []page.Block
	say := func(words string) {
		if words != "" {
			out = append(out, &page.Para{Text: words})
		}
	}
	say(s.plainly())
	if m.Leaving != nil {
		adds := m.Pays.Sub(*m.Leaving) // the bill of all, less that of the others alone
		if m.Alone != nil && adds.Equal(*m.Alone) && adds.Equal(m.Pays) {
			say(fmt.Sprintf("Your beds add to the bill of all just what they would cost alone, %s.", s.money(adds)))
		} else if m.Alone != nil && adds.Cmp(m.Pays) <= 0 && m.Pays.Cmp(*m.Alone) <= 0 && adds.Sign() >= 0 {
			say(fmt.Sprintf("Your beds add %s to the bill of all; alone they would cost %s. What you pay lies between the two.", s.money(adds), s.money(*m.Alone)))
		}
		if m.Leaving.Sign() == 0 {
			say("If you left, the others would pay the same as now.")
		} else {
			say(fmt.Sprintf("If you left, the others would pay %s between them.", s.moreOrLess(*m.Leaving)))
		}
	}
	say(s.alone(m.Name))
	return out
}

// plainly is how the bill is split and what speaks for it, without a name of a rule.
func (s scribe) plainly() string {
	sp := s.res.Chosen
	known := 0
	for _, g := range s.res.Groups {
		if !g.Unsettled() {
			known++
		}
	}
	if known == 0 && len(s.res.Groups) > 0 {
		return cmp.Or(plainly[sp.Rule], "The bill is split in a way that should leave everyone content.") +
			" Time was up before it was known what any of you would pay alone, so it could not be held against that."
	}
	all := s.res.Exact && known == len(s.res.Groups)
	if sp.Rule == share.Nucleolus {
		switch {
		case sp.Stable && all:
			return "The bill is split so that none of you, and no group of you, would pay less by ordering alone. Of all such splits this one looks first after those who gain least from ordering together."
		case sp.Stable:
			return fmt.Sprintf("The bill is split so that none of the %d members and groups that were looked at would pay less by ordering alone. Of all such splits this one looks first after those who gain least from ordering together.", known)
		}
		return fmt.Sprintf("However the bill is split, some of you could do a little better by ordering alone. This split makes the most that anyone could gain by that as small as it can be: %s.", s.money(sp.Objections[0].By))
	}
	words := plainly[sp.Rule]
	switch {
	case sp.Stable && all:
		return words + " None of you, and no group of you, would pay less by ordering alone."
	case sp.Stable:
		return words + fmt.Sprintf(" None of the %d members and groups that were looked at would pay less by ordering alone.", known)
	}
	return words + " But " + sp.Objections[0].Sentence(s.res.Plan.Job.Settings.Currency) + "."
}

// gets is a member's beds, what fills them, and where it is set down.
func (s scribe) gets(i int) []page.Block {
	m := s.res.Members[i]
	each, _ := volumes{s}.members()
	out := []page.Block{s.bedTable(m, each[i]), s.mediaTable(m, each[i])}
	if (volumes{s}).given(m, each[i]) {
		out = append(out, &page.Para{Text: "Volumes are rounded so that they add up."})
	}
	set := s.res.Plan.Job.Settings
	var sites, where []string
	for _, u := range m.Used {
		if !slices.Contains(sites, u.Site) {
			sites = append(sites, u.Site)
			if drop := set.Buyer.Sites[u.Site].Drop; drop != "" {
				if u.Site != "" {
					drop = u.Site + ", " + drop
				}
				where = append(where, drop)
			}
		}
	}
	words := ""
	if len(where) > 0 {
		words = "It is set down at " + units.Listed(where) + "."
	}
	if !set.NeedBy.IsZero() {
		if words != "" {
			words += " "
		}
		words += "It is asked for by " + set.NeedBy.String() + "."
	}
	if words != "" {
		out = append(out, &page.Para{Text: words})
	}
	return out
}

// bedTable is a member's beds; whole is the printed figure that they add up to.
func (s scribe) bedTable(m share.Member, whole int64) *page.Table {
	vol := volumes{s}
	t := &page.Table{Cols: append([]page.Col{{Name: "Bed"}, {Name: "Your part", Right: true}}, vol.cols()...)}
	named := len(m.Beds)
	if named > mostBeds {
		named = mostBeds - 1
	}
	figures, rest := vol.beds(m, whole), whole
	for i, b := range m.Beds[:named] {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(bedName(b.Bed)), page.Text(percent(b.Share)), vol.cell(figures[i])}})
		rest -= figures[i]
	}
	if more := len(m.Beds) - named; more > 0 {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(fmt.Sprintf("%d beds more", more)), {}, vol.cell(rest)}})
	}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: []page.Cell{page.Text("All"), {}, vol.cell(whole)}})
	return t
}

// mediaTable is what fills a member's beds; whole is the printed figure that it adds up
// to.
func (s scribe) mediaTable(m share.Member, whole int64) *page.Table {
	vol := volumes{s}
	t := &page.Table{Cols: append([]page.Col{{Name: "What fills them"}, {Name: "As the supplier calls it"}, {Name: "From"}}, vol.cols()...)}
	sites := len(quotes.Sites(s.res.Plan.Job)) > 1
	if sites {
		t.Cols = slices.Insert(t.Cols, 0, page.Col{Name: "Site"})
	}
	figures := vol.media(m, whole)
	for i, u := range m.Used {
		called := u.Quote.Item
		if u.Quote.Apart != (quotes.Apart{}) {
			called = u.Quote.Called()
		}
		cells := []page.Cell{page.Text(u.Quote.Medium.Name), page.Text(called), page.Text(u.Quote.Supplier), vol.cell(figures[i])}
		if sites {
			cells = slices.Insert(cells, 0, page.Text(u.Site))
		}
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	return t
}
