package page

import (
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"mediabuy/papers/ink"
	"mediabuy/papers/safe"
)

// XLSX writes the page as a spreadsheet: a sheet for each section that names one,
// numbers as numbers, sums as formulas that any spreadsheet program works out
// again. Each formula also carries its result, for programs that only show.
// Pictures come as the words that say the same.
func (p *Page) XLSX(w io.Writer) error {
	x := &xlsxWriter{file: excelize.NewFile(), styles: map[styleKey]int{}, labels: map[string]bool{}}
	if err := x.write(p); err != nil {
		return fmt.Errorf("setting %q as a spreadsheet: %w", p.Title, err)
	}
	results, err := x.results()
	if err != nil {
		return fmt.Errorf("setting %q as a spreadsheet: %w", p.Title, err)
	}
	buf, err := x.file.WriteToBuffer()
	if err != nil {
		return fmt.Errorf("setting %q as a spreadsheet: %w", p.Title, err)
	}
	if err := repack(w, buf.Bytes(), results); err != nil {
		return fmt.Errorf("setting %q as a spreadsheet: %w", p.Title, err)
	}
	return x.file.Close()
}

type xlsxWriter struct {
	file    *excelize.File
	styles  map[styleKey]int
	sheet   string
	sheets  []string
	row     int // the next free row, from 1
	widths  map[int]float64
	paras   map[int]string          // by row
	lines   map[int]map[int]float64 // signs of words, by row and column of a table
	head    int                     // row of the sheet's first headings of a table; 0: none yet
	labels  map[string]bool
	formula []formulaAt
}

// formulaAt is where a formula stands and what it must come to; nil: anything.
type formulaAt struct {
	sheet, cell string
	want        *float64
}

type styleKey struct {
	strong, quiet, head, total, right, alarm, wrap, input, inset bool
	digits                                                       int // -1: no number
	unit                                                         unit
}

// Widths of columns in characters.
const (
	narrowest = 9.0
	widest    = 44.0
	paraWide  = 6 // columns that a paragraph runs across
	rowPoints = 15.0
)

func (x *xlsxWriter) write(p *Page) error {
	stamp := p.Day.UTC().Format(time.RFC3339)
	if err := x.file.SetDocProps(&excelize.DocProperties{Title: safe.Line(p.Title), Creator: "mediabuy", LastModifiedBy: "mediabuy", Created: stamp, Modified: stamp, Language: "en-GB"}); err != nil {
		return err
	}
	full := true
	if err := x.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &full}); err != nil {
		return err
	}
	for i, s := range p.Sections {
		if i == 0 || s.Sheet != "" {
			if err := x.newSheet(s.Sheet); err != nil {
				return err
			}
		}
		if i == 0 {
			if err := x.top(p); err != nil {
				return err
			}
		}
		if err := x.section(s); err != nil {
			return err
		}
	}
	if p.Foot != "" {
		if err := x.para(p.Foot, styleKey{quiet: true, wrap: true, digits: -1}); err != nil {
			return err
		}
	}
	if err := x.endSheet(); err != nil {
		return err
	}
	x.file.SetActiveSheet(0)
	return nil
}

func (x *xlsxWriter) top(p *Page) error {
	for _, line := range []struct {
		text  string
		style styleKey
	}{
		{p.Title, styleKey{strong: true, wrap: true, digits: -1}},
		{p.Subtitle, styleKey{quiet: true, wrap: true, digits: -1}},
		{p.Alarm, styleKey{strong: true, alarm: true, wrap: true, digits: -1}},
	} {
		if line.text == "" {
			continue
		}
		if err := x.para(line.text, line.style); err != nil {
			return err
		}
	}
	x.row++
	return nil
}

// newSheet begins a sheet; the name is cut to what spreadsheets take: 31 signs,
// none of : \ / ? * [ ].
func (x *xlsxWriter) newSheet(name string) error {
	if err := x.endSheet(); err != nil {
		return err
	}
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`:\/?*[]'`, r) {
			return ' '
		}
		return r
	}, safe.Line(name))
	if name == "" {
		name = fmt.Sprintf("Sheet %d", len(x.sheets)+1)
	}
	for len(utf16.Encode([]rune(name))) > 31 { // as spreadsheets count
		_, n := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-n]
	}
	if len(x.sheets) == 0 {
		if err := x.file.SetSheetName("Sheet1", name); err != nil {
			return err
		}
	} else if _, err := x.file.NewSheet(name); err != nil {
		return err
	}
	x.sheets = append(x.sheets, name)
	x.sheet, x.row, x.widths, x.paras, x.lines, x.head = name, 1, map[int]float64{}, map[int]string{}, map[int]map[int]float64{}, 0
	return nil
}

func (x *xlsxWriter) endSheet() error {
	if x.sheet == "" {
		return nil
	}
	for col := range x.widths { // each column by itself, so their order does not matter
		name, err := excelize.ColumnNumberToName(col + 1)
		if err != nil {
			return err
		}
		if err := x.file.SetColWidth(x.sheet, name, name, x.width(col)); err != nil {
			return err
		}
	}
	if err := x.paraHeights(); err != nil {
		return err
	}
	if err := x.freeze(); err != nil {
		return err
	}
	landscape, one := "landscape", 1
	if err := x.file.SetPageLayout(x.sheet, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &one}); err != nil {
		return err
	}
	fit := true
	return x.file.SetSheetProps(x.sheet, &excelize.SheetPropsOptions{FitToPage: &fit})
}

func (x *xlsxWriter) section(s Section) error {
	if s.Heading != "" {
		if err := x.para(s.Heading, styleKey{strong: true, wrap: true, digits: -1}); err != nil {
			return err
		}
	}
	for _, b := range s.Blocks {
		if err := x.block(b); err != nil {
			return err
		}
	}
	x.row++
	return nil
}

func (x *xlsxWriter) block(b Block) error {
	plain := styleKey{wrap: true, digits: -1}
	paras := func(list []string) error {
		for _, it := range list {
			if err := x.para(it, plain); err != nil {
				return err
			}
		}
		return nil
	}
	switch v := b.(type) {
	case *Para:
		return x.para(v.Text, styleKey{wrap: true, strong: v.Strong, digits: -1})
	case *List:
		return paras(v.Items)
	case *Picture:
		return paras(append([]string{v.Caption}, v.Lines...))
	case *Chart:
		if err := x.para(v.Caption, plain); err != nil {
			return err
		}
		return x.chart(v)
	case *Fields:
		return paras(v.Names)
	case *Table:
		return x.table(v)
	}
	return fmt.Errorf("a block of type %T, which no spreadsheet form is made for", b)
}

// para sets words across several columns, in a row high enough for them.
func (x *xlsxWriter) para(text string, key styleKey) error {
	from, err := excelize.CoordinatesToCellName(1, x.row)
	if err != nil {
		return err
	}
	to, err := excelize.CoordinatesToCellName(paraWide, x.row)
	if err != nil {
		return err
	}
	style, err := x.style(key)
	if err != nil {
		return err
	}
	if err := x.file.SetCellStr(x.sheet, from, safe.Cell(text)); err != nil {
		return err
	}
	if err := x.file.MergeCell(x.sheet, from, to); err != nil {
		return err
	}
	if err := x.file.SetCellStyle(x.sheet, from, to, style); err != nil {
		return err
	}
	x.paras[x.row] = text
	x.row++
	return nil
}

func (x *xlsxWriter) table(t *Table) error {
	if t.Caption != "" {
		if err := x.para(t.Caption, styleKey{quiet: true, wrap: true, digits: -1}); err != nil {
			return err
		}
	}
	first := x.row + 1
	at := func(row, col int) string {
		name, err := excelize.CoordinatesToCellName(col+1, first+row)
		if err != nil {
			panic("page: " + err.Error()) // a row or column below 0: a mistake in a formula of ours
		}
		return name
	}
	if x.head == 0 {
		x.head = x.row
	}
	for j, c := range t.Cols {
		if err := x.cell(j, Text(c.Name), styleKey{head: true, right: c.Right, wrap: true, inset: !c.Right && j > 0, digits: -1}, at); err != nil {
			return err
		}
	}
	x.row++
	for _, r := range t.Rows {
		for j := range t.Cols {
			key := styleKey{total: r.Kind == Total, quiet: r.Kind == Sub, right: t.Cols[j].Right, wrap: true, inset: !t.Cols[j].Right && j > 0, digits: -1}
			if err := x.cell(j, r.cell(j), key, at); err != nil {
				return err
			}
		}
		x.row++
	}
	x.row++
	return nil
}

func (x *xlsxWriter) cell(col int, c Cell, key styleKey, at func(row, col int) string) error {
	name, err := excelize.CoordinatesToCellName(col+1, x.row)
	if err != nil {
		return err
	}
	if c.Formula != nil || c.Number != nil {
		key.unit, key.input = unitOf(c), c.Input
	}
	if err := x.label(c.Label, name); err != nil {
		return err
	}
	switch {
	case c.Formula != nil:
		key.digits = c.Digits
		if err := x.file.SetCellFormula(x.sheet, name, c.Formula(at)); err != nil {
			return err
		}
		x.formula = append(x.formula, formulaAt{x.sheet, name, c.Number})
	case c.Number != nil:
		key.digits = c.Digits
		if err := x.file.SetCellFloat(x.sheet, name, *c.Number, -1, 64); err != nil {
			return err
		}
	case c.Text != "":
		if err := x.file.SetCellStr(x.sheet, name, safe.Cell(c.Text)); err != nil {
			return err
		}
	}
	signs := float64(utf8.RuneCountInString(c.Text))
	x.widths[col] = max(x.widths[col], signs)
	if signs > narrowest {
		if x.lines[x.row] == nil {
			x.lines[x.row] = map[int]float64{}
		}
		x.lines[x.row][col] = signs
	}
	style, err := x.style(key)
	if err != nil {
		return err
	}
	return x.file.SetCellStyle(x.sheet, name, name, style)
}

// style makes each look once.
func (x *xlsxWriter) style(k styleKey) (int, error) {
	if id, ok := x.styles[k]; ok {
		return id, nil
	}
	colour := func(c ink.Colour) string { return strings.TrimPrefix(c.Hex(), "#") }
	st := &excelize.Style{
		Font:      &excelize.Font{Family: "Liberation Sans", Size: 10, Color: colour(ink.Text), Bold: k.strong || k.head || k.total},
		Alignment: &excelize.Alignment{Vertical: "top", WrapText: k.wrap},
	}
	fill := func(c ink.Colour) {
		st.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour(c)}}
	}
	switch {
	case k.head:
		st.Font.Color = colour(ink.Paper)
		fill(ink.Accent)
	case k.alarm:
		st.Font.Color = colour(ink.Alarm)
		fill(ink.AlarmPanel)
	case k.total:
		fill(ink.Panel)
		st.Border = []excelize.Border{{Type: "top", Style: 1, Color: colour(ink.Rule)}}
	case k.quiet:
		st.Font.Color = colour(ink.Quiet)
	}
	if k.input {
		fill(ink.Paper)
		for _, side := range []string{"left", "right", "top", "bottom"} {
			st.Border = append(st.Border, excelize.Border{Type: side, Style: 2, Color: colour(ink.Accent)})
		}
	}
	if k.right {
		st.Alignment.Horizontal = "right"
	}
	if k.inset { // words behind a number do not touch it
		st.Alignment.Horizontal, st.Alignment.Indent = "left", 1
	}
	if k.digits >= 0 {
		format := k.unit.format(k.digits)
		st.CustomNumFmt = &format
	}
	id, err := x.file.NewStyle(st)
	if err != nil {
		return 0, err
	}
	x.styles[k] = id
	return id, nil
}
