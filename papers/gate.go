package papers

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"

	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Gate is one sheet to tick when a supplier's goods come to one site.
type Gate struct {
	Supplier string
	Site     string
	counted  []Counted
	job      *quotes.Job
}

// Gates are the sheets for all that was ordered, by supplier and site.
func Gates(job *quotes.Job, ordered []Ordered) []*Gate {
	var out []*Gate
	for _, c := range Count(job, ordered, nil) {
		if n := len(out); n > 0 && out[n-1].Supplier == c.Quote.Supplier && out[n-1].Site == c.Site {
			out[n-1].counted = append(out[n-1].counted, c)
		} else {
			out = append(out, &Gate{c.Quote.Supplier, c.Site, []Counted{c}, job})
		}
	}
	return out
}

// Page sets the sheet out with room to tick and to count.
func (g *Gate) Page(st Style) *page.Page {
	s := newScribe(g.job, st)
	var orders []string
	var of []*quotes.Quote
	lime := false
	count := &page.Table{Write: true, Cols: []page.Col{{Name: "Item"}, {Name: "Unit"}, {Name: "Ordered", Right: true}, {Name: "Came"}, {Name: "Refused"}, {Name: "Why"}}}
	look := &page.Table{Write: true, Cols: []page.Col{{Name: "Tick when looked at"}, {Name: "Right stone"}, {Name: "Size asked"}, {Name: "Smallest and largest of ten"}, {Name: "Clean and whole"}, {Name: "No fizz"}}}
	for _, c := range g.counted {
		q := c.Quote
		of = append(of, q)
		for _, o := range c.Orders {
			orders = appendNew(orders, o)
		}
		name := cmp.Or(q.Item, q.Medium.Name)
		count.Rows = append(count.Rows, page.Row{Cells: []page.Cell{page.Text(name), page.Text(unit(q)), quantity(c.Ordered)}})
		fizz := page.Text("not needed")
		if mayHoldLime(q) {
			fizz, lime = page.Cell{}, true
		}
		look.Rows = append(look.Rows, page.Row{Cells: []page.Cell{page.Text(name), {}, page.Text(cmp.Or(q.Size.Raw, "not stated")), {}, {}, fizz}})
	}
	p := &page.Page{
		Title:    "At the gate",
		Subtitle: fmt.Sprintf("%s, order %s%s", g.Supplier, inWords(orders), AtSite("to", g.Site)),
		Day:      g.job.Settings.Date.Time,
		Foot:     "At the gate: " + g.Supplier + AtSite("to", g.Site),
		Letter:   st.Letter,
	}
	where := &page.Table{Cols: []page.Col{{Name: "Where", Narrow: true}, {Name: "What was agreed"}}}
	for _, r := range [][2]string{{"Set down at", g.job.Settings.Buyer.Sites[g.Site].Drop}, {"Way in", g.job.Settings.Buyer.Sites[g.Site].Access}} {
		if r[1] != "" {
			where.Rows = append(where.Rows, page.Row{Cells: []page.Cell{page.Text(r[0]), page.Text(r[1])}})
		}
	}
	first := []page.Block{&page.Fields{Names: []string{"Day and time", "Driver, truck", "Ticket number", "Received by"}}}
	if len(where.Rows) > 0 {
		first = append([]page.Block{where}, first...)
	}
	p.Sections = []page.Section{
		{Heading: "The delivery", Sheet: "Gate", Blocks: first},
		{Heading: "Count, before anything is tipped", Blocks: []page.Block{count, &page.List{Items: g.how(s)}}},
		{Heading: "Look", Blocks: []page.Block{look}},
	}
	list := caution.Goods(of, st.Units)
	if !lime {
		list = slices.DeleteFunc(list, func(c caution.Caution) bool { return c.About == "lime" })
	}
	if len(list) > 0 {
		p.Sections = append(p.Sections, page.Section{Heading: "Take care", Blocks: []page.Block{&page.List{Items: cautionTexts(list)}}})
	}
	p.Sections = append(p.Sections, page.Section{Heading: "Before the driver leaves", Blocks: []page.Block{
		&page.Para{Leads: true, Text: "What is short or refused goes on the driver's ticket, and both sign it. Keep a copy and take a picture."},
		&page.Fields{Names: []string{"For the buyer", "Driver"}}}})
	return p
}

// how is how each kind of goods is counted.
func (g *Gate) how(s scribe) []string {
	var out []string
	for _, c := range g.counted {
		q := c.Quote
		sold := q.PackLitres * units.Litres(c.Ordered.Float())
		switch {
		case q.Form != quotes.Bulk:
			out = appendNew(out, "Bags and bulk bags: count them all; what is torn, wet through or not full to its mark is refused.")
		case q.Pack.IsMass:
			out = append(out, fmt.Sprintf("%s, by weight: the weighbridge ticket says how much; %s is about %s loose. Rain on the load is weight paid for.", cmp.Or(q.Item, q.Medium.Name), packs(q, c.Ordered), s.volume(sold)))
		default:
			out = append(out, fmt.Sprintf("%s, by volume: length × width × depth of the levelled load in the truck; %s loose was ordered.", cmp.Or(q.Item, q.Medium.Name), s.volume(sold)))
		}
	}
	return out
}

// CSV writes the sheet to type the count into: the file of arrivals that [ReadArrivals]
// reads. A row left open is a problem when it is read.
func (g *Gate) CSV(w io.Writer) error {
	head := fmt.Sprintf("%s%s: write what came under packs (0 if nothing did) or a measured volume; what is refused is a part of what came", g.Supplier, AtSite("to", g.Site))
	if _, err := io.WriteString(w, "# "+comment(head)+"\n"); err != nil {
		return fmt.Errorf("writing the sheet for %s: %w", g.Supplier, err)
	}
	rows := [][]string{ArrivalHeads}
	for _, c := range g.counted {
		row := make([]string, len(ArrivalHeads))
		row[slices.Index(ArrivalHeads, "quote")], row[slices.Index(ArrivalHeads, "site")] = c.Quote.Name, c.Site
		rows = append(rows, safe.Row(row...))
	}
	if err := csv.NewWriter(w).WriteAll(rows); err != nil {
		return fmt.Errorf("writing the sheet for %s: %w", g.Supplier, err)
	}
	return nil
}
