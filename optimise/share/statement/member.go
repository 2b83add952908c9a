package statement

import (
	"fmt"
	"slices"

	"mediabuy/optimise/share"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Member is the statement of member i of the result: what it pays, why, what it
// saves, and what fills its beds.
func Member(res *share.Result, i int, system units.System) string {
	m := res.Members[i]
	p := &page{res: res, system: system}
	p.line("STATEMENT FOR %s", m.Name)
	p.line("Your part of the bill of %s is %s.", p.money(res.Total), p.money(m.Pays))
	switch {
	case len(res.Members) == 1:
	case m.Alone == nil:
		p.line("There is no order for your beds alone, so there is nothing to compare it with.")
		for _, o := range m.Why {
			p.item("%s", o.Remedy)
		}
	case m.Saves.Sign() < 0:
		p.line("Alone you would pay %s, which is %s less.", p.money(*m.Alone), p.money(m.Saves.Neg()))
	default:
		p.line("Alone you would pay %s, so you save %s.", p.money(*m.Alone), p.money(*m.Saves))
	}
	if m.Leaving != nil {
		p.line("If you left, the others would pay %s between them.", p.moreOrLess(*m.Leaving))
	}
	p.line("%s", res.Chosen.Reason)
	if !res.Proven {
		p.line("%s", unproven)
	}
	p.heading("your beds")
	var rows [][]string
	for _, b := range m.Beds {
		name := b.Bed.Name
		if b.Bed.Count > 1 {
			name = fmt.Sprintf("%s (%d alike)", name, b.Bed.Count)
		}
		rows = append(rows, []string{name, percent(b.Share), p.volume(b.Litres)})
	}
	rows = append(rows, []string{"All", "", p.volume(m.Litres)})
	p.grid(1, true, []string{"Bed", "Your part", "Placed"}, rows)
	p.heading("what fills them")
	rows = nil
	sites := len(quotes.Sites(res.Plan.Job)) > 1
	for _, u := range m.Used {
		r := []string{u.Quote.Supplier, u.Quote.Name, u.Quote.Medium.Name, p.volume(units.Litres(u.Litres))}
		if sites {
			r = slices.Insert(r, 0, u.Site)
		}
		rows = append(rows, r)
	}
	heads := []string{"Supplier", "Quote", "Medium", "Placed"}
	if sites {
		heads = slices.Insert(heads, 0, "Site")
	}
	p.grid(len(heads)-1, false, heads, rows)
	return p.String()
}

const unproven = "Not proven: time was up for some of the orders compared, and a cheaper one may exist."

func percent(f float64) string { return fmt.Sprintf("%.4g %%", 100*f) }
