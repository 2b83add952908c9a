package papers

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"mediabuy/optimise/bill"
	"mediabuy/papers/page"
	"mediabuy/units"
)

// cellBeside is the name of the cell so many columns right of the row whose second
// cell begins with words.
func cellBeside(t *testing.T, f *excelize.File, sheet, words string, col int) string {
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	for i, row := range rows {
		for _, c := range row {
			if c == words {
				at, err := excelize.CoordinatesToCellName(col+1, i+1)
				require.NoError(t, err)
				return at
			}
		}
	}
	t.Fatalf("sheet %s has no %q: %v", sheet, words, rows)
	return ""
}

// The price of gravel stands once on the sheet of prices, though it goes to two sites.
// 2.5 t to one and 1 t to the other at 51.115 in place of 48.335 come to 127.79 and
// 51.12 in place of 120.84 and 48.34.
func TestPricesToTry(t *testing.T) {
	job, _ := gardens.job(t)
	items := []bill.Item{{Quote: named(t, job, "pebbles"), Site: "north", Steps: 22}, {Quote: named(t, job, "gravel"), Site: "north", Steps: 5}, {Quote: named(t, job, "gravel"), Site: "south", Steps: 2}}
	plan := bought(t, job, items...)
	f, err := excelize.OpenReader(bytes.NewReader(written(t, Input{Plan: plan}, asXLSX)))
	require.NoError(t, err)
	number := func(cell string) string {
		v, err := f.CalcCellValue("Prices", cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		d, err := units.ParsePlainDecimal(v)
		require.NoError(t, err)
		return d.Round(6).Text(2)
	}
	total, more := cellBeside(t, f, "Prices", "The bill", priceTry), cellBeside(t, f, "Prices", "more or less", priceTry)
	assert.Equal(t, plan.Bill.Total.Text(2), number(total))
	assert.Equal(t, "0.00", number(more))

	rows, err := f.GetRows("Prices", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	stands := 0
	for i, row := range rows {
		if len(row) > priceTry && row[priceTry] == "48.335" {
			stands++
			at, err := excelize.CoordinatesToCellName(priceTry+1, i+1)
			require.NoError(t, err)
			require.NoError(t, f.SetCellFloat("Prices", at, 51.115, -1, 64))
		}
	}
	assert.Equal(t, 1, stands)
	named(t, job, "gravel").Price = units.M("51.115")
	dearer := bought(t, job, items...)
	assert.Equal(t, dearer.Bill.Total.Text(2), number(total))
	assert.Equal(t, dearer.Bill.Total.Sub(plan.Bill.Total).Text(2), number(more))

	// Shown with their currency, the bill's headings in sight while one scrolls.
	shown, err := f.GetCellValue("Prices", cellBeside(t, f, "Prices", "The bill", priceQuoted))
	require.NoError(t, err)
	assert.Equal(t, units.FormatMoney(plan.Bill.Total, "USD"), shown)
	for _, sheet := range []string{"Bill", "Prices"} {
		panes, err := f.GetPanes(sheet)
		require.NoError(t, err)
		assert.True(t, panes.Freeze, sheet)
		assert.Positive(t, panes.YSplit, sheet)
	}
	// On paper there is no such sheet.
	for _, form := range []func(*page.Page, *bytes.Buffer) error{asHTML, asMarkdown} {
		assert.NotContains(t, string(written(t, Input{Plan: plan}, form)), "Prices to try")
	}
}
