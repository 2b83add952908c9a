package page

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"mediabuy/papers/ink"
	"mediabuy/papers/safe"
)

// Measures of a PDF sheet, in millimetres, and of its text, in points.
const (
	pdfMargin = 16.0
	pdfFoot   = 14.0
	pdfAir    = 4.0 // between what is set and the line above the foot
	pdfText   = 9.5
	pdfTight  = 8.8 // running words where that spares a sheet
	pdfTable  = 8.2
	pdfLead   = 1.32 // height of a line over its type size
	pointMM   = 25.4 / 72
	pdfPad    = 1.1 // inside a cell of a table
	pdfFont   = "liberation"
)

// PDF writes the page as PDF with its fonts inside.
func (p *Page) PDF(w io.Writer) error {
	x := sheetWriter(p)
	list := x.all()
	if !x.fitted {
		// What must stay on the first sheet and is still too long for it, with all left out
		// that may be, gets closer lines.
		x.tight, x.widths = true, nil
		list = x.all()
	}
	if n, last := x.sheets(list); n > 1 && last < leastLast {
		// A last sheet with a few lines is spared where closer lines make room for them.
		x.tight, x.widths = true, nil
		if closer := x.all(); x.fewer(closer, n) {
			list = closer
		}
	}
	x.flow(list)
	if err := x.Error(); err != nil {
		return fmt.Errorf("setting %q as PDF: %w", p.Title, err)
	}
	var out bytes.Buffer
	if err := x.Output(&out); err != nil {
		return fmt.Errorf("setting %q as PDF: %w", p.Title, err)
	}
	_, err := w.Write(out.Bytes())
	return err
}

// sheetWriter has a paper's first sheet before it.
func sheetWriter(p *Page) *pdfWriter {
	size := "A4"
	if p.Letter {
		size = "Letter"
	}
	x := &pdfWriter{Fpdf: fpdf.New("P", "mm", size, ""), page: p}
	x.AddUTF8FontFromBytes(pdfFont, "", liberationsansregular.TTF)
	x.AddUTF8FontFromBytes(pdfFont, "B", liberationsansbold.TTF)
	// Everything that would otherwise differ from run to run.
	x.SetCatalogSort(true)
	x.SetCreationDate(p.Day)
	x.SetModificationDate(p.Day)
	x.SetProducer("mediabuy", true)
	x.SetTitle(printable(p.Title), true)
	x.SetLang("en-GB")
	x.SetMargins(pdfMargin, pdfMargin, pdfMargin)
	x.SetAutoPageBreak(false, pdfFoot+pdfAir)
	x.AliasNbPages("{nb}")
	x.SetFooterFunc(x.foot)
	x.width, x.height = x.GetPageSize()
	x.AddPage()
	return x
}

type pdfWriter struct {
	*fpdf.Fpdf
	page          *Page
	width, height float64
	widths        map[int]bool // of the charts set, in dots
	tight         bool         // smaller words and less room, to spare a sheet
	fitted        bool         // what must stay on the first sheet does
}

// all is every piece of the paper.
func (x *pdfWriter) all() []piece {
	x.fitted = true
	list := x.head()
	for _, s := range x.page.Printed() {
		list = append(list, x.section(s, tall(list))...)
	}
	return list
}

func (x *pdfWriter) fewer(list []piece, than int) bool {
	n, _ := x.sheets(list)
	return n < than
}

// text is the size of running words.
func (x *pdfWriter) text() float64 {
	if x.tight {
		return pdfTight
	}
	return pdfText
}

// printable is text as the font can set it: one line, and a question mark for
// signs beyond the 65 536 that the font file can name.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF {
			return '?'
		}
		return r
	}, strings.ToValidUTF8(safe.Line(s), "?"))
}

func (x *pdfWriter) room() float64   { return x.width - 2*pdfMargin }
func (x *pdfWriter) bottom() float64 { return x.height - pdfFoot - pdfAir }

func (x *pdfWriter) ink(c ink.Colour)    { x.SetTextColor(int(c.R), int(c.G), int(c.B)) }
func (x *pdfWriter) stroke(c ink.Colour) { x.SetDrawColor(int(c.R), int(c.G), int(c.B)) }
func (x *pdfWriter) paint(c ink.Colour)  { x.SetFillColor(int(c.R), int(c.G), int(c.B)) }

func (x *pdfWriter) font(size float64, strong bool) {
	style := ""
	if strong {
		style = "B"
	}
	x.SetFont(pdfFont, style, size)
}

func (x *pdfWriter) foot() {
	x.SetXY(pdfMargin, x.height-pdfFoot)
	x.font(7.5, false)
	x.ink(ink.Quiet)
	x.stroke(ink.Rule)
	x.SetLineWidth(0.2)
	x.Line(pdfMargin, x.height-pdfFoot, x.width-pdfMargin, x.height-pdfFoot)
	words := printable(x.page.Foot)
	if lines := x.wrap(words, x.room()-26); len(lines) > 0 {
		words = lines[0]
	}
	x.CellFormat(x.room()-26, 6, visual(words), "", 0, "L", false, 0, "")
	// The count of sheets is put in at the end, so its width is not known here.
	x.SetX(x.width - pdfMargin - 20)
	x.CellFormat(20, 6, fmt.Sprintf("sheet %d of {nb}", x.PageNo()), "", 0, "L", false, 0, "")
}

// head is the paper's title and what stands in a frame below it.
func (x *pdfWriter) head() []piece {
	list := x.para(x.page.Title, 17, true, ink.Text)
	if x.page.Subtitle != "" {
		list = append(list, x.para(x.page.Subtitle, x.text(), false, ink.Quiet)...)
	}
	list = append(list, piece{height: 4, draw: func() {
		x.stroke(ink.Accent)
		x.SetLineWidth(0.8)
		x.Line(pdfMargin, x.GetY()+1, x.width-pdfMargin, x.GetY()+1)
	}})
	if x.page.Lacks() != "" {
		list = append(list, after(x.para(lacking, pdfTable, false, ink.Alarm), 1)...)
	}
	if x.page.Alarm != "" {
		list = append(list, x.alarm(x.page.Alarm))
	}
	return stay(list)
}

func (x *pdfWriter) alarm(words string) piece {
	x.font(10.5, true)
	lines := x.wrap(printable(words), x.room()-8)
	lead := 10.5 * pointMM * pdfLead
	h := lead*float64(len(lines)) + 5
	return piece{height: h + 3, draw: func() {
		x.paint(ink.AlarmPanel)
		x.stroke(ink.Alarm)
		x.SetLineWidth(0.9)
		y := x.GetY()
		x.Rect(pdfMargin, y, x.room(), h, "FD")
		x.font(10.5, true)
		x.ink(ink.Alarm)
		for i, l := range lines {
			x.SetXY(pdfMargin+4, y+2.5+float64(i)*lead)
			x.CellFormat(x.room()-8, lead, visual(l), "", 0, "L", false, 0, "")
		}
	}}
}

// wrap folds text to a width in the font that is set. A word wider than the width
// is cut.
func (x *pdfWriter) wrap(text string, width float64) []string {
	width -= 2 * x.GetCellMargin()
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		next := word
		if line != "" {
			next = line + " " + word
		}
		if x.GetStringWidth(next) <= width {
			line = next
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		line = word
		for x.GetStringWidth(line) > width {
			cut := x.fits(line, width)
			if cut == len(line) {
				break
			}
			out = append(out, line[:cut])
			line = line[cut:]
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// fits is how many bytes of a word fit a width: at least one sign.
func (x *pdfWriter) fits(word string, width float64) int {
	last := 0
	for i := range word {
		if i > 0 && x.GetStringWidth(word[:i]) > width {
			return max(last, firstSign(word))
		}
		last = i
	}
	return max(last, firstSign(word))
}

func firstSign(word string) int {
	for i := range word {
		if i > 0 {
			return i
		}
	}
	return len(word)
}

// para is a paragraph from the left margin.
func (x *pdfWriter) para(text string, size float64, strong bool, c ink.Colour) []piece {
	return x.hanging("", text, size, strong, c)
}

// hanging is a paragraph with a mark in front: one piece for each line, of which the
// first two and the last two stay together, and all of a short one.
func (x *pdfWriter) hanging(mark, text string, size float64, strong bool, c ink.Colour) []piece {
	const short = 5
	x.font(size, strong)
	lead := size * pointMM * pdfLead
	indent := 0.0
	if mark != "" {
		indent = 4
	}
	lines := x.wrap(printable(text), x.room()-indent)
	var out []piece
	for i, l := range lines {
		p := piece{height: lead, with: i < len(lines)-1 && (len(lines) <= short || i == 0 || i == len(lines)-2)}
		p.draw = func() {
			x.font(size, strong)
			x.ink(c)
			if i == 0 && mark != "" {
				x.SetX(pdfMargin)
				x.CellFormat(indent, lead, mark, "", 0, "L", false, 0, "")
			}
			x.SetX(pdfMargin + indent)
			x.CellFormat(x.room()-indent, lead, visual(l), "", 0, "L", false, 0, "")
		}
		out = append(out, p)
	}
	return out
}

// section is a part's pieces; above is the height of what stands before it on the
// paper, which counts where the part is to end on the first sheet.
func (x *pdfWriter) section(s Section, above float64) []piece {
	list := x.set(s)
	if s.OneSheet && above+tall(list) > x.sheetRoom() {
		list = x.set(x.shorten(s, above))
		x.fitted = above+tall(list) <= x.sheetRoom()
	}
	if s.NewSheet && len(list) > 0 {
		list[0].fresh = true
	}
	return list
}

func (x *pdfWriter) set(s Section) []piece {
	var list []piece
	if s.Heading != "" {
		list = stay(append(x.para(s.Heading, 12.5, true, ink.Accent), piece{height: 1, draw: func() {}}))
		list[0].gap = 4
		if x.tight {
			list[0].gap = 2
		}
	}
	for i, b := range s.Blocks {
		part := x.block(b)
		// What is signed stays together with what it is signed for.
		if i+1 < len(s.Blocks) {
			if _, ok := s.Blocks[i+1].(*Fields); ok && tall(part) < mostKept/2*x.sheetRoom() {
				stay(part)
			}
		}
		list = append(list, part...)
	}
	return list
}

// after leaves room behind pieces: in the last of them, so that it counts to it.
func after(list []piece, room float64) []piece {
	if n := len(list); n > 0 {
		list[n-1].height += room
	}
	return list
}

func (x *pdfWriter) block(b Block) []piece {
	switch v := b.(type) {
	case *Para:
		size := x.text()
		if v.Strong {
			size = 10.5
		}
		list := after(x.para(v.Text, size, v.Strong, ink.Text), 1.2)
		if v.Leads {
			stay(list)
		}
		return list
	case *List:
		var list []piece
		for _, it := range v.Items {
			list = append(list, after(x.hanging("•", it, x.text(), false, ink.Text), 0.6)...)
		}
		return after(list, 1)
	case *Table:
		return x.table(v)
	case *Picture:
		return x.picture(v)
	case *Chart:
		return x.chart(v)
	case *Fields:
		return x.fields(v)
	}
	return nil
}

// Measures of a line to write on by hand.
const (
	fieldHeight = 10.5
	fieldName   = 52.0 // width left for its name
	fieldGap    = 6.0  // between two side by side
)

// fields are lines to write on, two side by side where their names leave room.
func (x *pdfWriter) fields(v *Fields) []piece {
	x.font(x.text(), false)
	half := (x.room() - fieldGap) / 2
	var out []piece
	for i := 0; i < len(v.Names); {
		a := printable(v.Names[i])
		if i+1 < len(v.Names) {
			if b := printable(v.Names[i+1]); max(x.GetStringWidth(a), x.GetStringWidth(b))+30 <= half {
				out = append(out, x.field([]string{a, b}, half))
				i += 2
				continue
			}
		}
		out = append(out, x.field([]string{a}, x.room()))
		i++
	}
	out = after(out, 3)
	for i := range len(out) - 1 {
		out[i].with = true
	}
	return out
}

// field is one row of lines, each of a width.
func (x *pdfWriter) field(names []string, width float64) piece {
	lead := x.text() * pointMM * pdfLead
	long := len(names) == 1 && x.GetStringWidth(names[0])+4 > width-fieldName // a long name has its line below it
	lines := names
	h := fieldHeight
	if long {
		lines = x.wrap(names[0], width)
		h += lead*float64(len(lines)-1) + 6
	}
	return piece{height: h, draw: func() {
		y := x.GetY() + 5
		x.font(x.text(), false)
		x.ink(ink.Text)
		x.stroke(ink.Text)
		x.SetLineWidth(0.25)
		for i, n := range lines {
			left := pdfMargin
			if !long {
				left += float64(i) * (width + fieldGap)
			}
			x.SetXY(left, y)
			x.CellFormat(width, lead, visual(n), "", 0, "L", false, 0, "")
			if long {
				y += lead
				continue
			}
			from := left + min(fieldName, width*0.4)
			from = max(from, left+x.GetStringWidth(n)+4)
			x.Line(from, y+lead, left+width, y+lead)
		}
		if long {
			x.Line(pdfMargin, y+6, pdfMargin+width, y+6)
		}
	}}
}
