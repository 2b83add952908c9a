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
	pdfText   = 9.5
	pdfTable  = 8.2
	pdfLead   = 1.32 // height of a line over its type size
	pointMM   = 25.4 / 72
	pdfPad    = 1.1 // inside a cell of a table
	pdfFont   = "liberation"
)

// PDF writes the page as PDF with its fonts inside.
func (p *Page) PDF(w io.Writer) error {
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
	x.SetAutoPageBreak(false, pdfFoot+pdfMargin/2)
	x.AliasNbPages("{nb}")
	x.SetFooterFunc(x.foot)
	x.width, x.height = x.GetPageSize()
	x.AddPage()
	x.head()
	for _, s := range p.Sections {
		x.section(s)
	}
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

type pdfWriter struct {
	*fpdf.Fpdf
	page          *Page
	width, height float64
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
func (x *pdfWriter) bottom() float64 { return x.height - pdfFoot - pdfMargin/2 }

// need begins a new sheet if less than h is left on this one.
func (x *pdfWriter) need(h float64) {
	if x.GetY()+h > x.bottom() {
		x.AddPage()
	}
}

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
	x.CellFormat(x.room()-26, 6, words, "", 0, "L", false, 0, "")
	// The count of sheets is put in at the end, so its width is not known here.
	x.SetX(x.width - pdfMargin - 20)
	x.CellFormat(20, 6, fmt.Sprintf("sheet %d of {nb}", x.PageNo()), "", 0, "L", false, 0, "")
}

func (x *pdfWriter) head() {
	x.para(x.page.Title, 17, true, ink.Text)
	if x.page.Subtitle != "" {
		x.para(x.page.Subtitle, pdfText, false, ink.Quiet)
	}
	x.stroke(ink.Accent)
	x.SetLineWidth(0.8)
	x.Line(pdfMargin, x.GetY()+1, x.width-pdfMargin, x.GetY()+1)
	x.SetY(x.GetY() + 4)
	if x.page.Alarm != "" {
		x.alarm(x.page.Alarm)
	}
}

func (x *pdfWriter) alarm(words string) {
	x.font(10.5, true)
	lines := x.wrap(printable(words), x.room()-8)
	lead := 10.5 * pointMM * pdfLead
	h := lead*float64(len(lines)) + 5
	x.need(h + 3)
	x.paint(ink.AlarmPanel)
	x.stroke(ink.Alarm)
	x.SetLineWidth(0.9)
	y := x.GetY()
	x.Rect(pdfMargin, y, x.room(), h, "FD")
	x.ink(ink.Alarm)
	for i, l := range lines {
		x.SetXY(pdfMargin+4, y+2.5+float64(i)*lead)
		x.CellFormat(x.room()-8, lead, l, "", 0, "L", false, 0, "")
	}
	x.SetXY(pdfMargin, y+h+3)
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

// para sets a paragraph from the left margin.
func (x *pdfWriter) para(text string, size float64, strong bool, c ink.Colour) {
	x.hanging("", text, size, strong, c)
}

// hanging sets a paragraph with a mark in front.
func (x *pdfWriter) hanging(mark, text string, size float64, strong bool, c ink.Colour) {
	x.font(size, strong)
	lead := size * pointMM * pdfLead
	indent := 0.0
	if mark != "" {
		indent = 4
	}
	for i, l := range x.wrap(printable(text), x.room()-indent) {
		x.need(lead)
		// A new sheet's foot has set its own font and colour.
		x.font(size, strong)
		x.ink(c)
		if i == 0 && mark != "" {
			x.SetX(pdfMargin)
			x.CellFormat(indent, lead, mark, "", 0, "L", false, 0, "")
		}
		x.SetX(pdfMargin + indent)
		x.CellFormat(x.room()-indent, lead, l, "", 1, "L", false, 0, "")
	}
}

// fieldHeight is room to write one thing in by hand, and partHeight what a section
// takes besides its fields, which is a heading and a sentence.
const (
	fieldHeight = 10.5
	fieldName   = 52.0 // width left for its name
	partHeight  = 26.0
)

func (x *pdfWriter) section(s Section) {
	for _, b := range s.Blocks {
		// What is signed stays together with what it is signed for, if a sheet takes it.
		if f, ok := b.(*Fields); ok {
			x.need(min(partHeight+fieldHeight*float64(len(f.Names)), x.bottom()-2*pdfMargin))
		}
	}
	if s.Heading != "" {
		x.SetY(x.GetY() + 4)
		x.need(partHeight) // a heading takes at least a few lines with it
		x.para(s.Heading, 12.5, true, ink.Accent)
		x.SetY(x.GetY() + 1)
	}
	for _, b := range s.Blocks {
		x.block(b)
	}
}

func (x *pdfWriter) block(b Block) {
	switch v := b.(type) {
	case *Para:
		size := pdfText
		if v.Strong {
			size = 10.5
		}
		x.para(v.Text, size, v.Strong, ink.Text)
		x.SetY(x.GetY() + 1.2)
	case *List:
		for _, it := range v.Items {
			x.hanging("•", it, pdfText, false, ink.Text)
			x.SetY(x.GetY() + 0.6)
		}
		x.SetY(x.GetY() + 1)
	case *Table:
		x.table(v)
	case *Picture:
		x.picture(v)
	case *Chart:
		x.chart(v)
	case *Fields:
		for _, n := range v.Names {
			x.need(fieldHeight)
			x.SetY(x.GetY() + 5)
			x.para(n, pdfText, false, ink.Text)
			x.stroke(ink.Text)
			x.SetLineWidth(0.25)
			from := pdfMargin + max(fieldName, x.GetStringWidth(printable(n))+4)
			if from > x.width-pdfMargin-fieldName { // a long name has its line below it
				from = pdfMargin
				x.need(fieldHeight)
				x.SetY(x.GetY() + 6)
			}
			x.Line(from, x.GetY(), x.width-pdfMargin, x.GetY())
		}
		x.SetY(x.GetY() + 3)
	}
}
