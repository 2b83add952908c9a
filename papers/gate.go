package papers

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/papers/received"
	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Gate is one sheet to tick when a supplier's goods come to one site.
type Gate struct {
	Supplier string
	Site     string
	counted  []received.Counted
	job      *quotes.Job
}

// Gates are the sheets for all that was ordered, by supplier and site.
func Gates(job *quotes.Job, ordered []received.Ordered) []*Gate {
	var out []*Gate
	for _, c := range received.Count(job, ordered, nil, job.Settings.Date) {
		if n := len(out); n > 0 && out[n-1].Supplier == c.Quote.Supplier && out[n-1].Site == c.Site {
			out[n-1].counted = append(out[n-1].counted, c)
		} else {
			out = append(out, &Gate{c.Quote.Supplier, c.Site, []received.Counted{c}, job})
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
		name := q.Called()
		count.Rows = append(count.Rows, page.Row{Cells: []page.Cell{page.Text(name), page.Text(unit(q)), quantity(c.Ordered)}})
		fizz := page.Text("not needed")
		if mayHoldLime(q) {
			fizz, lime = page.Cell{}, true
		}
		look.Rows = append(look.Rows, page.Row{Cells: []page.Cell{page.Text(name), {}, page.Text(cmp.Or(q.Size.Raw, "not stated")), {}, {}, fizz}})
	}
	which := ""
	if len(orders) > 0 {
		which = ", order " + units.Listed(orders)
	}
	p := &page.Page{
		Title:    "At the gate",
		Subtitle: g.Supplier + which + AtSite("to", g.Site),
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
		{Heading: "Look", Blocks: []page.Block{look, &page.List{Items: g.looks(lime)}}},
	}
	// Signed on the first sheet, whatever cautions run on to the next.
	p.Sections = append(p.Sections, page.Section{Heading: "Before the driver leaves", Blocks: []page.Block{
		&page.Para{Leads: true, Text: "What is short or refused goes on the driver's ticket, and both sign it. Keep a copy and take a picture."},
		&page.Fields{Names: []string{"For the buyer", "Driver"}}}})
	list := caution.Goods(of, g.job.Settings.Currency, st.Units)
	if !lime {
		list = slices.DeleteFunc(list, func(c caution.Caution) bool { return c.About == "lime" })
	}
	if len(list) > 0 {
		p.Sections = append(p.Sections, page.Section{Heading: "Take care", Blocks: []page.Block{&page.List{Items: cautionTexts(list)}}})
	}
	return p
}

// heapShape is the share of the box around a cone that the cone fills: π/12 of
// width × width × height (computed).
const heapShape = 0.262

// how is how each kind of goods is counted while the driver is there.
func (g *Gate) how(s scribe) []string {
	var out []string
	bags, heap := false, false
	for _, c := range g.counted {
		q := c.Quote
		name, sold := q.Called(), q.PackLitres*units.Litres(c.Ordered.Float())
		switch {
		case q.Form == quotes.Bag:
			bags = bags || q.PackMass <= quotes.HeaviestBag // what no hand lifts is poured by none
			out = append(out, fmt.Sprintf("%s: count %s; what is torn or wet through is refused.", name, severalOf(c.Ordered, "bag")))
		case q.Form == quotes.Sack:
			out = append(out, fmt.Sprintf("%s: count %s, each full to its mark.", name, severalOf(c.Ordered, "bulk bag")))
		case q.Pack.IsMass:
			out = append(out, fmt.Sprintf("%s: read the weighbridge ticket. %s was ordered; at %s that is about %s loose, and rain on the load is weight paid for.",
				name, q.PacksWords(c.Ordered), units.FormatDensity(q.DryDensity().Usual, s.Units), s.volume(sold)))
		default:
			heap = true
			out = append(out, fmt.Sprintf("%s: measure the heap or the bed of the truck. %s loose was ordered.", name, s.volume(sold)))
		}
	}
	if heap {
		out = append(out, fmt.Sprintf("A heap with a round foot holds about %.3f × width × width × height (a cone, computed); a truck bed holds length × width × depth of the levelled load.", heapShape))
	}
	if bags {
		out = append(out, "Pour one bag loosely into a box that was measured. One bag may be a little short while the lot is right on average, so count on several (common practice, no source).")
	}
	return out
}

// severalOf is "1 bag" and "2 bags".
func severalOf(n units.Decimal, thing string) string {
	if n.Equal(units.DecimalFromInt(1)) {
		return "1 " + thing
	}
	return n.String() + " " + thing + "s"
}

// looks is how the columns of the look are filled in.
func (g *Gate) looks(lime bool) []string {
	out := []string{"Lay ten stones taken at random along a ruler: a few outside the size asked are normal. Where no size was stated, write down the smallest and the largest."}
	if slices.ContainsFunc(g.counted, func(c received.Counted) bool { return c.Quote.Size.Known && strings.Contains(c.Quote.Size.Raw, "#57") }) {
		out = append(out, "A load of No. 57 may have 10 % finer than 4.75 mm and 5 % coarser than 25 mm (ASTM D448, Standard Classification for Sizes of Aggregate for Road and Bridge Construction, as printed in Colorado Department of Transportation, Standard Specifications, section 703; read there).")
	}
	refused := "The wrong stone or the wrong size is refused."
	if lime {
		refused = "Put an acid drop on several stones, as below. What fizzes is refused, and so is the wrong stone or the wrong size."
	}
	return append(out, refused)
}

// CSV writes the sheet to type the count into: the file of arrivals that [received.ReadArrivals]
// reads. A row left open is a problem when it is read.
func (g *Gate) CSV(w io.Writer) error {
	head := fmt.Sprintf("%s%s: write what came under packs or a measured volume; 0 if nothing comes any more; take the row out if it is still to come; what is refused is a part of what came; once the bill is there, its price for one pack goes into a column billed", g.Supplier, AtSite("to", g.Site))
	if _, err := io.WriteString(w, "# "+comment(head)+"\n"); err != nil {
		return fmt.Errorf("writing the sheet for %s: %w", g.Supplier, err)
	}
	rows := [][]string{received.ArrivalHeads}
	for _, c := range g.counted {
		row := make([]string, len(received.ArrivalHeads))
		row[slices.Index(received.ArrivalHeads, "quote")], row[slices.Index(received.ArrivalHeads, "site")] = c.Quote.Name, c.Site
		rows = append(rows, safe.Row(row...))
	}
	if err := csv.NewWriter(w).WriteAll(rows); err != nil {
		return fmt.Errorf("writing the sheet for %s: %w", g.Supplier, err)
	}
	return nil
}
