package statement

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise/share"
	"mediabuy/papers/page"
	"mediabuy/units"
)

// mostListed is how many groups a list names before it gives their number.
const mostListed = 10

// ruleNames are the rules as headings.
var ruleNames = map[share.Rule]string{
	share.Nucleolus: "Nucleolus", share.Shapley: "Shapley", share.BySavings: "Savings", share.ByUse: "Use", share.ByLitres: "Volume",
}

// Treasurer is the page for whoever collects the money: every part, every rule,
// every group that would rather go alone, and where to take delivery.
func Treasurer(res *share.Result, system units.System) *page.Page {
	s := scribe{res, system}
	set := res.Plan.Job.Settings
	p := s.newPage("The bill among the members", fmt.Sprintf("For the treasurer, prices of %s, in %s", set.Date, set.Currency), "The bill among the members")
	p.Sections = Sections(res, system)
	var names []string
	for _, m := range res.Members {
		names = append(names, fmt.Sprintf("%s: %s", m.Name, s.money(m.Pays)))
	}
	p.Sections = append(p.Sections, page.Section{Heading: "Received, with date", Blocks: []page.Block{&page.Fields{Names: names}}})
	return p
}

// Sections are what the treasurer's page says, for a report on the purchase. In a
// spreadsheet they share one sheet.
func Sections(res *share.Result, system units.System) []page.Section {
	s := scribe{res, system}
	first := page.Section{Heading: "Who pays what", Sheet: "Members"}
	if len(res.Members) == 1 {
		first.Blocks = []page.Block{&page.Para{Text: fmt.Sprintf("The bill is %s.", s.money(res.Total)), Strong: true}, &page.Para{Text: res.Chosen.Reason}, s.parts()}
		first.Blocks = append(first.Blocks, s.collected()...)
		return []page.Section{first}
	}
	lead := fmt.Sprintf("The bill of %s is split among %d members by the rule %q.", s.money(res.Total), len(res.Members), res.Chosen.Rule)
	first.Blocks = []page.Block{&page.Para{Text: lead, Strong: true, Leads: true}, &page.Para{Text: res.Chosen.Reason, Leads: true}, s.parts()}
	first.Blocks = append(first.Blocks, s.collected()...)
	if words := s.alone(""); words != "" {
		first.Blocks = append(first.Blocks, &page.Para{Text: words})
	}
	out := []page.Section{first, {Heading: "Who would be better off alone", Blocks: s.groups()}, {Heading: "The split by every rule", Blocks: s.rules()}}
	if len(res.Hosts) > 0 {
		out = append(out, page.Section{Heading: "Who should host the delivery", Blocks: s.hosts()})
	}
	return out
}

// collected tells the treasurer how much of what members pay goes to suppliers, where
// some of it pays for time.
func (s scribe) collected() []page.Block {
	own := s.res.Plan.Bill.Rinsing
	if own.IsZero() {
		return nil
	}
	return []page.Block{&page.Para{Text: fmt.Sprintf("Suppliers are paid %s of it. %s is the time of rinsing at %s an hour: it is owed to whoever rinses, and no supplier sends a bill for it.",
		s.money(s.res.Total.Sub(own)), s.money(own), s.money(s.res.Plan.Job.Settings.LabourRate))}}
}

// parts is the table of who has which beds and pays what.
func (s scribe) parts() *page.Table {
	t := &page.Table{Cols: append([]page.Col{{Name: "Member"}, {Name: "Beds"}}, volumes{s}.cols()...)}
	pays := len(t.Cols) // the column
	t.Cols = append(t.Cols, page.Col{Name: "Pays", Right: true})
	several := len(s.res.Members) > 1
	if several {
		t.Cols = append(t.Cols, page.Col{Name: "Alone", Right: true}, page.Col{Name: "Saves", Right: true}, page.Col{Name: "Leaving costs others", Right: true})
	}
	vol := volumes{s}
	each, all := vol.members()
	for i, m := range s.res.Members {
		cells := []page.Cell{page.Text(m.Name), page.Text(bedNames(m)), vol.cell(each[i]), s.moneyCell(m.Pays)}
		if several {
			saves := s.maybeCell(m.Saves, m.Proven)
			if m.Saves != nil {
				saves.Formula = func(at func(int, int) string) string { return at(i, pays+1) + "-" + at(i, pays) }
			}
			cells = append(cells, s.maybeCell(m.Alone, m.Alone != nil || m.Proven), saves, s.maybeCell(m.Leaving, !s.unsettled(s.others(i))))
		}
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	cells := []page.Cell{page.Text("All"), {}, vol.cell(all), s.moneyCell(s.res.Total)}
	for j := 2; j <= pays; j++ {
		cells[j].Formula = func(at func(int, int) string) string {
			return fmt.Sprintf("SUM(%s:%s)", at(0, j), at(len(s.res.Members)-1, j))
		}
	}
	t.Rows = append(t.Rows, page.Row{Kind: page.Total, Cells: cells})
	return t
}

// groups is every group that would pay less by itself, how far that is known,
// and who cannot order alone, and so cannot object.
func (s scribe) groups() []page.Block {
	sp := s.res.Chosen
	var points, cannot, open []string
	for _, o := range sp.Objections {
		points = append(points, o.Sentence(s.res.Plan.Job.Settings.Currency))
	}
	points = atMost(points)
	solved := 0
	for _, g := range s.res.Groups {
		switch {
		case g.Unsettled():
			open = append(open, units.Listed(g.Members)+": what they would pay alone was not settled in time")
		case g.Cost == nil:
			cannot = append(cannot, units.Listed(g.Members)+" could not order alone: no purchase of these quotes fills just those beds, so going alone is no objection")
		}
		if !g.Unsettled() {
			solved++
		}
	}
	switch {
	case s.res.Exact && sp.Stable && len(open) == 0:
		points = append(points, fmt.Sprintf("nobody: all %d groups of members were solved as orders of their own", solved))
	case sp.Stable:
		points = append(points, fmt.Sprintf("nobody found: of all groups of members, %d were solved as orders of their own", solved))
	case !s.res.Exact || len(open) > 0:
		points = append(points, fmt.Sprintf("of all groups of members, %d were solved as orders of their own", solved))
	}
	points = append(append(points, atMost(open)...), atMost(cannot)...)
	if a := s.res.Apart; a != nil {
		var orders []string
		for _, g := range a.Orders {
			orders = append(orders, units.Listed(g))
		}
		points = append(points, fmt.Sprintf("%d separate orders (%s) would come to %s, %s less than one order: one order is held to limits of stock, counts or ways of delivery that several are not",
			len(a.Orders), strings.Join(orders, "; "), s.money(a.Total), s.money(s.res.Total.Sub(a.Total))))
	}
	return []page.Block{&page.List{Items: points}}
}

// atMost cuts a list of groups.
func atMost(list []string) []string {
	if len(list) <= mostListed {
		return list
	}
	return append(list[:mostListed:mostListed], fmt.Sprintf("and so for %d groups more", len(list)-mostListed))
}

func (s scribe) rules() []page.Block {
	t := &page.Table{Cols: []page.Col{{Name: "Member"}}}
	last := page.Row{Kind: page.Sub, Cells: []page.Cell{page.Text("Groups better off alone")}}
	most := page.Row{Kind: page.Sub, Cells: []page.Cell{page.Text("and by at most")}}
	estimated := false
	for _, sp := range s.res.Splits {
		t.Cols = append(t.Cols, page.Col{Name: ruleNames[sp.Rule], Right: true})
		estimated = estimated || sp.Error != nil
		if sp.Stable {
			last.Cells, most.Cells = append(last.Cells, page.Text("none")), append(most.Cells, page.Cell{})
			continue
		}
		n := len(sp.Objections)
		last.Cells, most.Cells = append(last.Cells, page.Num(fmt.Sprint(n), float64(n), 0)), append(most.Cells, s.moneyCell(sp.Objections[0].By))
	}
	for i, m := range s.res.Members {
		r := page.Row{Cells: []page.Cell{page.Text(m.Name)}}
		for _, sp := range s.res.Splits {
			cell := s.moneyCell(sp.Pays[i])
			if sp.Error != nil {
				cell.Text += fmt.Sprintf(" ± %.2f", sp.Error[i])
			}
			r.Cells = append(r.Cells, cell)
		}
		t.Rows = append(t.Rows, r)
	}
	t.Rows = append(t.Rows, last)
	if slices.ContainsFunc(s.res.Splits, func(sp share.Split) bool { return !sp.Stable }) {
		t.Rows = append(t.Rows, most)
	}
	out := []page.Block{t}
	if estimated {
		out = append(out, &page.Para{Text: "± is one standard error of the estimate, in money."})
	}
	return out
}

func (s scribe) hosts() []page.Block {
	best := s.res.Hosts[0]
	var lead string
	switch {
	case best.Total == nil:
		lead = "No site was found that can take delivery for all."
	case best.Saves.Sign() > 0:
		lead = fmt.Sprintf("%s should host, where %s: one delivery place there makes the bill %s, %s less than bringing goods to every site.",
			best.Site, have(best.Members), s.money(*best.Total), s.money(*best.Saves))
		if also := s.alsoHosts(); len(also) > 0 {
			lead += fmt.Sprintf(" Delivery to %s would cost the same.", units.Listed(also))
		}
	default:
		lead = "Nobody need host: goods brought to each site cost no more than one delivery place."
	}
	t := &page.Table{Cols: []page.Col{{Name: "All to"}, {Name: "Members there"}, {Name: "Bill", Right: true}, {Name: "Saves", Right: true}}}
	for _, h := range s.res.Hosts {
		settled := h.Total != nil || h.Proven
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(h.Site), page.Text(units.Listed(h.Members)), s.maybeCell(h.Total, settled), s.maybeCell(h.Saves, settled)}})
	}
	return []page.Block{&page.Para{Text: lead, Leads: true}, t, &page.Para{Text: "Carrying goods on from there is not priced."}}
}

// alsoHosts are the sites that would do at the same bill as the first.
func (s scribe) alsoHosts() []string {
	var out []string
	for _, h := range s.res.Hosts[1:] {
		if h.Total != nil && h.Total.Equal(*s.res.Hosts[0].Total) {
			out = append(out, h.Site)
		}
	}
	return out
}

// have is "ash has its beds" or "ash and birch have their beds".
func have(members []string) string {
	if len(members) == 1 {
		return members[0] + " has its beds"
	}
	return units.Listed(members) + " have their beds"
}
