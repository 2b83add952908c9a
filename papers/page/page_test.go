package page

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/net/html"
	"pgregory.net/rapid"

	"mediabuy/papers/ink"
)

// writers are the forms of a printed paper by name.
var writers = map[string]func(*Page, io.Writer) error{
	"html": (*Page).HTML, "pdf": (*Page).PDF, "md": (*Page).Markdown, "xlsx": (*Page).XLSX,
}

func write(t require.TestingT, form string, p *Page) []byte {
	var b bytes.Buffer
	require.NoError(t, writers[form](p, &b))
	return b.Bytes()
}

// sample has every kind of block.
func sample() *Page {
	fill := ink.FillOf(0)
	d := &ink.Drawing{Width: 60, Height: 20}
	d.Box(0, 0, 20, 10, &fill, ink.Text, 0.3)
	d.Say(22, 6, "top: 5 L", 9, false, ink.Start)
	half := 0.5
	return &Page{
		Title: "A paper", Subtitle: "of no weight", Day: time.Date(2026, 4, 6, 0, 0, 0, 0, time.UTC), Alarm: "Not proven.", Foot: "the foot",
		Sections: []Section{
			{Heading: "First", Sheet: "One", Blocks: []Block{&Para{Text: "Some words.", Strong: true}, &List{Items: []string{"a", "b | c"}}}},
			{Heading: "Second", Sheet: "Two", Blocks: []Block{
				&Table{Caption: "sums", Cols: []Col{{Name: "What"}, {Name: "Packs", Right: true}, {Name: "Each", Right: true, SheetOnly: true}, {Name: "Sum", Right: true}}, Rows: []Row{
					{Cells: []Cell{Text("stone"), Num("3", 3, 0), Num("2.50", 2.5, 2), {Text: "7.50", Digits: 2, Formula: func(at func(int, int) string) string { return fmt.Sprintf("%s*%s", at(0, 1), at(0, 2)) }}}},
					{Kind: Sub, Cells: []Cell{{Text: "part", Bar: &half}}},
					{Kind: Total, Cells: []Cell{Text("Total"), {}, {}, {Text: "7.50", Digits: 2, Formula: func(at func(int, int) string) string { return fmt.Sprintf("SUM(%s:%s)", at(0, 3), at(1, 3)) }}}},
				}},
				&Picture{Caption: "a bed", Drawing: d, Lines: []string{"top: 5 L"}},
				&Chart{Caption: "one sentence"},
				&Fields{Names: []string{"Name", "Date"}},
			}},
		},
	}
}

func TestMarkdown(t *testing.T) {
	want := `# A paper

of no weight

> **Not proven.**

## First

**Some words.**

- a
- b \| c

## Second

sums

| What | Packs | Sum |
| --- | ---: | ---: |
| stone | 3 | 7.50 |
| ██████████ part |  |  |
| **Total** |  | **7.50** |

**a bed**

- top: 5 L

one sentence

Name: ______________________________

Date: ______________________________

---

the foot
`
	assert.Equal(t, want, string(write(t, "md", sample())))
}

// With a picture too: a library that keeps the kinds of picture in a map writes
// them in any order, so several times are looked at.
func TestSameBytesEachTime(t *testing.T) {
	p := sample()
	p.Sections[1].Blocks = append(p.Sections[1].Blocks, &Chart{Caption: "c", PNG: greyPNG(t)})
	for form := range writers {
		first := write(t, form, p)
		for range 4 {
			assert.True(t, bytes.Equal(first, write(t, form, p)), form)
		}
	}
}

func greyPNG(t *testing.T) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 800, 400))))
	return b.Bytes()
}

func TestHTMLIsOneSafeFile(t *testing.T) {
	p := sample()
	p.Title = `<script>alert("x")</script>`
	p.Sections[1].Blocks = append(p.Sections[1].Blocks, &Chart{Caption: "c", SVG: []byte("<svg/>")})
	text := string(write(t, "html", p))
	doc, err := html.Parse(strings.NewReader(text))
	require.NoError(t, err)
	count := map[string]int{}
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		count[n.Data]++
		for _, a := range n.Attr {
			if a.Key == "src" || a.Key == "href" {
				assert.True(t, strings.HasPrefix(a.Val, "data:image/"), "%s=%s", a.Key, a.Val)
			}
			assert.False(t, strings.HasPrefix(a.Key, "on"), a.Key)
		}
	}
	assert.Zero(t, count["script"]+count["link"]+count["iframe"])
	assert.Equal(t, 1, count["h1"])
	assert.Equal(t, 2, count["h2"])
	assert.Equal(t, 1, count["svg"])
	assert.NotContains(t, text, "$", "every colour has its value")
	assert.NotContains(t, text, "url(")
}

func TestXLSXWorksOutItsSums(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(write(t, "xlsx", sample())))
	require.NoError(t, err)
	assert.Equal(t, []string{"One", "Two"}, f.GetSheetList())
	// The table of the second sheet begins below its heading and caption: headings in row 3.
	for _, c := range []struct{ cell, formula, value string }{{"D4", "B4*C4", "7.5"}, {"D6", "SUM(D4:D5)", "7.5"}} {
		formula, err := f.GetCellFormula("Two", c.cell)
		require.NoError(t, err)
		assert.Equal(t, c.formula, formula)
		stored, err := f.GetCellValue("Two", c.cell, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		assert.Equal(t, c.value, stored, "the result stored beside %s", c.cell)
	}
	require.NoError(t, f.SetCellFloat("Two", "B4", 4, -1, 64))
	again, err := f.CalcCellValue("Two", "D6", excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	assert.Equal(t, "10", again, "4 × 2.50")
}

func TestChartsStandInEveryDrawnForm(t *testing.T) {
	chart := greyPNG(t)
	with := func(chart []byte) *Page {
		p := sample()
		p.Sections[1].Blocks = append(p.Sections[1].Blocks, &Chart{Caption: "c", PNG: chart}, &Para{Text: "below"})
		return p
	}
	f, err := excelize.OpenReader(bytes.NewReader(write(t, "xlsx", with(chart))))
	require.NoError(t, err)
	cells, err := f.GetPictureCells("Two")
	require.NoError(t, err)
	require.Len(t, cells, 1)
	assert.Contains(t, string(write(t, "pdf", with(chart))), "/Subtype /Image")
	assert.Contains(t, string(write(t, "html", with(chart))), `src="data:image/png;base64,`)
	for _, form := range []string{"xlsx", "pdf"} {
		assert.ErrorContains(t, writers[form](with([]byte("no picture")), io.Discard), "setting", form)
	}
}

func TestXLSXNeutralisesFormulas(t *testing.T) {
	p := sample()
	p.Title = "=1+1"
	p.Sections[1].Blocks = []Block{&Table{Cols: []Col{{Name: "+x"}}, Rows: []Row{{Cells: []Cell{Text("=HYPERLINK(A1)")}}, {Cells: []Cell{Text("@x")}}, {Cells: []Cell{Text("-x")}}}}}
	f, err := excelize.OpenReader(bytes.NewReader(write(t, "xlsx", p)))
	require.NoError(t, err)
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		for _, row := range rows {
			for _, v := range row {
				assert.False(t, v != "" && strings.ContainsAny(v[:1], "=+-@"), "%q", v)
			}
		}
	}
}

func TestAnyWordsCanBeSet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.OneOf(rapid.String(), rapid.StringMatching(`[😀é=+\-<&"'|A-z ]{0,200}`), rapid.Just("\xff\xfe"))
		p := sample()
		p.Title, p.Subtitle, p.Alarm = word.Draw(t, "title"), word.Draw(t, "subtitle"), word.Draw(t, "alarm")
		p.Sections[0].Sheet = word.Draw(t, "sheet")
		p.Sections[1].Blocks = append(p.Sections[1].Blocks, &Para{Text: word.Draw(t, "para")},
			&Table{Cols: []Col{{Name: word.Draw(t, "heading")}, {Name: "n", Narrow: true}}, Rows: []Row{{Cells: []Cell{Text(word.Draw(t, "cell")), Text(word.Draw(t, "cell"))}}}})
		forms := []string{"html", "md", "xlsx", "pdf"}
		if rapid.IntRange(0, 9).Draw(t, "set the PDF too") > 0 {
			forms = forms[:3] // setting a PDF takes long; one in ten is enough here
		}
		for _, form := range forms {
			assert.NotEmpty(t, write(t, form, p), form)
		}
	})
}

func TestShareFillsTheRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "columns")
		var least, full []float64
		for range n {
			l := rapid.Float64Range(1, 60).Draw(t, "least")
			least = append(least, l)
			full = append(full, l+rapid.Float64Range(0, 100).Draw(t, "more"))
		}
		sumLeast, sum := 0.0, 0.0
		out := share(least, full, 178)
		for i := range out {
			sum += out[i]
			sumLeast += least[i]
		}
		assert.InDelta(t, 178, sum, 1e-6)
		for i := range out {
			if sumLeast <= 178 {
				assert.GreaterOrEqual(t, out[i], least[i]-1e-9)
			}
		}
	})
}

func TestSharedColumnsByHand(t *testing.T) {
	// Two columns need 20 and 30 at least and would like 20 and 130; 100 to share:
	// the first keeps 20, the second takes the other 80.
	assert.Equal(t, []float64{20, 80}, share([]float64{20, 30}, []float64{20, 130}, 100))
}
