package page

import (
	"archive/zip"
	"bytes"
	"image"
	"image/png"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// A spreadsheet shows a number with the currency or unit that people read beside it,
// and only where the text is that number.
func TestNumberFormats(t *testing.T) {
	for _, c := range []struct {
		cell         Cell
		format, want string
	}{
		{Num("$1,234.50", 1234.5, 2), `"$"#,##0.00`, "$1,234.50"},
		{Num("-$3.00", -3, 2), `"$"#,##0.00`, "-$3.00"},
		{Num("USD 48.335", 48.335, 3), `"USD "#,##0.000`, "USD 48.335"},
		{Num("¥1,200", 1200, 0), `"¥"#,##0`, "¥1,200"},
		{Num("410 kg", 410.2, 0), `#,##0" kg"`, "410 kg"},
		{Num("7.25 %", 0.0725, 5), "#,##0.00%", "7.25%"},
		{Num("41", 41, 0), "#,##0", "41"},
		{Num("2 yd³", 1529, 0), "#,##0", "1,529"}, // litres beside yards: no unit is put to them
		{Num("5 of 7 beds", 5, 0), "#,##0", "5"},  // more than a unit
		{Num("$3.00 ± 0.02", 3, 2), "#,##0.00", "3.00"},
		{Num(`"1"a`, 1, 0), `#,##0"a"`, "1a"}, // no quote mark ends the words of a format early
	} {
		if c.cell.Text[0] == '"' {
			c.cell.Text = `1"a`
		}
		assert.Equal(t, c.format, unitOf(c.cell).format(c.cell.Digits), c.cell.Text)
		p := sample()
		p.Sections[0].Blocks = []Block{&Table{Cols: []Col{{Name: "n"}}, Rows: []Row{{Cells: []Cell{c.cell}}}}}
		f, err := excelize.OpenReader(bytes.NewReader(write(t, "xlsx", p)))
		require.NoError(t, err)
		got, err := f.GetCellValue("One", "A7")
		require.NoError(t, err)
		assert.Equal(t, c.want, got, c.cell.Text)
	}
}

// Headings near the top stay in sight; those far down, and sheets without a table, are
// left as they are.
func TestFrozenHeadings(t *testing.T) {
	p := sample()
	p.Sections[0].Blocks = append(p.Sections[0].Blocks, &Para{Text: "a"}, &Para{Text: "b"}, &Table{Cols: []Col{{Name: "far down"}}})
	f, err := excelize.OpenReader(bytes.NewReader(write(t, "xlsx", p)))
	require.NoError(t, err)
	for sheet, want := range map[string]int{"One": 0, "Two": 3} {
		panes, err := f.GetPanes(sheet)
		require.NoError(t, err)
		assert.Equal(t, want, panes.YSplit, sheet)
	}
}

// A formula means a cell of another sheet by its label; a label stands once.
func TestLabels(t *testing.T) {
	p := sample()
	input := Num("2.50", 2.5, 2)
	input.Label, input.Input = "price_1", true
	twice := Cell{Digits: 2, Formula: func(func(int, int) string) string { return "2*price_1" }}
	p.Sections[0].Blocks = []Block{&Table{Cols: []Col{{Name: "n"}}, Rows: []Row{{Cells: []Cell{twice}}}}}
	p.Sections[1].Blocks = []Block{&Table{Cols: []Col{{Name: "n"}}, Rows: []Row{{Cells: []Cell{input}}}}}
	p.Sections[1].SheetOnly = true
	f, err := excelize.OpenReader(bytes.NewReader(write(t, "xlsx", p)))
	require.NoError(t, err)
	got, err := f.GetCellValue("One", "A7", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	assert.Equal(t, "5", got)
	for _, form := range []string{"md", "html"} {
		assert.NotContains(t, string(write(t, form, p)), "Second", "only in the spreadsheet: %s", form)
	}
	p.Sections[1].Blocks = append(p.Sections[1].Blocks, p.Sections[1].Blocks[0])
	assert.ErrorContains(t, p.XLSX(&bytes.Buffer{}), `the name "price_1" stands at two cells`)
}

// Words that do not fit on one line of their cell get a row high enough for all.
func TestRowsAreHighEnough(t *testing.T) {
	p := sample()
	p.Sections[0].Blocks = []Block{&Table{Cols: []Col{{Name: "n"}}, Rows: []Row{{Cells: []Cell{Text(strings.Repeat("stone ", 20))}}, {Cells: []Cell{Text("short")}}}}}
	f, err := excelize.OpenReader(bytes.NewReader(write(t, "xlsx", p)))
	require.NoError(t, err)
	for row, want := range map[int]float64{7: 60, 8: rowPoints} { // 120 signs at 0.85 × 44 a line: four lines
		got, err := f.GetRowHeight("One", row)
		require.NoError(t, err)
		assert.InDelta(t, want, got, 1, "row %d", row)
	}
}

// A chart keeps its proportions whatever the widths of the columns that it lies over.
func TestChartsAreNotDrawnOut(t *testing.T) {
	var chart, b bytes.Buffer
	require.NoError(t, png.Encode(&chart, image.NewGray(image.Rect(0, 0, 400, 300))))
	p := &Page{Title: "t", Sections: []Section{{Heading: "h", Sheet: "S", Blocks: []Block{&Chart{Caption: "c", PNG: chart.Bytes()},
		&Table{Cols: []Col{{Name: strings.Repeat("wide ", 20)}, {Name: strings.Repeat("wide ", 20)}}, Rows: []Row{{Cells: []Cell{Text("a"), Text("b")}}}}}}}}
	require.NoError(t, p.XLSX(&b))
	z, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	require.NoError(t, err)
	drawing, err := z.Open("xl/drawings/drawing1.xml")
	require.NoError(t, err)
	text, err := io.ReadAll(drawing)
	require.NoError(t, err)
	m := regexp.MustCompile(`oneCellAnchor.*?ext cx="(\d+)" cy="(\d+)"`).FindSubmatch(text)
	require.NotNil(t, m, string(text))
	wide, err := strconv.Atoi(string(m[1]))
	require.NoError(t, err)
	high, err := strconv.Atoi(string(m[2]))
	require.NoError(t, err)
	assert.InDelta(t, 4.0/3, float64(wide)/float64(high), 0.01)
	assert.NotContains(t, string(text), "twoCellAnchor")
}

// Words behind a number do not touch it.
func TestWordsAreInset(t *testing.T) {
	var b bytes.Buffer
	v := 1.0
	p := &Page{Title: "t", Sections: []Section{{Heading: "h", Sheet: "S", Blocks: []Block{&Table{Cols: []Col{{Name: "n", Right: true}, {Name: "words"}}, Rows: []Row{{Cells: []Cell{Num("1", v, 0), Text("goods")}}}}}}}}
	require.NoError(t, p.XLSX(&b))
	f, err := excelize.OpenReader(&b)
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	found, err := f.SearchSheet("S", "goods")
	require.NoError(t, err)
	require.Len(t, found, 1)
	id, err := f.GetCellStyle("S", found[0])
	require.NoError(t, err)
	style, err := f.GetStyle(id)
	require.NoError(t, err)
	assert.Equal(t, 1, style.Alignment.Indent)
}
