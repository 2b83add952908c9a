// Package show sets out answers as text for people: what to buy, how beds are
// filled, what is wrong with a file.
//
// Every function returns the whole text, so that it is printed at once or not at
// all, and its tests compare whole screens. Headings are capitals, amounts stand
// in columns, lines end without spaces. Colour only repeats what the words say.
package show

import (
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"mediabuy/papers/caution"
	"mediabuy/units"
)

// Style is how text looks. The zero Style is plain, metric and of no fixed width.
type Style struct {
	Colour bool
	Width  int // in columns; 0: as wide as needed
	Units  units.System
}

// Strong makes s stand out.
func (s Style) Strong(words string) string { return s.paint("1", words) }

// Alarm marks s as something to mend.
func (s Style) Alarm(words string) string { return s.paint("1;31", words) }

// Care marks s as something to read.
func (s Style) Care(words string) string { return s.paint("33", words) }

func (s Style) paint(code, words string) string {
	if !s.Colour || words == "" {
		return words
	}
	return "\x1b[" + code + "m" + words + "\x1b[0m"
}

func (s Style) volume(v units.Litres) string  { return units.FormatVolume(v, s.Units) }
func (s Style) mass(m units.Kilograms) string { return caution.Mass(m, s.Units) }

// fill is a volume within a bed.
func (s Style) fill(v units.Litres) string { return units.FormatPlaced(v, s.Units) }

// page collects a text.
type page struct {
	Style
	b     strings.Builder
	drawn []*drawing
}

// heading opens a section.
func (p *page) heading(words string) {
	if p.b.Len() > 0 {
		p.b.WriteByte('\n')
	}
	p.b.WriteString(p.Strong(strings.ToUpper(words)) + "\n")
}

func (p *page) line(format string, args ...any) { p.para("", "", fmt.Sprintf(format, args...)) }

// para writes words folded to the width, the first line after lead and the
// others after hang.
func (p *page) para(lead, hang, words string) {
	if p.Width > 0 {
		room := max(20, p.Width-text.StringWidth(hang))
		words = text.WrapSoft(words, room)
	}
	for i, l := range strings.Split(words, "\n") {
		if i == 0 {
			l = lead + l
		} else {
			l = hang + l
		}
		p.b.WriteString(strings.TrimRight(l, " ") + "\n")
	}
}

// item is one entry of a list.
func (p *page) item(format string, args ...any) {
	p.para("  - ", "    ", fmt.Sprintf(format, args...))
}

// col is one column of a table.
type col struct {
	name  string
	right bool // numbers
	wrap  int  // widest, in columns; 0: as wide as needed
}

// grid writes a table with a rule under its headings and under nothing else.
func (p *page) grid(cols []col, rows [][]string, foot ...[]string) {
	t := table.NewWriter()
	st := table.StyleDefault
	st.Box.PaddingLeft, st.Box.PaddingRight = "", "  "
	st.Options = table.Options{SeparateHeader: true, SeparateFooter: true}
	st.Format.Header, st.Format.Footer = text.FormatDefault, text.FormatDefault
	t.SetStyle(st)
	var heads table.Row
	var configs []table.ColumnConfig
	for i, c := range cols {
		heads = append(heads, c.name)
		cc := table.ColumnConfig{Number: i + 1, WidthMax: c.wrap, WidthMaxEnforcer: text.WrapSoft}
		if c.right {
			cc.Align, cc.AlignHeader, cc.AlignFooter = text.AlignRight, text.AlignRight, text.AlignRight
		}
		configs = append(configs, cc)
	}
	t.AppendHeader(heads)
	t.SetColumnConfigs(configs)
	for _, r := range rows {
		t.AppendRow(asRow(r))
	}
	for _, r := range foot {
		t.AppendFooter(asRow(r))
	}
	for l := range strings.SplitSeq(t.Render(), "\n") {
		p.b.WriteString("  " + strings.TrimRight(l, " ") + "\n")
	}
}

func asRow(cells []string) table.Row {
	out := make(table.Row, len(cells))
	for i, c := range cells {
		out[i] = c
	}
	return out
}

func (p *page) String() string { return p.b.String() }

// several lists names in words, the rest as a number once there are more than
// most.
func several(names []string, most int) string {
	if len(names) > most+1 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}
