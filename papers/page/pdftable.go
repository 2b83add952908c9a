package page

import (
	"strings"

	"mediabuy/papers/ink"
)

// pdfWrite is the height of a row to write in by hand.
const pdfWrite = 8.5

// writeShare is the least width of a column to write in, of an even share.
const writeShare = 0.75

// barMM is the longest bar in a cell.
const barMM = 30.0

// smallTable is the share of a sheet up to which a table is not split between sheets.
const smallTable = 0.2

// table is a table: columns as wide as their words need and the sheet allows,
// headings again on each sheet, no row split between sheets unless it is nearly as
// tall as one. Its headings stay with two rows, and its last two rows together.
func (x *pdfWriter) table(t *Table) []piece {
	var list []piece
	if t.Caption != "" {
		list = stay(after(x.para(t.Caption, pdfTable, false, ink.Quiet), 0.5))
		list[0].gap = 1
	}
	cols := t.shown()
	widths := x.columns(t, cols)
	heads := make([]Cell, len(cols))
	for i, j := range cols {
		heads[i] = Text(t.Cols[j].Name)
	}
	head := x.row(t, cols, widths, heads, rowHead, false)
	for i := range head {
		head[i].with = true
	}
	list = append(list, head...)
	for i, r := range t.Rows {
		cells := make([]Cell, len(cols))
		for k, j := range cols {
			cells[k] = r.cell(j)
		}
		rows := x.row(t, cols, widths, cells, [...]rowLook{rowPlain, rowSub, rowTotal}[r.Kind], r.runs)
		for k := range rows {
			// A part stays below what it is a part of, a sum below what it adds up.
			next := i+1 < len(t.Rows) && t.Rows[i+1].Kind != Plain
			rows[k].with = k == len(rows)-1 && i+1 < len(t.Rows) && (i == 0 || i == len(t.Rows)-2 || next)
			if len(head) == 1 {
				rows[k].again = &head[0]
			}
		}
		list = append(list, rows...)
	}
	if tall(list) < smallTable*x.sheetRoom() {
		stayButLast(list)
	}
	return after(list, 3)
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

// row is one row, in more than one piece only if it is taller than half a sheet. Where
// it runs, its first cell has the room of the empty ones behind it.
func (x *pdfWriter) row(t *Table, cols []int, widths []float64, cells []Cell, look rowLook, runs bool) []piece {
	all := make([][]string, len(cols))
	most := 1
	for i := range cols {
		width := widths[i]
		for j := i + 1; runs && i == 0 && j < len(cols) && cells[j].Text == ""; j++ {
			width += widths[j]
		}
		all[i] = x.lines(cells[i], look, width)
		most = max(most, len(all[i]))
	}
	limit := int(x.sheetRoom() / 2 / tableLead)
	var out []piece
	for from := 0; from < most; from += limit {
		part := make([][]string, len(cols))
		for i, l := range all {
			part[i] = l[min(from, len(l)):min(from+limit, len(l))]
		}
		bars := make([]*float64, len(cols))
		if from == 0 {
			for i := range cols {
				bars[i] = cells[i].Bar
			}
		}
		out = append(out, x.rowPart(t, cols, widths, part, bars, look))
	}
	return out
}

func (x *pdfWriter) rowPart(t *Table, cols []int, widths []float64, lines [][]string, bars []*float64, look rowLook) piece {
	h := tableLead
	for i := range cols {
		part := tableLead * float64(len(lines[i]))
		if bars[i] != nil {
			part += tableLead * 0.8
		}
		h = max(h, part)
	}
	h += 2 * pdfPad * 0.7
	if t.Write && look == rowPlain {
		h = max(h, pdfWrite)
	}
	return piece{height: h, draw: func() {
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
			if bar := bars[i]; bar != nil {
				x.paint(ink.Accent)
				x.Rect(left+pdfPad, top+0.4, max(0.2, min(1, *bar)*(widths[i]-2*pdfPad)), tableLead*0.5, "F")
				top += tableLead * 0.8
			}
			x.font(pdfTable, look.strong())
			x.ink(colour)
			for k, l := range lines[i] {
				x.SetXY(left+pdfPad-x.GetCellMargin(), top+float64(k)*tableLead)
				x.CellFormat(widths[i]-2*pdfPad+2*x.GetCellMargin(), tableLead, visual(l), "", 0, align, false, 0, "")
			}
			left += widths[i]
			if t.Write && look == rowPlain && i < len(cols)-1 {
				x.SetLineWidth(0.15)
				x.stroke(ink.Rule)
				x.Line(left, y, left, y+h)
			}
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
	}}
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
			if i == 0 && r.runs {
				continue
			}
			measure(i, j, r.cell(j), [...]rowLook{rowPlain, rowSub, rowTotal}[r.Kind])
		}
		if t.Write {
			least[i] = max(least[i], writeShare*x.room()/float64(len(cols)))
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
