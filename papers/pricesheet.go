package papers

import (
	"fmt"
	"slices"

	"mediabuy/papers/page"
)

// Columns of the sheet of prices.
const (
	priceSupplier = iota
	priceWhat
	priceQuoted
	priceTry
)

// totalLabel names the bill's total within the spreadsheet.
const totalLabel = "bill_total"

// priceSheet moves the prices of the bill to a sheet of their own, where they can be
// changed: each "each" of the bill becomes what stands there, so that the bill follows
// by formula. A price that several lines pay stands there once.
func (b *billTable) priceSheet() page.Section {
	t := &page.Table{Cols: []page.Col{{Name: "Supplier"}, {Name: "Price of one"}, {Name: "As planned", Right: true}, {Name: "Price to try", Right: true}}}
	label := map[string]string{}
	var above page.Row
	for i := range b.rows {
		row := &b.rows[i]
		if row.Kind != page.Sub {
			above = *row
		}
		each := row.Cells[billEach]
		if each.Number == nil {
			continue
		}
		what := above.Cells[billWhat].Text
		if row.Kind == page.Sub {
			what += ", " + row.Cells[billWhat].Text
		}
		key := fmt.Sprintf("%q %q %v", above.Cells[billSupplier].Text, cellKey(above, what), *each.Number)
		if label[key] == "" {
			label[key] = fmt.Sprintf("price_of_line_%d", len(label)+1)
			try := each
			try.Input, try.Label = true, label[key]
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{page.Text(above.Cells[billSupplier].Text), page.Text(what), each, try}})
		}
		name := label[key]
		row.Cells[billEach].Formula = func(func(int, int) string) string { return name }
	}
	total := b.Plan.Bill.Total
	planned := b.moneyCell(total)
	then := b.worked(total, func(func(int, int) string) string { return totalLabel })
	more := b.moneyCell(total.Sub(total))
	n := len(t.Rows)
	more.Formula = func(at func(int, int) string) string {
		return fmt.Sprintf("ROUND(%s-%s,%d)", at(n, priceTry), at(n, priceQuoted), b.digits)
	}
	t.Rows = append(t.Rows,
		page.Row{Kind: page.Total, Cells: []page.Cell{page.Text("The bill"), {}, planned, then}},
		page.Row{Kind: page.Sub, Cells: []page.Cell{page.Text("more or less"), {}, {}, more}})
	return page.Section{Heading: "Prices to try", Sheet: "Prices", SheetOnly: true, Blocks: []page.Block{
		&page.Para{Text: "Change a framed price and the bill follows. What is bought stays as planned, and so does the price break it reached: with other prices another purchase may be cheaper, so plan again before you order."}, t}}
}

// cellKey is what a line's price is told apart by: its quote, or what it is.
func cellKey(line page.Row, what string) string {
	if from := line.Cells[billFrom].Text; from != "" {
		return from
	}
	return what
}

// behindSheet puts a section behind the sheet of a spreadsheet that another begins.
func behindSheet(list []page.Section, sheet string, s page.Section) []page.Section {
	i := slices.IndexFunc(list, func(o page.Section) bool { return o.Sheet == sheet })
	for i++; i < len(list) && list[i].Sheet == ""; i++ {
	}
	return slices.Insert(list, i, s)
}
