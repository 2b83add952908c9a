package page

import (
	"strings"

	"mediabuy/papers/ink"
)

// barMM is the longest bar in a cell.
const barMM = 30.0

// table sets a table: columns as wide as their words need and the sheet allows,
// headings again on each sheet, no row split between sheets unless it is taller
// than one.
func (x *pdfWriter) table(t *Table) {
	if t.Caption != "" {
		x.need(20)
		x.para(t.Caption, pdfTable, false, ink.Quiet)
		x.SetY(x.GetY() + 0.5)
	}
	cols := t.shown()
	widths := x.columns(t, cols)
	heads := make([]Cell, len(cols))
	for i, j := range cols {
		heads[i] = Text(t.Cols[j].Name)
	}
	head := func() { x.row(t, cols, widths, heads, rowHead) }
	x.need(16)
	head()
	for _, r := range t.Rows {
		cells := make([]Cell, len(cols))
		for i, j := range cols {
			cells[i] = r.cell(j)
		}
		kind := [...]rowLook{rowPlain, rowSub, rowTotal}[r.Kind]
		if x.GetY()+x.rowHeight(t, cols, widths, cells, kind) > x.bottom() {
			x.AddPage()
			head()
		}
		x.row(t, cols, widths, cells, kind)
	}
	x.SetY(x.GetY() + 3)
}

type rowLook int

const (
	rowHead rowLook = iota
	rowPlain
	rowSub
	rowTotal
)

func (l rowLook) strong() bool { return l == rowHead || l == rowTotal }

func (x *pdfWriter) lines(c Cell, look rowLook, width float64) []string {
	x.font(pdfTable, look.strong())
	return x.wrap(printable(c.Text), width-2*pdfPad+2*x.GetCellMargin())
}

const tableLead = pdfTable * pointMM * pdfLead

func (x *pdfWriter) rowHeight(t *Table, cols []int, widths []float64, cells []Cell, look rowLook) float64 {
	most := tableLead
	for i := range cols {
		h := tableLead * float64(len(x.lines(cells[i], look, widths[i])))
		if cells[i].Bar != nil {
			h += tableLead * 0.8
		}
		most = max(most, h)
	}
	return most + 2*pdfPad*0.7
}

func (x *pdfWriter) row(t *Table, cols []int, widths []float64, cells []Cell, look rowLook) {
	h := x.rowHeight(t, cols, widths, cells, look)
	y, left := x.GetY(), pdfMargin
	switch look {
	case rowHead:
		x.paint(ink.Accent)
		x.Rect(left, y, x.room(), h, "F")
	case rowTotal:
		x.paint(ink.Panel)
		x.Rect(left, y, x.room(), h, "F")
	}
	for i, j := range cols {
		colour := ink.Text
		switch look {
		case rowHead:
			colour = ink.Paper
		case rowSub:
			colour = ink.Quiet
		}
		align := "L"
		if t.Cols[j].Right {
			align = "R"
		}
		top := y + pdfPad*0.7
		if bar := cells[i].Bar; bar != nil {
			x.paint(ink.Accent)
			x.Rect(left+pdfPad, top+0.4, max(0.2, min(1, *bar)*(widths[i]-2*pdfPad)), tableLead*0.5, "F")
			top += tableLead * 0.8
		}
		lines := x.lines(cells[i], look, widths[i])
		x.font(pdfTable, look.strong())
		x.ink(colour)
		for k, l := range lines {
			x.SetXY(left+pdfPad-x.GetCellMargin(), top+float64(k)*tableLead)
			x.CellFormat(widths[i]-2*pdfPad+2*x.GetCellMargin(), tableLead, l, "", 0, align, false, 0, "")
		}
		left += widths[i]
	}
	x.SetLineWidth(0.15)
	x.stroke(ink.Hairline)
	if look == rowTotal {
		x.SetLineWidth(0.4)
		x.stroke(ink.Rule)
		x.Line(pdfMargin, y, pdfMargin+x.room(), y)
	} else {
		x.Line(pdfMargin, y+h, pdfMargin+x.room(), y+h)
	}
	x.SetXY(pdfMargin, y+h)
}

// columns shares the width out: each column gets what its longest word needs,
// then the rest goes to those that would have to fold, in proportion.
func (x *pdfWriter) columns(t *Table, cols []int) []float64 {
	least, full := make([]float64, len(cols)), make([]float64, len(cols))
	measure := func(i, j int, c Cell, look rowLook) {
		x.font(pdfTable, look.strong())
		text := printable(c.Text)
		full[i] = max(full[i], x.GetStringWidth(text))
		if c.Bar != nil {
			full[i] = max(full[i], barMM)
		}
		words := strings.Fields(text)
		if (t.Cols[j].Narrow || t.Cols[j].Right) && look != rowHead {
			words = []string{text}
		}
		for _, w := range words {
			least[i] = max(least[i], min(x.GetStringWidth(w), x.room()/3))
		}
	}
	for i, j := range cols {
		measure(i, j, Text(t.Cols[j].Name), rowHead)
		for _, r := range t.Rows {
			measure(i, j, r.cell(j), [...]rowLook{rowPlain, rowSub, rowTotal}[r.Kind])
		}
		least[i] += 2*pdfPad + 0.3
		full[i] += 2*pdfPad + 0.3
	}
	return share(least, full, x.room())
}

// share gives each column at least its least, no more than its full while others
// want more, and fills the room.
func share(least, full []float64, room float64) []float64 {
	out := make([]float64, len(least))
	sumLeast, sumFull := 0.0, 0.0
	for i := range least {
		full[i] = max(full[i], least[i])
		sumLeast += least[i]
		sumFull += full[i]
	}
	for i := range out {
		switch {
		case sumFull <= room: // all fit; the spare goes in proportion
			out[i] = full[i] * room / sumFull
		case sumLeast >= room: // too narrow for whole words
			out[i] = least[i] * room / sumLeast
		default:
			out[i] = least[i] + (full[i]-least[i])*(room-sumLeast)/(sumFull-sumLeast)
		}
	}
	return out
}
