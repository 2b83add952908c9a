package page

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pdfSheets is how many sheets a PDF has.
func pdfSheets(t *testing.T, p *Page) int {
	var b bytes.Buffer
	require.NoError(t, p.PDF(&b))
	return strings.Count(b.String(), "/Type /Page\n")
}

// A few lines on a last sheet are drawn together with those before; half a sheet is
// not, and words never get smaller for it.
func TestAFewLinesAreNoSheet(t *testing.T) {
	paper := func(points int) *Page {
		p := &Page{Title: "At the gate"}
		for s := range 5 {
			p.Sections = append(p.Sections, Section{Heading: fmt.Sprintf("Part %d", s+1), Blocks: []Block{&Para{Text: "a line"}}})
		}
		var list List
		for i := range points {
			list.Items = append(list.Items, fmt.Sprintf("point %d", i+1))
		}
		p.Sections = append(p.Sections, Section{Blocks: []Block{&list}})
		return p
	}
	var sheets []int
	full := 0 // the most points on one sheet at the usual size
	for n := 20; n < 60; n++ {
		x := sheetWriter(paper(n))
		if got, _ := x.sheets(x.all()); got == 1 {
			full = n
		}
		sheets = append(sheets, pdfSheets(t, paper(n)))
	}
	require.Greater(t, full, 20)
	assert.Equal(t, 1, pdfSheets(t, paper(full)))
	assert.Equal(t, 1, pdfSheets(t, paper(full+2)), "two lines more")
	assert.Equal(t, 2, pdfSheets(t, paper(full+15)), "what is too much for closer lines")
	assert.IsNonDecreasing(t, sheets)
}

// The sheets that are foreseen are those that are drawn.
func TestSheetsAreForeseen(t *testing.T) {
	for n := 1; n < 400; n += 7 {
		tb := &Table{Cols: []Col{{Name: "a"}, {Name: "b"}}}
		for i := range n {
			tb.Rows = append(tb.Rows, Row{Cells: []Cell{Text(fmt.Sprint(i)), Text(strings.Repeat("word ", i%40))}})
		}
		p := &Page{Title: "t", Sections: []Section{{Heading: "h", Blocks: []Block{tb}}, {Heading: "new", NewSheet: true, Blocks: []Block{&Para{Text: "x"}}}}}
		x := sheetWriter(p)
		foreseen, _ := x.sheets(x.all())
		x.flow(x.all())
		assert.Equal(t, x.PageNo(), foreseen, "%d rows", n)
	}
}

// What must stay on the first sheet gets closer lines where nothing more may be left out
// and it does not fit otherwise; what fits keeps its size.
func TestTheFirstSheetIsHeld(t *testing.T) {
	loose, tight := 0, 0
	for n := 30; n < 70; n++ {
		p := &Page{Title: "t", Sections: []Section{{Heading: "h", OneSheet: true}}}
		for range n {
			p.Sections[0].Blocks = append(p.Sections[0].Blocks, &Para{Text: "a line that nothing may be left out of"})
		}
		x := sheetWriter(p)
		x.all()
		if x.fitted {
			loose++
			continue
		}
		x.tight = true
		x.all()
		if !x.fitted {
			break // no paper is made for so much
		}
		tight++
		assert.Equal(t, 1, pdfSheets(t, p), "%d lines", n)
	}
	assert.Positive(t, loose)
	assert.Positive(t, tight, "closer lines were needed")
}
