package files

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/called"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// rawQuote is a row of quotes.csv as text.
type rawQuote struct {
	Quote      string `csv:"quote"`
	Supplier   string `csv:"supplier" cell:"required"`
	Item       string `csv:"item"`
	Medium     string `csv:"medium" cell:"required"`
	Form       string `csv:"form"`
	Pack       string `csv:"pack" cell:"required,number"`
	Step       string `csv:"step" cell:"number"`
	Price      string `csv:"price" cell:"required,number"`
	Breaks     string `csv:"breaks" cell:"number"`
	BreakKind  string `csv:"break_kind"`
	BreakGroup string `csv:"break_group"`
	MinQty     string `csv:"min_qty" cell:"number"`
	MaxQty     string `csv:"max_qty" cell:"number"`
	Size       string `csv:"size" cell:"number"`
	Density    string `csv:"density" cell:"number"`
	Carbonate  string `csv:"carbonate"`
	RinseLoss  string `csv:"rinse_loss" cell:"number"`
	Fill       string `csv:"fill" cell:"number"`
	Tax        string `csv:"tax" cell:"number"`
	ValidUntil string `csv:"valid_until" cell:"date"`
	ReadyBy    string `csv:"ready_by" cell:"date"`
	Delivery   string `csv:"delivery" cell:"number"`
	FreeOver   string `csv:"free_over" cell:"number"`
	Notes      string `csv:"notes"`
}

// quoteRow is a quote being read, with the row it comes from.
type quoteRow struct {
	*quotes.Quote
	row *row
	bad map[string]bool // headings whose cells could not be used
}

// quoteBook is what the other files need to know of quotes.csv.
type quoteBook struct {
	rows      []*quoteRow
	suppliers spelling.Spellings
	lost      bool // rows or columns could not be read, so a supplier may stand in them
}

// quoteRows reads quotes.csv.
func (x *reader) quoteRows(src Source, media *quotes.MediaTable) (*quoteBook, error) {
	b := &quoteBook{}
	s, err := readSheet[rawQuote](x, src)
	if err != nil || s == nil {
		b.lost = true
		return b, err
	}
	b.lost = s.incomplete
	if len(s.rows) == 0 && !s.incomplete {
		x.problem(s.head, "", "there is no row under the headings", "at least one quote", noRowHint)
	}
	for _, r := range s.rows {
		q := &quoteRow{Quote: &quotes.Quote{Pos: r.Pos}, row: r, bad: map[string]bool{}}
		x.quote(q, b, media)
		b.rows = append(b.rows, q)
	}
	x.names(b.rows)
	x.groups(b.rows)
	return b, nil
}

// quote fills q from its row, cell by cell.
func (x *reader) quote(q *quoteRow, b *quoteBook, media *quotes.MediaTable) {
	r := q.row
	if c := r.cell("supplier"); x.need(c, "the name of a supplier", "write who offers it; a row left over is taken out whole") {
		q.Supplier = b.suppliers.Name(c.text)
	}
	q.Name = spelling.Tidy(r.cell("quote").text)
	q.Item = spelling.Tidy(r.cell("item").text)
	q.Notes = r.cell("notes").text
	q.BreakGroup = spelling.Tidy(r.cell("break_group").text)
	if c := r.cell("medium"); x.need(c, "a medium of the media table", "write what it is, such as lava rock; a medium of your own gets a row in media.csv, and what you would not buy gets # in front of its row") {
		x.stone(q, media, c)
	}
	get(q, "density", &q.Density, x.density)
	x.acidTest(q)
	if q.Medium != nil {
		q.RinseLoss = q.Medium.RinseLoss
	}
	get(q, "rinse_loss", &q.RinseLoss, spread(x, x.loss))
	q.Tax = x.set.Tax
	get(q, "tax", &q.Tax, x.percent)
	x.taxTwice(q.row.cell("tax"), q.Tax)
	get(q, "valid_until", &q.ValidUntil, x.date)
	get(q, "ready_by", &q.ReadyBy, x.date)
	get(q, "size", &q.Size, x.grain)
	x.fineParts(q)
	x.pack(q)
	q.Fill = quotes.DefaultFill(q.Form)
	get(q, "fill", &q.Fill, spread(x, x.fill))
	x.prices(q)
	x.amounts(q)
}

// fineParts warns of a supplier's words for the dust or the sand of a stone beside the name of the stone.
func (x *reader) fineParts(q *quoteRow) {
	word := called.Fine(q.Item)
	if word == "" || q.Medium == nil || called.Fine(q.Medium.Name) != "" {
		return
	}
	x.warn(q.row.cell("item"), fmt.Sprintf("%s sounds finer than %s, and fine grain clogs drains", spelling.Quoted(q.Item), q.Medium.Name),
		"ask the yard for the sieve that it stays on, and write its smallest grain under size; if it is dust or sand, take the row out")
}

// acidTest reads the outcome of the acid drop. A medium that may hold lime is used
// without one only where the job says so, and then the buyer is told.
func (x *reader) acidTest(q *quoteRow) {
	c := q.row.cell("carbonate")
	get(q, "carbonate", &q.Carbonate, func(c *cell) (quotes.AcidTest, bool) {
		return choice(x, c, []quotes.AcidTest{quotes.NoFizz, quotes.Fizzed, quotes.Untested}, "leave the cell empty if no acid drop was made")
	})
	if q.Carbonate == "" {
		q.Carbonate = quotes.Untested
	}
	if !x.set.AllowUntested || c.off || q.bad["carbonate"] || q.Carbonate != quotes.Untested || q.Medium == nil || q.Medium.Carbonate != quotes.CarbonateSuspect {
		return
	}
	if c.absent {
		c = q.row.cell("medium")
	}
	x.warn(c, fmt.Sprintf("%s may carry lime, which raises pH, and this sample is untested; it is allowed because the job says allow_untested", q.Medium.Name),
		"put an acid drop on several stones and write none or fizzed under carbonate")
}

// taxTwice warns of a tax that is stated and not added, as the job says that prices carry theirs.
func (x *reader) taxTwice(c *cell, tax units.Decimal) {
	if x.set.TaxIncluded && !c.absent && !c.off && !c.blank() && tax.Sign() > 0 {
		x.warn(c, fmt.Sprintf("%q is not added, as tax_included in job.toml says that prices carry their tax", c.text),
			"where only some do, take tax_included out and write 0% under tax in their rows, here and in delivery.csv")
	}
}

// get reads a filled cell of a quote into a field and notes a bad one.
func get[T any](q *quoteRow, heading string, to *T, read func(*cell) (T, bool)) {
	if !set(q.row.cell(heading), to, read) {
		q.bad[heading] = true
	}
}

// meshSizes are bare pairs that are sold by mesh number as well, with the openings
// of those sieves in ASTM E11 (from memory).
var meshSizes = map[string]string{
	"10/20": "0.85-2 mm", "12/20": "0.85-1.7 mm", "16/30": "0.6-1.18 mm", "20/30": "0.6-0.85 mm", "20/40": "0.425-0.85 mm", "30/50": "0.3-0.6 mm",
}

// grain reads a grain size.
func (x *reader) grain(c *cell) (quotes.Grain, bool) {
	g, err := quotes.ParseGrain(c.text, x.grainOptions(c))
	g, ok := converted(x, c, g, err)
	if ok {
		x.note(c, g.Note)
		x.believeGrain(c, g.Min)
		if mesh, twice := meshSizes[spelling.Tidy(c.text)]; twice {
			x.warn(c, fmt.Sprintf("%s is read as %s mm; to many yards such a pair is mesh numbers, %s", spelling.Quoted(c.text), strings.ReplaceAll(spelling.Tidy(c.text), "/", " to "), mesh),
				"ask the yard, and write the unit, such as 10-20 mm or "+strings.SplitN(mesh, ",", 2)[0])
		}
	}
	return g, ok
}

// coarse is the grain above which a smallest one is hard to believe.
const coarse units.Millimetres = 100

// believeGrain warns of a smallest grain that would be a boulder, as a bare 8-16 is where lengths are in inches.
func (x *reader) believeGrain(c *cell, smallest units.Millimetres) {
	if smallest > coarse {
		x.warn(c, fmt.Sprintf("%s is stone of %s at the smallest", spelling.Quoted(c.text), quotes.GrainWords(smallest, x.set.Speaks())),
			"is the unit right? write it beside the number, such as 8-16 mm or 3/8-3/4 in")
	}
}

// smallPack is the volume below which a pack of media is hard to believe.
const smallPack units.Litres = 0.5

// heavyBag warns of a bag that no hand carries, which may be a bulk bag.
func (x *reader) heavyBag(q *quoteRow, c *cell) {
	if q.Form == quotes.Bag && q.PackMass > quotes.HeaviestBag {
		x.warn(c, fmt.Sprintf("it weighs about %s, and is taken for a bag that is carried by hand", units.FormatMass(q.PackMass, x.set.Speaks())), "write sack under form for a bulk bag, or bulk for loose stone")
	}
}

// pack reads what one pack holds and what it weighs. A pack sold by weight is
// turned into litres by the yard's density, else by the medium's, said aloud.
func (x *reader) pack(q *quoteRow) {
	c := q.row.cell("pack")
	get(q, "form", &q.Form, func(c *cell) (quotes.Form, bool) {
		return choice(x, c, quotes.Forms, "leave the cell empty to have it told by the unit of the pack")
	})
	if !x.need(c, "what one pack holds, such as 50 L, 1 yd3 or 1 ton", "write what is paid for with one price: the bag, the yard or the ton; # in front of a row that you would not buy leaves it out") {
		return
	}
	unit, kinds := x.unit.volume+x.unit.mass, "volume or mass"
	if x.unit.volume != "" && x.unit.mass != "" {
		unit, kinds = "", "only one of volume and mass" // a bare number may be either
	}
	a, err := units.ParseAmount(c.text, x.options(c, unit))
	a, err = x.spokenPack(q, c, x.options(c, unit), a, err)
	a, ok := converted(x, c, a, bareHint(err, c, kinds))
	if !ok {
		return
	}
	if float64(a.Volume.Value) <= 0 && float64(a.Mass.Value) <= 0 {
		x.fail(c, spelling.Quoted(c.text)+" holds nothing", "more than 0", "write what one pack holds, such as 50 L")
		return
	}
	x.note(c, a.Volume.Note)
	x.note(c, a.Mass.Note)
	q.Pack = a
	if q.Form == "" && !q.bad["form"] {
		q.Form = quotes.UsualForm(a)
	}
	if !a.IsMass && !x.believed(c, a.Volume.Value) {
		return
	}
	density := q.Density
	if density == 0 && q.Medium != nil {
		density = q.Medium.DryDensity.Usual
	}
	if !a.IsMass && a.Volume.Value < smallPack {
		x.warn(c, fmt.Sprintf("%s is less than half a litre", spelling.Quoted(c.text)), "is it the unit that is meant, and one bag?")
	}
	if density == 0 || q.bad["density"] {
		return // the medium or the density is reported
	}
	if !a.IsMass {
		q.PackLitres = a.Volume.Value
		q.PackMass = density.Mass(q.PackLitres)
		x.heavyBag(q, c)
		return
	}
	q.PackMass = a.Mass.Value
	x.heavyBag(q, c)
	q.PackLitres = density.Volume(q.PackMass)
	if !x.believed(c, q.PackLitres) {
		return
	}
	if q.Density == 0 {
		x.warn(c, fmt.Sprintf("%s is a weight and the quote states no density; %s of %s is assumed, which makes it %s", spelling.Quoted(c.text),
			units.FormatDensity(density, x.set.Speaks()), q.Medium.Name, units.FormatVolume(q.PackLitres, x.set.Speaks())),
			"ask the yard for its loose dry bulk density and put it under density")
	}
}

// believed reports a pack too small or too large to be meant.
func (x *reader) believed(c *cell, v units.Litres) bool {
	if v >= MinVolume && v <= MaxVolume {
		return true
	}
	x.fail(c, fmt.Sprintf("%s is %.4g litres", spelling.Quoted(c.text), float64(v)), fmt.Sprintf("a pack from %g to %.0f litres", float64(MinVolume), float64(MaxVolume)), "is the unit right?")
	return false
}

// prices reads the price and its breaks.
func (x *reader) prices(q *quoteRow) {
	c := q.row.cell("price")
	var price *units.Money
	if x.need(c, "the price of one pack", "ask the supplier, or take the row out until the price is known") {
		if m, ok := x.price(q, c, c.text, false); ok {
			price = &m
			q.Price = m
			x.believePrice(q, c)
		}
	}
	q.bad["price"] = price == nil
	q.BreakKind = quotes.AllUnits
	get(q, "break_kind", &q.BreakKind, func(c *cell) (quotes.BreakKind, bool) {
		return choice(x, c, []quotes.BreakKind{quotes.AllUnits, quotes.Incremental}, "leave the cell empty for all-units, the usual kind")
	})
	get(q, "breaks", &q.Breaks, func(c *cell) ([]quotes.Break, bool) { return x.breaks(q, c, price) })
}

// believePrice warns of a price that is hard to believe for what one pack holds, if
// that could be read.
func (x *reader) believePrice(q *quoteRow, c *cell) {
	words, hint := "", "is a decimal mark lost, or is it the price of something else? if it is right, leave it"
	switch quotes.ProportionOf(q.Price, float64(q.PackLitres), x.set.Currency) {
	case quotes.TooCheap:
		words = "%s is far below what %s of such goods costs"
	case quotes.TooDear:
		words = "%s is far above what %s of such goods costs"
	}
	if q.Price.IsZero() {
		x.warn(c, "the price is 0, so the plan takes it as free", "take the row out if the price is not known yet")
	} else if words != "" {
		x.warn(c, fmt.Sprintf(words, spelling.Quoted(c.text), spelling.Tidy(q.row.cell("pack").text)), hint)
	}
}

// amounts reads step, least and most, and checks that some amount fits them.
func (x *reader) amounts(q *quoteRow) {
	r := q.row
	q.Step = units.DecimalFromInt(1)
	get(q, "step", &q.Step, func(c *cell) (units.Decimal, bool) { return x.step(q, c) })
	get(q, "min_qty", &q.MinQty, func(c *cell) (units.Decimal, bool) { return x.packs(q, c, true) })
	get(q, "max_qty", &q.MaxQty, func(c *cell) (*units.Decimal, bool) {
		d, ok := x.packs(q, c, true)
		return &d, ok
	})
	if q.MaxQty == nil || q.bad["min_qty"] || q.bad["max_qty"] || q.bad["step"] {
		return
	}
	c := r.cell("max_qty")
	if q.MinQty.Cmp(*q.MaxQty) > 0 {
		x.fail(c, fmt.Sprintf("at most %s packs, but min_qty is %s", q.MaxQty, q.MinQty), "a max_qty of at least min_qty", "are the two swapped?")
		return
	}
	least, err1 := q.MinQty.Quo(q.Step).Ceil()
	most, err2 := q.MaxQty.Quo(q.Step).Floor()
	switch {
	case err1 != nil || err2 != nil:
		x.fail(c, "the numbers of packs are too large for the step", "numbers of packs that can be counted", "is a digit too many under step, min_qty or max_qty?")
	case least > most:
		x.fail(c, fmt.Sprintf("no multiple of the step %s lies from %s to %s packs", q.Step, q.MinQty, q.MaxQty), "limits that leave an amount to buy", "lower min_qty, raise max_qty or correct the step")
	case most < 1:
		x.warn(c, fmt.Sprintf("max_qty is %s, so none can be bought", q.MaxQty), "leave the cell empty if the stock has no limit")
	}
}

// stepHint is how to write a step.
const stepHint = "leave the cell empty for whole packs, or write 0.5 for halves"

// minStep is the smallest step, in packs; a thousandth of a bag is not weighed out.
var minStep = units.D("0.001")

func (x *reader) step(q *quoteRow, c *cell) (units.Decimal, bool) {
	v, ok := x.packs(q, c, false)
	if ok && v.Cmp(minStep) < 0 {
		x.fail(c, spelling.Quoted(c.text)+" is too small a step", fmt.Sprintf("%s packs or more", minStep), stepHint)
		return units.Decimal{}, false
	}
	return v, ok
}

// packs reads a number of packs; zero says whether 0 is allowed.
func (x *reader) packs(q *quoteRow, c *cell, zero bool) (units.Decimal, bool) {
	v, ok := x.counted(q, c, c.text)
	if !ok {
		return units.Decimal{}, false
	}
	if v.Sign() < 0 || v.IsZero() && !zero {
		want, hint := "more than 0 packs", stepHint
		if zero {
			want, hint = "0 packs or more", "leave the cell empty if there is no such limit"
		}
		x.fail(c, spelling.Quoted(c.text)+" is no number of packs", want, hint)
		return units.Decimal{}, false
	}
	return v, true
}

// names gives every quote a name of its own: the one written, else supplier/item
// with #2, #3 and so on for the later ones of the same words.
func (x *reader) names(rows []*quoteRow) {
	taken := map[string]*quoteRow{}
	for _, q := range rows {
		if q.Name == "" {
			continue
		}
		c := q.row.cell("quote")
		if c.off {
			q.Name = ""
			continue
		}
		if first, ok := taken[spelling.NameKey(q.Name)]; ok {
			x.fail(c, fmt.Sprintf("%s is the name of the quote on line %d too", spelling.Quoted(q.Name), first.Line), "a name of its own", "leave the cell empty to have one made")
			continue
		}
		taken[spelling.NameKey(q.Name)] = q
	}
	last := map[string]int{} // the number last given to a base name
	for _, q := range rows {
		if q.Name != "" {
			continue
		}
		what := q.Item
		if what == "" && q.Medium != nil {
			what = q.Medium.Name
		}
		base := q.Supplier + "/" + what
		name, n := base, max(1, last[spelling.NameKey(base)])
		for taken[spelling.NameKey(name)] != nil {
			n++
			name = fmt.Sprintf("%s#%d", base, n)
		}
		last[spelling.NameKey(base)] = n
		q.Name = name
		taken[spelling.NameKey(name)] = q
	}
}

// supplierKnown finds a supplier by any spelling.
func (b *quoteBook) supplierKnown(name string) (string, bool) { return b.suppliers.Find(name) }

// has reports whether a supplier has a quote in this form. A quote whose form is not known counts.
func (b *quoteBook) has(supplier string, f quotes.Form) bool {
	return slices.ContainsFunc(b.rows, func(q *quoteRow) bool {
		return q.Supplier == supplier && (q.Form == f || q.Form == "")
	})
}

// firstRow is the first quote of a supplier.
func (b *quoteBook) firstRow(supplier string) *quoteRow {
	i := slices.IndexFunc(b.rows, func(q *quoteRow) bool { return q.Supplier == supplier })
	return b.rows[i]
}
