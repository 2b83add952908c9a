package papers

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"

	"mediabuy/papers/page"
	"mediabuy/papers/safe"
	"mediabuy/quotes"
	"mediabuy/units"
)

// Request is one sheet that asks a supplier for quotes.
type Request struct {
	scribe
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
func Requests(job *quotes.Job, suppliers []string, st Style) ([]*Request, error) {
	if len(suppliers) == 0 {
		suppliers = quotes.Suppliers(job)
	}
	needs := needsOf(job, st.Units)
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
		r := &Request{scribe: newScribe(job, st), Supplier: name, Day: job.Settings.Date, NeedBy: job.Settings.NeedBy, Needs: needs, job: job}
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
func needsOf(job *quotes.Job, sys units.System) []Need {
	var out []Need
	for _, b := range job.Beds {
		for _, l := range quotes.Layers {
			v := b.LayerLitres(l) * units.Litres(float64(b.Count)*(1+job.Settings.Extra.Float()))
			if v <= 0 {
				continue
			}
			n := Need{Site: b.Site, Layer: l, Size: sizeWords(b, sys), Media: mediaFor(job, b, l), Litres: v, beds: b.Count}
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

// sizeWords is the grain size a bed asks for, as written and in millimetres; in the reader's habit where no unit is written.
func sizeWords(b *quotes.Bed, sys units.System) string {
	part := func(raw string, v units.Millimetres) string {
		if !strings.ContainsFunc(raw, unicode.IsLetter) && !strings.ContainsAny(raw, `"″#`) {
			return quotes.GrainWords(v, sys)
		}
		mm := fmt.Sprintf("%.4g mm", float64(v))
		if strings.ReplaceAll(raw, " ", "") == strings.ReplaceAll(mm, " ", "") {
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
var requestHeads = []string{"quote", "supplier", "item", "medium", "form", "pack", "step", "price", "breaks", "break_kind", "break_group", "min_qty", "max_qty",
	"size", "density", "carbonate", "rinse_loss", "fill", "tax", "valid_until", "ready_by", "delivery", "free_over", "notes"}

// CSV writes the sheet as a quotes.csv to fill in: the needs in comment lines, then
// a row for each medium with its price left open. Filled in, with the rows that do
// not apply deleted, it reads straight back. A row that was neither filled in nor
// deleted is a problem with its place when it is read, so that nothing goes missing
// in silence.
func (r *Request) CSV(w io.Writer) error {
	var b strings.Builder
	note := func(format string, args ...any) {
		b.WriteString("# " + comment(fmt.Sprintf(format, args...)) + "\n")
	}
	note("Request for quotes to %s dated %s%s", r.Supplier, r.Day, needBy(r.NeedBy))
	note("Wanted:")
	for _, n := range r.Needs {
		note("  %s", r.needWords(n))
	}
	for _, line := range r.fillIn() {
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
		// What the supplier would not think to say again stays as it was.
		at["break_group"] = q.BreakGroup
		if q.RinseLoss != q.Medium.RinseLoss {
			at["rinse_loss"] = spreadWords(q.RinseLoss)
		}
		if q.Fill != quotes.DefaultFill(q.Form) {
			at["fill"] = spreadWords(q.Fill)
		}
		if !q.Tax.Equal(r.job.Settings.Tax) {
			at["tax"] = q.Tax.Mul(units.DecimalFromInt(100)).String() + "%"
		}
	}
	out := make([]string, len(requestHeads))
	for i, h := range requestHeads {
		out[i] = safe.Cell(at[h])
	}
	return out
}

// deliveryHeads are the columns of delivery.csv that a supplier can fill in.
var deliveryHeads = []string{"supplier", "site", "name", "covers", "order_fee", "load_fee", "load_volume", "load_weight", "load_holds", "haul", "free_over", "min_order"}

// open stands where only the supplier knows the answer; read back as it is, it is a
// problem with its place.
const open = "?"

// DeliveryCSV writes the sheet of trucks and fees as a delivery.csv to fill in: a row
// for each site, to be copied for each size of truck.
func (r *Request) DeliveryCSV(w io.Writer) error {
	eg := examples[r.Units]
	for _, line := range []string{
		fmt.Sprintf("Delivery by %s: trucks and fees in %s. Use this sheet if you charge by the load; then leave delivery and free_over in the sheet of goods blank.", r.Supplier, r.currency),
		"One row for each size of truck: copy the row and keep the name the same. Put a figure in place of " + open + "; 0 if there is no such fee.",
		"covers: what this row brings; all or bag or bulk or sack. load_volume and load_weight: what one load holds such as " + eg.load,
		"load_holds: one if each stone comes in a load of its own; any if they may share one. haul: money by the volume such as " + eg.haul,
		"free_over: the value of goods from which fees are waived; min_order: the smallest order you bring",
	} {
		if _, err := io.WriteString(w, "# "+comment(line)+"\n"); err != nil {
			return fmt.Errorf("writing the request to %s: %w", r.Supplier, err)
		}
	}
	rows := [][]string{deliveryHeads}
	for _, site := range r.sites() {
		row := make([]string, len(deliveryHeads))
		row[0], row[1], row[2], row[3], row[4], row[5] = r.Supplier, site, "truck", "all", open, open
		rows = append(rows, safe.Row(row...))
	}
	if err := csv.NewWriter(w).WriteAll(rows); err != nil {
		return fmt.Errorf("writing the request to %s: %w", r.Supplier, err)
	}
	return nil
}

// sites are those that goods are needed at.
func (r *Request) sites() []string {
	var out []string
	for _, n := range r.Needs {
		out = appendNew(out, n.Site)
	}
	return out
}

// comment is a line that a spreadsheet keeps in one cell, so that it still begins
// with its sign when the sheet is saved.
func comment(line string) string {
	return strings.NewReplacer(",", ";", `"`, "", "'", "").Replace(safe.Line(line))
}

// spreadWords is a spread of shares as a file takes it: percent, low-usual-high, or
// one value without a spread.
func spreadWords(v quotes.Spread[float64]) string {
	at := func(x float64) string { return units.DecimalOf(100 * x).Round(6).String() }
	if v.Low == v.High {
		return at(v.Usual) + "%"
	}
	return at(v.Low) + "-" + at(v.Usual) + "-" + at(v.High) + "%"
}

// such are examples of measures on a sheet to fill in, in one habit of units.
type such struct{ packs, sizes, density, load, haul, halves string }

var examples = map[units.System]such{
	units.Metric: {"50 L or 1 m3 or 1 tonne", "8-16 mm", "720 kg/m3", "6 m3 and 10 tonne", "12 / m3", "half cubic metres"},
	units.US:     {"2 cu ft or 1 yd3 or 1 short ton", "1/2-3/4 in or #57", "45 lb/ft3", "8 yd3 and 10 short ton", "12 / yd3", "half yards"},
}

// fillIn tells how to fill in the sheet.
func (r *Request) fillIn() []string {
	eg := examples[r.Units]
	return []string{
		"Fill in one row for each thing you can offer and delete the rows you do not use. Copy a row to offer a second size or pack.",
		"pack: what one price is for such as " + eg.packs + "; step 0.5 if you sell halves",
		"price: in " + r.currency + " for one pack; breaks: lower prices from a number of packs such as 10: 27.50; 40: 24.00 (the price for every pack; write incremental under break_kind if only for the packs from there on)",
		"size: smallest to largest grain such as " + eg.sizes + "; density: loose and dry such as " + eg.density,
		"carbonate: none if an acid drop on the sample does not fizz or fizzed or untested. Please say in notes if you state in writing that it is free of lime.",
		"rinse_loss: percent lost as fines on rinsing if you know it; fill: what a pack really holds in percent of what it says such as 95-100-103%; tax: percent if it is not the usual one",
		"delivery: your fee for one order to us; free_over: the value of goods from which it is waived. valid_until and ready_by: days such as 2026-04-30",
	}
}

func (r *Request) needWords(n Need) string {
	where := "any layer of the bed"
	if n.Layer == quotes.Top {
		where = "top layer where hands plant"
	} else if n.Layer == quotes.Base {
		where = "base layer"
	}
	return fmt.Sprintf("%s%s for the %s of %s; grain size %s; one or more of: %s",
		r.volume(n.Litres), AtSite("at", n.Site), where, units.Several(n.beds, "bed"), n.Size, strings.Join(n.Media, "; "))
}

// Page sets the request out for print, with room to write.
func (r *Request) Page(st Style) *page.Page {
	s := newScribe(r.job, st)
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
		need.Rows = append(need.Rows, page.Row{Cells: []page.Cell{page.Text(where), page.Text(s.volume(n.Litres)), page.Text(n.Size), page.Text(strings.Join(n.Media, ", "))}})
	}
	ask := &page.Table{Write: true, Cols: []page.Col{{Name: "Medium"}, {Name: "Your item"}, {Name: "Pack"}, {Name: "Price"}, {Name: "Lower from (number: price)"},
		{Name: "Lower and upper sieve"}, {Name: "Loose dry density"}, {Name: "Acid drop: fizzes?"}}}
	for _, x := range r.Rows {
		cells := make([]page.Cell, len(ask.Cols))
		cells[0] = page.Text(x.Medium.Name)
		if q := x.Before; q != nil {
			cells[1], cells[2], cells[5] = page.Text(q.Item), page.Text(q.Pack.Raw), page.Text(q.Size.Raw)
		}
		ask.Rows = append(ask.Rows, page.Row{Cells: cells})
	}
	trucks := &page.Table{Write: true, Cols: []page.Col{{Name: "Size of truck"}, {Name: "Holds (volume)"}, {Name: "Carries (weight)"}, {Name: "Fee for each load"}, {Name: "One stone a load?"}},
		Rows: []page.Row{{Cells: []page.Cell{page.Text("small")}}, {Cells: []page.Cell{page.Text("middle")}}, {Cells: []page.Cell{page.Text("large")}}}}
	p.Sections = []page.Section{
		{Heading: "Who asks", Sheet: "Request", Blocks: r.parties()},
		{Heading: "What is needed", Blocks: []page.Block{
			&page.Para{Text: "Hard, washed media for planting beds that stand in water. Media that rot in water or carry lime (limestone, marble, shell, crushed concrete) cannot be used."},
			need,
			&page.Para{Text: "Volumes are loose volumes in place; please quote what you sell and we work out the packs. Please name the sieves the lot really lies between: a trade size alone does not say how fine its smallest stones are."},
		}},
		{Heading: "Your offer", Blocks: []page.Block{
			&page.Para{Leads: true, Text: "Money in " + s.currency + ". Leave blank what you do not sell; an item in two packs or sizes takes two rows. The same can be filled in as the spreadsheet sent with this."}, ask}},
		{Heading: "Delivery and terms", Blocks: []page.Block{trucks, &page.Fields{Names: []string{
			"Fee for one order", "Haul by volume", "Free from goods of", "Smallest order", "Tax added, percent", "Offer valid until", "Earliest day", "Steps sold (" + examples[s.Units].halves + "?)"}}}},
		{Heading: "Statement", Blocks: []page.Block{
			&page.Para{Text: "We state that the media offered are free of limestone, marble, shell and other carbonate rock, and are washed."},
			&page.Fields{Names: []string{"Name and firm", "Date", "Signature"}},
		}},
	}
	return p
}

// parties is who asks and where goods would go.
func (r *Request) parties() []page.Block {
	a := asker{Buyer: r.job.Settings.Buyer, to: r.Supplier}
	sites := r.sites()
	for _, site := range sites {
		a.spot(site, len(sites) > 1)
	}
	if !r.NeedBy.IsZero() {
		a.add("Needed by", r.NeedBy.String())
	}
	return a.blocks("Request", r.Day)
}
