package statement

import (
	"fmt"

	"mediabuy/optimise/share"
	"mediabuy/units"
)

// mostListed is how many groups a list names before it gives their number.
const mostListed = 10

// ruleNames are the rules as headings.
var ruleNames = map[share.Rule]string{
	share.Nucleolus: "Nucleolus", share.Shapley: "Shapley", share.BySavings: "Savings", share.ByUse: "Use", share.ByLitres: "Litres",
}

// Treasurer is the page for whoever collects the money: every part, every rule,
// every group that would rather go alone, and where to take delivery.
func Treasurer(res *share.Result, system units.System) string {
	p := &page{res: res, system: system}
	if len(res.Members) == 1 {
		p.line("The bill is %s.", p.money(res.Total))
		p.line("%s", res.Chosen.Reason)
	} else {
		p.line("The bill of %s is split among %d members by the rule %q.", p.money(res.Total), len(res.Members), res.Chosen.Rule)
		p.line("%s", res.Chosen.Reason)
	}
	if !res.Proven {
		p.line("%s", unproven)
	}
	p.heading("who pays what")
	p.parts()
	if len(res.Members) == 1 {
		return p.String()
	}
	p.noPlan()
	p.heading("better off alone")
	p.objections()
	p.heading("the other rules")
	p.rules()
	if len(res.Hosts) > 0 {
		p.heading("where to take delivery")
		p.hosts()
	}
	return p.String()
}

func (p *page) parts() {
	var rows [][]string
	var litres units.Litres
	for _, m := range p.res.Members {
		rows = append(rows, []string{m.Name, p.volume(m.Litres), p.money(m.Pays), p.maybe(m.Alone), p.maybe(m.Saves), p.maybe(m.Leaving)})
		litres += m.Litres
	}
	rows = append(rows, []string{"All", p.volume(litres), p.money(p.res.Total), "", "", ""})
	heads := []string{"Member", "Placed", "Pays", "Alone", "Saves", "Others pay if it left"}
	if len(p.res.Members) == 1 {
		heads = heads[:3]
		for i := range rows {
			rows[i] = rows[i][:3]
		}
	}
	p.grid(1, true, heads, rows)
}

// noPlan says who cannot order alone, and so cannot object.
func (p *page) noPlan() {
	n := 0
	for _, g := range p.res.Groups {
		if g.Cost != nil {
			continue
		}
		if n++; n > mostListed {
			continue
		}
		p.item("%s could not order alone: no purchase of these quotes fills just those beds, so going alone is no objection", share.Words(g.Members))
	}
	if n > mostListed {
		p.item("nor could %d groups more", n-mostListed)
	}
}

func (p *page) objections() {
	sp := p.res.Chosen
	for i, o := range sp.Objections {
		if i == mostListed {
			p.item("and %d groups more", len(sp.Objections)-i)
			break
		}
		p.item("%s", o.Sentence(p.res.Plan.Job.Settings.Currency))
	}
	switch {
	case p.res.Exact && sp.Stable:
		p.item("nobody: all %d groups of members were solved as orders of their own", len(p.res.Groups))
	case sp.Stable:
		p.item("nobody found: of all groups of members, %d were solved as orders of their own", len(p.res.Groups))
	case !p.res.Exact:
		p.item("of all groups of members, %d were solved as orders of their own", len(p.res.Groups))
	}
	if a := p.res.Apart; a != nil {
		words := ""
		for i, g := range a.Orders {
			if i > 0 {
				words += "; "
			}
			words += share.Words(g)
		}
		p.item("%d separate orders (%s) would come to %s, %s less than one order: one order is held to limits of stock, counts or ways of delivery that several are not",
			len(a.Orders), words, p.money(a.Total), p.money(p.res.Total.Sub(a.Total)))
	}
}

func (p *page) rules() {
	heads := []string{"Member"}
	for _, sp := range p.res.Splits {
		heads = append(heads, ruleNames[sp.Rule])
	}
	var rows [][]string
	for i, m := range p.res.Members {
		r := []string{m.Name}
		for _, sp := range p.res.Splits {
			cell := p.money(sp.Pays[i])
			if sp.Error != nil {
				cell += fmt.Sprintf(" ± %.2f", sp.Error[i])
			}
			r = append(r, cell)
		}
		rows = append(rows, r)
	}
	last := []string{"Groups better off alone"}
	most := []string{"  and by at most"}
	for _, sp := range p.res.Splits {
		if sp.Stable {
			last, most = append(last, "none"), append(most, "-")
			continue
		}
		last, most = append(last, fmt.Sprint(len(sp.Objections))), append(most, p.money(sp.Objections[0].By))
	}
	p.grid(1, false, heads, append(rows, last, most))
	for _, sp := range p.res.Splits {
		if sp.Error != nil {
			p.line("± is one standard error of the estimate, in money.")
		}
	}
}

func (p *page) hosts() {
	best := p.res.Hosts[0]
	switch {
	case best.Total == nil:
		p.line("No site can take delivery for all.")
	case best.Saves.Sign() > 0:
		p.line("%s should host: one delivery place there makes the bill %s, %s less than bringing goods to every site.", best.Site, p.money(*best.Total), p.money(*best.Saves))
	default:
		p.line("Nobody need host: goods brought to each site cost no more than one delivery place.")
	}
	var rows [][]string
	for _, h := range p.res.Hosts {
		rows = append(rows, []string{h.Site, share.Words(h.Members), p.maybe(h.Total), p.maybe(h.Saves)})
	}
	p.grid(2, false, []string{"All to", "Members there", "Bill", "Saves"}, rows)
	p.line("Carrying goods on from there is not priced.")
}
