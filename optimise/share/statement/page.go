// Package statement sets out a shared bill for those who pay it: one statement
// for each member and a page for the treasurer, as plain text and as CSV.
//
// Every amount comes from the [share.Result] as it stands, so papers made from
// the same result agree to the cent.
package statement

import (
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"mediabuy/optimise/share"
	"mediabuy/units"
)

// width is how wide text may be, in columns: a page of a printed letter.
const width = 96

// page collects a text.
type page struct {
	strings.Builder
	res    *share.Result
	system units.System
}

func (p *page) heading(words string) { p.WriteString("\n" + strings.ToUpper(words) + "\n") }

// line writes a paragraph folded to the width.
func (p *page) line(format string, args ...any) {
	for l := range strings.SplitSeq(text.WrapSoft(fmt.Sprintf(format, args...), width), "\n") {
		p.WriteString(strings.TrimRight(l, " ") + "\n")
	}
}

// item writes one entry of a list.
func (p *page) item(format string, args ...any) {
	for i, l := range strings.Split(text.WrapSoft(fmt.Sprintf(format, args...), width-4), "\n") {
		lead := "    "
		if i == 0 {
			lead = "  - "
		}
		p.WriteString(strings.TrimRight(lead+l, " ") + "\n")
	}
}

// grid writes a table; the first left columns hold words, the others numbers.
// The last row is a footer when foot is true.
func (p *page) grid(left int, foot bool, heads []string, rows [][]string) {
	t := table.NewWriter()
	st := table.StyleDefault
	st.Box.PaddingLeft, st.Box.PaddingRight = "", "  "
	st.Options = table.Options{SeparateHeader: true, SeparateFooter: true}
	st.Format.Header, st.Format.Footer = text.FormatDefault, text.FormatDefault
	t.SetStyle(st)
	var configs []table.ColumnConfig
	for i := range heads {
		c := table.ColumnConfig{Number: i + 1}
		if i >= left {
			c.Align, c.AlignHeader, c.AlignFooter = text.AlignRight, text.AlignRight, text.AlignRight
		}
		configs = append(configs, c)
	}
	t.SetColumnConfigs(configs)
	t.AppendHeader(row(heads))
	for i, r := range rows {
		if foot && i == len(rows)-1 {
			t.AppendFooter(row(r))
			continue
		}
		t.AppendRow(row(r))
	}
	for l := range strings.SplitSeq(t.Render(), "\n") {
		p.WriteString("  " + strings.TrimRight(l, " ") + "\n")
	}
}

func row(cells []string) table.Row {
	out := make(table.Row, len(cells))
	for i, c := range cells {
		out[i] = c
	}
	return out
}

// money is an amount with its currency.
func (p *page) money(m units.Money) string {
	return units.FormatMoney(m, p.res.Plan.Job.Settings.Currency)
}

// maybe says none in place of an amount that is not there.
func (p *page) maybe(m *units.Money) string {
	if m == nil {
		return "none"
	}
	return p.money(*m)
}

// volume is always in the same unit, so that a column can be read down.
func (p *page) volume(v units.Litres) string {
	if p.system == units.US {
		return fmt.Sprintf("%.1f ft³", float64(v/units.CubicFoot))
	}
	return fmt.Sprintf("%.0f L", float64(v))
}

// moreOrLess is "12.00 more" or "12.00 less".
func (p *page) moreOrLess(m units.Money) string {
	if m.Sign() < 0 {
		return p.money(m.Neg()) + " less"
	}
	return p.money(m) + " more"
}
