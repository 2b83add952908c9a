package papers

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"mediabuy/optimise"
	"mediabuy/optimise/bill"
	"mediabuy/optimise/risk"
	"mediabuy/optimise/share"
	"mediabuy/papers/caution"
	"mediabuy/papers/page"
	"mediabuy/quotes"
	"mediabuy/units"
)

// gardensInput is a report on the two gardens, with every part in use.
func gardensInput(t require.TestingT) Input {
	job, rep := gardens.job(t)
	plan := solve(t, job)
	dear := plan.Bill.Total.Add(units.M("12.34"))
	split, err := share.Solve(context.Background(), job, share.Options{Plan: plan, Rule: share.ByLitres})
	require.NoError(t, err)
	return Input{
		Plan: plan, Warnings: rep.Warnings, Compared: optimise.Compare(job, plan.Fit, optimise.CompareOptions{}), For: Coop,
		Ways:     []Way{{Name: "the cheapest single supplier", Suppliers: []string{"Tansy Hill Supply"}, Total: &dear, Proven: true}, {Name: "all in bulk", Proven: true}},
		Cautions: []caution.Caution{{About: "floats", Words: "clay floats"}},
		Charts:   []Chart{{SVG: []byte("<svg xmlns='http://www.w3.org/2000/svg'/>"), Sentence: "Bulk is cheaper above 2 m³."}},
		Split:    split,
	}
}

// golden compares a text with a file of testdata; UPDATE=1 writes the file anew
// for review.
func golden(t *testing.T, name string, got []byte) {
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE") != "" {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}

func written(t require.TestingT, in Input, form func(*page.Page, *bytes.Buffer) error) []byte {
	p, err := Justify(in, Style{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, form(p, &b))
	return b.Bytes()
}

func asMarkdown(p *page.Page, b *bytes.Buffer) error { return p.Markdown(b) }
func asXLSX(p *page.Page, b *bytes.Buffer) error     { return p.XLSX(b) }
func asHTML(p *page.Page, b *bytes.Buffer) error     { return p.HTML(b) }

func TestGoldenPapers(t *testing.T) {
	in := gardensInput(t)
	golden(t, "report.md", written(t, in, asMarkdown))
	orders, err := Orders(in.Plan, Style{})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, orders[0].Page(Style{Units: units.US}).Markdown(&b))
	golden(t, "order.md", b.Bytes())
	b.Reset()
	require.NoError(t, orders[0].CSV(&b))
	golden(t, "order.csv", b.Bytes())
	requests, err := Requests(in.Plan.Job, nil, Style{})
	require.NoError(t, err)
	b.Reset()
	require.NoError(t, requests[0].Page(Style{}).Markdown(&b))
	golden(t, "request.md", b.Bytes())
	b.Reset()
	require.NoError(t, requests[0].CSV(&b))
	golden(t, "request.csv", b.Bytes())
}

func TestReportSections(t *testing.T) {
	in := gardensInput(t)
	headings := func() []string {
		p, err := Justify(in, Style{})
		require.NoError(t, err)
		var out []string
		for _, s := range p.Printed() {
			out = append(out, s.Heading)
		}
		return out
	}
	assert.Equal(t, []string{"The decision", "A. The bill, line by line", "B. Who pays what", "C. Who would be better off alone", "D. The split by every rule",
		"E. Who should host the delivery", "F. Members agree", "G. The quotes compared", "H. Other ways to buy", "I. Each bed",
		"J. Where another choice would be cheaper", "K. What was assumed", "L. Take care", "M. Sources"}, headings())
	in.For = Client
	assert.Equal(t, []string{"The decision", "A. The bill, line by line", "B. The quotes compared", "C. Other ways to buy", "D. Each bed",
		"E. Where another choice would be cheaper", "F. What was assumed", "G. Take care", "H. Sources"}, headings(), "a client is not shown who pays for which bed")
}

func TestUnprovenReportSaysSoFirst(t *testing.T) {
	in := gardensInput(t)
	in.Plan.Status = optimise.TimeLimit
	in.Plan.Bound = in.Plan.Bill.Total.Float() - 20
	text := string(written(t, in, asMarkdown))
	alarm := strings.Index(text, "Not proven")
	require.Positive(t, alarm)
	assert.Less(t, alarm, strings.Index(text, "## The decision"))
	assert.Contains(t, text, "at most $20.00 could still be saved")
	assert.NotContains(t, text, "nothing is cheaper")
	assert.NotContains(t, text, "Another way was found")

	less := in.Plan.Bill.Total.Sub(units.M("7.50"))
	in.Ways = append(in.Ways, Way{Name: "all in sacks", Total: &less})
	text = string(written(t, in, asMarkdown))
	warned := strings.Index(text, "Another way was found that costs less: all in sacks, for $672.45, $7.50 less. Give the search more time before anything is signed.")
	require.Positive(t, warned)
	assert.Less(t, warned, strings.Index(text, "## The decision"))
}

// A split that is not proven is said first to those who share the bill, and to
// nobody else.
func TestUnprovenSplitSaysSoFirst(t *testing.T) {
	in := gardensInput(t)
	in.Split.Proven = false
	text := string(written(t, in, asMarkdown))
	alarm := strings.Index(text, "time was up for some of the orders compared")
	require.Positive(t, alarm)
	assert.Less(t, alarm, strings.Index(text, "## The decision"))
	in.For = Client
	assert.NotContains(t, string(written(t, in, asMarkdown)), "time was up")
}

func TestEveryBoughtLineNamesItsQuote(t *testing.T) {
	in := gardensInput(t)
	text := string(written(t, in, asMarkdown))
	for _, l := range in.Plan.Bill.Lines {
		assert.Contains(t, text, fmt.Sprintf(" | %s | %s | ", l.Quote.Name, l.Packs))
	}
}

// sheetMoney reads the amount beside a word in a sheet as a spreadsheet works it
// out: the first row whose cell in column of is that word.
func sheetMoney(t require.TestingT, f *excelize.File, sheet, column, word string) string {
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	for i := range rows {
		at := fmt.Sprintf("%s%d", column, i+1)
		v, err := f.GetCellValue(sheet, at)
		require.NoError(t, err)
		if v == word {
			got, err := f.CalcCellValue(sheet, fmt.Sprintf("H%d", i+1), excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			d, err := units.ParsePlainDecimal(got)
			require.NoError(t, err)
			return d.Text(2)
		}
	}
	require.Fail(t, "no "+word)
	return ""
}

// One purchase, one total: in the plan's bill, the report's words, its spreadsheet
// as worked out again, and the orders added up.
func TestTotalsOfAllPapersAreEqual(t *testing.T) {
	in := gardensInput(t)
	want := in.Plan.Bill.Total.Text(2)
	text := string(written(t, in, asMarkdown))
	// The decision, its table, the bill's total, the decision among other ways, and the approval.
	for _, place := range []string{"for $" + want + " in all, with", "| **Total** |  |  |  | **$" + want + "** |", "| **Total** |  |  |  |  | **$" + want + "** |", "| **the decision** | **", "purchase of $" + want + " in all"} {
		assert.Contains(t, text, place)
	}

	f, err := excelize.OpenReader(bytes.NewReader(written(t, in, asXLSX)))
	require.NoError(t, err)
	assert.Equal(t, want, sheetMoney(t, f, "Bill", "B", "Total"))
	for word, m := range map[string]units.Money{"of which goods": in.Plan.Bill.Goods, "of which delivery": in.Plan.Bill.Delivery, "of which tax": in.Plan.Bill.Tax} {
		assert.Equal(t, m.Text(2), sheetMoney(t, f, "Bill", "B", word), word)
	}

	orders, err := Orders(in.Plan, Style{})
	require.NoError(t, err)
	sum := in.Plan.Bill.Rinsing
	for _, o := range orders {
		var b bytes.Buffer
		require.NoError(t, o.CSV(&b))
		rows, err := csv.NewReader(&b).ReadAll()
		require.NoError(t, err)
		parts := units.Money{}
		for _, row := range rows[1 : len(rows)-1] {
			parts = parts.Add(units.M(row[13]))
		}
		last := rows[len(rows)-1]
		assert.Equal(t, "total", last[4])
		assert.Equal(t, last[13], parts.Text(2), "the rows of an order add up")
		sum = sum.Add(units.M(last[13]))
		b.Reset()
		require.NoError(t, o.Page(Style{}).Markdown(&b))
		assert.Contains(t, b.String(), "**$"+strings.TrimSpace(o.Total.Text(2))+"**")
	}
	assert.Equal(t, want, sum.Text(2))
}

// The formulas of the bill come to the bill for any purchase that can be priced:
// writing a spreadsheet whose formulas say anything else is an error.
func TestBillFormulasHoldForAnyPurchase(t *testing.T) {
	job, _ := gardens.job(t)
	rapid.Check(t, func(t *rapid.T) {
		var items []bill.Item
		for _, name := range []string{"pebbles", "lava", "gravel"} {
			if n := rapid.Int64Range(0, 60).Draw(t, name); n > 0 {
				items = append(items, bill.Item{Quote: named(t, job, name), Site: "north", Steps: n})
			}
		}
		if len(items) == 0 {
			return
		}
		plan := bought(t, job, items...)
		written(t, Input{Plan: plan}, asXLSX)
	})
}

func TestReportWithFormulasForNames(t *testing.T) {
	f := gardens
	f.quotes = strings.ReplaceAll(f.quotes, "Low Ford / Quarry", `=cmd|' /C calc'!A0`)
	f.delivery = strings.ReplaceAll(f.delivery, "Low Ford / Quarry", `=cmd|' /C calc'!A0`)
	job, _ := f.job(t)
	plan := bought(t, job, bill.Item{Quote: named(t, job, "lava"), Site: "north", Steps: 3})
	x, err := excelize.OpenReader(bytes.NewReader(written(t, Input{Plan: plan}, asXLSX)))
	require.NoError(t, err)
	for _, sheet := range x.GetSheetList() {
		rows, err := x.GetRows(sheet)
		require.NoError(t, err)
		for i, row := range rows {
			for j, v := range row {
				name, err := excelize.CoordinatesToCellName(j+1, i+1)
				require.NoError(t, err)
				formula, err := x.GetCellFormula(sheet, name)
				require.NoError(t, err)
				assert.NotContains(t, formula, "cmd")
				assert.False(t, strings.HasPrefix(v, "="), v)
			}
		}
	}
	html := string(written(t, Input{Plan: plan}, asHTML))
	assert.Contains(t, html, "=cmd|&#39; /C calc&#39;!A0", "on paper it is only a name")
}

// Ada: 2 long beds of 600 L and a third of the short one's 300 L = 1300 L. Bo: the
// other 200 L and the deep bed's 800 L = 1000 L. By litres Ada pays 13 of 23 parts
// of the bill.
func TestMembersPay(t *testing.T) {
	in := gardensInput(t)
	text := string(written(t, in, asMarkdown))
	ada := units.MoneyOf(in.Plan.Bill.Total.Decimal().Mul(units.DecimalFromInt(13)).Quo(units.DecimalFromInt(23))).Round(2)
	assert.Contains(t, text, "| Ada | long × 2, short (33.3 %) | 1300 | $"+ada.Text(2)+" | $")
	assert.Contains(t, text, "| Bo | short (66.7 %), deep | 1000 | $"+in.Plan.Bill.Total.Sub(ada).Text(2)+" | $")
	assert.Contains(t, text, "| **All** |  | **2300** | **$"+in.Plan.Bill.Total.Text(2)+"** |")
	in.Split = nil
	assert.Contains(t, string(written(t, in, asMarkdown)), "No bed names a member, so there is nobody to list here.")
}

// What more sureness costs stands in an appendix of its own with the decision marked
// on it, and a sentence where time was too short; nothing where nobody asked.
func TestWhatMoreSurenessCosts(t *testing.T) {
	in := gardensInput(t)
	assert.NotContains(t, string(written(t, in, asMarkdown)), "What more sureness costs")
	surer := *in.Plan
	dearer := *in.Plan.Bill
	dearer.Total = dearer.Total.Add(units.M("7.50"))
	surer.Bill = &dearer
	in.Sureness = &Sureness{Curve: &risk.Curve{Points: []risk.Point{{Plan: in.Plan, Sure: 0.43, Chosen: true}, {Plan: &surer, Sure: 0.99871}}}, Chart: pictured(t)}
	text := string(written(t, in, asMarkdown))
	assert.Contains(t, text, ". What more sureness costs\n")
	assert.Contains(t, text, "$7.50 more than the chosen buy fills every bed in 99 of 100 cases in place of 43.")
	assert.Contains(t, text, "| **43** | **$679.95** | **the decision** | **not known** | **as set out in A** |")
	assert.Contains(t, text, "| 99 | $687.45 | $7.50 | ")
	dear, none := units.M("20"), units.Money{}
	in.Sureness.Curve.Points[0].TopUp, in.Sureness.Curve.Points[1].TopUp = &dear, &none
	text = string(written(t, in, asMarkdown))
	assert.Contains(t, text, "| **43** | **$679.95** | **the decision** | **$699.95** | **as set out in A** |")
	assert.Contains(t, text, "| 99 | $687.45 | $7.50 | $687.45 | ")
	assert.Contains(t, text, " (worth its money) |")
	in.Risk = &risk.Report{Sure: 0.43, ShortP95: 30, TopUpP95: units.M("41"), Finished: true}
	text = string(written(t, in, asMarkdown))
	assert.Contains(t, text, "It is not certain that every bed comes out full: keep $41.00 in hand for a top-up, or ask for the one for $687.45, $7.50 more, that fills every bed in 99 of 100 cases "+
		"(1 × 1 tonne of river gravel to north, 1 × 1 m3 of red lava (lava rock) to north, 1 × 1 m3 of red lava (lava rock) to south and 5 × 50 L bag of round pebbles (expanded clay) to south); with the top-up to be expected it comes to $687.45, this one to $699.95.")
	in.Sureness.Curve.Points[0].TopUp = &none // the decision is itself worth its money
	assert.Contains(t, string(written(t, in, asMarkdown)), "or ask for a surer purchase.")
	in.Sureness = &Sureness{Curve: &risk.Curve{Cut: true}}
	assert.Contains(t, string(written(t, in, asMarkdown)), "Cost against sureness was not worked out in time.")
}

// A way that time was too short for is neither a saving nor impossible.
func TestWayNotSettled(t *testing.T) {
	in := gardensInput(t)
	in.Ways = append(in.Ways, Way{Name: "all in bags"})
	text := string(written(t, in, asMarkdown))
	assert.Contains(t, text, "| the cheapest single supplier | $692.29 | $12.34 |")
	assert.Contains(t, text, "| all in bulk | \\- | \\- | cannot fill the beds |")
	assert.Contains(t, text, "| all in bags | \\- | \\- | not settled in time |")
	assert.Contains(t, text, "| all in bags | not settled in time |")
	assert.Contains(t, text, "| all in bulk | cannot fill the beds |")
}

func asPDF(p *page.Page, b *bytes.Buffer) error { return p.PDF(b) }

// Charts that are as wide as each other, of which the PDF library keeps no order,
// come out in the same bytes as well.
func TestManyChartsSameBytes(t *testing.T) {
	in := gardensInput(t)
	for i := range 6 {
		img := image.NewGray(image.Rect(0, 0, 40, 30))
		img.Pix[i] = 255
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, img))
		in.Charts = append(in.Charts, Chart{PNG: b.Bytes(), Sentence: "dots"})
	}
	first := written(t, in, asPDF)
	for range 8 {
		require.True(t, bytes.Equal(first, written(t, in, asPDF)))
	}
}

// The job read and planned twice, from the start, gives the same bytes.
func TestSameJobSameBytes(t *testing.T) {
	for name, form := range map[string]func(*page.Page, *bytes.Buffer) error{"md": asMarkdown, "html": asHTML, "xlsx": asXLSX, "pdf": asPDF} {
		assert.True(t, bytes.Equal(written(t, gardensInput(t), form), written(t, gardensInput(t), form)), name)
	}
}

func TestNoReportWithoutAPurchase(t *testing.T) {
	job, _ := gardens.job(t)
	_, err := Justify(Input{Plan: &optimise.Plan{Job: job, Status: optimise.Infeasible}}, Style{})
	assert.ErrorContains(t, err, "a paper needs a purchase")
}

func TestReportOfBedsByVolume(t *testing.T) {
	f := plot
	f.beds = "bed,volume,top_volume,water_line\ntrough,900 L,300 L,none\nbarrel,100 L,,\n"
	job := f.withMedia(t)
	p := solve(t, job)
	text := string(written(t, Input{Plan: p, Compared: optimise.Compare(job, p.Fit, optimise.CompareOptions{})}, asMarkdown))
	assert.Contains(t, text, "given by volume, so heights are by share")
	assert.Contains(t, text, "No other way of buying was priced.")
	assert.Len(t, quotes.Members(job), 0)
}
