package papers

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"mediabuy/papers/page"
	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Request is one sheet that asks a supplier for quotes.
type Request struct {
	Supplier string
	Day      quotes.Date
	NeedBy   quotes.Date
	Needs    []Need
	Rows     []RequestRow
	job      *quotes.Job
}

// Need is a volume that one kind of media is wanted for.
type Need struct {
	Site    string
	Layer   quotes.Layer
	Size    string   // the grain size asked, in words
	Media   []string // names of the media that will do, sorted
	Litres  units.Litres
	beds    int
	minSize units.Millimetres
}

// RequestRow is one row to fill in: a medium, and what the supplier quoted before.
type RequestRow struct {
	Medium *quotes.Medium
	Before *quotes.Quote // nil: not quoted before
}

// Requests makes a sheet for each supplier named; none named means every supplier
// of the job. A sheet asks again for what the supplier quoted, and for every medium
// that some bed could take.
func Requests(job *quotes.Job, suppliers []string) ([]*Request, error) {
	if len(suppliers) == 0 {
		suppliers = quotes.Suppliers(job)
	}
	needs := needsOf(job)
	if len(needs) == 0 {
		return nil, fmt.Errorf("there is nothing to ask for: no bed has a layer that any known medium may fill; look at top_media, only and avoid in beds.csv")
	}
	var out []*Request
	for _, name := range suppliers {
		if strings.TrimSpace(name) == "" {
			return nil, fmt.Errorf("a supplier's name is %q, want a name", name)
		}
		if slices.ContainsFunc(out, func(r *Request) bool { return strings.EqualFold(r.Supplier, name) }) {
			continue
		}
		r := &Request{Supplier: name, Day: job.Settings.Date, NeedBy: job.Settings.NeedBy, Needs: needs, job: job}
		asked := map[string]bool{}
		for _, q := range job.Quotes {
			if strings.EqualFold(q.Supplier, name) && wanted(needs, q.Medium.Name) {
				r.Supplier = q.Supplier
				r.Rows = append(r.Rows, RequestRow{q.Medium, q})
				asked[q.Medium.Name] = true
			}
		}
		for _, m := range job.Media.All() {
			if !asked[m.Name] && wanted(needs, m.Name) {
				r.Rows = append(r.Rows, RequestRow{m, nil})
			}
		}
		out = append(out, r)
	}
	return out, nil
}

func wanted(needs []Need, medium string) bool {
	return slices.ContainsFunc(needs, func(n Need) bool { return slices.Contains(n.Media, medium) })
}

// needsOf adds up the beds that ask for the same: site, layer, grain size, media.
func needsOf(job *quotes.Job) []Need {
	var out []Need
	for _, b := range job.Beds {
		for _, l := range quotes.Layers {
			v := b.LayerLitres(l) * units.Litres(float64(b.Count)*(1+job.Settings.Extra.Float()))
			if v <= 0 {
				continue
			}
			n := Need{Site: b.Site, Layer: l, Size: sizeWords(b), Media: mediaFor(job, b, l), Litres: v, beds: b.Count}
			if b.MinSize != nil {
				n.minSize = *b.MinSize
			}
			if len(n.Media) == 0 {
				continue
			}
			i := slices.IndexFunc(out, func(o Need) bool {
				return o.Site == n.Site && o.Layer == n.Layer && o.Size == n.Size && slices.Equal(o.Media, n.Media)
			})
			if i < 0 {
				out = append(out, n)
				continue
			}
			out[i].Litres += n.Litres
			out[i].beds += n.beds
		}
	}
	slices.SortFunc(out, func(a, b Need) int {
		return cmp.Or(cmp.Compare(a.Site, b.Site), cmp.Compare(b.Layer, a.Layer), cmp.Compare(a.minSize, b.minSize), cmp.Compare(a.Size, b.Size), slices.Compare(a.Media, b.Media))
	})
	return out
}

// mediaFor lists the media that a layer may be filled with, whoever sells them.
func mediaFor(job *quotes.Job, b *quotes.Bed, l quotes.Layer) []string {
	var out []string
	for _, m := range job.Media.All() {
		switch {
		case m.BreaksDown, m.Carbonate == quotes.CarbonateYes:
		case len(b.Only) > 0 && !slices.Contains(b.Only, m):
		case slices.Contains(b.Avoid, m):
		case l == quotes.Top && !slices.Contains(b.TopMedia, m):
		default:
			out = append(out, m.Name)
		}
	}
	return out
}

// sizeWords is the grain size a bed asks for, as written and in millimetres.
func sizeWords(b *quotes.Bed) string {
	part := func(raw string, v units.Millimetres) string {
		mm := fmt.Sprintf("%.4g mm", float64(v))
		if raw == "" || strings.ReplaceAll(raw, " ", "") == strings.ReplaceAll(mm, " ", "") {
			return mm
		}
		return raw + " (" + mm + ")"
	}
	switch {
	case b.MinSize != nil && b.MaxSize != nil:
		return part(b.MinRaw, *b.MinSize) + " to " + part(b.MaxRaw, *b.MaxSize)
	case b.MinSize != nil:
		return "at least " + part(b.MinRaw, *b.MinSize)
	case b.MaxSize != nil:
		return "at most " + part(b.MaxRaw, *b.MaxSize)
	}
	return "any; say which"
}

// requestHeads are the columns of quotes.csv that a supplier can fill in, in its order.
var requestHeads = []string{"quote", "supplier", "item", "medium", "form", "pack", "step", "price", "breaks", "break_kind", "min_qty", "max_qty",
	"size", "density", "carbonate", "valid_until", "ready_by", "delivery", "free_over", "notes"}

// CSV writes the sheet as a quotes.csv to fill in: the needs in comment lines, then
// a row for each medium with its price left open. Filled in, with the rows that do
// not apply deleted, it reads straight back. A row that was neither filled in nor
// deleted is a problem with its place when it is read, so that nothing goes missing
// in silence.
func (r *Request) CSV(w io.Writer) error {
	// Comment lines have no commas or quote marks, so that a spreadsheet keeps them
	// in one cell and they still begin with the sign when it saves them.
	var b strings.Builder
	note := func(format string, args ...any) {
		text := strings.NewReplacer(",", ";", `"`, "", "'", "").Replace(safe.Line(fmt.Sprintf(format, args...)))
		b.WriteString("# " + text + "\n")
	}
	note("Request for quotes to %s dated %s%s", r.Supplier, r.Day, needBy(r.NeedBy))
	note("Wanted:")
	for _, n := range r.Needs {
		note("  %s", n.words())
	}
	for _, line := range fillIn(r.job.Settings.Currency) {
		note("%s", line)
	}
	if _, err := io.WriteString(w, b.String()); err != nil {
		return fmt.Errorf("writing the request to %s: %w", r.Supplier, err)
	}
	cw := csv.NewWriter(w)
	rows := [][]string{requestHeads}
	for _, x := range r.Rows {
		rows = append(rows, r.cells(x))
	}
	if err := cw.WriteAll(rows); err != nil {
		return fmt.Errorf("writing the request to %s: %w", r.Supplier, err)
	}
	return nil
}

// cells is one row to fill in. What a supplier quoted before is there already,
// but for what may have changed: price, breaks, stock, days.
func (r *Request) cells(x RequestRow) []string {
	at := map[string]string{"supplier": r.Supplier, "medium": x.Medium.Name}
	if q := x.Before; q != nil {
		at["quote"], at["item"], at["form"], at["pack"], at["size"] = q.Name, q.Item, string(q.Form), q.Pack.Raw, q.Size.Raw
		at["step"] = q.Step.String()
		if len(q.Breaks) > 0 {
			at["break_kind"] = string(q.BreakKind)
		}
	}
	out := make([]string, len(requestHeads))
	for i, h := range requestHeads {
		out[i] = safe.Cell(at[h])
	}
	return out
}

// fillIn tells how to fill in the sheet.
func fillIn(currency string) []string {
	return []string{
		"Fill in one row for each thing you can offer and delete the rows you do not use. Copy a row to offer a second size or pack.",
		"pack: what one price is for such as 50 L or 2 cu ft or 1 yd3 or 1 ton; step 0.5 if you sell halves",
		"price: in " + currency + " for one pack; breaks: lower prices from a number of packs such as 10: 27.50; 40: 24.00 (the price for every pack; write incremental under break_kind if only for the packs from there on)",
		"size: smallest to largest grain such as 8-16 mm or 1/2-3/4 in or #57; density: loose and dry such as 45 lb/ft3",
		"carbonate: none if an acid drop on the sample does not fizz or fizzed or untested. Please say in notes if you state in writing that it is free of lime.",
		"delivery: your fee for one order to us; free_over: the value of goods from which it is waived. valid_until and ready_by: days such as 2026-04-30",
	}
}

func (n Need) words() string {
	where := "any layer of the bed"
	if n.Layer == quotes.Top {
		where = "top layer where hands plant"
	} else if n.Layer == quotes.Base {
		where = "base layer"
	}
	return fmt.Sprintf("%s%s for the %s of %s; grain size %s; one or more of: %s",
		both(n.Litres), AtSite("at", n.Site), where, units.Several(n.beds, "bed"), n.Size, strings.Join(n.Media, "; "))
}

// Page sets the request out for print, with room to write.
func (r *Request) Page(st Style) *page.Page {
	p := &page.Page{
		Title:    "Request for quotes",
		Subtitle: fmt.Sprintf("To %s, dated %s%s", r.Supplier, r.Day, needBy(r.NeedBy)),
		Day:      r.Day.Time,
		Foot:     "Request for quotes to " + r.Supplier,
		Letter:   st.Letter,
	}
	need := &page.Table{Cols: []page.Col{{Name: "Where"}, {Name: "Volume in place"}, {Name: "Grain size"}, {Name: "Any of these media"}}}
	for _, n := range r.Needs {
		where := string(n.Layer) + " layer of " + units.Several(n.beds, "bed") + AtSite("at", n.Site)
		need.Rows = append(need.Rows, page.Row{Cells: []page.Cell{page.Text(where), page.Text(both(n.Litres)), page.Text(n.Size), page.Text(strings.Join(n.Media, ", "))}})
	}
	blank := "…………"
	ask := &page.Table{Cols: []page.Col{{Name: "Medium"}, {Name: "Your item"}, {Name: "Pack"}, {Name: "Price"}, {Name: "Price breaks"}, {Name: "Grain size"}, {Name: "Loose dry density"}, {Name: "Acid drop"}}}
	or := func(s string) string { return cmp.Or(s, blank) }
	for _, x := range r.Rows {
		cells := []string{x.Medium.Name, blank, blank, blank, blank, blank, blank, blank}
		if q := x.Before; q != nil {
			cells[1], cells[2], cells[5] = or(q.Item), or(q.Pack.Raw), or(q.Size.Raw)
		}
		line := page.Row{}
		for _, c := range cells {
			line.Cells = append(line.Cells, page.Text(c))
		}
		ask.Rows = append(ask.Rows, line)
	}
	p.Sections = []page.Section{
		{Heading: "What is needed", Sheet: "Request", Blocks: []page.Block{
			&page.Para{Text: "Hard, washed media for planting beds that stand in water. Media that rot in water or carry lime (limestone, marble, shell, crushed concrete) cannot be used."},
			need,
			&page.Para{Text: "Volumes are loose volumes in place; please quote what you sell and we work out the packs. Grain size is the smallest and the largest grain, not a trade name alone."},
		}},
		{Heading: "Your offer", Blocks: []page.Block{ask, &page.List{Items: fillIn(r.job.Settings.Currency)[1:]}}},
		{Heading: "Delivery and terms", Blocks: []page.Block{&page.Fields{Names: []string{
			"Delivery fee for one order", "Fee for each load, and its size", "Free from goods worth", "Smallest order", "Offer valid until", "Earliest day of delivery"}}}},
		{Heading: "Statement", Blocks: []page.Block{
			&page.Para{Text: "We state that the media offered are free of limestone, marble, shell and other carbonate rock, and are washed."},
			&page.Fields{Names: []string{"Name and firm", "Date", "Signature"}},
		}},
	}
	return p
}
