package message

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"mediabuy/quotes/files"
)

// TestTaxes reads what a tax is said to be on into a job that adds one: "-" is a cell that is not there, "?" one that is asked about.
func TestTaxes(t *testing.T) {
	const bags = "Orle Bank Supplies\nPumice 8-16mm in 30 L bags £9 each"
	for _, c := range []struct{ text, goods, fee, feeTax string }{
		{bags + ".\nDelivery £10 including VAT.", "-", "£10", "0%"},
		{bags + ". Postage £8 (inc VAT).", "-", "£8", "0%"},
		{bags + ". Haulage is £30, VAT is included in that delivery.", "-", "£30", "0%"},
		{bags + " plus VAT. Carriage £12 inc VAT.", "-", "£12", "0%"},
		{bags + ". Delivery, including VAT, £14.", "-", "£14", "0%"},
		{bags + ". Courier £14, VAT included.", "?", "£14", "?"},
		{bags + ".\nAll prices include VAT. Carriage £18 per order.", "0%", "£18", "0%"},
		{bags + ". Carriage £18. Everything above inc. VAT.", "0%", "£18", "0%"},
		{bags + " inc VAT. Carriage £18.", "0%", "-", "-"},
		{bags + ". Delivery £10. No VAT on ours, we are not registered.", "0%", "£10", "0%"},
		{bags + ". Delivery £10. We're not VAT registered.", "0%", "£10", "0%"},
		{bags + ". Delivery £10. We don't charge VAT.", "0%", "£10", "0%"},
		{bags + ". Delivery £10. Not registered so no VAT.", "0%", "£10", "0%"},
		{bags + ". Delivery £10. No VAT as he isn't registered.", "0%", "£10", "0%"},
		{bags + ". Delivery £10. We are tax exempt", "0%", "£10", "0%"},
		{bags + ". Delivery £10. You pay no tax if you are tax exempt.", "-", "-", "-"},
		{bags + ". Delivery £10. No VAT to schools.", "?", "-", "-"},
		{bags + ". Delivery £10. VAT 5% on materials only, no VAT on haulage.", "5%", "£10", "0%"},
		{bags + ". Delivery £10. VAT 5% on goods only.", "5%", "£10", "0%"},
		{bags + ". Delivery £10. All plus 5% VAT.", "5%", "£10", "5%"},
		{bags + ". Delivery £10. Sales tax 5%.", "5%", "-", "-"}, // which may be on the goods alone
		{bags + ". Delivery £10. All plus VAT at 20%.", "20%", "-", "-"},
		{bags + ". £75 a load, 6 m3 on the truck. Prices include VAT.", "0%", "£75", "0%"},
		{bags + ". Delivery is £10 + VAT.", "-", "-", "-"},
		{bags + " + VAT. Delivery £10 plus VAT.", "-", "-", "-"},
	} {
		p, err := Parse(c.text, Options{Delivery: true, Settings: files.Source{Name: "job.toml", R: strings.NewReader("currency = \"GBP\"\ntax = \"20%\"\n")}})
		require.NoError(t, err)
		requireWhole(t, p)
		require.Len(t, p.Rows, 1, c.text)
		asked := map[string]bool{}
		for _, q := range p.Asked {
			for _, g := range q.Readings {
				for _, one := range g.Changes() {
					asked[one.File] = asked[one.File] || one.Cells["tax"] != ""
				}
			}
		}
		cell := func(rows []Row, file, column string) string {
			switch {
			case len(rows) > 0 && rows[0].Text(column) != "":
				return rows[0].Text(column)
			case column == "tax" && asked[file]:
				return "?"
			}
			return "-"
		}
		fee := "-"
		for _, column := range []string{"order_fee", "load_fee"} {
			if got := cell(p.Delivery, files.DeliveryFile, column); got != "-" {
				fee = got
			}
		}
		assert.Equal(t, []string{c.goods, c.fee, c.feeTax}, []string{cell(p.Rows, files.QuotesFile, "tax"), fee, cell(p.Delivery, files.DeliveryFile, "tax")}, summary(p))
		assert.NotContains(t, summary(p), taxReason)
	}
}

// A tax that the goods have, too, stays theirs where the row of delivery is not in the job's money.
func TestTaxOfAFeeInOtherMoney(t *testing.T) {
	p, err := Parse("Pumice 3/8 in is $88 a yard, delivery £58, 21% VAT. Low Ford Quarry", Options{Delivery: true})
	require.NoError(t, err)
	requireSound(t, p)
	require.Len(t, p.Rows, 1)
	assert.Equal(t, "21%", p.Rows[0].Text("tax"))
	assert.Empty(t, p.Delivery)
}
