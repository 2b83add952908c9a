package files

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"mediabuy/quotes"
	"mediabuy/quotes/internal/spelling"
	"mediabuy/units"
)

// rawDelivery is a row of delivery.csv as text.
type rawDelivery struct {
	Supplier   string `csv:"supplier" cell:"required"`
	Site       string `csv:"site"`
	Name       string `csv:"name"`
	Handling   string `csv:"handling" cell:"number"`
	Covers     string `csv:"covers"`
	OrderFee   string `csv:"order_fee" cell:"number"`
	LoadFee    string `csv:"load_fee" cell:"number"`
	LoadVolume string `csv:"load_volume" cell:"number"`
	LoadWeight string `csv:"load_weight" cell:"number"`
	LoadHolds  string `csv:"load_holds"`
	Haul       string `csv:"haul" cell:"number"`
	FreeOver   string `csv:"free_over" cell:"number"`
	MinOrder   string `csv:"min_order" cell:"number"`
	Tax        string `csv:"tax" cell:"number"`
}

// deliveryRow is a way of delivery being read, with the row it comes from.
type deliveryRow struct {
	*quotes.Delivery
	row    *row
	noSite bool // no bed stands at its site, which is reported
}

// deliveryRows reads delivery.csv. Rows of suppliers without a quote are read
// and checked, but left out of the answer.
func (x *reader) deliveryRows(src Source, q *quoteBook, b *bedBook) ([]*deliveryRow, error) {
	if src.R == nil {
		return nil, nil
	}
	s, err := readSheet[rawDelivery](x, src)
	if err != nil || s == nil {
		q.lost = true // who delivers how is not known
		return nil, err
	}
	if s.incomplete {
		q.lost = true
	}
	var out []*deliveryRow
	var elsewhere spelling.Spellings // sites where no bed stands
	for _, r := range s.rows {
		d := &deliveryRow{Delivery: &quotes.Delivery{Pos: r.Pos, Name: quotes.Delivered, Tax: x.set.Tax}, row: r}
		c := r.cell("supplier")
		known := false
		if x.need(c, "the name of a supplier", "write it as in quotes.csv; a row left over is taken out whole") {
			d.Supplier, known = q.supplierKnown(c.text)
			if !known && !q.lost {
				x.warn(c, fmt.Sprintf("there is no quote of %s, so the row is not used", spelling.Quoted(spelling.Tidy(c.text))), spelling.DidYouMean(c.text, q.suppliers.Names, "write the supplier as in quotes.csv, or take the row out"))
			}
		}
		x.deliverySite(d, b, &elsewhere)
		x.delivery(d)
		if known {
			out = append(out, d)
		}
	}
	out = x.trucks(out)
	x.handling(out, q.suppliers.Names)
	return out, nil
}

// deliverySite reads the site. A row for one where no bed stands brings nothing,
// but it is kept: without it the supplier might seem to deliver free everywhere.
func (x *reader) deliverySite(d *deliveryRow, b *bedBook, elsewhere *spelling.Spellings) {
	c := d.row.cell("site")
	if c.blank() || c.off {
		return
	}
	if b.none {
		d.Site = b.sites.Name(c.text)
		return
	}
	site, ok := b.sites.Find(c.text)
	if ok {
		d.Site = site
		return
	}
	d.Site, d.noSite = elsewhere.Name(c.text), true
	if b.lost {
		return
	}
	hint := "leave the cell empty for every site; no bed in beds.csv names one"
	if len(b.sites.Names) > 0 {
		hint = "the beds stand at " + strings.Replace(listed(b.sites.Names), " or ", " and ", 1) + "; leave the cell empty for every site"
	}
	x.warn(c, fmt.Sprintf("no bed stands at %s, so the row brings nothing", spelling.Quoted(d.Site)), spelling.DidYouMean(c.text, b.sites.Names, hint))
}

func (x *reader) delivery(d *deliveryRow) {
	at := d.row.cell
	if n := spelling.Tidy(at("name").text); n != "" {
		d.Name = n
	}
	d.Covers = slices.Clone(quotes.Forms)
	set(at("covers"), &d.Covers, x.covers)
	if c := at("handling"); !c.blank() {
		d.HandlingSet = true
		set(c, &d.Handling, x.money)
	}
	set(at("order_fee"), &d.OrderFee, x.money)
	var truck quotes.Truck
	set(at("load_fee"), &truck.Fee, x.money)
	set(at("load_volume"), &truck.Volume, func(c *cell) (*units.Litres, bool) {
		v, ok := x.volume(c, false)
		return &v, ok
	})
	set(at("load_weight"), &truck.Weight, func(c *cell) (*units.Kilograms, bool) {
		v, ok := x.mass(c, false)
		return &v, ok
	})
	d.Trucks, d.LoadHolds = []quotes.Truck{truck}, quotes.HoldsOne
	set(at("load_holds"), &d.LoadHolds, func(c *cell) (quotes.LoadHolds, bool) {
		return choice(x, c, []quotes.LoadHolds{quotes.HoldsOne, quotes.HoldsAny}, "write any if one load takes several stones together")
	})
	set(at("haul"), &d.Haul, x.haul)
	amount := func(c *cell) (*units.Money, bool) {
		m, ok := x.money(c)
		return &m, ok
	}
	set(at("free_over"), &d.FreeOver, amount)
	set(at("min_order"), &d.MinOrder, amount)
	set(at("tax"), &d.Tax, x.percent)
	x.taxTwice(at("tax"), d.Tax)
	if d.FreeOver != nil {
		x.freeFromZero(at("free_over"), *d.FreeOver)
	}
	if truck.Fee.Sign() > 0 && at("load_volume").blank() && at("load_weight").blank() {
		x.warn(at("load_fee"), "a load has no size, so every order is counted as one load", "write what one load holds under load_volume or load_weight")
	}
}

const coversHint = "leave the cell empty for all"

// covers reads the forms a row delivers: all, or some of bag, bulk and sack.
func (x *reader) covers(c *cell) ([]quotes.Form, bool) {
	known := append([]string{"all"}, asStrings(quotes.Forms)...)
	picked := map[quotes.Form]bool{}
	ok := !c.off
	words := parts(c.text)
	for _, p := range words {
		part := *c
		part.text = p
		w, good := choice(x, &part, known, coversHint)
		ok = ok && good
		for _, f := range quotes.Forms {
			if w == "all" || string(f) == w {
				picked[f] = true
			}
		}
	}
	if len(words) == 0 {
		x.fail(c, spelling.Quoted(c.text)+" names nothing", listed(known)+", with ; between", coversHint)
		return nil, false
	}
	return slices.DeleteFunc(slices.Clone(quotes.Forms), func(f quotes.Form) bool { return !picked[f] }), ok
}

// haul reads money per volume as sold.
func (x *reader) haul(c *cell) (units.PerVolume, bool) {
	p, err := units.ParsePerVolume(c.text, c.mark)
	v, ok := converted(x, c, p, err)
	if !ok {
		return v, false
	}
	x.note(c, v.Note)
	amount := c.text
	for _, per := range []string{"/", " per "} {
		amount, _, _ = strings.Cut(amount, per)
	}
	return v, x.ownCurrency(c, amount)
}

// trucks puts rows that are sizes of truck of one service into one way: rows of one
// supplier and site with the same covers and the same name, written out. Two rows
// of one name that reach the same site but are no such sizes are a problem; rows
// without a name stay alternatives.
func (x *reader) trucks(rows []*deliveryRow) []*deliveryRow {
	var out []*deliveryRow
	for _, d := range rows {
		first := slices.IndexFunc(out, func(e *deliveryRow) bool {
			written := !d.row.cell("name").blank() && !e.row.cell("name").blank()
			return written && !d.noSite && !e.noSite && d.Supplier == e.Supplier && spelling.NameKey(d.Name) == spelling.NameKey(e.Name) &&
				(d.Site == "" || e.Site == "" || d.Site == e.Site)
		})
		if first < 0 {
			out = append(out, d)
			continue
		}
		e := out[first]
		if d.Site != e.Site || !slices.Equal(d.Covers, e.Covers) {
			x.problem(d.row.cell("name").Pos, "name", fmt.Sprintf("%s has a way called %s on line %d already that reaches the same site", d.Supplier, spelling.Quoted(d.Name), e.Line),
				"a name of its own for each way, or the same site and covers for sizes of truck of one service", "ways of one supplier and site are alternatives; name them, such as own truck and carrier")
			continue
		}
		for _, same := range []struct {
			heading string
			alike   bool
		}{
			{"handling", d.HandlingSet == e.HandlingSet && d.Handling.Equal(e.Handling)},
			{"order_fee", d.OrderFee.Equal(e.OrderFee)},
			{"load_holds", d.LoadHolds == e.LoadHolds},
			{"haul", d.Haul.PerLitre() == e.Haul.PerLitre()},
			{"free_over", sameMoney(d.FreeOver, e.FreeOver)},
			{"min_order", sameMoney(d.MinOrder, e.MinOrder)},
			{"tax", d.Tax.Equal(e.Tax)},
		} {
			if !same.alike {
				c := d.row.cell(same.heading)
				x.fail(c, fmt.Sprintf("%s differs from line %d, whose service called %s this row is a size of truck of", same.heading, e.Line, spelling.Quoted(e.Name)),
					"the same in all sizes of one service", "write it alike, or give another service a name of its own")
			}
		}
		e.Trucks = append(e.Trucks, d.Trucks...)
		slices.SortStableFunc(e.Trucks, func(a, b quotes.Truck) int {
			return cmp.Or(a.Fee.Cmp(b.Fee), cmp.Compare(size(a.Volume), size(b.Volume)), cmp.Compare(size(a.Weight), size(b.Weight)))
		})
	}
	return out
}

// size is a limit as a number; none is above all.
func size[T ~float64](limit *T) float64 {
	if limit == nil {
		return math.Inf(1)
	}
	return float64(*limit)
}

func sameMoney(a, b *units.Money) bool {
	return a == nil && b == nil || a != nil && b != nil && a.Equal(*b)
}

// handling makes the once-per-order fee of a supplier one figure: the highest of
// those stated stands where a cell is empty, so that no fee is lost silently.
func (x *reader) handling(rows []*deliveryRow, suppliers []string) {
	for _, s := range suppliers {
		var top, other *deliveryRow
		for _, d := range rows {
			if d.Supplier != s || !d.HandlingSet {
				continue
			}
			switch {
			case top == nil:
				top = d
			case d.Handling.IsZero() || top.Handling.IsZero(): // a 0 that is written says that none is due
				if top.Handling.IsZero() {
					top = d
				}
			case !d.Handling.Equal(top.Handling):
				other = d
				if d.Handling.Cmp(top.Handling) > 0 {
					top, other = d, top
				}
			}
		}
		if other != nil {
			x.warn(other.row.cell("handling"), fmt.Sprintf("handling of %s is %s here, but %s on line %d; it is due once, and the highest of the rows used is counted",
				s, x.signed(other.Handling), x.signed(top.Handling), top.Line), "write it alike on each row of the supplier")
		}
		for _, d := range rows {
			if d.Supplier != s || d.HandlingSet || top == nil || top.Handling.IsZero() {
				continue
			}
			d.Handling = top.Handling
			x.warn(d.row.cell("handling"), fmt.Sprintf("the cell is empty, so the handling of %s on line %d, %s, is taken here too", s, top.Line, x.signed(top.Handling)),
				fmt.Sprintf("write %s, or 0 if none is due for an order that only this row brings", x.show(top.Handling)))
		}
	}
}

// gaps warns of suppliers that deliver free, or not to some site or not in some
// form, for want of a row.
func (x *reader) gaps(q *quoteBook, b *bedBook, ways []*quotes.Delivery) {
	for _, s := range q.suppliers.Names {
		mine := slices.DeleteFunc(slices.Clone(ways), func(d *quotes.Delivery) bool { return d.Supplier != s })
		first := q.firstRow(s).row.cell("supplier")
		if len(mine) == 0 {
			x.warn(first, fmt.Sprintf("%s has no delivery row, so it is taken to deliver free", s), "add a row to delivery.csv, or a fee under delivery")
			continue
		}
		if b.none {
			continue
		}
		sites := b.sites.Names
		if len(sites) == 0 {
			sites = []string{""}
		}
		for _, site := range sites {
			var covered []quotes.Form
			for _, d := range mine {
				if d.Site == "" || d.Site == site {
					covered = append(covered, d.Covers...)
				}
			}
			where := ""
			if site != "" {
				where = " to " + site
			}
			for _, f := range quotes.Forms {
				if q.has(s, f) && !slices.Contains(covered, f) {
					x.warn(first, fmt.Sprintf("%s quotes in the form %s, but no delivery row brings it%s, so it cannot be bought there", s, f, where),
						"add a row to delivery.csv, with 0 if it costs nothing")
				}
			}
		}
	}
}
