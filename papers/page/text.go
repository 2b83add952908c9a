package page

import (
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"mediabuy/papers/safe"
)

// Measures of plain text, in columns.
const (
	textIndent = 2  // before a table and an entry of a list
	textGap    = 2  // between the columns of a table
	textFolded = 12 // the least that a column is folded to
)

// Text writes the page as plain text of a width in columns, for a terminal or a
// letter: no sheets, so no foot, and no room to write in by hand. Tables keep to
// the width as far as their numbers allow.
func (p *Page) Text(w io.Writer, width int) error {
	b := &textWriter{width: width}
	b.para("", strings.ToUpper(safe.Line(p.Title)))
	b.para("", safe.Line(p.Subtitle))
	b.para("", safe.Line(p.Alarm))
	for _, s := range p.Printed() {
		part := &textWriter{width: width}
		for _, block := range s.Blocks {
			part.block(block)
		}
		if part.Len() == 0 {
			continue
		}
		b.WriteByte('\n')
		b.para("", strings.ToUpper(safe.Line(s.Heading)))
		b.WriteString(part.String())
	}
	_, err := io.WriteString(w, b.String())
	return err
}

type textWriter struct {
	strings.Builder
	width int
}

// para writes a paragraph folded to the width behind a mark, and nothing for no
// words.
func (b *textWriter) para(mark, words string) {
	if words == "" {
		return
	}
	lead := mark
	for l := range strings.SplitSeq(fold(words, b.width-len(mark)), "\n") {
		b.WriteString(lead + l + "\n")
		lead = strings.Repeat(" ", len(mark))
	}
}

// fold breaks words into lines without spaces at their ends.
func fold(words string, width int) string {
	lines := strings.Split(text.WrapSoft(words, width), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

func (b *textWriter) list(items []string) {
	for _, it := range items {
		b.para("  - ", safe.Line(it))
	}
}

func (b *textWriter) block(block Block) {
	switch x := block.(type) {
	case *Para:
		b.para("", safe.Line(x.Text))
	case *List:
		b.list(x.Items)
	case *Table:
		b.table(x)
	case *Picture:
		b.para("", safe.Line(x.Caption))
		b.list(x.Lines)
	case *Chart:
		b.para("", safe.Line(x.Caption))
	}
}

func (b *textWriter) table(t *Table) {
	b.para("", safe.Line(t.Caption))
	w := table.NewWriter()
	st := table.StyleDefault
	st.Box.PaddingLeft, st.Box.PaddingRight = "", strings.Repeat(" ", textGap)
	st.Options = table.Options{SeparateHeader: true, SeparateFooter: true}
	st.Format.Header, st.Format.Footer = text.FormatDefault, text.FormatDefault
	w.SetStyle(st)
	cols := t.shown()
	widths := t.textWidths(cols, b.width-textIndent)
	var configs []table.ColumnConfig
	heads := table.Row{}
	for i, j := range cols {
		c := table.ColumnConfig{Number: i + 1, WidthMax: widths[i], WidthMaxEnforcer: fold}
		if t.Cols[j].Right {
			c.Align, c.AlignHeader, c.AlignFooter = text.AlignRight, text.AlignRight, text.AlignRight
		}
		configs = append(configs, c)
		heads = append(heads, safe.Line(t.Cols[j].Name))
	}
	w.SetColumnConfigs(configs)
	w.AppendHeader(heads)
	for i, r := range t.Rows {
		cells := table.Row{}
		for _, j := range cols {
			cells = append(cells, safe.Line(r.cell(j).Text))
		}
		if r.Kind == Total && i == len(t.Rows)-1 {
			w.AppendFooter(cells)
		} else {
			w.AppendRow(cells)
		}
	}
	for l := range strings.SplitSeq(w.Render(), "\n") {
		b.WriteString(strings.TrimRight(strings.Repeat(" ", textIndent)+l, " ") + "\n")
	}
}

// textWidths is how wide each column shown is: what its longest cell takes, less
// where the table would be too wide. Then headings of numbers are folded, and after
// them the widest column of words, as little as will do; numbers never are.
func (t *Table) textWidths(cols []int, room int) []int {
	out, least := make([]int, len(cols)), make([]int, len(cols))
	sum := 0
	for i, j := range cols {
		head := safe.Line(t.Cols[j].Name)
		cells := 0
		for _, r := range t.Rows {
			cells = max(cells, text.StringWidth(safe.Line(r.cell(j).Text)))
		}
		out[i], least[i] = max(cells, text.StringWidth(head)), textFolded
		if t.Cols[j].Right {
			least[i] = cells
			for word := range strings.FieldsSeq(head) {
				least[i] = max(least[i], text.StringWidth(word))
			}
		}
		sum += out[i] + textGap
	}
	for _, numbers := range []bool{true, false} {
		for sum > room {
			widest := -1
			for i, j := range cols {
				if t.Cols[j].Right == numbers && out[i] > least[i] && (widest < 0 || out[i] > out[widest]) {
					widest = i
				}
			}
			if widest < 0 {
				break
			}
			out[widest]--
			sum--
		}
	}
	return out
}
