package papers

import (
	"mediabuy/papers/page"
	"mediabuy/quotes"
)

// asker is who writes to a supplier and where goods are set down: the head of every
// paper that is sent.
type asker struct {
	quotes.Buyer
	to    string
	rows  [][2]string
	blank []string
}

// add is one line of it; what the job does not say gets room to be written in.
func (a *asker) add(name, words string) {
	if words == "" {
		a.blank = append(a.blank, name)
		return
	}
	a.rows = append(a.rows, [2]string{name, words})
}

// spot is where goods are set down at a site, one of several or the only one, and how
// a truck gets there.
func (a *asker) spot(site string, several bool) {
	s := a.Sites[site]
	in := ""
	if site != "" {
		a.add("Deliver to", site)
		if several {
			in = ", " + site
		}
	}
	a.add("Set down at"+in, s.Drop)
	a.add("Way in for a truck"+in, s.Access)
}

// blocks set it out under a heading of its own and a day.
func (a *asker) blocks(about string, day quotes.Date) []page.Block {
	rows, blank := a.rows, a.blank
	a.rows, a.blank = nil, nil
	a.add("From", a.Name)
	a.add("Phone", a.Phone)
	if a.Email != "" {
		a.add("E-mail", a.Email)
	}
	a.add("Address", a.Address)
	a.add("To", a.to)
	t := &page.Table{Cols: []page.Col{{Name: about, Narrow: true}, {Name: "dated " + day.String()}}}
	for _, r := range append(a.rows, rows...) {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(r[0]), page.Text(r[1])}})
	}
	out := []page.Block{t}
	if all := append(a.blank, blank...); len(all) > 0 {
		out = append(out, &page.Fields{Names: all})
	}
	return out
}
