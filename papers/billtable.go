package papers

import (
	"fmt"
	"slices"
	"strings"

	"mediabuy/optimise/bill"
	"mediabuy/papers/page"
	"mediabuy/papers/received"
	"mediabuy/units"
)

// Columns of the bill.
const (
	billKind = iota
	billSupplier
	billWhat
	billFrom
	billQuantity
	billEach
	billProduct
	billAmount
	billRate
	billTax
)

// billTable builds the bill with formulas that work it out again.
type billTable struct {
	*report
	rows []page.Row
	subs []int // rows of suppliers' subtotals
}

// bill is the plan's bill by supplier: each goods line as packs × price, each drop
// from its fees, tax rounded once a supplier, rinsing once; sums as formulas. Prices
// stand on a sheet of their own in a spreadsheet, where they can be changed.
func (r *report) bill() (blocks []page.Block, prices page.Section, err error) {
	b := &billTable{report: r}
	for _, s := range r.Plan.Bill.Suppliers() {
		if err := b.supplier(s); err != nil {
			return nil, page.Section{}, err
		}
	}
	b.foot()
	prices = b.priceSheet()
	t := &page.Table{
		Cols: []page.Col{{Name: "Kind", SheetOnly: true}, {Name: "Supplier"}, {Name: "What"}, {Name: "Quote"}, {Name: "Quantity", Right: true}, {Name: "Each", Right: true},
			{Name: "Quantity × each", Right: true, SheetOnly: true}, {Name: "Amount", Right: true}, {Name: "Tax rate", Right: true}, {Name: "Tax before rounding", Right: true, SheetOnly: true}},
		Rows: b.rows,
	}
	if r.Plan.Job.Settings.TaxIncluded {
		t.Cols[billRate].SheetOnly = true
	}
	words := "Money is in " + r.currency + ". Each goods line is packs × price, rounded as an invoice would be; tax is added up for each supplier and rounded once."
	if r.Plan.Job.Settings.TaxIncluded {
		words = "Money is in " + r.currency + ". Each goods line is packs × price, rounded as an invoice would be; the prices carry their tax already."
	}
	if len(r.Plan.Leftover) > 0 {
		var left []string
		for _, l := range r.Plan.Leftover {
			left = append(left, b.volume(l.Litres)+" of "+l.Quote.NameWords()+AtSite("at", l.Site))
		}
		words += " Left over from whole packs: " + units.Listed(left) + "."
	}
	return []page.Block{t, &page.Para{Text: words}}, prices, nil
}

// line begins a row of the bill.
func (b *billTable) line(kind page.RowKind, word, supplier, what, from string) *page.Row {
	cells := make([]page.Cell, billTax+1)
	cells[billKind], cells[billSupplier], cells[billWhat], cells[billFrom] = page.Text(word), page.Text(supplier), page.Text(what), page.Text(from)
	b.rows = append(b.rows, page.Row{Kind: kind, Cells: cells})
	return &b.rows[len(b.rows)-1]
}

// worked is a cell with a formula and the number it must come to.
func (b *billTable) worked(m units.Money, formula func(at func(int, int) string) string) page.Cell {
	c := b.moneyCell(m)
	c.Formula = formula
	return c
}

// product is the cell of quantity × each in row i; it is not rounded.
func product(i int) page.Cell {
	return page.Cell{Digits: 6, Formula: func(at func(int, int) string) string { return at(i, billQuantity) + "*" + at(i, billEach) }}
}

// sumOf is the cell of the products of rows from to to.
func sumOf(from, to int) page.Cell {
	return page.Cell{Digits: 6, Formula: func(at func(int, int) string) string {
		return fmt.Sprintf("SUM(%s:%s)", at(from, billProduct), at(to, billProduct))
	}}
}

// rounded is the amount of row i: its product rounded to the currency's digits.
func (b *billTable) rounded(i int, m units.Money) page.Cell {
	return b.worked(m, func(at func(int, int) string) string {
		return fmt.Sprintf("ROUND(%s,%d)", at(i, billProduct), b.digits)
	})
}

// taxed puts the tax rate and the tax of row i.
func (b *billTable) taxed(i int, rate units.Decimal) {
	if b.Plan.Job.Settings.TaxIncluded {
		return
	}
	b.rows[i].Cells[billRate] = page.Num(percent(rate), rate.Float(), 5)
	b.rows[i].Cells[billTax] = page.Cell{Digits: 6, Formula: func(at func(int, int) string) string { return at(i, billAmount) + "*" + at(i, billRate) }}
}

func percent(share units.Decimal) string {
	return share.Mul(units.DecimalFromInt(100)).String() + " %"
}

func (b *billTable) supplier(name string) error {
	bill := b.Plan.Bill
	first := len(b.rows)
	sum := units.Money{}
	for _, l := range bill.Lines {
		if l.Quote.Supplier == name {
			if err := b.goods(l); err != nil {
				return err
			}
			sum = sum.Add(l.Goods)
		}
	}
	for _, d := range bill.Drops {
		if d.Supplier == name {
			b.drop(d)
			sum = sum.Add(d.Fee)
		}
	}
	last := len(b.rows) - 1
	if !b.Plan.Job.Settings.TaxIncluded {
		tax := bill.TaxOf[name]
		row := b.line(page.Plain, received.KindTax, name, "Tax", "")
		row.Cells[billAmount] = b.worked(tax, func(at func(int, int) string) string {
			return fmt.Sprintf("ROUND(SUM(%s:%s),%d)", at(first, billTax), at(last, billTax), b.digits)
		})
		sum = sum.Add(tax)
		last++
	}
	b.subs = append(b.subs, len(b.rows))
	row := b.line(page.Total, "", name, "In all", "")
	row.Cells[billAmount] = b.worked(sum, func(at func(int, int) string) string {
		return fmt.Sprintf("SUM(%s:%s)", at(first, billAmount), at(last, billAmount))
	})
	return nil
}

// goods is one goods line; one bought at several prices has a row for each below.
func (b *billTable) goods(l bill.Line) error {
	parts, err := tiers(b.Plan, l)
	if err != nil {
		return err
	}
	q := l.Quote
	what := packWords(l) + AtSite("to", l.Site)
	i := len(b.rows)
	b.line(page.Plain, received.KindGoods, q.Supplier, what, q.Name)
	set := func(i int, t tier) {
		b.rows[i].Cells[billQuantity] = quantity(t.packs)
		b.rows[i].Cells[billEach] = b.priceCell(t.price)
		b.rows[i].Cells[billProduct] = product(i)
	}
	if len(parts) == 1 {
		set(i, parts[0])
	} else {
		b.rows[i].Cells[billQuantity] = quantity(l.Packs)
		for _, t := range parts {
			k := len(b.rows)
			b.line(page.Sub, "", "", "of these at", "")
			set(k, t)
		}
		b.rows[i].Cells[billProduct] = sumOf(i+1, len(b.rows)-1)
	}
	b.rows[i].Cells[billAmount] = b.rounded(i, l.Goods)
	b.taxed(i, q.Tax)
	return nil
}

// packWords names a line with its pack and the break it reached.
func packWords(l bill.Line) string {
	words := l.Quote.ItemWords() + ", " + l.Quote.PackWords()
	if !l.BreakFrom.IsZero() {
		words += ", " + reached(l)
	}
	return words
}

func quantity(n units.Decimal) page.Cell {
	digits := 0
	for !n.Round(digits).Equal(n) && digits < 4 {
		digits++
	}
	return page.Num(n.Text(digits), n.Float(), digits)
}

// drop is one delivery, with a row below for each fee that makes it up.
func (b *billTable) drop(d bill.DropLine) {
	i := len(b.rows)
	b.line(page.Plain, received.KindDelivery, d.Supplier, dropWords(d)+AtSite("to", d.Site), "")
	part := func(what string, n units.Decimal, each units.Money) {
		k := len(b.rows)
		b.line(page.Sub, "", "", what, "")
		b.rows[k].Cells[billQuantity] = quantity(n)
		b.rows[k].Cells[billEach] = b.priceCell(each)
		b.rows[k].Cells[billProduct] = product(k)
	}
	one := units.DecimalFromInt(1)
	if !d.Order.IsZero() {
		part("for the order", one, d.Order)
	}
	if !d.Load.IsZero() {
		for _, t := range d.Trucks {
			what := "for each load"
			if len(d.Terms.Trucks) > 1 {
				what += " " + t.Truck.Words(b.Units)
			}
			part(what, units.DecimalFromInt(int64(t.Loads)), t.Truck.Fee)
		}
	}
	if !d.Haul.IsZero() {
		rate := d.Terms.Haul
		// The volume hauled, in the unit of the rate.
		part("haul, "+strings.TrimSpace(rate.Raw), d.Haul.Decimal().Quo(rate.Money.Decimal()), rate.Money)
	}
	if len(b.rows) == i+1 {
		b.rows[i].Cells[billProduct] = page.Num("", 0, 6)
	} else {
		b.rows[i].Cells[billProduct] = sumOf(i+1, len(b.rows)-1)
	}
	b.rows[i].Cells[billAmount] = b.rounded(i, d.Fee)
	b.taxed(i, d.Terms.Tax)
}

// foot is rinsing, the sums by kind and the total.
func (b *billTable) foot() {
	bill := b.Plan.Bill
	parts := slices.Clone(b.subs)
	if !bill.Rinsing.IsZero() {
		i := len(b.rows)
		parts = append(parts, i)
		hours := units.Decimal{}
		for _, l := range bill.Lines {
			hours = hours.Add(units.DecimalOf(l.Quote.RinseHours()).Mul(l.Packs))
		}
		b.line(page.Plain, "rinsing", "own time", "Rinsing, by the hour", "")
		b.rows[i].Cells[billQuantity] = page.Num(hours.Text(2), hours.Float(), 2)
		b.rows[i].Cells[billEach] = b.priceCell(b.Plan.Job.Settings.LabourRate)
		b.rows[i].Cells[billProduct] = product(i)
		b.rows[i].Cells[billAmount] = b.rounded(i, bill.Rinsing)
	}
	last := len(b.rows) - 1
	row := b.line(page.Total, "", "Total", "", "")
	row.Cells[billAmount] = b.worked(bill.Total, func(at func(int, int) string) string {
		names := make([]string, len(parts))
		for k, p := range parts {
			names[k] = at(p, billAmount)
		}
		return strings.Join(names, "+")
	})
	row.Cells[billAmount].Label = totalLabel
	for _, k := range []struct {
		kind, name string
		m          units.Money
	}{{received.KindGoods, "of which goods", bill.Goods}, {received.KindDelivery, "of which delivery", bill.Delivery}, {received.KindTax, "of which tax", bill.Tax}} {
		row := b.line(page.Sub, "", k.name, "", "")
		row.Cells[billAmount] = b.worked(k.m, func(at func(int, int) string) string {
			return fmt.Sprintf(`SUMIF(%s:%s,"%s",%s:%s)`, at(0, billKind), at(last, billKind), k.kind, at(0, billAmount), at(last, billAmount))
		})
	}
}
