package show

import (
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"mediabuy/optimise"
	"mediabuy/papers"
	"mediabuy/papers/received"
	"mediabuy/quotes"
	"mediabuy/units"
)

// ReceiveView is what the answer of receive is made of.
type ReceiveView struct {
	Job      *quotes.Job
	Style    papers.Style
	Settled  *received.Settlement
	Notes    []papers.Note
	Orders   []*papers.Order // of what is bought to finish
	Ordered  bool            // these are written
	Files    []string
	Warnings []*quotes.Problem
	Planned  bool   // the plan stood for the order
	Lying    string // the folder whose orders stood, where none was named
}

func (v *ReceiveView) money(m units.Money) string {
	return units.FormatMoney(m, v.Job.Settings.Currency)
}

func (v *ReceiveView) Text() string {
	var b strings.Builder
	s := v.Settled
	if v.Planned {
		b.WriteString("No order was named and none lies there, so today's plan stands for it; what no row tells of did not come.\n\n")
	}
	if v.Lying != "" {
		fmt.Fprintf(&b, "No order was named, so those that lie in %s stand.\n\n", v.Lying)
	}
	b.WriteString("WHAT ARRIVED\n")
	sites := len(quotes.Sites(v.Job)) > 1
	var rows []table.Row
	for _, c := range s.Counted {
		name := c.Quote.Name
		if sites {
			name += " at " + c.Site
		}
		rows = append(rows, table.Row{c.Quote.Supplier, name, c.Quote.Pack.Raw, c.Ordered, c.Arrived, dash(c.Rejected), dash(c.Short()), dash(c.Over())})
	}
	b.WriteString(plainTable(table.Row{"Supplier", "Quote", "Pack", "Ordered", "Arrived", "Rejected", "Short", "Over"}, rows, 4))
	v.billed(&b)
	v.underWay(&b)
	b.WriteString("\nTO FINISH THE BEDS\n")
	v.finish(&b)
	for _, n := range v.Notes {
		b.WriteString("\nNOTE\n")
		for line := range strings.Lines(n.Text) {
			if strings.TrimSpace(line) != "" {
				b.WriteString("  ")
			}
			b.WriteString(line)
		}
	}
	for _, name := range v.Files {
		fmt.Fprintf(&b, "Written: %s\n", name)
	}
	if len(v.Warnings) > 0 {
		b.WriteString("\nWARNINGS\n")
		for _, w := range v.Warnings {
			fmt.Fprintf(&b, "  - %s: %s\n", w.Pos, optimise.WarningText(w))
		}
	}
	return b.String()
}

// billed sets what was billed against the orders, where a bill was looked at.
func (v *ReceiveView) billed(b *strings.Builder) {
	var rows []table.Row
	for _, c := range v.Settled.Counted {
		for _, bill := range c.Bills {
			rows = append(rows, table.Row{c.Quote.Supplier, c.Quote.Name + papers.AtSite("at", c.Site), bill.Packs, units.FormatPrice(bill.Agreed, v.Job.Settings.Currency), units.FormatPrice(bill.Price, v.Job.Settings.Currency), v.money(bill.More)})
		}
	}
	if len(rows) == 0 {
		return
	}
	b.WriteString("\nWHAT WAS BILLED\n")
	b.WriteString(plainTable(table.Row{"Supplier", "Quote", "Packs kept", "Agreed each", "Billed each", "More"}, rows, 3))
	said := page{Style: Style{Width: receiveWidth}}
	said.para("  ", "  ", received.BilledWords(v.Job, v.Settled.Counted, v.money))
	b.WriteString(said.String())
}

// underWay lists what is still to come, with its day.
func (v *ReceiveView) underWay(b *strings.Builder) {
	var rows []table.Row
	for _, c := range v.Settled.Counted {
		for _, p := range c.Coming {
			rows = append(rows, table.Row{c.Quote.Supplier, c.Quote.Name, fmt.Sprintf("%s × %s", p.Packs, c.Quote.Pack.Raw), c.Site, p.Order, p.Until()})
		}
	}
	if len(rows) == 0 {
		return
	}
	b.WriteString("\nUNDER WAY\n")
	b.WriteString(plainTable(table.Row{"Supplier", "Quote", "Packs", "Site", "Order", "Comes by"}, rows, 7))
	said := page{Style: Style{Width: receiveWidth}}
	said.para("  ", "  ", received.ComingWords)
	b.WriteString(said.String())
}

// receiveWidth is how wide the sentences of receive are set.
const receiveWidth = 92

func (v *ReceiveView) finish(b *strings.Builder) {
	s := v.Settled
	said := page{Style: Style{Width: receiveWidth}}
	for _, words := range s.Words(v.money) {
		said.para("  ", "  ", words)
	}
	b.WriteString(said.String())
	if s.Plan.Bill == nil {
		for _, o := range s.Plan.Why {
			fmt.Fprintf(b, "  - %s\n", o.Remedy)
		}
		return
	}
	if len(s.Buy) == 0 {
		return
	}
	var rows []table.Row
	for _, l := range s.Buy {
		to := ""
		if l.Site != "" {
			to = l.Site
		}
		rows = append(rows, table.Row{l.Quote.Supplier, l.Quote.Name, fmt.Sprintf("%s × %s", l.Packs, l.Quote.Pack.Raw), to, v.money(l.Goods)})
	}
	for _, d := range s.Drops {
		rows = append(rows, table.Row{d.Supplier, d.Way("delivery"), "", d.Site, v.money(d.Fee)})
	}
	if !s.Tax.IsZero() {
		rows = append(rows, table.Row{"", "tax", "", "", v.money(s.Tax)})
	}
	b.WriteString(plainTable(table.Row{"Supplier", "What", "Packs", "Site", "Money"}, rows, 5))
	if !v.Ordered {
		b.WriteString("  With -o DIR it is written as orders, which count once they lie in JOB/orders or are named.\n")
		return
	}
	for _, o := range v.Orders {
		fmt.Fprintf(b, "  Order %s to %s%s: %s.\n", o.Number, o.Supplier, papers.AtSite("for", o.Site), v.money(o.Total))
	}
}

func dash(d units.Decimal) string {
	if d.IsZero() {
		return "-"
	}
	return d.String()
}

// plainTable sets rows under headings; columns from right on hold numbers.
func plainTable(heads table.Row, rows []table.Row, right int) string {
	t := table.NewWriter()
	st := table.StyleDefault
	st.Box.PaddingLeft, st.Box.PaddingRight = "", "  "
	st.Options = table.Options{SeparateHeader: true}
	st.Format.Header = text.FormatDefault
	t.SetStyle(st)
	t.AppendHeader(heads)
	var configs []table.ColumnConfig
	for i := range heads {
		if i+1 >= right {
			configs = append(configs, table.ColumnConfig{Number: i + 1, Align: text.AlignRight, AlignHeader: text.AlignRight})
		}
	}
	t.SetColumnConfigs(configs)
	t.AppendRows(rows)
	var b strings.Builder
	for l := range strings.SplitSeq(t.Render(), "\n") {
		b.WriteString("  " + strings.TrimRight(l, " ") + "\n")
	}
	return b.String()
}

// Gate says where the sheets for the gate are.
func Gate(paths []string) string {
	return fmt.Sprintf("Sheets to tick at the gate are written:\n  %s\nType the count into the CSVs and name them with --arrived.\n", strings.Join(paths, "\n  "))
}
